package pdf

import (
	"strings"

	"keeperbook/model/record"
)

// nameWidth is the column of the valve's name, which is read from a step away.
const nameWidth = 64.0

// blanks sets one row a valve in the order of the path, and under it what is short to say and must be said.
func (f *flow) blanks(r *record.Record, path []record.Position) {
	columns := f.blankColumns(r)
	places := f.blankPlaces(columns)
	titles := f.blankTitles(columns, places)
	foot := f.formFootHeight()
	h := (f.room() - titles - foot - 6) / float64(max(1, len(path)))
	h = min(max(h, lowestRow), tallestRow)
	top := f.y
	f.blankHead(columns, places, titles)
	for i, at := range path {
		if f.y+h > f.floor {
			f.blankRules(places, top+titles)
			f.next()
			top = f.y
			f.blankHead(columns, places, titles)
		}
		f.blankRow(r, columns, places, at, h, i)
	}
	f.blankRules(places, top+titles)
	f.skip(4)
	f.formFoot(foot - 1)
}

// blankPlaces returns where each column begins, and the right edge of the last.
func (f *flow) blankPlaces(columns []blank) []float64 {
	sum := 0.0
	for _, c := range columns {
		sum += c.share
	}
	widths, least := make([]float64, len(columns)), make([]float64, len(columns))
	for i, c := range columns {
		widths[i] = c.share / sum * (f.width() - nameWidth)
		for _, word := range strings.Fields(c.title) {
			least[i] = max(least[i], f.widthOf(label, word)+blankGap)
		}
	}
	widen(widths, least)
	x := f.left + nameWidth
	places := []float64{x}
	for _, w := range widths {
		x += w
		places = append(places, x)
	}
	return places
}

// blankGap is what a title keeps free of its column, in points.
const blankGap = 6

// blankTitles is the height of the titles, which wrap in their columns.
func (f *flow) blankTitles(columns []blank, places []float64) float64 {
	most := 1
	for i, c := range columns {
		most = max(most, len(f.wrap(label, places[i+1]-places[i]-blankGap, c.title)))
	}
	return float64(most)*label.size*1.15 + 6
}

func (f *flow) blankHead(columns []blank, places []float64, h float64) {
	pitch := label.size * 1.15
	for i, c := range columns {
		lines := f.wrap(label, places[i+1]-places[i]-blankGap, c.title)
		y := f.y + h - 4 - pitch*float64(len(lines)-1)
		for _, line := range lines {
			f.text(places[i]+4, y, label, ink, line)
			y += pitch
		}
	}
	f.text(f.left, f.y+h-4, label, ink, f.say("form.valve"))
	f.y += h
	f.line(f.left, f.y, f.right, f.y, 1.1, ink)
}

func (f *flow) blankRow(r *record.Record, columns []blank, places []float64, at record.Position, h float64, i int) {
	name := letters{true, 13}
	for n, c := range columns {
		if c.unused != nil && c.unused(at) {
			f.box(places[n], f.y, places[n+1]-places[n], h, bandGrey)
		}
	}
	f.text(f.left, f.y+h/2+name.size*0.36, name, ink, f.short(name, nameWidth-4, r.Head.Label(at)))
	f.y += h
	width, shade := 0.4, hair
	// Every fourth rule is heavier, so that the eye keeps its row.
	if i%4 == 3 {
		width, shade = 0.9, ink
	}
	f.line(f.left, f.y, f.right, f.y, width, shade)
}

// blankRules rules the columns from the titles down to here.
func (f *flow) blankRules(places []float64, top float64) {
	for _, x := range places {
		f.line(x, top, x, f.y, 0.4, hair)
	}
	f.line(f.left, f.y, f.right, f.y, 0.9, ink)
}

// formNotes are the lines under the rows: how to measure, and the cautions of the bench.
func (f *flow) formNotes() []string {
	notes := []string{f.say("form.how")}
	for _, key := range []string{"caution.springs", "caution.solid", "caution.marking"} {
		notes = append(notes, "⚠ "+f.say(key))
	}
	return notes
}

func (f *flow) formFootHeight() float64 {
	h := 4.0
	for _, note := range f.formNotes() {
		h += float64(len(f.wrap(label, f.width(), note))) * label.size * 1.25
	}
	return h
}

func (f *flow) formFoot(h float64) {
	f.need(h)
	for _, note := range f.formNotes() {
		for _, line := range f.wrap(label, f.width(), note) {
			f.text(f.left, f.y+label.size, label, ink, line)
			f.y += label.size * 1.25
		}
	}
}
