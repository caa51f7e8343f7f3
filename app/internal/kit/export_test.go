package kit

import (
	"testing"

	"fyne.io/fyne/v2"
	"gonum.org/v1/plot/vg"

	"keeperbook/pdf/figure"
)

// DialogOpen reports whether something lies over a window and has the keyboard.
func DialogOpen(win fyne.Window) bool { return win.Canvas().Overlays().Top() != nil }

// Look is the palette and the letters for a drawing on the screen.
func Look(dark bool, size vg.Length) figure.Look { return Greys(dark).look(size) }

// Letters are the regular letters of the theme.
func Letters() fyne.Resource { return letters().regular }

// Memo remembers widths of texts, so many at a time.
type Memo struct{ memo }

// NewMemo returns an empty memo.
func NewMemo(most int) *Memo { return &Memo{memo{most: most}} }

// Of returns the width of a text, which work finds out where it is not remembered.
func (m *Memo) Of(text string, work func() float32) float32 {
	return m.of(lettering{text: text}, work)
}

// Len is how many are remembered.
func (m *Memo) Len() int { return len(m.young) + len(m.old) }

// Hold has keys held beside those that are pressed, until the test ends.
func Hold(t *testing.T, held fyne.KeyModifier) {
	before := modifiers
	modifiers = func() fyne.KeyModifier { return held }
	t.Cleanup(func() { modifiers = before })
}

// StandStill has work over a window be seen when the test asks for it, by what it returns, and not by the clock.
func StandStill(t *testing.T) (look func()) {
	var shown *running
	was := follow
	follow = func(r *running, _ <-chan struct{}) { shown = r }
	t.Cleanup(func() { follow = was })
	return func() { shown.show() }
}
