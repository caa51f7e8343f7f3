package kit_test

import (
	"testing"

	"fyne.io/fyne/v2"

	"keeperbook/app/internal/kit/table"
)

// BenchmarkGridKey is a digit, and then Enter that fills the cell and goes on: two states a round, of a
// full table as its presenter makes them.
func BenchmarkGridKey(b *testing.B) {
	g, w := window(b, &hand{}, false, 1, fyne.NewSize(1100, 850))
	w.Canvas().Focus(g)
	g.SetState(bench(64, 16))
	// Two tables take turns, so that what is timed is the widget and not the making of a state.
	states := make([]table.State, 64)
	for n := range states {
		s := bench(64, 16)
		s.Cursor = table.Place{Row: n, Column: 1}
		s.Anchor = s.Cursor
		s.Cells[n][1].Text = "1.9" + string(rune('0'+n%10)) + "5"
		s.Cells[n][9].Text = ".0" + string(rune('0'+n%10)) + "1 ± .006"
		states[n] = s
	}
	for n := 0; b.Loop(); n++ {
		s := states[n%64]
		s.Edit = &table.Edit{Text: "1842.5", Caret: 6, Unit: "in", Understood: "1.8425 in"}
		g.SetState(s)
		s.Edit = nil
		g.SetState(s)
	}
}
