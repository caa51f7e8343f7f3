package kit

import (
	"image"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
)

// A stroke goes from touching to leaving, in the paper's own dots, never beyond its edge and with no dots on each other; keys
// take strokes away, and a picture of a drawing takes no pen.
func TestInkPad(t *testing.T) {
	test.NewTempApp(t)
	p := NewInkPad(6000, 1000)
	changed := 0
	p.Changed = func() { changed++ }
	w := test.NewTempWindow(t, p)
	w.SetPadded(false)
	w.Resize(fyne.NewSize(600, 100))
	if h := p.HeightFor(600); h != 100 {
		t.Fatalf("600 wide it is %g high", h)
	}
	draw := func(at ...fyne.Position) {
		p.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at[0]}, Button: desktop.MouseButtonPrimary})
		for _, to := range at[1:] {
			p.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: to}})
		}
		p.DragEnd()
		p.MouseUp(nil)
	}
	draw(fyne.NewPos(10, 50), fyne.NewPos(10.2, 50), fyne.NewPos(300, 90), fyne.NewPos(900, -20))
	draw(fyne.NewPos(590, 99))
	want := [][]image.Point{{{100, 500}, {3000, 900}, {6000, 0}}, {{5900, 990}}}
	same := func(want [][]image.Point) {
		t.Helper()
		got := p.Strokes()
		if len(got) != len(want) {
			t.Fatalf("%v, want %v", got, want)
		}
		for i := range want {
			for j := range want[i] {
				if len(got[i]) != len(want[i]) || got[i][j] != want[i][j] {
					t.Fatalf("%v, want %v", got, want)
				}
			}
		}
	}
	same(want)
	// A finger drags without a button.
	p.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(0, 0)}})
	p.DragEnd()
	same(append(want[:2:2], []image.Point{{0, 0}}))
	if w.Canvas().Focused() != p || changed != 5 {
		t.Errorf("the keyboard is elsewhere, or %d changes", changed)
	}
	p.TypedKey(&fyne.KeyEvent{Name: fyne.KeyBackspace})
	same(want)
	p.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDelete})
	same(nil)
	p.TypedKey(&fyne.KeyEvent{Name: fyne.KeyBackspace}) // of nothing
	p.Set(want)
	p.Still()
	draw(fyne.NewPos(10, 10), fyne.NewPos(80, 80))
	p.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDelete})
	same(want)
}
