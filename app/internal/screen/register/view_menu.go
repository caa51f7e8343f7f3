package register

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"keeperbook/app/internal/kit"
	"keeperbook/model/say"
)

// menu is what can be done with the chosen head.
func (v *View) menu() []kit.Item {
	return []kit.Item{kit.Enter(v.words.Line(say.New("kit.menu-open")), v.open)}
}

// menuOver chooses the head under the pointer, and shows there what can be done with it.
func (v *View) menuOver(i int, at fyne.Position) {
	v.presenter.Choose(i)
	v.show()
	if c := fyne.CurrentApp().Driver().CanvasForObject(v.list); c != nil {
		v.Focus(c)
	}
	kit.ShowMenu(v.list, v.menu(), at)
}

// openMenu shows what can be done with the chosen head, at its line in the list.
func (v *View) openMenu() {
	at := v.presenter.Cursor()
	if at < 0 || at >= v.length() {
		return
	}
	v.list.ScrollTo(at)
	down := float32(at+1)*(newLine(nil, nil).MinSize().Height+theme.Padding()) - v.list.GetScrollOffset()
	kit.ShowMenu(v.list, v.menu(), fyne.CurrentApp().Driver().AbsolutePositionForObject(v.list).AddXY(theme.InnerPadding(), down))
}
