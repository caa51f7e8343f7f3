package shop

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"keeperbook/pdf/figure"
)

// drawCurve draws the load curve of the spring that is open, where it has one, and reports whether it does. Shown is
// whether anything of what is open may be seen yet.
func (v *View) drawCurve(shown bool) bool {
	g, ok := v.presenter.Graph()
	if !ok || !shown {
		v.curve.Hide()
		return false
	}
	v.curve.Set(figure.NewLoadCurve(g, v.presenter.counter.Words()), v.presenter.counter.Words().Line(g.Of))
	v.curve.Show()
	return true
}

// curveRoom gives the drawing the height that its numbers take.
type curveRoom struct{}

// MinSize is the toolkit's.
func (curveRoom) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(1, 19*theme.TextSize()) }

// Layout is the toolkit's.
func (curveRoom) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Move(fyne.NewPos(0, 0))
	o[0].Resize(size)
}
