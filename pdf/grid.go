package pdf

import "slices"

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
	const gap = 8
	places := make([]float64, len(g.shares))
	widths := make([]float64, len(g.shares))
	x := f.left
	for i, share := range g.shares {
		places[i], widths[i] = x, share*f.width()-gap
		x += share * f.width()
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
