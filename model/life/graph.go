package life

import (
	"strconv"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
	"keeperbook/model/wear"
)

// Graph is the loads of one spring over what the head ran since the baseline, for whoever draws it. Loads are millinewtons.
type Graph struct {
	Of             string // the valve
	Unit           unit.Symbol
	Along          say.Line // what it is drawn over: the kind in which most was run, or valve cycles
	Marks          []Mark
	Band           []BandAt // of the trend; empty without one
	Watch, Replace float64  // loads at which the rules of the shop speak; nought without one
}

// Mark is one load that was found, with twice its standard uncertainty.
type Mark struct{ X, Load, U float64 }

// BandAt is the fitted load with its 95 % confidence band.
type BandAt struct {
	X float64
	wear.Band
}

// steps is how many stretches a band is drawn in.
const steps = 48

// Graph returns the loads of the spring at a valve; false where there is nothing to draw.
func (l Life) Graph(v Valve, rule *record.Lost, u unit.Symbol) (Graph, bool) {
	if v.Base < 0 {
		return Graph{}, false
	}
	along, each := l.along()
	g := Graph{Of: v.Label, Unit: u, Along: along}
	base, most := v.Points[v.Base], 0.0
	for _, p := range v.Points[v.Base:] {
		if p.Apart.Zero() {
			x := (p.Cycles - base.Cycles) / each
			most = max(most, x)
			g.Marks = append(g.Marks, Mark{x, float64(p.Load), 2 * p.U})
		}
	}
	start := float64(base.Load)
	if v.Trend != nil && most > 0 {
		start = v.Trend.Better().Baseline()
		for i := range steps + 1 {
			x := most * 1.3 * float64(i) / steps
			g.Band = append(g.Band, BandAt{x, v.Trend.Load(x * each)})
		}
	}
	if rule != nil {
		g.Watch, g.Replace = start*(1-share(rule.Watch)), start*(1-share(rule.Replace))
	}
	return g, true
}

// along is what losses are drawn over, the kind in which most was run or else valve cycles, and how many cycles one of it has.
func (l Life) along() (say.Line, float64) {
	if own, ok := l.Ran.own(); ok {
		return say.New("run." + string(own.Kind)), own.Each
	}
	return say.New("life.cycles"), 1
}

// Worst is the index of the valve with the worst verdict, of several the one that lost most; −1 without valves.
func (l Life) Worst() int {
	worst, most := -1, 0.0
	for i, v := range l.Valves {
		lost := -1.0
		if v.Lost != nil {
			lost = v.Lost.Share
		}
		if worst < 0 || rank[v.Verdict] > rank[l.Valves[worst].Verdict] || v.Verdict == l.Valves[worst].Verdict && lost > most {
			worst, most = i, lost
		}
	}
	return worst
}

// Number writes a number without zeros that say nothing.
func Number(x float64) say.Number { return say.Number(strconv.FormatFloat(x, 'f', -1, 64)) }

// Whole writes a number without decimals, its thousands apart (ISO 80000-1, 7.3.1).
func Whole(x float64) string {
	text := strconv.FormatFloat(x, 'f', 0, 64)
	for i := len(text) - 3; i > 0; i -= 3 {
		text = text[:i] + "\u202f" + text[i:]
	}
	return text
}
