package figure

import (
	"slices"

	"gonum.org/v1/plot/vg"

	"keeperbook/model/life"
	"keeperbook/model/say"
)

// LossesAll is what every spring of a head lost, in percent, over what the head ran: those that are to be watched or changed in
// heavy lines with their valves, the others in fine ones.
type LossesAll struct {
	graph life.GraphAll
	words say.Printer
}

// NewLossesAll prepares the drawing.
func NewLossesAll(g life.GraphAll, words say.Printer) LossesAll { return LossesAll{g, words} }

func (l LossesAll) say(key string, args ...any) string { return l.words.Line(say.New(key, args...)) }

// Draw draws into the rectangle from the canvas's origin to size.
func (l LossesAll) Draw(c vg.Canvas, size vg.Point, look Look) {
	b := brush{c, look}
	low, top, most := 0.0, 1.0, 0.0
	for _, line := range l.graph.Lines {
		for _, p := range line.At {
			low, top, most = min(low, 100*p.Share), max(top, 100*p.Share), max(most, p.X)
		}
	}
	limits := []float64{100 * l.graph.Watch, 100 * l.graph.Replace}
	top = max(top, limits[0], limits[1])
	room := 0.08 * (top - low)
	a := newAxes(b, l.words, size, low-room/2, top+room, 1.1*most, widest(b, l.say), plainly)
	if !a.roomy() {
		a.paragraph(at(0, size.Y-look.TextSize), size.X, l.say("figure.load-no-room"))
		return
	}
	a.scales(l.say("figure.loss-lost"), l.say("figure.loss-along", l.graph.Along))
	for i, limit := range limits {
		if limit > 0 {
			a.limit(limit, l.say(limitNames[i]))
		}
	}
	for _, marked := range []bool{false, true} { // those that matter lie on top
		for _, line := range l.graph.Lines {
			if line.Marked == marked {
				l.line(&a, line)
			}
		}
	}
	l.names(&a)
}

func (l LossesAll) line(a *axes, line life.LossLine) {
	points := make([]vg.Point, len(line.At))
	for i, p := range line.At {
		points[i] = at(a.x(p.X), a.y(100*p.Share))
	}
	if !line.Marked {
		a.line(mid, a.look.Faint, points...)
		return
	}
	a.line(1.6*heavy, a.look.Ink, points...)
	for _, p := range points {
		a.c.SetColor(a.look.Ink)
		a.c.Fill(round(p, 0.25*a.look.TextSize))
	}
}

// names puts the valves of the heavy lines at their ends, one above the other where they would touch.
func (l LossesAll) names(a *axes) {
	type name struct {
		text string
		at   vg.Point
	}
	var all []name
	for _, line := range l.graph.Lines {
		if n := len(line.At); line.Marked && n > 0 {
			end := line.At[n-1]
			all = append(all, name{line.Of, at(a.x(end.X)+0.5*a.look.TextSize, a.y(100*end.Share))})
		}
	}
	slices.SortFunc(all, func(x, y name) int { return int(1000 * (x.at.Y - y.at.Y)) })
	for i, n := range all {
		if i > 0 {
			n.at.Y = max(n.at.Y, all[i-1].at.Y+1.15*a.look.TextSize)
			all[i] = n
		}
		a.text(a.look.bold(), left, n.at, false, n.text)
	}
}
