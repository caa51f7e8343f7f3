package kit_test

import (
	"testing"

	"fyne.io/fyne/v2"

	"keeperbook/app/internal/kit"
)

// What a gauge types goes to the field that takes readings, wherever on the page the keyboard is, and its
// Enter presses nothing.
func TestTypedBesideTheField(t *testing.T) {
	var kept []string
	pressed, picked := 0, 0
	field := kit.NewField("reading", "", nil)
	field.Next = func() {}
	button := kit.NewButton("use it", "", func() { pressed++ }).Typing(field)
	choice := kit.NewChoice("who", []string{"Ann", "Bo"}, 0, func(int) error { picked++; return nil })
	choice.Typed = field.Begin
	rows := kit.NewRows(nil, func(kit.RowAt) { pressed++ })
	rows.Set([]kit.Row{{Cells: []kit.RowCell{{Text: "1.842"}}}})
	rows.Typed = func(_ kit.RowAt, r rune) { field.Begin(r) }
	s := newStage(t, kit.NewForm(field, button, choice, rows))
	for name, has := range map[string]fyne.Focusable{"button": button, "choice": choice, "rows": rows} {
		s.win.Canvas().Focus(has)
		for _, r := range " 1.842" {
			s.rune(r)
		}
		if got := field.Text(); got != "1.842" && got != " 1.842" || !field.Focused() {
			t.Errorf("%s: the field holds %q", name, got)
		}
		s.press(fyne.KeyReturn)
		kept = append(kept, field.Value())
		field.Set("")
		field.Restore()
	}
	if pressed != 0 || picked != 0 || len(kept) != 3 {
		t.Errorf("pressed %d, picked %d, kept %q", pressed, picked, kept)
	}
	s.win.Canvas().Focus(button)
	s.press(fyne.KeySpace)
	if pressed != 0 {
		t.Error("Space, which a gauge may send, pressed the button")
	}
	s.press(fyne.KeyEscape)
	if !field.Focused() {
		t.Error("Esc on the button does not lead to the field")
	}
	s.win.Canvas().Focus(button)
	s.press(fyne.KeyReturn)
	if pressed != 1 {
		t.Error("Enter does not press the button")
	}
	// A person still picks by the first letter.
	s.win.Canvas().Focus(choice)
	s.rune('b')
	s.press(fyne.KeyReturn)
	if picked != 1 || choice.Value() != 1 {
		t.Errorf("picked %d", choice.Value())
	}
}

func TestFieldGivesKeysAway(t *testing.T) {
	var keys []fyne.KeyName
	field := kit.NewField("reading", "", nil)
	field.Key = func(k fyne.KeyName) bool {
		keys = append(keys, k)
		return k == fyne.KeyF2
	}
	s := newStage(t, kit.NewForm(field))
	field.BeginText("1.84")
	s.press(fyne.KeyF2, fyne.KeyEscape)
	if len(keys) != 2 || field.Text() != "" {
		t.Errorf("%v, and %q in the field", keys, field.Text())
	}
}
