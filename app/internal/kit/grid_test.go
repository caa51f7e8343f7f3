package kit_test

import (
	"image/color"
	"math"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/kit/table"
	"keeperbook/pdf/figure"
)

// roomy is larger than any table of these tests.
var roomy = fyne.NewSize(1900, 1200)

// rightOf is where the letters of a text end, and leftOf where they begin.
func rightOf(f found) float32 {
	if f.text.Alignment == fyne.TextAlignTrailing {
		return f.at.X + f.text.Size().Width
	}
	return f.at.X + f.text.MinSize().Width
}

func leftOf(f found) float32 { return rightOf(f) - f.text.MinSize().Width }

func TestGridTellsKindsOfCellsByWeight(t *testing.T) {
	g, w := window(t, &hand{}, false, 1, roomy)
	s := bench(12, 14)
	s.Cells[0] = []table.Cell{
		{Text: "computed"}, {Text: "measured", Strong: true}, {Text: "hint", Faint: true},
		{Text: "outcry", Inverse: true}, {Text: "typed", Strong: true, Unsaved: true},
		{Text: "behind the bar", Bar: &figure.Bar{}},
	}
	g.SetState(s)
	w.Canvas().Focus(g)
	greys := kit.Greys(false)
	for _, k := range []struct {
		text string
		bold bool
		ink  color.Color
	}{
		{"computed", false, greys.Ink}, {"measured", true, greys.Ink}, {"hint", false, greys.Faint},
		{"outcry", false, greys.Paper}, {"typed", true, greys.Ink},
		{"1 in", true, greys.Ink},                             // a row's label
		{"base", true, greys.Ink}, {"calc", false, greys.Ink}, // titles, typed into and computed
		{"lbf", false, greys.Faint},
	} {
		all := texts(w.Canvas(), k.text)
		if len(all) == 0 {
			t.Errorf("no %q", k.text)
			continue
		}
		if x := all[0].text; x.TextStyle.Bold != k.bold || x.Color != k.ink {
			t.Errorf("%q is bold %t and has the ink %v", k.text, x.TextStyle.Bold, x.Color)
		}
	}
	if len(texts(w.Canvas(), "behind the bar")) > 0 {
		t.Error("a cell with a bar has a text as well")
	}
	// One note for the cell above, two for those that the sample has.
	if n := len(texts(w.Canvas(), "not saved")); n != 3 {
		t.Errorf("not saved stands there %d times", n)
	}
	note := texts(w.Canvas(), "not saved")[0]
	typed, at := text(t, w.Canvas(), "typed")
	if note.at.Y <= at.Y || note.at.Y >= at.Y+typed.Size().Height+2 {
		t.Errorf("the note stands at %v, the text at %v", note.at, at)
	}
	// Saved at last: the note goes.
	s.Cells[0][4].Unsaved = false
	g.SetState(s)
	if n := len(texts(w.Canvas(), "not saved")); n != 2 {
		t.Errorf("after it was saved, not saved stands there %d times", n)
	}
}

// TestGridPaintsGroundBarAndFrame looks at pixels: which of them are ink.
func TestGridPaintsGroundBarAndFrame(t *testing.T) {
	g, w := window(t, &hand{}, false, 1, roomy)
	s := bench(12, 14)
	s.Cursor = table.Place{Row: 11, Column: 0}
	s.Anchor = s.Cursor
	g.SetState(s)
	w.Canvas().Focus(g)
	picture := w.Canvas().Capture()
	dark := func(at fyne.Position) bool {
		return color.GrayModel.Convert(picture.At(int(at.X), int(at.Y))).(color.Gray).Y < 0x60
	}
	any := func(from fyne.Position, size fyne.Size) (n int) {
		for x := range int(size.Width) {
			for y := range int(size.Height) {
				if dark(from.AddXY(float32(x), float32(y))) {
					n++
				}
			}
		}
		return n
	}
	x, at := text(t, w.Canvas(), "up to .598")
	if !dark(at.AddXY(-2, x.Size().Height/2)) {
		t.Error("paper on ink has no ink around it")
	}
	x, at = text(t, w.Canvas(), "1.8365")
	if dark(at.AddXY(-2, x.Size().Height/2)) {
		t.Error("a common cell has a ground")
	}
	var bars []fyne.Position
	var size fyne.Size
	walk(w.Canvas().Content(), fyne.NewPos(0, 0), func(o fyne.CanvasObject, at fyne.Position) {
		if r, ok := o.(*canvas.Raster); ok {
			bars, size = append(bars, at), r.Size()
		}
	})
	if len(bars) != 11 {
		t.Fatalf("there are %d bars", len(bars))
	}
	// Post and mark alone are some fifty pixels at this size.
	for _, b := range bars {
		if n := any(b, size); n < 50 || n > 700 {
			t.Errorf("the bar at %v has %d dark pixels of %v", b, n, size)
		}
	}
}

