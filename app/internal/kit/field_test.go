package kit_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"keeperbook/app/internal/kit"
)

// desk is a form of two fields, a choice and a note, and what they committed.
type desk struct {
	*stage
	lift, speed, note *kit.Field
	pick              *kit.Select
	kept              []string
	refuse            error
}

func newDesk(t *testing.T) *desk {
	d := &desk{}
	commit := func(what string) func(string) error {
		return func(text string) error {
			if d.refuse != nil {
				return d.refuse
			}
			d.kept = append(d.kept, what+"="+text)
			return nil
		}
	}
	d.lift = kit.NewField("Lift", ".612", commit("lift"))
	d.lift.Unit = "in"
	d.lift.Understand = func(text string) string { return "reads as " + text + " in" }
	d.speed = kit.NewField("Speed held", "7200", commit("speed"))
	d.pick = kit.NewChoice("Seal", []string{"one piece", "two pieces", "positive", "none"}, 1, func(i int) error {
		return commit("seal")(string(rune('0' + i)))
	})
	d.note = kit.NewNote("Remarks", "", commit("note"))
	d.stage = newStage(t, kit.NewForm(kit.NewTitle("Needs"), kit.Group("Lift", kit.Columns(d.lift, d.speed), d.pick), d.note))
	return d
}

func (d *desk) wantKept(want ...string) {
	d.t.Helper()
	if !slices.Equal(d.kept, want) {
		d.t.Errorf("kept %q, want %q", d.kept, want)
	}
}

func TestFieldKeys(t *testing.T) {
	t.Run("typing replaces, Enter commits and moves on", func(t *testing.T) {
		d := newDesk(t)
		d.lift.Focus()
		d.person(".620", fyne.KeyReturn)
		d.wantKept("lift=.620")
		if !d.speed.Focused() || d.lift.Value() != ".620" || d.lift.Pending() {
			t.Errorf("next has the keyboard: %v, value %q", d.speed.Focused(), d.lift.Value())
		}
	})
	t.Run("an arrow goes on in the old text", func(t *testing.T) {
		d := newDesk(t)
		d.lift.Focus()
		d.person("", fyne.KeyEnd)
		d.person("5", fyne.KeyEnter)
		d.wantKept("lift=.6125")
	})
	t.Run("Enter on what holds already only moves on", func(t *testing.T) {
		d := newDesk(t)
		d.lift.Focus()
		d.press(fyne.KeyReturn)
		d.wantKept()
		if !d.speed.Focused() {
			t.Error("the keyboard did not move on")
		}
	})
	t.Run("Esc gives the old value back", func(t *testing.T) {
		d := newDesk(t)
		d.lift.Focus()
		d.person(".7", fyne.KeyEscape)
		d.wantKept()
		if d.lift.Text() != ".612" || !d.lift.Focused() {
			t.Errorf("got %q", d.lift.Text())
		}
	})
	t.Run("leaving commits", func(t *testing.T) {
		d := newDesk(t)
		d.lift.Focus()
		d.person(".7")
		d.win.Canvas().FocusNext()
		d.wantKept("lift=.7")
	})
	t.Run("a way of its own", func(t *testing.T) {
		d := newDesk(t)
		d.lift.Next = d.note.Focus
		d.lift.Focus()
		d.person(".7", fyne.KeyReturn)
		if !d.note.Focused() {
			t.Error("Enter did not go where it should")
		}
	})
	t.Run("arrows up and down move between fields", func(t *testing.T) {
		d := newDesk(t)
		d.lift.Focus()
		d.press(fyne.KeyDown)
		if !d.speed.Focused() {
			t.Error("not down")
		}
		d.press(fyne.KeyUp)
		if !d.lift.Focused() {
			t.Error("not up again")
		}
	})
	t.Run("a gauge fills a field by itself", func(t *testing.T) {
		d := newDesk(t)
		d.lift.Focus()
		d.gauge("0.618", 0)
		d.wantKept("lift=0.618")
		if !d.speed.Focused() || len(d.stray) != 0 {
			t.Errorf("handed on %q", d.stray)
		}
	})
}

func TestARefusedTextStays(t *testing.T) {
	d := newDesk(t)
	d.refuse = errors.New("The lift reads 6.12 in, and 0.200 to 1.000 in are allowed; type the reading again.")
	d.lift.Focus()
	d.person("6.12", fyne.KeyReturn)
	wantSays(t, d.stage, "6.12", "The lift reads 6.12 in")
	if !d.lift.Focused() || d.lift.Text() != "6.12" || d.lift.Value() != ".612" || !d.lift.Pending() {
		t.Errorf("text %q, value %q", d.lift.Text(), d.lift.Value())
	}
	t.Run("also when the keyboard goes elsewhere and the value is shown again", func(t *testing.T) {
		d.win.Canvas().FocusNext()
		d.lift.Set(".612")
		wantSays(t, d.stage, "The lift reads 6.12 in")
		if d.lift.Text() != "6.12" {
			t.Errorf("text %q", d.lift.Text())
		}
	})
	t.Run("until it is corrected", func(t *testing.T) {
		d.refuse = nil
		d.lift.Focus()
		d.person(".612", fyne.KeyReturn)
		if strings.Contains(d.says(), "The lift reads") {
			t.Errorf("still refused: %s", d.says())
		}
		d.wantKept() // it is the value that held all the time
	})
	t.Run("or given up", func(t *testing.T) {
		d.refuse = errors.New("No.")
		d.lift.Focus()
		d.person("9", fyne.KeyReturn, fyne.KeyEscape)
		if d.lift.Text() != ".612" || strings.Contains(d.says(), "No.") {
			t.Errorf("text %q: %s", d.lift.Text(), d.says())
		}
	})
}

