package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// Ledger is a small table to be read: columns of words that are wrapped, and behind them columns of numbers
// set from the right. Nothing in it can be chosen.
type Ledger struct {
	object *fyne.Container
	plan   *ledgerPlan
	heads  []string
}

// NewLedger returns an empty ledger. The first of its heads stand over words, the others over numbers.
func NewLedger(words int, heads ...string) *Ledger {
	l := &Ledger{plan: &ledgerPlan{words: words, columns: len(heads)}, heads: heads}
	l.object = &fyne.Container{Layout: l.plan}
	return l
}

// Object is the ledger on the screen.
func (l *Ledger) Object() fyne.CanvasObject { return l.object }

// Set shows other rows, a cell for each head. A line break in a cell is kept.
func (l *Ledger) Set(rows [][]string) {
	l.object.Objects = nil
	for _, h := range l.heads {
		l.add(NewHint(h))
	}
	if len(rows) == 0 {
		l.object.Objects = nil
	}
	for _, row := range rows {
		for _, cell := range row {
			l.add(NewText(cell))
		}
	}
	l.object.Refresh()
}

func (l *Ledger) add(t *Text) {
	t.right = len(l.object.Objects)%len(l.heads) >= l.plan.words
	l.object.Objects = append(l.object.Objects, t)
}

// ledgerPlan gives columns of numbers the width of their widest, and columns of words what is left.
type ledgerPlan struct {
	words, columns int
	width          float32
}

// widths are the widths of the columns within a whole width.
func (p *ledgerPlan) widths(objects []fyne.CanvasObject, whole float32) []float32 {
	all := make([]float32, p.columns)
	left := whole - float32(p.columns-1)*p.gap()
	for i, o := range objects {
		c, t := i%p.columns, o.(*Text)
		if c >= p.words {
			all[c] = max(all[c], wide(t.text, t.points(), t.bold))
		}
	}
	for _, w := range all {
		left -= w
	}
	for c := range p.words {
		all[c] = max(0, left/float32(p.words))
	}
	return all
}

func (p *ledgerPlan) gap() float32 { return 2.5 * theme.Padding() }

// each goes through the cells with their places, and returns the height of all of them.
func (p *ledgerPlan) each(objects []fyne.CanvasObject, whole float32, at func(o fyne.CanvasObject, pos fyne.Position, size fyne.Size)) float32 {
	widths := p.widths(objects, whole)
	top := float32(0)
	for i := 0; i+p.columns <= len(objects); i += p.columns {
		row, x, high := objects[i:i+p.columns], float32(0), float32(0)
		for c, o := range row {
			high = max(high, o.(*Text).HeightFor(widths[c]))
		}
		for c, o := range row {
			at(o, fyne.NewPos(x, top), fyne.NewSize(widths[c], high))
			x += widths[c] + p.gap()
		}
		top += high + theme.Padding()
	}
	return top
}

func (p *ledgerPlan) heightFor(objects []fyne.CanvasObject, width float32) float32 {
	return p.each(objects, width, func(fyne.CanvasObject, fyne.Position, fyne.Size) {})
}

// MinSize is the toolkit's. The height is that at the width of the last layout.
func (p *ledgerPlan) MinSize(objects []fyne.CanvasObject) fyne.Size {
	least := float32(p.words) * 8 * theme.TextSize()
	for _, w := range p.widths(objects, 0) {
		least += w + p.gap()
	}
	return fyne.NewSize(least, p.heightFor(objects, max(least, p.width)))
}

// Layout is the toolkit's.
func (p *ledgerPlan) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	p.width = size.Width
	p.each(objects, size.Width, put)
}
