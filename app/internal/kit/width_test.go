package kit_test

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"keeperbook/app/internal/kit"
)

// What was asked for lately is not worked out again, and what was not is forgotten sooner or later.
func TestMemo(t *testing.T) {
	m, worked := kit.NewMemo(10), 0
	ask := func(text string) float32 {
		return m.Of(text, func() float32 { worked++; return float32(len(text)) })
	}
	for range 3 {
		if got := ask("1.842"); got != 5 {
			t.Errorf("got %g", got)
		}
	}
	if worked != 1 {
		t.Errorf("worked out %d times", worked)
	}
	for i := range 1000 {
		ask(fmt.Sprint("text ", i))
		ask("1.842")
		if m.Len() > 20 {
			t.Fatalf("remembers %d of at most 20", m.Len())
		}
	}
	if worked != 1001 {
		t.Errorf("worked out %d times: what is asked for all the time was forgotten", worked)
	}
	ask("text 1")
	if worked != 1002 {
		t.Error("what was asked for long ago is remembered still")
	}
}

// textsOf returns the texts that an object is drawn with.
func textsOf(o fyne.CanvasObject) (all []*canvas.Text) {
	switch o := o.(type) {
	case *canvas.Text:
		return []*canvas.Text{o}
	case *fyne.Container:
		for _, inner := range o.Objects {
			all = append(all, textsOf(inner)...)
		}
	case *container.Scroll:
		return textsOf(o.Content)
	case fyne.Widget:
		for _, inner := range test.WidgetRenderer(o).Objects() {
			all = append(all, textsOf(inner)...)
		}
	}
	return all
}

// What is typed stands large in a theme of its own, and in letters that are named: without a name the
// toolkit reads the whole font anew for each field, and with each key where the field is refreshed with
// its theme, and keeps it.
func TestFieldsShareTheirLetters(t *testing.T) {
	f, n := kit.NewField("lift", ".612", nil), kit.NewNote("note", "new springs", nil)
	s := newStage(t, kit.NewForm(f, n))
	f.Focus()
	s.person(".613")
	for range 3 {
		f.Refresh()
		n.Refresh()
	}
	found := 0
	for _, o := range []fyne.CanvasObject{f, n} {
		for _, text := range textsOf(o) {
			if text.Text != ".613" && text.Text != "new springs" {
				continue
			}
			found++
			if text.FontSource != kit.Letters() {
				t.Errorf("%q is in %v", text.Text, text.FontSource)
			}
			if text.TextSize != 21 {
				t.Errorf("%q is %g high", text.Text, text.TextSize)
			}
		}
	}
	if found != 2 {
		t.Errorf("found %d texts", found)
	}
}

// A field grows with everything else where the theme changes.
func TestFieldsFollowTheTheme(t *testing.T) {
	f := kit.NewField("lift", ".612", nil)
	s := newStage(t, kit.NewForm(f))
	fyne.CurrentApp().Settings().SetTheme(kit.NewTheme(true, 2))
	s.win.Content().Refresh()
	for _, text := range textsOf(f) {
		if text.Text == ".612" && text.TextSize != 42 {
			t.Errorf("it is %g high", text.TextSize)
		}
	}
}

func BenchmarkFieldRefresh(b *testing.B) {
	app := test.NewTempApp(b)
	app.Settings().SetTheme(kit.NewTheme(false, 1))
	var fields []fyne.CanvasObject
	for i := range 40 {
		fields = append(fields, kit.NewField(fmt.Sprint("label ", i), fmt.Sprint("value ", i), nil))
	}
	form := kit.NewForm(fields...)
	w := test.NewTempWindow(b, form)
	w.Resize(fyne.NewSize(900, 700))
	for b.Loop() {
		form.Refresh()
		w.Canvas().Capture()
	}
}
