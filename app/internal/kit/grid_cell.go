package kit

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"keeperbook/app/internal/kit/table"
	"keeperbook/model/say"
	"keeperbook/pdf/figure"
)

// gridCell is one cell as it is drawn. What few cells have is made when a cell first needs it.
type gridCell struct {
	drawn  table.Cell // its Bar is in bar, by value: every state brings a new one
	bar    figure.Bar
	barred bool
	stale  bool // to be drawn whatever it shows
	mark   string
	front  float32 // width before the decimal mark, or of the whole where there is no number
	tail   float32 // width behind it
	number bool

	text   *canvas.Text
	ground *canvas.Rectangle // of an inverse cell, and the frame of an unsaved one
	note   *canvas.Text      // "not saved"
	strip  *gridBar
}

func newGridCell() *gridCell { return &gridCell{text: &canvas.Text{}, stale: true} }

// join puts the objects of a cell into the layers of the table.
func (c *gridCell) join(g *Grid) {
	g.texts.Objects = append(g.texts.Objects, c.text)
	if c.ground != nil {
		g.grounds.Objects = append(g.grounds.Objects, c.ground)
	}
	if c.note != nil {
		g.extras.Objects = append(g.extras.Objects, c.note)
	}
	if c.strip != nil {
		g.extras.Objects = append(g.extras.Objects, c.strip.raster)
	}
}

// shows reports whether the cell is drawn like that already.
func (c *gridCell) shows(want table.Cell) bool {
	bar := want.Bar
	want.Bar = nil
	return !c.stale && c.drawn == want && c.barred == (bar != nil) && (bar == nil || c.bar == *bar)
}

// draw sets text, weight and tone. Where they stand is decided once the column is measured.
func (c *gridCell) draw(g *Grid, want table.Cell) {
	if c.shows(want) {
		return
	}
	c.barred = want.Bar != nil
	if c.barred {
		c.bar = *want.Bar
	}
	c.drawn, c.stale = want, false
	c.drawn.Bar = nil
	c.mark, c.front = "", -1 // to be measured

	ink, paper := g.inks.ink, g.inks.paper
	if want.Inverse {
		ink, paper = paper, ink
	}
	t := c.text
	t.Text, t.TextSize, t.TextStyle = want.Text, g.sizes.text, fyne.TextStyle{Bold: want.Strong}
	t.Color = ink
	if want.Faint && !want.Inverse {
		t.Color = g.inks.soft
	}
	if c.barred {
		t.Text = ""
	}
	c.drawGround(g, want)
	if c.barred && c.strip == nil {
		c.strip = newGridBar()
		g.extras.Objects = append(g.extras.Objects, c.strip.raster)
	}
	if c.strip != nil {
		show(c.strip.raster, c.barred)
		c.strip.set(c.bar, gridLook(g.inks, ink, paper), g.sizes.text)
	}
}

func (c *gridCell) drawGround(g *Grid, want table.Cell) {
	if (want.Inverse || want.Unsaved) && c.ground == nil {
		c.ground = &canvas.Rectangle{}
		g.grounds.Objects = append(g.grounds.Objects, c.ground)
	}
	if want.Unsaved && c.note == nil {
		c.note = canvas.NewText(g.words.Line(say.New("grid.not-saved")), nil)
		g.extras.Objects = append(g.extras.Objects, c.note)
	}
	if c.ground != nil {
		show(c.ground, want.Inverse || want.Unsaved)
		c.ground.FillColor, c.ground.StrokeColor, c.ground.StrokeWidth = nil, g.inks.ink, 0
		if want.Inverse {
			c.ground.FillColor = g.inks.ink
		}
		if want.Unsaved {
			c.ground.StrokeWidth = 1.5
		}
	}
	if c.note != nil {
		show(c.note, want.Unsaved)
		c.note.TextSize, c.note.Color = g.noteSize(), c.text.Color
	}
}

// noteSize is what fits under a text in a row.
func (g *Grid) noteSize() float32 { return 0.68 * g.sizes.text }

