package kit

import (
	"image/color"
	"slices"
	"sort"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// gridEdit is the cell that is typed into: a box over the cell as wide as its text needs, and under the
// row a strip with what was understood, or with the reason why the text was refused.
type gridEdit struct {
	layer *fyne.Container
	box   *canvas.Rectangle
	text  *canvas.Text
	unit  *canvas.Text
	caret *canvas.Rectangle
	strip *canvas.Rectangle
	lines []*canvas.Text

	shown   bool
	refused bool
	align   fyne.TextAlign // of the text in the box, and of what it reads as
}

func newGridEdit() *gridEdit {
	e := &gridEdit{
		box: &canvas.Rectangle{}, text: &canvas.Text{}, unit: &canvas.Text{}, caret: &canvas.Rectangle{}, strip: &canvas.Rectangle{},
	}
	e.layer = newLayer(e.strip, e.box, e.text, e.unit, e.caret)
	e.layer.Hide()
	return e
}

// draw draws what is being typed in the cursor's cell, or takes the box away.
func (e *gridEdit) draw(g *Grid) {
	now := g.state.Edit
	e.shown = now != nil && g.has(g.state.Cursor)
	show(e.layer, e.shown)
	if !e.shown {
		return
	}
	e.refused = now.Refused != ""
	s, i := g.sizes, g.inks
	e.box.FillColor, e.box.StrokeColor, e.box.StrokeWidth = i.paper, i.ink, s.line
	if e.refused {
		e.box.StrokeWidth = 1.6 * s.line
	}
	e.unit.Text, e.unit.Color, e.unit.TextSize = now.Unit, i.soft, s.small
	unit := wide(now.Unit, s.small, false)
	if unit > 0 {
		unit += s.pad / 2
	}
	all := []rune(now.Text)
	line, caret := excerpt(all, max(0, min(now.Caret, len(all))), s.text, g.scroll.Size().Width-margin-unit-2*s.pad-2)
	e.text.Text, e.text.Color, e.text.TextSize, e.text.TextStyle.Bold = string(line), i.ink, s.text, true
	e.caret.FillColor = i.ink

	pos, size := g.plan.cell(g.state.Cursor)
	text := wide(e.text.Text, s.text, true)
	need := text + unit + 2*s.pad + 2
	pos.X, size.Width = g.plan.span(g.state.Cursor.Column, need)
	put(e.box, pos, size)
	// A text too long for its cell begins where the cell does, over its own column.
	e.align = g.alignment(g.state.Cursor.Column)
	if cell := g.plan.columns[g.state.Cursor.Column]; size.Width > cell.width && pos.X == cell.left {
		e.align = fyne.TextAlignLeading
	}
	left := pos.X + s.pad
	if e.align == fyne.TextAlignTrailing {
		left = pos.X + size.Width - s.pad - unit - text
	}
	put(e.text, fyne.NewPos(left, pos.Y), fyne.NewSize(text, size.Height))
	put(e.unit, fyne.NewPos(left+text+s.pad/2, pos.Y), fyne.NewSize(unit, size.Height))
	before := wide(string(line[:caret]), s.text, true)
	put(e.caret, fyne.NewPos(left+before, pos.Y+size.Height*0.2), fyne.NewSize(2, size.Height*0.6))

	if e.refused {
		e.drawRefusal(g, now.Refused)
	} else {
		e.drawUnderstood(g, now.Understood, pos.X+size.Width)
	}
	e.layer.Refresh()
}

// drawUnderstood hangs what the text reads as under the box.
func (e *gridEdit) drawUnderstood(g *Grid, text string, right float32) {
	if text == "" {
		show(e.strip, false)
		e.write(nil, 0, 0, nil, 0)
		return
	}
	s, i := g.sizes, g.inks
	width := max(wide(text, s.text, false)+2*s.pad, e.box.Size().Width)
	show(e.strip, true)
	e.strip.FillColor, e.strip.StrokeColor, e.strip.StrokeWidth = i.paper, i.ink, 1
	top, height := e.under(g, lineOf(s.text))
	put(e.strip, fyne.NewPos(max(0, right-width), top), fyne.NewSize(width, height))
	e.write([]string{text}, s.text, s.pad, i.ink, e.align)
	e.slide(g)
}

// drawRefusal writes the reason across the view, paper on ink.
func (e *gridEdit) drawRefusal(g *Grid, text string) {
	s, i := g.sizes, g.inks
	size := s.text
	if g.large {
		size = s.title
	}
	width := max(10*s.text, g.scroll.Size().Width-margin)
	lines := wrap(text, size, width-2*s.pad)
	show(e.strip, true)
	e.strip.FillColor, e.strip.StrokeWidth = i.ink, 0
	top, height := e.under(g, float32(len(lines))*lineOf(size)+s.pad)
	put(e.strip, fyne.NewPos(g.scroll.Offset.X, top), fyne.NewSize(width, height))
	e.write(lines, size, s.pad, i.paper, fyne.TextAlignLeading)
	e.slide(g)
}

// under returns where a strip of at least this height stands: under the row, or above it where the table
// ends. It reaches as far as the rows it covers, so that no half of a number looks out from under it.
func (e *gridEdit) under(g *Grid, least float32) (top, height float32) {
	p, row := g.plan, g.state.Cursor.Row
	top = p.tops[row] + p.row
	for _, next := range p.tops[row+1:] {
		if height = next + p.row - top; height >= least {
			return top, height
		}
	}
	for r := row - 1; r >= 0; r-- {
		if height = p.tops[row] - p.tops[r]; height >= least {
			return p.tops[r], height
		}
	}
	return top, least
}

// write puts lines into the strip.
func (e *gridEdit) write(lines []string, size, pad float32, ink color.Color, align fyne.TextAlign) {
	for len(e.lines) < len(lines) {
		t := &canvas.Text{}
		e.lines = append(e.lines, t)
		e.layer.Add(t)
	}
	for n, t := range e.lines {
		t.Text = ""
		if n < len(lines) {
			t.Text, t.TextSize, t.Color = lines[n], size, ink
			t.Alignment = align
			t.Resize(fyne.NewSize(e.strip.Size().Width-2*pad, lineOf(size)))
		}
	}
}

// slide keeps a refusal in view while the body scrolls sideways, and the lines in their strip.
func (e *gridEdit) slide(g *Grid) {
	if !e.shown {
		return
	}
	if e.refused {
		e.strip.Move(fyne.NewPos(g.scroll.Offset.X, e.strip.Position().Y))
	}
	// The lines stand in the middle of the strip.
	free := e.strip.Size().Height
	for _, t := range e.lines {
		if t.Text != "" {
			free -= t.Size().Height
		}
	}
	at := e.strip.Position().AddXY(g.sizes.pad, free/2)
	for _, t := range e.lines {
		t.Move(at)
		at.Y += t.Size().Height
	}
}

// extent returns how far down and right the box and its strip reach.
func (e *gridEdit) extent() (bottom, right float32, ok bool) {
	if !e.shown {
		return 0, 0, false
	}
	right = e.box.Position().X + e.box.Size().Width
	bottom = e.box.Position().Y + e.box.Size().Height
	if e.strip.Visible() {
		bottom = max(bottom, e.strip.Position().Y+e.strip.Size().Height)
	}
	return bottom, right, true
}

// excerpt returns as much of a line around its caret as fits into width, and the caret in it. A burst of
// a gauge that nothing ended may be of any length; its end is what one looks at.
func excerpt(line []rune, caret int, size, width float32) ([]rune, int) {
	if width <= 0 || wide(string(line), size, true) <= width {
		return line, caret
	}
	// From the front goes what does not fit before the caret, and from the end the rest.
	gone := sort.Search(caret, func(n int) bool { return wide("…"+string(line[n:caret]), size, true) <= width })
	if gone > 0 {
		line, caret = append([]rune("…"), line[gone:]...), caret-gone+1
	}
	if n := fitting(line, size, true, width); n < len(line) {
		n = max(n-1, caret)
		line = append(slices.Clone(line[:n]), '…')
	}
	return line, caret
}

// fitting returns how many runes of a line fit into width.
func fitting(line []rune, size float32, bold bool, width float32) int {
	return sort.Search(len(line), func(n int) bool { return wide(string(line[:n+1]), size, bold) > width })
}

// wrap breaks a sentence into lines no wider than width: between words, and a word that is wider by
// itself wherever it must.
func wrap(text string, size, width float32) (lines []string) {
	line := ""
	for _, word := range strings.Fields(text) {
		longer := strings.TrimSpace(line + " " + word)
		if line != "" && wide(longer, size, false) > width {
			lines = append(lines, line)
			longer = word
		}
		for wide(longer, size, false) > width {
			runes := []rune(longer)
			n := max(1, fitting(runes, size, false, width))
			lines, longer = append(lines, string(runes[:n])), string(runes[n:])
		}
		line = longer
	}
	return append(lines, line)
}
