package kit

import (
	"image/color"
	"math"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"keeperbook/app/internal/kit/table"
)

// gridInks are the colours of a table. Ink on paper and paper on ink are all it needs.
type gridInks struct {
	ink, soft, paper, rule, fill, veil color.Color
}

func gridInksOf(g *Grid) gridInks {
	of := func(name fyne.ThemeColorName) color.Color { return theme.ColorForWidget(name, g) }
	i := gridInks{
		ink:   of(theme.ColorNameForeground),
		soft:  of(theme.ColorNamePlaceHolder),
		paper: of(theme.ColorNameBackground),
		rule:  of(theme.ColorNameSeparator),
		fill:  of(theme.ColorNameSelection),
	}
	veil := color.NRGBAModel.Convert(i.paper).(color.NRGBA)
	veil.A = 0xB4
	i.veil = veil
	return i
}

// gridSizes are the measures of a table in toolkit units. They grow with the theme's text.
type gridSizes struct {
	text  float32 // of cells and row labels
	title float32 // of column titles
	small float32 // of units and remarks
	row   float32 // height of a row
	pad   float32 // between a column's edge and its text
	gap   float32 // between two groups
	line  float32 // width of the cursor's outline
}

func gridSizesOf(g *Grid) gridSizes {
	t := theme.SizeForWidget(theme.SizeNameText, g)
	if g.large {
		text := max(24, 1.72*t)
		return gridSizes{
			text: text, title: 0.75 * text, small: 0.62 * text, row: max(57, 2.3*text), pad: 0.6 * text, gap: 0.4 * text, line: 3,
		}
	}
	return gridSizes{text: t, title: t, small: 0.8 * t, row: max(30, 2.15*t), pad: 0.5 * t, gap: 0.5 * t, line: 2.5}
}

// gridPlan is where columns and rows stand in the body, in toolkit units from its corner.
type gridPlan struct {
	columns       []gridColumn
	tops          []float32 // of the rows
	breaks        []float32 // heights at which a rule stands between two groups
	row           float32
	width, height float32
	label, head   float32 // width of the row labels, height of the header
	over          float32 // height of the groups' titles, the uppermost part of the header; 0 without groups
	groups        []gridGroup
}

// gridGroup is a run of columns with one title over them.
type gridGroup struct {
	title       string
	first, last int
}

// gridColumn is one column. A column grows with what stands in it and never shrinks under the eye.
type gridColumn struct {
	left, width float32
	mark        string  // the decimal mark its numbers are set under; "" where none has one
	tail        float32 // the widest part behind the mark
	title       []string
}

// margin lies to the right of the last column and under the last row, free for the scroll bars.
const margin = 14

func newGridPlan(g *Grid) gridPlan {
	p := gridPlan{columns: make([]gridColumn, len(g.columns))}
	digit := wide("0", g.sizes.text, true)
	for c, column := range g.columns {
		p.columns[c].title = titleLines(column, g.sizes, float32(column.Width)*digit)
		p.columns[c].grow(float32(column.Width)*digit + 2*g.sizes.pad)
		for _, line := range p.columns[c].title {
			p.columns[c].grow(wide(line, g.sizes.title, !column.Computed) + 2*g.sizes.pad)
		}
		p.columns[c].grow(wide(column.Unit, g.sizes.small, false) + 2*g.sizes.pad)
	}
	p.groups = groupsOf(g.columns)
	return p
}

func groupsOf(columns []table.Column) (groups []gridGroup) {
	for c, column := range columns {
		switch {
		case column.Group == "":
		case c > 0 && columns[c-1].Group == column.Group:
			groups[len(groups)-1].last = c
		default:
			groups = append(groups, gridGroup{column.Group, c, c})
		}
	}
	return groups
}

// starts reports whether a column begins a group, or follows one.
func (p *gridPlan) starts(column int) bool {
	return slices.ContainsFunc(p.groups, func(r gridGroup) bool { return column == r.first || column == r.last+1 })
}

// stretch widens the last column of a group whose title is wider than all of it.
func (p *gridPlan) stretch(r gridGroup, s gridSizes) {
	width := wide(r.title, s.title, false) + 2*s.pad
	for c := r.first; c < r.last; c++ {
		width -= p.columns[c].width
	}
	p.columns[r.last].grow(width)
}

// grow widens a column and reports whether it was too narrow.
func (c *gridColumn) grow(width float32) bool {
	width = float32(math.Ceil(float64(width)))
	if width <= c.width {
		return false
	}
	c.width = width
	return true
}

