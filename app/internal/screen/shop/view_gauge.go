package shop

import (
	"fyne.io/fyne/v2"

	"keeperbook/model/say"
)

// Panel is a page that stands in the place of the shop's.
type Panel interface {
	Object() fyne.CanvasObject
	Refresh()
	Focus()
	Stray(text string)  // takes what a gauge typed into a dialog
	Unkept() []say.Line // names what is not in the book
}

// openStudies shows the studies of the gauge that is open. What was typed there and not kept is there again.
func (v *View) openStudies() {
	gauge := v.presenter.Chosen().Key
	panel, ok := v.studies[gauge]
	if !ok {
		var err error
		if panel, err = v.Study(gauge, v.closeStudies); err != nil {
			v.host.Fail(err)
			return
		}
		v.studies[gauge] = panel
	}
	v.studying = panel
	v.turn(panel.Object())
	panel.Refresh()
	panel.Focus()
}

// closeStudies shows the pages again, with what came of the studies, and the keyboard where it was.
func (v *View) closeStudies() {
	v.studying = nil
	v.turn(v.object)
	v.Refresh()
	v.choose(v.presenter.Chosen())
}

func (v *View) turn(to fyne.CanvasObject) {
	v.front.Objects = []fyne.CanvasObject{to}
	v.front.Refresh()
}

// Stray takes what a gauge typed into a dialog: only studies take readings here.
func (v *View) Stray(text string) {
	if v.studying != nil {
		v.studying.Stray(text)
	}
}
