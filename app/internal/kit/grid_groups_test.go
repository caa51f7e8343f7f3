package kit_test

import (
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"keeperbook/app/internal/kit/table"
)

// grouped is the table of a bench whose columns from base to check stand under three titles.
func grouped() table.State {
	s := bench(12, 9)
	s.Columns[1].Group, s.Columns[2].Group = "pocket", "pocket"
	s.Columns[3].Group = "a title much wider than its column"
	s.Columns[4].Group, s.Columns[5].Group = "heights", "heights"
	return s
}

// TestGridGroupsColumns: a group's title stands over the middle of its columns and over nothing else, and
// there is more between two groups than between two columns of one.
func TestGridGroupsColumns(t *testing.T) {
	for _, large := range []bool{false, true} {
		g, w := window(t, &hand{}, false, 1, roomy)
		s := grouped()
		s.Large = large
		g.SetState(s)
		at := func(want string) found { x, p := text(t, w.Canvas(), want); return found{x, p} }
		over := func(title, first, last string) {
			t.Helper()
			x := at(title)
			middle := x.at.X + x.text.Size().Width/2
			left, right := at(first), at(last)
			want := (left.at.X + right.at.X + right.text.Size().Width) / 2
			if math.Abs(float64(middle-want)) > 0.5 || x.at.Y >= left.at.Y {
				t.Errorf("%s stands at %v over columns around %v", title, middle, want)
			}
			// Nothing of it lies over another group.
			half := x.text.MinSize().Width / 2
			if middle-half < left.at.X-1 || middle+half > right.at.X+right.text.Size().Width+1 {
				t.Errorf("%s reaches over its columns", title)
			}
		}
		over("pocket", "base", "seal")
		over("a title much wider than its column", "shims", "shims")
		over("heights", "calc", "check")
		between := func(left, right string) float32 {
			return at(right).at.X - at(left).at.X - at(left).text.Size().Width
		}
		inside := between("base", "seal")
		for _, edge := range [][2]string{{"verdict", "base"}, {"seal", "shims"}, {"shims", "calc"}, {"check", "lift"}} {
			if between(edge[0], edge[1]) <= inside {
				t.Errorf("%s and %s stand as close as two columns of a group", edge[0], edge[1])
			}
		}
		inStep(t, w.Canvas(), "base", "1 ex", "1.8365")
	}
}

// TestGridGroupsScrollAndTake: the titles go along with the body, and a tap between two groups means a cell.
func TestGridGroupsScrollAndTake(t *testing.T) {
	h := &hand{}
	g, w := window(t, h, false, 1, fyne.NewSize(520, 260))
	g.SetState(grouped())
	x, before := text(t, w.Canvas(), "heights")
	test.Scroll(w.Canvas(), fyne.NewPos(300, 150), -60, 0)
	_, after := text(t, w.Canvas(), "heights")
	inStep(t, w.Canvas(), "base", "1 ex", "1.8365")
	if before.X-after.X != 60 || before.Y != after.Y {
		t.Errorf("%s went from %v to %v", x.Text, before, after)
	}
	test.Scroll(w.Canvas(), fyne.NewPos(300, 150), 60, 0)
	w.Resize(roomy)
	_, row := text(t, w.Canvas(), "1 ex")
	seal, from := text(t, w.Canvas(), "seal")
	_, to := text(t, w.Canvas(), "shims")
	h.taken()
	for x := from.X + seal.Size().Width; x < to.X; x++ {
		test.TapCanvas(w.Canvas(), fyne.NewPos(x, row.Y+10))
		if got := h.taken(); got != "tap 1 2 false" && got != "tap 1 3 false" {
			t.Fatalf("a tap at %v, between %v and %v, is %q", x, from, to, got)
		}
	}
	// Without groups the header is as low as before.
	g.SetState(bench(12, 9))
	if _, at := text(t, w.Canvas(), "1 in"); at.Y >= row.Y {
		t.Errorf("the first row stands at %v", at)
	}
}

// TestGridHeaderGrowsOverWholeRows: at the end of a table the upper row is cut; with titles over its columns
// it is at the end no longer, and shows whole rows.
func TestGridHeaderGrowsOverWholeRows(t *testing.T) {
	g, w := window(t, &hand{}, false, 1, fyne.NewSize(520, 273))
	s := bench(12, 9)
	s.Cursor = table.Place{Row: 8}
	s.Anchor = s.Cursor
	g.SetState(s)
	test.Scroll(w.Canvas(), fyne.NewPos(300, 150), 0, -5000)
	s = grouped()
	s.Cursor = table.Place{Row: 8}
	s.Anchor = s.Cursor
	g.SetState(s)
	_, base := text(t, w.Canvas(), "base")
	top := base.Y + 38
	for _, row := range s.Rows {
		if x, at := text(t, w.Canvas(), row.Label); at.Y < top-2 && at.Y+x.Size().Height > top+2 {
			t.Errorf("%s is cut: from %v, the header ends at %v", row.Label, at.Y, top)
		}
	}
}

// TestGridShowsNoHalfRow: between two rows of one group there is nothing that could be seen above the upper one.
func TestGridShowsNoHalfRow(t *testing.T) {
	g, w := window(t, &hand{}, false, 1, fyne.NewSize(520, 260))
	s := bench(64, 9)
	for row := range 64 {
		s.Cursor = table.Place{Row: row}
		s.Anchor = s.Cursor
		g.SetState(s)
		_, head := text(t, w.Canvas(), "verdict")
		top := head.Y + 38 // the title and its unit
		for _, label := range s.Rows {
			x, at := text(t, w.Canvas(), label.Label)
			if bottom := at.Y + x.Size().Height; row > 8 && row < 60 && at.Y < top-2 && bottom > top+2 {
				t.Fatalf("at row %d, %s is cut: from %v to %v, the header ends at %v", row, label.Label, at.Y, bottom, top)
			}
		}
	}
}