func TestGridSetsNumbersUnderTheirMarks(t *testing.T) {
	g, w := window(t, &hand{}, false, 1, roomy)
	s := bench(12, 1)
	s.Columns = []table.Column{
		{Key: "words", Title: "words", Width: 8, Text: true}, {Key: "in", Title: "in", Width: 8},
		{Key: "mm", Title: "mm", Width: 8}, {Key: "rpm", Title: "rpm", Width: 8}, {Key: "whole", Title: "whole", Width: 8},
	}
	rows := [][]string{
		{"short", ".030", "46,79", "900", "131"},
		{"a longer one", ".0155", "46,785", "12,500", "8"},
		{"", "1.8365e", "9,5", "1,200", "—"},
		{"x", ".015+.0155", "", "", "2024"},
	}
	s.Cells = nil
	for _, r := range rows {
		var cells []table.Cell
		for c, text := range r {
			cells = append(cells, table.Cell{Text: text, Strong: c == 1 && text == ".030"})
		}
		s.Cells = append(s.Cells, cells)
	}
	g.SetState(s)
	at := func(want string) found { x, p := text(t, w.Canvas(), want); return found{x, p} }
	behind := func(want, tail string) float32 {
		f := at(want)
		return rightOf(f) - fyne.MeasureText(tail, f.text.TextSize, f.text.TextStyle).Width
	}
	same := func(what string, all ...float32) {
		t.Helper()
		if slices.Max(all)-slices.Min(all) > 0.1 {
			t.Errorf("%s do not stand in line: %v", what, all)
		}
	}
	same("points", behind(".030", ".030"), behind(".0155", ".0155"), behind("1.8365e", ".8365e"), behind(".015+.0155", ".0155"))
	same("commas", behind("46,79", ",79"), behind("46,785", ",785"), behind("9,5", ",5"))
	same("thousands", rightOf(at("900")), rightOf(at("12,500")), rightOf(at("1,200")))
	same("whole numbers", rightOf(at("131")), rightOf(at("8")), rightOf(at("—")), rightOf(at("2024")))
	same("words", leftOf(at("short")), leftOf(at("a longer one")), leftOf(at("x")))
	same("a column and its title", rightOf(at("whole")), rightOf(at("131")))
}

// TestGridCutsNothing: a column grows with what stands in it, and the columns behind it move.
func TestGridCutsNothing(t *testing.T) {
	g, w := window(t, &hand{}, false, 1, roomy)
	s := bench(12, 14)
	g.SetState(s)
	s = bench(12, 14)
	s.Cells[4][2].Text = ".700 + .015 + .0155"
	g.SetState(s)
	for _, large := range []bool{false, true} {
		s.Large = large
		g.SetState(s)
		low := map[float32][]found{}
		walk(w.Canvas().Content(), fyne.NewPos(0, 0), func(o fyne.CanvasObject, at fyne.Position) {
			if x, ok := o.(*canvas.Text); ok && x.Text != "" && x.Text != "not saved" && x.TextSize > 10 {
				y := at.Y + x.Size().Height/2
				low[y] = append(low[y], found{x, at})
			}
		})
		for y, row := range low {
			slices.SortFunc(row, func(a, b found) int { return int(math.Copysign(1, float64(leftOf(a)-leftOf(b)))) })
			for n := 1; n < len(row); n++ {
				if rightOf(row[n-1])+4 > leftOf(row[n]) && !hint(row[n]) && !hint(row[n-1]) {
					t.Errorf("at %v %q runs into %q", y, row[n-1].text.Text, row[n].text.Text)
				}
			}
		}
	}
}