func TestUnderstoodWhileTyping(t *testing.T) {
	d := newDesk(t)
	d.lift.Focus()
	high := d.lift.MinSize().Height
	d.person("30")
	wantSays(t, d.stage, "reads as 30 in")
	if got := d.lift.MinSize().Height; got != high {
		t.Errorf("the field jumped from %g to %g", high, got)
	}
}

func TestSetShowsAnotherValue(t *testing.T) {
	d := newDesk(t)
	d.speed.Set("7000")
	if d.speed.Text() != "7000" || d.speed.Value() != "7000" {
		t.Errorf("text %q, value %q", d.speed.Text(), d.speed.Value())
	}
	d.wantKept()
	t.Run("but never takes a typed text away", func(t *testing.T) {
		d.speed.Focus()
		d.person("68")
		d.speed.Set("6900")
		if d.speed.Text() != "68" {
			t.Errorf("text %q", d.speed.Text())
		}
		d.person("", fyne.KeyEscape)
		if d.speed.Text() != "6900" {
			t.Errorf("Esc gave %q back", d.speed.Text())
		}
	})
}

func TestNote(t *testing.T) {
	d := newDesk(t)
	d.note.Focus()
	d.person("one", fyne.KeyReturn)
	d.person("two")
	d.wantKept()
	f := d.win.Canvas().Focused().(fyne.Shortcutable)
	f.TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyReturn, Modifier: fyne.KeyModifierShortcutDefault})
	d.wantKept("note=one\ntwo")
	if tab, ok := any(f).(fyne.Tabbable); ok && tab.AcceptsTab() {
		t.Error("Tab stays in the note")
	}
}

func TestChoiceKeys(t *testing.T) {
	for _, tt := range []struct {
		name string
		keys func(*desk)
		kept []string
	}{
		{"an arrow and Enter", func(d *desk) { d.press(fyne.KeyRight, fyne.KeyReturn) }, []string{"seal=2"}},
		{"not beyond the end", func(d *desk) { d.press(fyne.KeyRight, fyne.KeyRight, fyne.KeyRight, fyne.KeyEnter) }, []string{"seal=3"}},
		{"not beyond the beginning", func(d *desk) { d.press(fyne.KeyLeft, fyne.KeyLeft, fyne.KeyReturn) }, []string{"seal=0"}},
		{"Home and End", func(d *desk) { d.press(fyne.KeyHome, fyne.KeyEnd, fyne.KeyReturn) }, []string{"seal=3"}},
		{"a letter", func(d *desk) { d.person("n", fyne.KeyReturn) }, []string{"seal=3"}},
		{"a letter that nothing begins with", func(d *desk) { d.person("z", fyne.KeyReturn) }, nil},
		{"Esc", func(d *desk) { d.press(fyne.KeyRight, fyne.KeyEscape, fyne.KeyReturn) }, nil},
		{"leaving", func(d *desk) { d.press(fyne.KeyRight, fyne.KeyDown) }, []string{"seal=2"}},
		{"there and back", func(d *desk) { d.press(fyne.KeyRight, fyne.KeyLeft, fyne.KeyReturn) }, nil},
	} {
		t.Run(tt.name, func(t *testing.T) {
			d := newDesk(t)
			d.pick.Focus()
			tt.keys(d)
			d.wantKept(tt.kept...)
			if !d.note.Focused() {
				t.Error("the keyboard did not move on")
			}
		})
	}
	t.Run("a tap commits at once", func(t *testing.T) {
		d := newDesk(t)
		size := d.pick.Size()
		d.pick.Tapped(&fyne.PointEvent{Position: fyne.NewPos(8, size.Height-8)})
		d.wantKept("seal=0")
	})
	t.Run("a refusal is said and the choice stays marked", func(t *testing.T) {
		d := newDesk(t)
		d.refuse = errors.New("No seal of this kind is among the parts.")
		d.pick.Focus()
		d.press(fyne.KeyRight, fyne.KeyReturn)
		wantSays(t, d.stage, "No seal of this kind")
		if d.pick.Value() != 1 || d.note.Focused() {
			t.Errorf("value %d", d.pick.Value())
		}
		d.press(fyne.KeyEscape)
		if strings.Contains(d.says(), "No seal") {
			t.Error("still refused")
		}
	})
	t.Run("set from outside", func(t *testing.T) {
		d := newDesk(t)
		d.pick.Set(3)
		if d.pick.Value() != 3 {
			t.Errorf("value %d", d.pick.Value())
		}
		d.wantKept()
		d.pick.SetOptions([]string{"a"}, -1)
		if d.pick.Value() != -1 {
			t.Errorf("value %d", d.pick.Value())
		}
	})
}

