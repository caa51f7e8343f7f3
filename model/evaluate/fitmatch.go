package evaluate

import (
	"slices"
	"strings"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// stemsApart is how far the stem that locks or a retainer are made for may lie from the valve's before it is
// another one: nominal sizes lie a 32nd of an inch or a millimetre apart, and stems are under them by some
// thousandths. A rule of this program, no published source.
const stemsApart = 10 * unit.Thou

// matches are the things of which two parts must have the same.
func (p FitParts) matches() []Fit {
	var all []Fit
	add := func(key string, note bool, args ...any) {
		all = append(all, Fit{Key: "fit-" + key, Note: note, What: say.New("fit.what." + key),
			Line: func(label any) say.Line { return say.New("finding.fit."+key, append([]any{label}, args...)...) }})
	}
	angles, stems, grooves := p.held()
	if a, b, differ := apartBy(angles, func(x, y string) bool { return number(x) != number(y) }); differ {
		add("angle", false, a.of, a.value, b.of, b.value)
	}
	if a, b, differ := apartBy(stems, func(x, y unit.Quantity) bool { return distance(x.Length(), y.Length()) > stemsApart }); differ {
		add("stem", false, a.of, a.value, b.of, b.value)
	}
	if a, b, differ := apartBy(grooves, func(x, y record.Groove) bool { return x != y }); differ {
		add("groove", false, a.of, say.New("fit.groove."+string(a.value)), b.of, say.New("fit.groove."+string(b.value)))
	}
	if p.Retainer != nil && strings.Contains(strings.ToLower(p.Retainer.Material), "titanium") && flatDamper(p.Spring) {
		add("titanium", false)
	}
	if p.Material == record.Aluminium && p.Spring != nil && p.Locator == nil {
		add("aluminium", true)
	}
	if p.Rules != nil && p.Locks != nil && p.Locks.Angle != "" && len(p.Rules.LockAngles) > 0 &&
		!slices.ContainsFunc(p.Rules.LockAngles, func(a string) bool { return number(a) == number(p.Locks.Angle) }) {
		add("angle-unmet", true, p.Locks.Angle)
	}
	if p.Rules != nil && p.Locks != nil && p.Locks.Offset != nil && p.Locks.Offset.Value != 0 && unmet(*p.Locks.Offset, p.Rules.LockOffsets) {
		add("offset-unmet", true, *p.Locks.Offset)
	}
	if p.Rules != nil && p.Needs != nil && p.Needs.Boss != nil && unmet(*p.Needs.Boss, p.Rules.Bosses) {
		add("boss-unmet", true, *p.Needs.Boss)
	}
	return all
}

// asMet is how far a size may lie from a nominal one and still be that: what a caliper is off, and a boss that was cut.
// A rule of this program, no published source.
const asMet = 3 * unit.Thou

// unmet reports whether a size is none of those that a rule names. A rule that names none says nothing.
func unmet(q unit.Quantity, met []unit.Quantity) bool {
	return len(met) > 0 && !slices.ContainsFunc(met, func(m unit.Quantity) bool { return distance(m.Length(), q.Length()) <= asMet })
}

// grooveNotes say once how locks hold that the set-up uses, for what is looked at differs between the two kinds
// (common practice, no published source).
func (b *bench) grooveNotes(ev *Evaluation) {
	for _, groove := range []record.Groove{record.SingleGroove, record.MultiGroove} {
		var roles []say.Line
		for _, role := range []record.Role{record.Intake, record.Exhaust} {
			if l := b.locks[b.packages[role].Locks]; l != nil && l.Groove == groove {
				roles = append(roles, roleName(role))
			}
		}
		if len(roles) > 0 {
			ev.Notes = append(ev.Notes, say.New("note.groove."+string(groove), roles))
		}
	}
}

// of is what one part has of something that another must have too.
type of[T any] struct {
	of    say.Line
	value T
}

// held gathers angles, stems and grooves of the parts that say them.
func (p FitParts) held() (angles []of[string], stems []of[unit.Quantity], grooves []of[record.Groove]) {
	add := func(who, angle string, stem *unit.Quantity, groove record.Groove) {
		name := say.New("fit." + who)
		if angle != "" {
			angles = append(angles, of[string]{name, angle})
		}
		if stem != nil {
			stems = append(stems, of[unit.Quantity]{name, *stem})
		}
		if groove != "" {
			grooves = append(grooves, of[record.Groove]{name, groove})
		}
	}
	if v := p.Valve; v != nil {
		add("valve", v.Angle, v.Stem, v.Groove)
	}
	if l := p.Locks; l != nil {
		add("locks", l.Angle, l.Stem, l.Groove)
	}
	if r := p.Retainer; r != nil {
		add("retainer", r.Angle, r.Stem, r.Groove)
	}
	return angles, stems, grooves
}

// apartBy is the first pair that differs.
func apartBy[T any](all []of[T], differ func(x, y T) bool) (a, b of[T], found bool) {
	for i := range all {
		for _, other := range all[i+1:] {
			if differ(all[i].value, other.value) {
				return all[i], other, true
			}
		}
	}
	return a, b, false
}

func flatDamper(s *record.Spring) bool {
	return s != nil && slices.ContainsFunc(s.Coils, func(c record.Coil) bool {
		return c.Acts == record.Damps && c.Wire != nil && c.Wire.Section == record.Flat
	})
}