// align measures a column, so that its numbers can be set under their decimal marks, and reports whether
// it had to be widened for them.
func (g *Grid) align(column int) (grown bool) {
	col := &g.plan.columns[column]
	col.mark = g.decimalMark(column)
	tail, front, whole := float32(0), float32(0), float32(0)
	for r := range g.rows {
		c := g.cells[r][column]
		c.measure(col.mark, g.columns[column].Text)
		switch {
		case c.number:
			tail, front = max(tail, c.tail), max(front, c.front)
		default:
			whole = max(whole, c.front)
		}
		if c.drawn.Unsaved {
			whole = max(whole, wide(c.note.Text, c.note.TextSize, false))
		}
	}
	col.tail = tail
	return col.grow(max(whole, front+tail) + 2*g.sizes.pad)
}

// decimalMark is the mark that the numbers of a column are set under. A comma is none where every
// comma of the column parts off thousands: three digits behind it, and numbers beside it without one, in a language that does
// that.
func (g *Grid) decimalMark(column int) string {
	commas, broken, plain := false, false, false
	for r := range g.rows {
		text := g.cells[r][column].text.Text
		i := strings.LastIndexByte(text, ',')
		switch {
		case strings.Contains(text, "."):
			return "."
		case i >= 0:
			commas = true
			broken = broken || digitsOf(text[i+1:]) != 3
		case strings.ContainsAny(text, digits):
			plain = true
		}
	}
	if commas && (broken || !plain || say.Chosen().Comma()) {
		return ","
	}
	return ""
}

const digits = "0123456789"

func digitsOf(text string) int { return len(text) - len(strings.TrimLeft(text, digits)) }

// measure takes the widths before and behind the decimal mark. The last mark counts: what stands
// before it may be a second number, as in .030+.015.
func (c *gridCell) measure(mark string, words bool) {
	if c.front >= 0 && c.mark == mark {
		return
	}
	c.mark = mark
	t := c.text
	cut := strings.LastIndexAny(t.Text, digits) + 1
	c.number = cut > 0 && !words
	if i := strings.LastIndex(t.Text, mark); mark != "" && i >= 0 {
		cut = i
	}
	if !c.number {
		c.front, c.tail = wide(t.Text, t.TextSize, t.TextStyle.Bold), 0
		return
	}
	// The front is the rest of the whole and not measured by itself, so that the two add up.
	c.tail = wide(t.Text[cut:], t.TextSize, t.TextStyle.Bold)
	c.front = wide(t.Text, t.TextSize, t.TextStyle.Bold) - c.tail
}

// place puts the objects of a cell where the plan says.
func (c *gridCell) place(g *Grid, row, column int) {
	pos, size := g.plan.cell(table.Place{Row: row, Column: column})
	pad := g.sizes.pad
	col := g.plan.columns[column]
	shift := float32(0)
	if c.number {
		shift = col.tail - c.tail
	}
	c.text.Alignment = g.alignment(column)
	top, height := float32(0), size.Height
	if c.drawn.Unsaved {
		// The two lines share the row: the text from its top, the words on its bottom.
		top, height = 1, c.text.MinSize().Height
		note := c.note.MinSize().Height
		c.note.Alignment = c.text.Alignment
		put(c.note, pos.AddXY(pad, size.Height-note-1), fyne.NewSize(size.Width-2*pad, note))
	}
	put(c.text, pos.AddXY(pad, top), fyne.NewSize(size.Width-2*pad-shift, height))
	if c.ground != nil {
		// The ground leaves room for the cursor's outline and a line of paper within it.
		in := g.sizes.line + 1.5
		if c.drawn.Unsaved {
			in = 1
		}
		c.ground.Move(pos.AddXY(in, in))
		c.ground.Resize(size.SubtractWidthHeight(2*in, 2*in))
	}
	if c.strip != nil {
		c.strip.raster.Move(pos.AddXY(pad/2, size.Height*0.15))
		c.strip.raster.Resize(size.SubtractWidthHeight(pad, size.Height*0.3))
	}
}

// alignment is how the texts of a column are set: numbers from the right, words from the left.
func (g *Grid) alignment(column int) fyne.TextAlign {
	if g.columns[column].Text {
		return fyne.TextAlignLeading
	}
	return fyne.TextAlignTrailing
}

// show shows or hides an object.
func show(o fyne.CanvasObject, yes bool) {
	if yes {
		o.Show()
	} else {
		o.Hide()
	}
}