// hint tells the words that lie over the whole table.
func hint(f found) bool { return f.text.Alignment == fyne.TextAlignCenter }

func TestGridLargeIsReadAtArmsLength(t *testing.T) {
	for _, k := range []struct {
		large     bool
		text, row float32
	}{{false, 14, 30}, {true, 24, 57}} {
		g, w := window(t, &hand{}, false, 1, roomy)
		s := bench(12, 14)
		s.Large = k.large
		g.SetState(s)
		x, _ := text(t, w.Canvas(), "1.8365")
		_, in := text(t, w.Canvas(), "1 in")
		_, ex := text(t, w.Canvas(), "1 ex")
		if x.TextSize < k.text || ex.Y-in.Y < k.row {
			t.Errorf("large %t: digits of %g, rows of %g", k.large, x.TextSize, ex.Y-in.Y)
		}
		// There is more between two groups than between two rows of one.
		_, next := text(t, w.Canvas(), "2 in")
		if next.Y-ex.Y <= ex.Y-in.Y {
			t.Error("the groups stand as close as the rows")
		}
	}
}

// inStep holds header and labels against the body.
func inStep(t *testing.T, c fyne.Canvas, title, label, cell string) {
	t.Helper()
	head, h := text(t, c, title)
	_, l := text(t, c, label)
	body, b := text(t, c, cell)
	edge := rightOf
	if body.Alignment == fyne.TextAlignLeading {
		edge = leftOf
	}
	above, below := edge(found{head, h}), edge(found{body, b})
	if math.Abs(float64(above-below)) > 0.1 || l.Y != b.Y {
		t.Errorf("%s is at %v, %v; its title is at %v, its label at %v", cell, below, b.Y, above, l.Y)
	}
}

func TestGridScrollsTheCursorIntoView(t *testing.T) {
	g, w := window(t, &hand{}, false, 1, fyne.NewSize(520, 260))
	c := w.Canvas()
	for _, p := range []table.Place{{}, {Row: 63, Column: 13}, {Row: 30, Column: 6}, {Row: 63}, {Row: 0, Column: 13}, {Row: 33, Column: 3}} {
		s := bench(64, 14)
		s.Cursor, s.Anchor = p, p
		s.Cells[p.Row][p.Column] = table.Cell{Text: "here"}
		s.Columns[p.Column].Title = "title"
		g.SetState(s)
		x, at := text(t, c, "here")
		if at.X < 40 || at.X+x.Size().Width > 520 || at.Y < 50 || at.Y+x.Size().Height > 260 {
			t.Errorf("the cursor's cell %v stands at %v", p, at)
		}
		inStep(t, c, "title", s.Rows[p.Row].Label, "here")
	}
}

func TestGridHeaderAndLabelsKeepStepWithTheWheel(t *testing.T) {
	g, w := window(t, &hand{}, false, 1, fyne.NewSize(520, 260))
	g.SetState(bench(64, 9))
	for _, turn := range []fyne.Delta{{DX: 0, DY: -35}, {DX: -40, DY: -20}, {DX: 30, DY: 10}, {DX: 0, DY: 5000}} {
		for _, over := range []fyne.Position{{X: 300, Y: 150}, {X: 300, Y: 10}, {X: 10, Y: 150}} {
			test.Scroll(w.Canvas(), over, turn.DX, turn.DY)
			inStep(t, w.Canvas(), "base", "1 ex", "1.8365")
		}
	}
	// A window made larger shows more, and nothing beyond the ends.
	test.Scroll(w.Canvas(), fyne.NewPos(300, 150), -5000, -5000)
	w.Resize(roomy)
	inStep(t, w.Canvas(), "base", "1 ex", "1.8365")
	if _, at := text(t, w.Canvas(), "verdict"); at.X < 0 {
		t.Errorf("the first column is at %v although there is room for all", at)
	}
}

