package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"keeperbook/model/say"
)

// Item is one thing that a menu over a line or a cell does.
type Item struct {
	Label string
	Key   string // that does the same where the keyboard is, such as "F2"; empty where none does
	Do    func()
}

// String is what stands in the menu.
func (i Item) String() string {
	if i.Key == "" {
		return i.Label
	}
	return say.Chosen().Line(say.New("kit.menu-key", i.Label, i.Key))
}

// Enter is the item of what Enter does with the line under the cursor.
func Enter(label string, do func()) Item {
	return Item{Label: label, Key: say.Chosen().Line(say.New("kit.enter")), Do: do}
}

// menued is a thing that shows a menu where its cursor is.
type menued interface{ OpenMenu() }

// Wherever does what a key does wherever the keyboard is, and reports whether it was one: F1 goes to the window, which gets none that
// something has the keyboard for, and Shift+F10 and the key for menus show what can be done where the cursor is.
func Wherever(has fyne.CanvasObject, k *fyne.KeyEvent) bool {
	switch {
	case k.Name == fyne.KeyF1:
		pass(has, k)
	case ofMenu(k):
		if m, ok := has.(menued); ok {
			m.OpenMenu()
		}
	default:
		return false
	}
	return true
}

// ofMenu reports whether a key asks for the menu.
func ofMenu(k *fyne.KeyEvent) bool {
	return k.Name == desktop.KeyMenu || k.Name == fyne.KeyF10 && modifiers()&fyne.KeyModifierShift != 0
}

// modifiers are the keys that are held beside another one.
var modifiers = func() fyne.KeyModifier {
	if d, ok := fyne.CurrentApp().Driver().(desktop.Driver); ok {
		return d.CurrentKeyModifiers()
	}
	return 0
}

// ShowMenu shows over an object what can be done, with the corner at a place of the window, and help last where the window has any.
// The keyboard is afterwards where it was.
func ShowMenu(over fyne.CanvasObject, items []Item, at fyne.Position) {
	c := canvasOf(over)
	if c == nil {
		return
	}
	if help := c.OnTypedKey(); help != nil {
		items = append(items, Item{Label: say.Chosen().Line(say.New("kit.menu-word")), Key: "F1", Do: func() {
			help(&fyne.KeyEvent{Name: fyne.KeyF1})
		}})
	}
	if len(items) > 0 {
		newMenu(c, items, at).show()
	}
}

// placeOf returns where a point of an object is in the window.
func placeOf(o fyne.CanvasObject, at fyne.Position) fyne.Position {
	return fyne.CurrentApp().Driver().AbsolutePositionForObject(o).Add(at)
}
