package pdf

import (
	"slices"
	"strings"
)

// grid is a small table of texts that may wrap, with a row of titles: parts per role, gauges.
type grid struct {
	titles []string
	shares []float64 // of the width
	rows   [][]string
	once   int // columns that are set once for the rows that have the same in all of them
}

// follows reports whether row i goes on with what the row before it is about.
func (g grid) follows(i int) bool {
	return g.once > 0 && i > 0 && i < len(g.rows) && slices.Equal(g.rows[i][:g.once], g.rows[i-1][:g.once])
}

// grid sets a table of texts. The titles are repeated on every page it reaches.
func (f *flow) grid(g grid) {
	widths := f.gridWidths(g)
	places := make([]float64, len(g.shares))
	x := f.left
	for i, width := range widths {
		places[i] = x
		x += width + gridGap
	}
	f.gridTitles(g, places)
	for at, row := range g.rows {
		lines := make([][]string, len(row))
		most := 1
		for i, cell := range row {
			lines[i] = f.wrap(f.gridLetters(i), widths[i], cell)
			most = max(most, len(lines[i]))
		}
		if f.y+min(float64(most), 6)*body.pitch() > f.floor {
			f.next()
			f.gridTitles(g, places)
		} else if g.follows(at) {
			clear(lines[:g.once])
			most = 1
			for i := range row {
				most = max(most, len(lines[i]))
			}
		}
		for n := range most {
			if f.y+body.pitch() > f.floor {
				f.next()
				f.gridTitles(g, places)
			}
			for i := range row {
				if n < len(lines[i]) {
					f.text(places[i], f.y+body.size, f.gridLetters(i), ink, lines[i][n])
				}
			}
			f.y += body.pitch()
		}
		if g.follows(at + 1) {
			continue
		}
		f.skip(1.5)
		f.line(f.left, f.y, f.right, f.y, 0.3, hair)
		f.skip(2)
	}
}

// gridGap is what stays free between columns, in points.
const gridGap = 8

// gridWidths are the widths of the columns by their shares, and so that no word is broken where there is room for all.
func (f *flow) gridWidths(g grid) []float64 {
	widths, least := make([]float64, len(g.shares)), make([]float64, len(g.shares))
	for i, share := range g.shares {
		widths[i] = share*f.width() - gridGap
		if i < len(g.titles) {
			least[i] = f.widthOf(label, g.titles[i])
		}
		for _, row := range g.rows {
			for _, word := range strings.Fields(row[i]) {
				least[i] = max(least[i], f.widthOf(f.gridLetters(i), word))
			}
		}
		least[i] = min(least[i], f.width()/4) // longer ones are nobody's words
	}
	widen(widths, least)
	return widths
}

// widen gives columns that are narrower than what stands in them what they lack, out of the one that has most to spare.
func widen(widths, least []float64) {
	for i := range widths {
		for lack := least[i] - widths[i]; lack > 0; lack = least[i] - widths[i] {
			from, most := -1, 0.0
			for j := range widths {
				if spare := widths[j] - least[j]; j != i && spare > most {
					from, most = j, spare
				}
			}
			if from < 0 {
				break
			}
			give := min(lack, most)
			widths[i], widths[from] = widths[i]+give, widths[from]-give
		}
	}
}

// gridLetters makes the first column, which names the row, stand out.
func (f *flow) gridLetters(column int) letters {
	if column == 0 {
		return strong
	}
	return body
}

func (f *flow) gridTitles(g grid, places []float64) {
	f.need(3 * body.pitch())
	for i, t := range g.titles {
		f.text(places[i], f.y+label.size, label, faint, t)
	}
	f.y += label.pitch() + 1
	f.line(f.left, f.y, f.right, f.y, 0.5, ink)
	f.skip(2.5)
}
