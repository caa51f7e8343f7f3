package pdf

import (
	"strings"

	"keeperbook/model/evaluate"
)

// set sets one band of the table, cylinder by cylinder; a cylinder is not torn over two pages.
func (t *table) set(band []tableColumn) {
	t.need(t.headHigh(band) + t.groupHigh(band, 0))
	t.head(band)
	for i := 0; i < len(t.rows); {
		end := t.groupEnd(i)
		if t.y+t.groupHigh(band, i) > t.floor {
			t.next()
			t.head(band)
		}
		for ; i < end; i++ {
			if t.y+t.rowHeight(band, i) > t.floor {
				t.next()
				t.head(band)
			}
			t.row(band, i)
		}
		t.line(t.left, t.y, t.right, t.y, 0.4, hair)
	}
	t.line(t.left, t.y, t.right, t.y, 0.8, ink)
	t.skip(3)
}

// groupEnd returns the row after the last of the cylinder that row i belongs to.
func (t *table) groupEnd(i int) int {
	end := i + 1
	for end < len(t.rows) && t.valves[i] != nil && t.valves[end] != nil &&
		t.valves[end].At.Cylinder == t.valves[i].At.Cylinder {
		end++
	}
	return end
}

func (t *table) groupHigh(band []tableColumn, i int) float64 {
	h := 0.0
	if len(t.rows) == 0 {
		return h
	}
	for end := t.groupEnd(i); i < end; i++ {
		h += t.rowHeight(band, i)
	}
	return h
}

func (t *table) headHigh(band []tableColumn) float64 {
	lines := 1
	for _, c := range band {
		n := len(c.title)
		if c.unit != "" {
			n++
		}
		lines = max(lines, n)
	}
	return float64(lines)*label.size*1.15 + 6
}

// head sets the titles, standing on a rule, with the unit under the title.
func (t *table) head(band []tableColumn) {
	pitch := label.size * 1.15
	foot := t.y + t.headHigh(band) - 5
	for _, c := range band {
		lines := append([]string(nil), c.title...)
		y := foot - pitch*float64(len(lines))
		if c.unit == "" {
			y += pitch
		}
		for _, word := range lines {
			t.text(t.titleX(c, label, word), y, label, ink, word)
			y += pitch
		}
		if c.unit != "" {
			t.text(t.titleX(c, label, c.unit), foot, label, faint, c.unit)
		}
	}
	t.y += t.headHigh(band)
	t.line(t.left, t.y-1, t.right, t.y-1, 0.8, ink)
}

// titleX sets a title over its numbers: to the right where they end, to the left over words.
func (t *table) titleX(c tableColumn, l letters, word string) float64 {
	switch {
	case c.numbers:
		return c.x + c.width - t.widthOf(l, word)
	case c.key == barKey:
		return c.x + c.width*0.42 - t.widthOf(l, word)/2
	}
	return c.x + t.padding(c.key)/2
}

// cellLines breaks a cell of words where it is wider than its column; a stack of shims breaks after its
// plus signs.
func (t *table) cellLines(c tableColumn, i int) []string {
	l := t.letters(c.key, i)
	if c.numbers || t.widthOf(l, c.cells[i])+t.padding(c.key) <= c.width+0.01 {
		return []string{c.cells[i]}
	}
	text := c.cells[i]
	tight := !strings.Contains(text, "+ ")
	if tight {
		text = strings.ReplaceAll(text, "+", "+ ")
	}
	lines := t.wrap(l, c.width-t.padding(c.key), text)
	if len(lines) > mostLines {
		lines = lines[:mostLines]
		lines[mostLines-1] += "…"
	}
	for n := range lines {
		if tight {
			lines[n] = strings.ReplaceAll(lines[n], "+ ", "+")
		}
	}
	return lines
}

func (t *table) rowHeight(band []tableColumn, i int) float64 {
	most := 1
	for _, c := range band {
		most = max(most, len(t.cellLines(c, i)))
	}
	return t.rowHigh + float64(most-1)*t.size*1.2
}

func (t *table) row(band []tableColumn, i int) {
	h := t.rowHeight(band, i)
	v := t.valves[i]
	if i == t.tight {
		t.box(t.left-4, t.y, t.width()+4, h, bandGrey)
	}
	base := t.y + t.rowHigh/2 + t.size*0.36
	for _, c := range band {
		l := t.letters(c.key, i)
		switch {
		case c.key == barKey:
			if v != nil {
				t.bar(v, c.x, t.y+2, c.width, t.rowHigh-4)
			}
		case c.numbers:
			head, _ := cut(c.cells[i])
			x := c.x + c.width - c.tail - t.widthOf(l, head)
			t.text(x, base, l, ink, c.cells[i])
		default:
			t.cellWords(c, l, i, v, base)
		}
	}
	t.y += h
}

// cellWords sets a cell of words. A verdict that stops the job stands white on ink.
func (t *table) cellWords(c tableColumn, l letters, i int, v *evaluate.Valve, base float64) {
	x, shade := c.x+t.padding(c.key)/2, ink
	lines := t.cellLines(c, i)
	if c.key == "verdict" && v != nil && v.Verdict <= evaluate.Unfit {
		wide := 0.0
		for _, line := range lines {
			wide = max(wide, t.widthOf(l, line))
		}
		t.box(c.x, t.y+1.5, wide+t.padding(c.key), t.rowHigh-3+float64(len(lines)-1)*t.size*1.2, ink)
		shade = paper
	}
	for _, line := range lines {
		t.text(x, base, l, shade, line)
		base += t.size * 1.2
	}
}
