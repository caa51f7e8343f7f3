package life

import (
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// GraphAll is what every spring of a head lost over what the head ran since its baseline, for whoever draws it.
type GraphAll struct {
	Along          say.Line // what it is drawn over, as in [Graph]
	Lines          []LossLine
	Watch, Replace float64 // shares at which the rules of the shop speak; nought without one
}

// LossLine is what one spring lost from check to check, from nought on.
type LossLine struct {
	Of     string // the valve
	Marked bool   // it is to be watched or changed
	At     []LossAt
}

// LossAt is the share that was lost when the head had run so much.
type LossAt struct{ X, Share float64 }

// GraphAll returns the losses of all springs; false before a second check.
func (l Life) GraphAll(rule *record.Lost) (GraphAll, bool) {
	along, each := l.along()
	g := GraphAll{Along: along}
	if rule != nil {
		g.Watch, g.Replace = share(rule.Watch), share(rule.Replace)
	}
	for _, v := range l.Valves {
		if v.Lost == nil {
			continue
		}
		line := LossLine{Of: v.Label, Marked: v.Verdict == Watch || v.Verdict == Replace}
		base := v.Points[v.Base]
		for _, p := range v.Points[v.Base:] {
			if p.Apart.Zero() {
				line.At = append(line.At, LossAt{(p.Cycles - base.Cycles) / each, 1 - float64(p.Load)/float64(base.Load)})
			}
		}
		g.Lines = append(g.Lines, line)
	}
	return g, len(g.Lines) > 0
}
