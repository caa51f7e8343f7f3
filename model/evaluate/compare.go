package evaluate

import (
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Pair is one valve in two set-ups of its head: as it was in the one, as it is in the other, and what
// lies between. A set-up that does not have the valve has one of which nothing is known.
type Pair struct {
	At      record.Position
	Label   string
	Was, Is *Valve
	Changes []Change // one for each key of [ComparedKeys], in that order
}

// Change is one number of a valve in two set-ups. By is Is − Was, exact; it is unknown where either is,
// and where the two belong to different coils.
type Change struct {
	Key         string
	Was, Is, By Figure
}

// compared are the numbers that two set-ups are held against each other in: first the margin, then in
// bench order what it comes from, then the seal.
var compared = []struct {
	key    string
	ofCoil bool // it belongs to the governing coil, and to no other
	of     func(*Valve) Figure
}{
	{"margin", false, func(v *Valve) Figure { return v.Margin }},
	{"base", false, func(v *Valve) Figure { return v.Base }},
	{"shims", false, func(v *Valve) Figure { return v.Shims }},
	{"height", false, func(v *Valve) Figure { return v.Height }},
	{"lift", false, func(v *Valve) Figure { return v.Lift }},
	{"open", true, func(v *Valve) Figure { return v.Open }},
	{"bind", true, func(v *Valve) Figure { return v.Bind }},
	{"seal", false, func(v *Valve) Figure { return v.Seal }},
	{"seal-open", false, func(v *Valve) Figure { return v.SealOpen }},
}

// ComparedKeys are the keys of the numbers that [Compare] holds against each other: those of the columns
// of a table of valves, and "height", the installed height in force.
func ComparedKeys() []string {
	keys := make([]string, len(compared))
	for i := range compared {
		keys[i] = compared[i].key
	}
	return keys
}

// Compare holds two set-ups of one head against each other, valve by valve in the order of the head. It
// keeps pointers into both.
func Compare(was, is *Evaluation) []Pair {
	var pairs []Pair
	for i := range is.Valves {
		v := &is.Valves[i]
		old := was.valveAt(v.At)
		if old == nil {
			old = unknown(v)
		}
		pairs = append(pairs, pairOf(old, v))
	}
	for i := range was.Valves {
		if v := &was.Valves[i]; is.valveAt(v.At) == nil {
			pairs = append(pairs, pairOf(v, unknown(v)))
		}
	}
	return pairs
}

func pairOf(was, is *Valve) Pair {
	p := Pair{At: is.At, Label: is.Label, Was: was, Is: is, Changes: make([]Change, len(compared))}
	for i, c := range compared {
		ch := Change{Key: c.key, Was: c.of(was), Is: c.of(is)}
		if !c.ofCoil || sameCoil(was, is) {
			ch.By = difference(ch.Was, ch.Is)
		}
		p.Changes[i] = ch
	}
	return p
}

// valveAt returns the valve at a position, nil where there is none.
func (ev *Evaluation) valveAt(at record.Position) *Valve {
	for i := range ev.Valves {
		if ev.Valves[i].At == at {
			return &ev.Valves[i]
		}
	}
	return nil
}

// unknown is a valve in the place of another one, of which nothing is known.
func unknown(v *Valve) *Valve {
	return &Valve{At: v.At, Label: v.Label, Role: v.Role, Governing: -1, Verdict: Missing}
}

// difference is is − was. It proves as little as the weaker of the two.
func difference(was, is Figure) Figure {
	if !was.Known || !is.Known {
		return Figure{}
	}
	d := Figure{Known: true, Value: is.Value - was.Value, Mark: Computed, Stale: was.Stale || is.Stale}
	if was.Mark == Estimate || is.Mark == Estimate {
		d.Mark = Estimate
	}
	return d
}

// sameCoil reports whether the governing coils of two valves are one and the same by their names: the
// inner of two coils is the inner of three as well. Coils without a name are told by their place.
func sameCoil(a, b *Valve) bool {
	if a.Governing < 0 || b.Governing < 0 {
		return false
	}
	x, y := &a.Coils[a.Governing], &b.Coils[b.Governing]
	return x.Name == y.Name && (x.Name != "" || x.Index == y.Index)
}

// Governs says which coil governed and which does now, where it is another one; the zero Line where it is
// the same or nobody can tell.
func (p *Pair) Governs() say.Line {
	if p.Was.Governing < 0 || p.Is.Governing < 0 || sameCoil(p.Was, p.Is) {
		return say.Line{}
	}
	was, is := &p.Was.Coils[p.Was.Governing], &p.Is.Coils[p.Is.Governing]
	return say.New("change.governs", CoilShort(was.Name), CoilShort(is.Name))
}

// Text returns the difference with its sign and the letter of its mark, "+.004" and "−.010e", with as many
// decimals as it takes to tell it from nought; "" where it is not known.
func (c Change) Text(p say.Printer) string {
	if !c.By.Known {
		return ""
	}
	value, key := unit.Beside{This: c.By.Value}, "expr.one"
	if c.By.Value > 0 {
		key = "change.more"
	}
	return marked(p, c.By, say.New(key, value))
}
