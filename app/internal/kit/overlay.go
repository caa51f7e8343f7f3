package kit

import (
	"slices"

	"fyne.io/fyne/v2"
)

// takeAway takes what lies over a window away. The toolkit takes what lies above it along, a question that somebody has to answer
// perhaps; so that is put back, with the keyboard where it was.
func takeAway(c fyne.Canvas, o fyne.CanvasObject) {
	all := slices.Clone(c.Overlays().List()) // the toolkit clears the list as it shortens it
	at := slices.Index(all, o)
	if at < 0 {
		return
	}
	above := all[at+1:]
	if len(above) == 0 {
		c.Unfocus()
	}
	had := c.Focused()
	c.Overlays().Remove(o)
	for _, a := range above {
		c.Overlays().Add(a)
	}
	if len(above) > 0 && had != nil {
		c.Focus(had)
	}
}
