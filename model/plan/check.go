package plan

import (
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// What a problem stays under. Far more than any shop has on the bench, and little enough that sums
// stay exact and memory does.
const (
	mostValves  = 256
	mostSprings = 1024
	mostOfSize  = 1_000_000
	mostColumns = 4_000_000
	mostValue   = 1 << 50 // mN, tenths of a nanometre
)

// MostUnder is how many shims may be planned under one spring, as model/unit takes them.
const MostUnder = 12

// check refuses what no plan can be made of.
func (p *Problem) check() error {
	for _, check := range []func() error{p.checkCounts, p.checkSprings, p.checkShims, p.checkValves, p.checkSize} {
		if err := check(); err != nil {
			return err
		}
	}
	return nil
}

func refuse(key string, args ...any) error { return say.Fail(say.Invalid, key, args...) }

func (p *Problem) checkCounts() error {
	switch {
	case p.Fit == nil || p.Mode < Both || p.Mode > Heights:
		return say.Fail(say.Internal, "plan.unasked")
	case len(p.Valves) == 0:
		return refuse("plan.no-valves")
	case len(p.Springs) == 0:
		return refuse("plan.no-springs")
	case len(p.Shims) == 0:
		return refuse("plan.no-shims")
	case p.Most.Shims < 1 || p.Most.Shims > MostUnder:
		return refuse("plan.most-shims", p.Most.Shims, MostUnder)
	case p.Most.Total <= 0 || p.Most.Total >= unit.Limit:
		return refuse("plan.most-total", p.Most.Total)
	case p.Step < 0 || p.Step > int64(unit.Limit):
		return refuse("plan.step")
	}
	return nil
}

// checkSprings also sees that every valve has its spring where springs stay.
func (p *Problem) checkSprings() error {
	on := make([]string, len(p.Valves))
	for _, s := range p.Springs {
		switch {
		case s.On == Nowhere:
		case s.On < 0 || s.On >= len(p.Valves):
			return refuse("plan.spring-place", s.Name)
		case on[s.On] != "":
			return refuse("plan.two-springs", on[s.On], s.Name, p.Valves[s.On].Name)
		default:
			on[s.On] = s.Name
		}
	}
	if p.Mode == Both {
		return nil
	}
	fixed := p.home()
	for i, v := range p.Valves {
		if fixed[i] < 0 {
			return refuse("plan.no-spring-on", v.Name)
		}
	}
	return nil
}

// home returns the spring that is on each valve, −1 for none.
func (p *Problem) home() []int {
	home := make([]int, len(p.Valves))
	for i := range home {
		home[i] = -1
	}
	for j, s := range p.Springs {
		if s.On != Nowhere {
			home[s.On] = j
		}
	}
	return home
}

func (p *Problem) checkShims() error {
	known := map[unit.Length]bool{}
	for _, s := range p.Shims {
		switch {
		case s.Thick <= 0 || s.Thick >= unit.Limit:
			return refuse("plan.shim-thick", s.Thick)
		case s.Count < 0:
			return refuse("plan.shim-count", s.Thick, s.Count)
		case s.Count > mostOfSize:
			return refuse("plan.shim-many", s.Thick, s.Count, mostOfSize)
		case known[s.Thick]:
			return refuse("plan.shim-twice", s.Thick)
		}
		known[s.Thick] = true
	}
	return nil
}

func (p *Problem) checkValves() error {
	for _, v := range p.Valves {
		if v.Role < 0 || v.Role >= len(p.Roles) {
			return refuse("plan.valve-role", v.Name)
		}
		if v.Base <= 0 || v.Base >= unit.Limit {
			return refuse("plan.valve-base", v.Name)
		}
		for _, b := range []struct {
			band Band
			key  string
		}{{v.Seat, "plan.seat-band"}, {v.Open, "plan.open-band"}} {
			if b.band.Least.Known && b.band.Most.Known && b.band.Least.Value > b.band.Most.Value {
				return refuse(b.key, v.Name, b.band.Least.Value, b.band.Most.Value)
			}
		}
	}
	for _, r := range p.Roles {
		if off(int64(r.Load.Value)) || off(int64(r.Height.Value)) {
			return refuse("plan.target", r.Name)
		}
	}
	return nil
}

// off reports whether a target is nothing to aim at.
func off(target int64) bool { return target < 0 || target > mostValue }

func (p *Problem) checkSize() error {
	switch {
	case len(p.Valves) > mostValves:
		return refuse("plan.many-valves", len(p.Valves), mostValves)
	case len(p.Springs) > mostSprings:
		return refuse("plan.many-springs", len(p.Springs), mostSprings)
	}
	pairs := len(p.Valves)
	if p.Mode == Both {
		pairs *= len(p.Springs)
	}
	if limit := mostColumns / pairs; ways(len(p.Shims), p.Most.Shims, limit) > limit {
		return refuse("plan.many-stacks", len(p.Shims), p.Most.Shims)
	}
	return nil
}
