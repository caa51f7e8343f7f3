package evaluate

import (
	"reflect"
	"slices"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Unsettled is what is not within of a valve, or of all valves of a role alike, that nobody accepted with a reason.
type Unsettled struct {
	At      []record.Position
	Finding string   // key, which a record.Deviation names
	Verdict Verdict  // the worst of them
	Whose   say.Line // names the valve or the role
	Short   []say.Line
}

// Unsettled returns what somebody who signs has to put right or to accept, in the order of the valves, each thing of a valve
// once. What is within up to a lift is none of it: the sheet says how far.
func (ev *Evaluation) Unsettled() []Unsettled {
	var all []Unsettled
	for v, f := range ev.Listed() {
		if f.Note || f.Verdict >= WithinUpTo || f.Accepted != nil {
			continue
		}
		u := Unsettled{At: ev.alike(v, f), Finding: f.Key, Verdict: f.Verdict, Whose: f.Whose(v), Short: []say.Line{f.Short}}
		same := slices.IndexFunc(all, func(o Unsettled) bool { return o.Finding == u.Finding && slices.Equal(o.At, u.At) })
		if same < 0 {
			all = append(all, u)
			continue
		}
		o := &all[same]
		o.Verdict, o.Short = min(o.Verdict, u.Verdict), append(o.Short, f.Short)
	}
	return all
}

// Binding is the first valve whose coils touch or may, whether somebody accepted that or not; nil where none does.
func (ev *Evaluation) Binding() *Valve {
	for i := range ev.Valves {
		v := &ev.Valves[i]
		if slices.ContainsFunc(v.Findings, func(f Finding) bool { return f.Verdict == Binds && !f.Note }) {
			return v
		}
	}
	return nil
}

// alike are the valves that a listed finding is of.
func (ev *Evaluation) alike(v *Valve, f Finding) []record.Position {
	if f.shared.Zero() {
		return []record.Position{v.At}
	}
	var all []record.Position
	for i := range ev.Valves {
		o := &ev.Valves[i]
		if o.Role == v.Role && slices.ContainsFunc(o.Findings, func(g Finding) bool { return reflect.DeepEqual(g.shared, f.shared) }) {
			all = append(all, o.At)
		}
	}
	return all
}
