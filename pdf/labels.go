package pdf

import (
	"io"
	"slices"
	"time"

	"keeperbook/model/say"
)

// Label is what stands on the bag or box of one spring.
type Label struct {
	Tag   string
	Lines []LabelLine // under the tag, in the order in which they are set
	Code  string      // for a scanner
}

// LabelLine is a line of a label. Where not all have room those of the higher rank are left out, and what is cut ends in a sign
// that says so.
type LabelLine struct {
	Text string
	Rank int
}

// LabelGrid is how a sheet of labels is cut. Lengths are points.
type LabelGrid struct {
	Name          string // columns by rows
	Paper         Paper
	Columns, Rows int
	Wide, High    float64 // of one label
	Left, Top     float64 // of the first from the edges of the paper
	OnX, OnY      float64 // from one label to the next
}

const (
	perMM   = 72 / 25.4
	perInch = 72.0
)

// LabelGrids are the cuts of sheets that are sold everywhere; common practice, sizes from memory.
var LabelGrids = []LabelGrid{
	{"3x8", A4, 3, 8, 70 * perMM, 37 * perMM, 0, 0.5 * perMM, 70 * perMM, 37 * perMM},
	{"3x7", A4, 3, 7, 63.5 * perMM, 38.1 * perMM, 7.21 * perMM, 15.15 * perMM, 66.04 * perMM, 38.1 * perMM},
	{"2x7", A4, 2, 7, 99.1 * perMM, 38.1 * perMM, 4.65 * perMM, 15.15 * perMM, 101.6 * perMM, 38.1 * perMM},
	{"3x10", Letter, 3, 10, 2.625 * perInch, perInch, 0.1875 * perInch, 0.5 * perInch, 2.75 * perInch, perInch},
	{"2x5", Letter, 2, 5, 4 * perInch, 2 * perInch, 0.15625 * perInch, 0.5 * perInch, 4.1875 * perInch, 2 * perInch},
}

// Labels are labels on their sheets.
type Labels struct {
	Grid  LabelGrid
	From  int // the place of the first on its sheet, counted from 1 along the rows: those before it are used up
	All   []Label
	Made  time.Time
	Words say.Printer
}

// WriteLabels writes the labels as a PDF, in the way of [Write] and with its errors.
func WriteLabels(w io.Writer, l Labels) error { return writeTo(w, l.Grid.Paper, l.press) }

// Each label keeps this far from its edges, as printers shift the paper.
const labelRim = 7.0

func (l Labels) press(width, height float64) *press {
	p := newPress(width, height, l.Made, l.Words.Line(say.New("labels.title")))
	f := &flow{press: p, words: l.Words}
	on := l.Grid.Columns * l.Grid.Rows
	at := l.From - 1
	for i, one := range l.All {
		if i == 0 || at%on == 0 {
			f.page()
		}
		n := at % on
		f.label(one, l.Grid, l.Grid.Left+float64(n%l.Grid.Columns)*l.Grid.OnX, l.Grid.Top+float64(n/l.Grid.Columns)*l.Grid.OnY)
		at++
	}
	return p
}

// mostCode is the longest text that a code of the size of a label can show so that it can be read, in bytes.
const mostCode = 100

// label sets one label with its corner at a place.
func (f *flow) label(one Label, g LabelGrid, x, y float64) {
	tag := letters{true, 13}
	side := min(g.High-2*labelRim, 66)
	width := g.Wide - 2*labelRim - side - 4
	low := y + g.High - labelRim
	x, y = x+labelRim, y+labelRim
	if len(one.Code) <= mostCode {
		f.squares(one.Code, x+width+4, y, side)
	}
	f.text(x, y+tag.size, tag, ink, f.short(tag, width, one.Tag))
	y += tag.size + 4
	const pitch = 1.2
	room := int((low - y + (pitch-1)*label.size) / (pitch * label.size))
	lines, cut := fitting(one.Lines, room)
	for i, line := range lines {
		if cut && i == len(lines)-1 {
			line += " …"
		}
		f.text(x, y+label.size, label, ink, f.short(label, width, line))
		y += pitch * label.size
	}
}

// fitting are the lines of a label that have room, in their order, and whether some have none.
func fitting(all []LabelLine, room int) (lines []string, cut bool) {
	order := make([]int, len(all))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return all[i].Rank - all[j].Rank })
	kept := order[:min(len(order), room)]
	slices.Sort(kept)
	for _, i := range kept {
		lines = append(lines, all[i].Text)
	}
	return lines, len(kept) < len(all)
}