func TestGridDrawsWhatIsTyped(t *testing.T) {
	g, w := window(t, &hand{}, false, 1, fyne.NewSize(700, 400))
	c := w.Canvas()
	s := bench(12, 14)
	s.Cursor = table.Place{Row: 6, Column: 1}
	s.Anchor = s.Cursor
	s.Edit = &table.Edit{Text: "1842", Caret: 2, Unit: "thou", Understood: "is 1.842 in"}
	g.SetState(s)
	typed, at := text(t, c, "1842")
	_, unit := text(t, c, "thou")
	_, read := text(t, c, "is 1.842 in")
	_, row := text(t, c, "4 in")
	_, next := text(t, c, "4 ex")
	if at.Y != row.Y || unit.Y != row.Y || unit.X <= at.X || read.Y < next.Y-5 || read.Y > next.Y+20 {
		t.Errorf("typed at %v, its unit at %v, understood at %v; the row is at %v", at, unit, read, row)
	}
	// The caret is a line two units wide behind the second digit.
	want := at.X + fyne.MeasureText("18", typed.TextSize, typed.TextStyle).Width
	carets := 0
	walk(c.Content(), fyne.NewPos(0, 0), func(o fyne.CanvasObject, p fyne.Position) {
		if r, ok := o.(*canvas.Rectangle); ok && r.Size().Width == 2 && math.Abs(float64(p.X-want)) < 0.1 {
			carets++
		}
	})
	if carets != 1 {
		t.Errorf("%d carets at %v", carets, want)
	}

	const why = "The base height of 4 in reads 18.42 in, and 1.200 to 2.600 in are allowed; type it again, or press Esc to keep what was there."
	s.Edit = &table.Edit{Text: "18.42", Caret: 5, Unit: "in", Refused: why}
	g.SetState(s)
	_, row = text(t, c, "4 in") // the body may have moved, to show all of the reason
	_, next = text(t, c, "4 ex")
	if _, at := text(t, c, "18.42"); at.Y != row.Y {
		t.Errorf("the refused text stands at %v", at)
	}
	said := ""
	walk(c.Content(), fyne.NewPos(0, 0), func(o fyne.CanvasObject, p fyne.Position) {
		if x, ok := o.(*canvas.Text); ok && x.Color == kit.Greys(false).Paper && x.Text != "" && p.Y >= next.Y-5 && p.Y < next.Y+60 {
			said += x.Text + " "
			if p.X < 40 || p.X+x.MinSize().Width > 700 || p.Y+x.MinSize().Height > 400 {
				t.Errorf("the reason is cut: %q at %v", x.Text, p)
			}
		}
	})
	if said != why+" " {
		t.Errorf("the reason reads %q", said)
	}
	if len(texts(c, "is 1.842 in")) > 0 {
		t.Error("what was understood before is still there")
	}
	s.Edit = nil
	g.SetState(s)
	if len(texts(c, "18.42")) > 0 {
		t.Error("the edit is over, and its text still there")
	}
}

// TestGridEditAtTheEnds: in the last row the strip stands above it, and a long text in the last column
// grows to the left.
func TestGridEditAtTheEnds(t *testing.T) {
	g, w := window(t, &hand{}, true, 1, fyne.NewSize(600, 300))
	s := bench(12, 14)
	s.Cursor = table.Place{Row: 11, Column: 13}
	s.Anchor = s.Cursor
	s.Edit = &table.Edit{Text: "386 + 1234567890", Caret: 16, Unit: "lbf", Understood: "two numbers"}
	g.SetState(s)
	typed, at := text(t, w.Canvas(), "386 + 1234567890")
	_, read := text(t, w.Canvas(), "two numbers")
	if at.X < 40 || at.X+typed.MinSize().Width > 600 || read.Y >= at.Y || read.Y < 50 {
		t.Errorf("typed at %v, understood at %v", at, read)
	}
}