// What gets the keyboard is scrolled into sight, and nothing on the form overlaps or is cut at its side.
func TestFormShowsWhatHasTheKeyboard(t *testing.T) {
	for _, scale := range []float32{0.8, 1, 2} {
		var fields []*kit.Field
		var groups []fyne.CanvasObject
		for range 8 {
			f := kit.NewField("Label of a field", "1", nil)
			fields = append(fields, f)
			groups = append(groups, kit.Group("Group", f))
		}
		form := kit.NewForm(groups...)
		s := newStage(t, form)
		fyne.CurrentApp().Settings().SetTheme(kit.NewTheme(false, scale))
		s.win.Resize(fyne.NewSize(640, 421))
		s.win.Resize(fyne.NewSize(640, 420))
		for _, i := range []int{7, 0, 4} {
			fields[i].Focus()
			at := fyne.CurrentApp().Driver().AbsolutePositionForObject(fields[i])
			if at.Y < 0 || at.Y+fields[i].Size().Height > 420 {
				t.Errorf("scale %g: field %d stands at %v, high %g", scale, i, at, fields[i].Size().Height)
			}
		}
		below := float32(-1)
		for i, f := range fields {
			at := fyne.CurrentApp().Driver().AbsolutePositionForObject(f)
			if i > 0 && at.Y < below {
				t.Errorf("scale %g: field %d begins at %g, the one before ends at %g", scale, i, at.Y, below)
			}
			if at.X < 0 || at.X+f.Size().Width > 640 {
				t.Errorf("scale %g: field %d is cut at the side", scale, i)
			}
			below = at.Y + f.Size().Height
		}
	}
}

func TestColumnsGetFewerWhenNarrow(t *testing.T) {
	a, b, c := kit.NewField("a", "", nil), kit.NewField("b", "", nil), kit.NewField("c", "", nil)
	s := newStage(t, kit.NewForm(kit.Columns(a, b, c)))
	row := func() (same int) {
		for _, f := range []*kit.Field{a, b, c} {
			if f.Position().Y == a.Position().Y {
				same++
			}
		}
		return same
	}
	for _, tt := range []struct {
		width float32
		want  int
	}{{1000, 3}, {500, 2}, {300, 1}} {
		s.win.Resize(fyne.NewSize(tt.width, 600))
		if got := row(); got != tt.want {
			t.Errorf("%g wide: %d beside each other, want %d", tt.width, got, tt.want)
		}
	}
}

// Side by side, fields and choices begin at one height, however many lines their labels take.
func TestLabelsEndTogether(t *testing.T) {
	long := "the mark or the side that the cylinders of this head are counted from"
	for name, arrange := range map[string]func(...fyne.CanvasObject) *fyne.Container{
		"columns": kit.Columns,
		"beside": func(o ...fyne.CanvasObject) *fyne.Container {
			return kit.Beside([]float32{1, 1, 1}, o...)
		},
	} {
		t.Run(name, func(t *testing.T) {
			a, b := kit.NewField("front", "", nil), kit.NewField(long, "", nil)
			c := kit.NewChoice("unit", []string{"in", "mm"}, 0, func(int) error { return nil })
			below := kit.NewText("what comes below")
			s := newStage(t, kit.NewForm(kit.Column(arrange(a, b, c), below)))
			s.win.Resize(fyne.NewSize(760, 600))
			end := func(o fyne.CanvasObject) float32 { return o.Position().Y + o.Size().Height }
			if a.Position().Y <= b.Position().Y || a.Position().Y != c.Position().Y || end(a) != end(b) {
				t.Errorf("they stand at %g, %g, %g and end at %g, %g", a.Position().Y, b.Position().Y, c.Position().Y, end(a), end(b))
			}
			if row := a.Position().Y + a.Size().Height; below.Position().Y < row {
				t.Errorf("what comes below begins at %g, the row ends at %g", below.Position().Y, row)
			}
		})
	}
}

func TestSettle(t *testing.T) {
	var kept []string
	f := kit.NewField("lift", "", func(text string) error { kept = append(kept, text); return nil })
	s := newStage(t, kit.NewForm(f))
	kit.Settle(s.win) // nothing has the keyboard
	f.Focus()
	s.person(".612")
	kit.Settle(s.win)
	kit.Settle(s.win)
	if len(kept) != 1 || kept[0] != ".612" || !f.Focused() {
		t.Errorf("kept %q, the keyboard is in it: %v", kept, f.Focused())
	}
}
