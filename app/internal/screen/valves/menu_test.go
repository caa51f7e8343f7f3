package valves

import (
	"testing"

	"fyne.io/fyne/v2"
)

// The other button of the pointer puts the cursor into the cell and shows what can be done with it; each item does something to
// that cell, and the keyboard is the table's again.
func TestMenuOverACell(t *testing.T) {
	v, f := shown(t, "setup-ferry-built", false, 1)
	before := v.p.Selected()
	v.grid.TappedSecondary(&fyne.PointEvent{Position: fyne.NewPos(330, 200), AbsolutePosition: fyne.NewPos(330, 250)})
	if v.p.Selected() == before {
		t.Error("the cursor stayed where it was")
	}
	menu := f.win.Canvas().Overlays().Top()
	if menu == nil {
		t.Fatal("there is no menu")
	}
	f.win.Canvas().Overlays().Remove(menu)
	was := v.p.Selected()
	for i, item := range v.menu() {
		item.Do()
		if q := v.p.Asked(); q != nil { // why a reading is struck
			v.p.Answer(len(q.Choices) - 1)
		}
		if v.p.Selected() != was {
			t.Errorf("item %d moved the cursor to %s", i, v.p.Selected())
		}
	}
	if f.win.Canvas().Focused() != fyne.Focusable(v.grid) {
		t.Error("the keyboard is not the table's")
	}
}
