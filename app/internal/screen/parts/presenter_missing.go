package parts

import (
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
			l := Link{Text: p.say("parts.lacks", say.New("role."+string(v.Role)), n.Line())}
			l.To, l.Field = p.target(v, n, slot, id, own)
			if n.What == "need.assembly" {
				l.Leaf = "valves"
			}
			all = append(all, l)
		}
	}
	return all
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
	v, pack := p.record().ValveAt(at), p.record().PackageOf(at.Role)
	if slot == Spring {
		for _, piece := range p.record().Parts.Pieces {
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
