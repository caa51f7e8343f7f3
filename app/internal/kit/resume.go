package kit

import "fyne.io/fyne/v2"

// Settle has the field of a window that has the keyboard commit its text, as it does when the keyboard
// goes elsewhere. In a dialog that is left to whoever asks.
func Settle(win fyne.Window) {
	if e, ok := win.Canvas().Focused().(*entry); ok && e.lost != nil {
		e.lost()
	}
}

// Resume shows a text that was refused before, with the reason: a field that comes back into sight has
// what a person left in it. Esc gives the value back that holds.
func (f *Field) Resume(text string, why error) {
	f.entry.SetText(text)
	f.refuse(why)
}
