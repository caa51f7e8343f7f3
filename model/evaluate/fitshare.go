package evaluate

import (
	"iter"
	"reflect"
	"slices"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// shareFits finds the misfits that all valves of a role have alike, which are then listed once. One that somebody
// accepted on a valve stays listed valve by valve, for the others are not settled by it.
func (ev *Evaluation) shareFits() {
	for _, role := range []record.Role{record.Intake, record.Exhaust} {
		var valves []*Valve
		for i := range ev.Valves {
			if ev.Valves[i].Role == role {
				valves = append(valves, &ev.Valves[i])
			}
		}
		if len(valves) < 2 {
			continue
		}
		for i := range valves[0].Findings {
			f := &valves[0].Findings[i]
			if f.fit == nil {
				continue
			}
			line := f.fit(say.New("finding.fit.all", roleName(role)))
			var same []*Finding
			for _, v := range valves {
				at := slices.IndexFunc(v.Findings, func(o Finding) bool {
					return o.fit != nil && o.Accepted == nil && reflect.DeepEqual(o.fit(say.New("finding.fit.all", roleName(role))), line)
				})
				if at >= 0 {
					same = append(same, &v.Findings[at])
				}
			}
			if len(same) == len(valves) {
				for _, one := range same {
					one.shared = line
				}
			}
		}
	}
}

// Listed goes through the findings of the valves as they are listed: what all valves of a role have alike comes once,
// at the first of them, with a sentence that names the role.
func (ev *Evaluation) Listed() iter.Seq2[*Valve, Finding] {
	return func(yield func(*Valve, Finding) bool) {
		said := map[record.Role][]say.Line{}
		for i := range ev.Valves {
			v := &ev.Valves[i]
			for _, f := range v.Findings {
				if !f.shared.Zero() {
					if slices.ContainsFunc(said[v.Role], func(l say.Line) bool { return reflect.DeepEqual(l, f.shared) }) {
						continue
					}
					said[v.Role] = append(said[v.Role], f.shared)
					f.Line = f.shared
				}
				if !yield(v, f) {
					return
				}
			}
		}
	}
}

// Whose names the valve that a listed finding is of, or the role where all its valves have it.
func (f Finding) Whose(v *Valve) say.Line {
	if f.shared.Zero() {
		return say.New("expr.one", v.Label)
	}
	return say.New("finding.fit.all", roleName(v.Role))
}