// settle works out the places from the widths of the columns and the rows.
func (p *gridPlan) settle(g *Grid) {
	s := g.sizes
	for _, r := range p.groups {
		p.stretch(r, s)
	}
	x := float32(0)
	lines := 1
	for c := range p.columns {
		if c > 0 && p.starts(c) {
			x += s.gap
		}
		p.columns[c].left = x
		x += p.columns[c].width
		lines = max(lines, len(p.columns[c].title))
	}
	p.row = s.row
	p.tops, p.breaks = make([]float32, len(g.rows)), nil
	p.label = 0
	y := s.gap / 2
	for r, row := range g.rows {
		if r > 0 && row.Group != g.rows[r-1].Group {
			p.breaks = append(p.breaks, float32(math.Round(float64(y+s.gap/2))))
			y += s.gap
		}
		p.tops[r] = y
		y += s.row
		p.label = max(p.label, wide(row.Label, s.text, true)+2*s.pad)
	}
	p.label = float32(math.Ceil(float64(p.label)))
	if p.over = 0; len(p.groups) > 0 {
		p.over = float32(math.Ceil(float64(lineOf(s.title) + s.pad/2)))
	}
	p.head = p.over + float32(math.Ceil(float64(float32(lines)*lineOf(s.title)+lineOf(s.small)+s.pad)))
	p.width, p.height = x+margin, y+margin
}

// least is the size below which the table is of no use: the header and three rows, the labels and a
// few columns.
func (p *gridPlan) least(s gridSizes) fyne.Size {
	return fyne.NewSize(p.label+12*s.text, p.head+3*s.row)
}

// cell returns the place and the size of a cell in the body.
func (p *gridPlan) cell(at table.Place) (fyne.Position, fyne.Size) {
	c := p.columns[at.Column]
	return fyne.NewPos(c.left, p.tops[at.Row]), fyne.NewSize(c.width, p.row)
}

// span returns left edge and width of a box over a column that is at least as wide as need. It covers the
// next columns whole, and those before where the table ends, so that no half of a number stands beside it.
func (p *gridPlan) span(column int, need float32) (left, width float32) {
	first, last := column, column
	left, width = p.columns[column].left, p.columns[column].width
	for width < need && (first > 0 || last+1 < len(p.columns)) {
		if last+1 < len(p.columns) {
			last++
		} else {
			first--
			left = p.columns[first].left
		}
		width = p.columns[last].left + p.columns[last].width - left
	}
	return left, max(width, need)
}

// hit returns the row and the column under a point of the body; −1 where there is none. The gap between
// two groups belongs to the nearer row, or to the column before it: a finger need not be exact.
func (p *gridPlan) hit(at fyne.Position) table.Place {
	found := table.Place{Row: -1, Column: -1}
	for r, top := range p.tops {
		bottom := top + p.row
		if r > 0 {
			top = (p.tops[r-1] + p.row + top) / 2
		}
		if r+1 < len(p.tops) {
			bottom = (bottom + p.tops[r+1]) / 2
		}
		if at.Y >= top && at.Y < bottom {
			found.Row = r
		}
	}
	for c, column := range p.columns {
		right := column.left + column.width
		if c+1 < len(p.columns) {
			right = p.columns[c+1].left
		}
		if at.X >= column.left && at.X < right {
			found.Column = c
		}
	}
	return found
}

// rowStart returns the height at which the row begins that stands next to y, above it or else below.
func (p *gridPlan) rowStart(y float32, above bool, gap float32) float32 {
	start := y
	for r, top := range p.tops {
		if r == 0 || top > p.tops[r-1]+p.row {
			top -= gap / 2
		}
		if above && top <= y {
			start = top
		}
		if !above && top >= y {
			return top
		}
	}
	return start
}

// titleLines breaks a title that is wider than its column's content at the blank that leaves the
// shorter lines.
func titleLines(c table.Column, s gridSizes, content float32) []string {
	if wide(c.Title, s.title, !c.Computed) <= content {
		return []string{c.Title}
	}
	best, shortest := []string{c.Title}, float32(math.Inf(1))
	words := strings.Fields(c.Title)
	for n := 1; n < len(words); n++ {
		first, second := strings.Join(words[:n], " "), strings.Join(words[n:], " ")
		if w := max(wide(first, s.title, !c.Computed), wide(second, s.title, !c.Computed)); w < shortest {
			best, shortest = []string{first, second}, w
		}
	}
	return best
}
