package parts

import (
	"slices"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// lack is one thing that the evaluation misses and that is said on this page, whatever the number of
// valves that miss it.
type lack struct {
	role record.Role
	what string
	coil int
	part string
}

// Missing lists what the evaluation misses of the parts, with where it is said. What is measured on the
// head is asked for on the Valves page.
func (p *Presenter) Missing() []Link {
	var all []Link
	seen := map[lack]bool{}
	for _, v := range p.bench.Evaluation().Valves {
		for _, n := range v.Missing {
			slot, ok := slotOf(n.What)
			if !ok {
				continue
			}
			id, own := p.inForce(v.At, slot)
			key := lack{v.Role, n.What, n.Coil, id}
			if seen[key] {
				continue
			}
			seen[key] = true
			l := Link{Text: p.bench.Say("parts.lacks", say.New("role."+string(v.Role)), n.Line())}
			l.To, l.Field = p.target(v, n, slot, id, own)
			if n.What == "need.assembly" {
				l.Leaf = "valves"
			}
			all = append(all, l)
		}
	}
	return all
}

// Asked reports whether the evaluation misses what a field says, or the field names what is missing.
func (p *Presenter) Asked(at Place, field string) bool {
	return slices.ContainsFunc(p.Missing(), func(l Link) bool {
		return l.To == at && (l.Field == field || l.Field == "fitted" && field == newPart)
	})
}

// Onward is what is missing still, for the keyboard to go on to: of the same place the field that comes next
// behind the one given, else the first of the places behind it. False where nothing is; what was passed
// over is not come back to.
func (p *Presenter) Onward(at Place, field string) (Link, bool) {
	missing := p.Missing()
	if i := p.behind(at, field, missing); i >= 0 {
		return missing[i], true
	}
	last := -1
	for i, l := range missing {
		if l.To == at {
			last = i
		}
	}
	if last+1 < len(missing) {
		return missing[last+1], true
	}
	return Link{}, false
}

// behind is the index of the missing field that comes next behind another one of a place, −1 for none.
func (p *Presenter) behind(at Place, field string, missing []Link) int {
	passed := false
	for _, g := range p.Detail(at).Groups {
		for _, f := range g.Fields {
			if i := slices.IndexFunc(missing, func(l Link) bool { return l.To == at && l.Field == f.Name }); passed && i >= 0 {
				return i
			}
			passed = passed || f.Name == field
		}
	}
	return -1
}

// Open is how many of them there are.
func (p *Presenter) Open() int { return len(p.Missing()) }

// slotOf is the part that something missing belongs to; false where it belongs to the valves.
func slotOf(what string) (Slot, bool) {
	switch what {
	case "need.spring", "need.bind", "need.least", "need.assembly":
		return Spring, true
	case "need.retainer-step", "need.lid":
		return Retainer, true
	case "need.locator-step":
		return Locator, true
	}
	return "", false
}

// inForce is the part that a valve carries in a slot, and whether it is its own and not its role's.
func (p *Presenter) inForce(at record.Position, slot Slot) (id string, own bool) {
	v, pack := p.bench.Record().ValveAt(at), p.bench.Record().PackageOf(at.Role)
	if slot == Spring {
		for _, piece := range p.bench.Record().Parts.Pieces {
			if piece.Tag == v.Spring {
				return piece.Spring, piece.Spring != pack.Spring
			}
		}
		return pack.Spring, false
	}
	if id := *differing(&v, slot); id != "" {
		return id, true
	}
	return *fitted(&pack, slot), false
}

// target is the field in which something missing is said.
func (p *Presenter) target(v evaluate.Valve, n evaluate.Need, slot Slot, id string, own bool) (Place, string) {
	at := Place{What: AtSlot, Role: v.Role, Slot: slot}
	if own && n.What != "need.least" {
		at = Place{What: AtPart, Slot: slot, ID: id}
	}
	if id == "" {
		return at, "fitted"
	}
	switch n.What {
	case "need.bind":
		return at, coilField(n.Coil, "bind")
	case "need.least":
		return at, coilField(n.Coil, "least")
	case "need.lid":
		return at, "lid"
	case "need.retainer-step", "need.locator-step":
		return at, "steps"
	}
	return at, "fitted"
}
