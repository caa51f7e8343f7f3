package life

import (
	"slices"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
	"keeperbook/model/wear"
)

// ends are the sights after which a spring is not used again, whatever it carries: a crack begins at each of them (common
// practice, no published source).
var ends = []record.Sight{record.Nick, record.Rust, record.Crack, record.BrokenCoil}

// seen adds what was seen on the spring since it was fitted.
func (v *Valve) seen(checks []record.SpringCheck) {
	for _, c := range slices.Backward(checks) {
		for _, found := range c.Valves {
			if found.At != v.At {
				continue
			}
			for _, s := range found.Seen {
				switch line := say.New("life.seen", say.New("sight."+string(s)), c.Day); {
				case s == record.NothingOnIt:
				case slices.Contains(ends, s):
					v.note(Replace, line)
				default:
					v.note(Watch, line)
				}
			}
		}
	}
}

// lash tells how far the lash moved between what was left and what was found last: what tightens sinks or stretches, what
// opens wears. Nothing is judged by it, as common practice has no figure.
func (v *Valve) lash(e *evaluate.Valve, checks []record.SpringCheck) {
	var left *unit.Length
	if e.LashLeft.Known {
		left = &e.LashLeft.Value
	}
	for _, c := range checks {
		for _, found := range c.Valves {
			if found.At != v.At {
				continue
			}
			if found.Found != nil {
				v.Lash = nil
				if left != nil {
					moved := found.Found.Length() - *left
					v.Lash = &moved
				}
				was := found.Found.Length()
				left = &was
			}
			if found.Left != nil {
				is := found.Left.Length()
				left = &is
			}
		}
	}
	switch {
	case v.Lash == nil || *v.Lash == 0:
	case *v.Lash < 0:
		v.Why = append(v.Why, say.New("life.lash-tighter", -*v.Lash))
	default:
		v.Why = append(v.Why, say.New("life.lash-wider", *v.Lash))
	}
}

// JudgeLash has every spring watched whose lash moved further than the shop asks for: the valve may sink or stretch, the rocker
// or the cam wear.
func (l *Life) JudgeLash(most unit.Length) {
	for i := range l.Valves {
		if v := &l.Valves[i]; v.Lash != nil && (*v.Lash > most || -*v.Lash > most) {
			v.note(Watch, say.New("life.lash-beyond", most))
		}
	}
}

// apart marks springs whose loss is unlike that of their mates, springs of one type: the mates tell what is usual.
func (l *Life) apart(rec *record.Record) {
	groups := map[string][]int{}
	for i, v := range l.Valves {
		if v.Lost != nil {
			spring := rec.PackageOf(v.At.Role).Spring
			groups[spring] = append(groups[spring], i)
		}
	}
	for _, all := range groups {
		lost, u := make([]float64, len(all)), 0.0
		for i, at := range all {
			lost[i] = l.Valves[at].Lost.Share
			u = max(u, l.Valves[at].Lost.U)
		}
		for i, out := range wear.OutOfSet(lost, u/2, u) {
			if out {
				l.Valves[all[i]].note(Watch, say.New("life.apart"))
			}
		}
	}
}

// overRevs has every spring watched that ran too fast since somebody last looked at it.
func (l *Life) overRevs(runs []record.Run) {
	for _, r := range runs {
		if r.OverRevs == 0 {
			continue
		}
		for i := range l.Valves {
			if v := &l.Valves[i]; v.looked == nil || !before(r, *v.looked) {
				v.note(Watch, say.New("life.over-rev", r.Day))
			}
		}
	}
}
