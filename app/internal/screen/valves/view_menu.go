package valves

import (
	"fyne.io/fyne/v2"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/kit/table"
	"keeperbook/model/say"
)

// menu is what can be done with the cell under the pointer, each with its key.
func (v *View) menu() []kit.Item {
	words := v.p.Words()
	key := func(k table.Key) func() { return func() { v.p.Key(k, false) } }
	clip := fyne.CurrentApp().Clipboard
	item := func(label string, do func()) kit.Item {
		return kit.Item{Label: words.Line(say.New("valves.menu." + label)), Do: do}
	}
	return []kit.Item{
		item("modify", key(table.Modify)),
		item("copy", func() { v.grid.TypedShortcut(&fyne.ShortcutCopy{Clipboard: clip()}) }),
		item("paste", func() { v.grid.TypedShortcut(&fyne.ShortcutPaste{Clipboard: clip()}) }),
		item("delete", key(table.Delete)),
		item("undo", key(table.Undo)),
		item("redo", key(table.Redo)),
		item("sure", key(table.Sure)),
	}
}