// TestGridShowsTheEndOfABurst: a gauge without an Enter behind its readings fills a cell without end.
func TestGridShowsTheEndOfABurst(t *testing.T) {
	g, w := window(t, &hand{}, false, 1, fyne.NewSize(600, 300))
	s := bench(12, 14)
	burst := strings.Repeat("1.842", 60) + "END"
	for _, caret := range []int{len(burst), 150, 0} {
		s.Edit = &table.Edit{Text: burst, Caret: caret, Unit: "in", Refused: "The text " + burst + " is no reading."}
		g.SetState(s)
		most, ends := float32(0), 0
		walk(w.Canvas().Content(), fyne.NewPos(0, 0), func(o fyne.CanvasObject, at fyne.Position) {
			x, ok := o.(*canvas.Text)
			if !ok || !strings.Contains(x.Text, "1.8421.842") {
				return
			}
			most = max(most, at.X+x.MinSize().Width)
			if x.TextStyle.Bold && strings.HasSuffix(x.Text, "END") {
				ends++
			}
		})
		if most > 600 || most < 400 || (ends == 1) != (caret == len(burst)) {
			t.Errorf("caret %d: the burst reaches to %v of 600, its end seen %d times", caret, most, ends)
		}
	}
}

func TestGridShowsTheSelection(t *testing.T) {
	g, w := window(t, &hand{}, false, 1, roomy)
	s := bench(12, 14)
	s.Cursor, s.Anchor = table.Place{Row: 4, Column: 3}, table.Place{Row: 1, Column: 1}
	for name, p := range map[string]table.Place{
		"anchor": {Row: 1, Column: 1}, "corner": {Row: 1, Column: 3}, "amid": {Row: 2, Column: 2}, "cursor": {Row: 4, Column: 3},
		"above": {Row: 0, Column: 2}, "below": {Row: 5, Column: 2}, "before": {Row: 2, Column: 0}, "behind": {Row: 2, Column: 4},
	} {
		s.Cells[p.Row][p.Column] = table.Cell{Text: name}
	}
	g.SetState(s)
	w.Canvas().Focus(g)
	filled := func(want string) bool {
		x, at := text(t, w.Canvas(), want)
		got := w.Canvas().Capture().At(int(at.X)-4, int(at.Y+x.Size().Height/2))
		return color.NRGBAModel.Convert(got) == kit.Greys(false).Fill
	}
	for _, in := range []string{"anchor", "corner", "amid", "cursor"} {
		if !filled(in) {
			t.Errorf("%s is chosen and not filled", in)
		}
	}
	for _, out := range []string{"above", "below", "before", "behind"} {
		if filled(out) {
			t.Errorf("%s is not chosen and filled", out)
		}
	}
	s.Anchor = s.Cursor
	g.SetState(s)
	if filled("amid") {
		t.Error("the selection is gone, and still filled")
	}
}

// TestGridTakesOtherTablesAndThemes: fewer rows, more columns, none at all, cells that are wanting.
func TestGridTakesOtherTablesAndThemes(t *testing.T) {
	g, w := window(t, &hand{}, false, 1, fyne.NewSize(900, 400))
	for _, n := range []struct{ rows, columns int }{{12, 14}, {64, 16}, {2, 3}, {0, 0}, {8, 14}, {0, 3}, {5, 0}} {
		s := bench(n.rows, n.columns)
		if n.rows > 2 {
			s.Cells = s.Cells[:n.rows-1]
			s.Cells[0] = s.Cells[0][:n.columns/2]
		}
		s.Cursor = table.Place{Row: 70, Column: 70} // no cell of any table
		g.SetState(s)
		w.Canvas().Capture()
		if n.rows == 2 && len(texts(w.Canvas(), "1 ex")) != 1 {
			t.Error("the smaller table does not show its rows")
		}
		if n.rows != 64 && len(texts(w.Canvas(), "9 in")) > 0 {
			t.Error("rows of the table before are still there")
		}
	}
	g.SetState(bench(12, 14))
	fyne.CurrentApp().Settings().SetTheme(kit.NewTheme(true, 1.5))
	g.Refresh()
	x, _ := text(t, w.Canvas(), "1.8365")
	if x.Color != kit.Greys(true).Ink || x.TextSize < 21 {
		t.Errorf("in the dark at 150 %%: ink %v, digits of %g", x.Color, x.TextSize)
	}
}
