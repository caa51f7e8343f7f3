package evaluate

import (
	"reflect"
	"slices"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Unlooked is what could not be looked at of how parts go together.
type Unlooked struct {
	Pairs   []say.Line // "guide boss against bore of the locator"
	Missing []say.Line // what nobody measured, each once: "guide boss"
}

// UnlookedOf names, in the order of [FitsOf], what it could not look at because nobody measured a size. Parts that are
// not there are not named.
func UnlookedOf(p FitParts) Unlooked {
	var u Unlooked
	p.clearances(func(c clearance) {
		if c.measured() {
			return
		}
		u.Pairs = once(u.Pairs, say.New("fit.unlooked", c.shaft, c.hole))
		if c.out == nil {
			u.Missing = once(u.Missing, c.shaft)
		}
		if c.in == nil {
			u.Missing = once(u.Missing, c.hole)
		}
	})
	return u
}

func once(all []say.Line, more ...say.Line) []say.Line {
	for _, l := range more {
		if !slices.ContainsFunc(all, func(o say.Line) bool { return reflect.DeepEqual(o, l) }) {
			all = append(all, l)
		}
	}
	return all
}

func (u Unlooked) line(roles ...say.Line) say.Line {
	return say.New("fit.unlooked.of", roles, u.Pairs, u.Missing)
}

// unlooked gathers it from the valves of each role, and says it once where both roles lack the same.
func (b *bench) unlooked(ev *Evaluation) {
	type fittedTo struct {
		record.Role
		FitParts
	}
	of, seen := map[record.Role]Unlooked{}, map[fittedTo]bool{} // most valves of a role have the same parts
	for _, at := range b.rec.Head.Positions() {
		parts := fittedTo{at.Role, b.fitParts(b.fit(at))}
		if seen[parts] {
			continue
		}
		seen[parts] = true
		one, all := UnlookedOf(parts.FitParts), of[at.Role]
		of[at.Role] = Unlooked{once(all.Pairs, one.Pairs...), once(all.Missing, one.Missing...)}
	}
	in, ex := of[record.Intake], of[record.Exhaust]
	if len(in.Pairs) > 0 && reflect.DeepEqual(in, ex) {
		ev.Unlooked = []say.Line{in.line(roleName(record.Intake), roleName(record.Exhaust))}
		return
	}
	for _, role := range []record.Role{record.Intake, record.Exhaust} {
		if len(of[role].Pairs) > 0 {
			ev.Unlooked = append(ev.Unlooked, of[role].line(roleName(role)))
		}
	}
}
