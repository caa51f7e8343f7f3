package kit_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"

	"keeperbook/app/internal/kit"
)

func TestUnder(t *testing.T) {
	table, below := canvas.NewRectangle(nil), canvas.NewRectangle(nil)
	u := kit.Under(table, below)
	s := newStage(t, u)
	split := u.Objects[0].(*container.Split)
	split.Leading.(*canvas.Rectangle).SetMinSize(fyne.NewSize(100, 150))
	at := func(height float32) (of fyne.Size) {
		s.win.Resize(fyne.NewSize(600, height))
		return below.Size()
	}
	// A third of a high window, what a section needs in a middling one, and the table first in a low one.
	for _, c := range []struct{ height, least, most float32 }{
		{1000, 340, 380}, {600, 255, 275}, {400, 130, 155}, {200, 0, 50}, {600, 255, 275},
	} {
		if got := at(c.height).Height; got < c.least || got > c.most {
			t.Errorf("of %g the lower part has %g", c.height, got)
		}
	}
	split.SetOffset(0.8) // as the bar was dragged
	if got := at(1000).Height; got > 210 {
		t.Errorf("dragged, of 1000 the lower part has %g", got)
	}
}
