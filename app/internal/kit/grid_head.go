package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
)

// gridHead is the header: it moves sideways with the body. A column that can be typed into has its
// title in bold, as the readings under it are.
type gridHead struct {
	clip *container.Clip
	band *fyne.Container
	here *canvas.Rectangle // behind the cursor's column
}

func newGridHead() *gridHead {
	h := &gridHead{here: &canvas.Rectangle{}, band: newLayer()}
	h.clip = container.NewClip(h.band)
	return h
}

func (h *gridHead) draw(g *Grid) {
	s, i, p := g.sizes, g.inks, g.plan
	h.here.FillColor = i.fill
	objects := []fyne.CanvasObject{h.here}
	for c, column := range g.columns {
		at := p.columns[c]
		set := func(text string, size, top float32, bold, soft bool) {
			t := canvas.NewText(text, i.ink)
			if soft {
				t.Color = i.soft
			}
			t.TextSize, t.TextStyle.Bold = size, bold
			t.Alignment = g.alignment(c)
			t.Move(fyne.NewPos(at.left+s.pad, top))
			t.Resize(fyne.NewSize(at.width-2*s.pad, lineOf(size)))
			objects = append(objects, t)
		}
		// Titles stand on their units, and units on the rule under the header.
		unit := p.head - s.pad/2 - lineOf(s.small)
		set(column.Unit, s.small, unit, false, true)
		for n, line := range at.title {
			set(line, s.title, unit-float32(len(at.title)-n)*lineOf(s.title), !column.Computed, false)
		}
	}
	for _, r := range p.groups {
		objects = append(objects, groupTitle(g, r)...)
	}
	for _, x := range p.parts() {
		objects = append(objects, upright(g, x, p.head))
	}
	h.band.Objects = objects
	h.band.Layout = still{fyne.NewSize(p.width, p.head)}
	h.band.Resize(fyne.NewSize(p.width, p.head))
	h.band.Refresh()
}

// groupTitle is the title of a group over the middle of its columns, on a rule as wide as they are.
func groupTitle(g *Grid, r gridGroup) []fyne.CanvasObject {
	s, p := g.sizes, g.plan
	left, last := p.columns[r.first].left, p.columns[r.last]
	width := last.left + last.width - left
	t := canvas.NewText(r.title, g.inks.ink)
	t.TextSize, t.Alignment = s.title, fyne.TextAlignCenter
	put(t, fyne.NewPos(left, 0), fyne.NewSize(width, lineOf(s.title)))
	rule := canvas.NewRectangle(g.inks.rule)
	put(rule, fyne.NewPos(left+s.pad, p.over-s.pad/4), fyne.NewSize(width-2*s.pad, 1))
	return []fyne.CanvasObject{t, rule}
}

// gridLabels are the names of the rows: they move up and down with the body.
type gridLabels struct {
	clip *container.Clip
	band *fyne.Container
	here *canvas.Rectangle // behind the cursor's row
}

func newGridLabels() *gridLabels {
	l := &gridLabels{here: &canvas.Rectangle{}, band: newLayer()}
	l.clip = container.NewClip(l.band)
	return l
}

func (l *gridLabels) draw(g *Grid) {
	s, i, p := g.sizes, g.inks, g.plan
	l.here.FillColor = i.fill
	objects := []fyne.CanvasObject{l.here}
	for r, row := range g.rows {
		t := canvas.NewText(row.Label, i.ink)
		t.TextSize, t.TextStyle.Bold = s.text, true
		t.Move(fyne.NewPos(s.pad, p.tops[r]))
		t.Resize(fyne.NewSize(p.label-2*s.pad, p.row))
		objects = append(objects, t)
	}
	for _, y := range p.breaks {
		objects = append(objects, ruleOf(g, y, p.label))
	}
	l.band.Objects = objects
	l.band.Layout = still{fyne.NewSize(p.label, p.height)}
	l.band.Resize(fyne.NewSize(p.label, p.height))
	l.band.Refresh()
}

// drawRules draws the rules between groups of rows and of columns through the body.
func (g *Grid) drawRules() {
	g.rules.Objects = nil
	for _, x := range g.plan.parts() {
		g.rules.Objects = append(g.rules.Objects, upright(g, x, g.plan.height-margin))
	}
	for _, y := range g.plan.breaks {
		g.rules.Objects = append(g.rules.Objects, ruleOf(g, y, g.plan.width-margin))
	}
}

// parts are the places between two columns at which a group ends or begins.
func (p *gridPlan) parts() (at []float32) {
	for c := 1; c < len(p.columns); c++ {
		if before := p.columns[c-1]; p.starts(c) {
			at = append(at, (before.left+before.width+p.columns[c].left)/2)
		}
	}
	return at
}

func upright(g *Grid, x, height float32) *canvas.Rectangle {
	rule := canvas.NewRectangle(g.inks.rule)
	put(rule, fyne.NewPos(x, 0), fyne.NewSize(1, height))
	return rule
}

func ruleOf(g *Grid, y, width float32) *canvas.Rectangle {
	rule := canvas.NewRectangle(g.inks.rule)
	rule.Move(fyne.NewPos(0, y))
	rule.Resize(fyne.NewSize(width, 1))
	return rule
}
