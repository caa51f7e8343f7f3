package evaluate

import (
	"slices"
	"sort"

	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// trial is a record laid out to try springs on one valve of a role.
type trial struct {
	b      *bench
	at     record.Position
	pack   record.Package
	valve  record.Valve
	stacks []shimStack // what the shop's sizes make, thinnest first
	v      Valve       // the one that is worked out at the moment
}

// shimStack is one way to make a thickness: the one of fewest shims.
type shimStack struct {
	sum   unit.Length
	sizes []unit.Length
}

// newTrial lays the record out without what belongs to the springs and shims that are there now.
func newTrial(rec *record.Record, role record.Role) *trial {
	t := &trial{b: trying(rec, record.BindReading, record.CheckHeight, record.SeatLoad), stacks: stacksOf(rec.Setup.Rules.Sizes)}
	t.pack = t.b.packages[role]
	t.pack.Role = role
	least, found := unit.Length(0), false
	for _, at := range rec.Head.Positions() {
		if at.Role != role {
			continue
		}
		v := t.alone(at)
		room := v.Base.Value - v.Lift.Value
		if t.at == (record.Position{}) || v.Base.Known && (!found || room < least) {
			t.at = at
			least, found = room, v.Base.Known
		}
	}
	t.valve = t.b.valves[t.at]
	t.valve.At = t.at
	return t
}

// trying lays a record out without the readings that belong to the springs and shims that are there now.
func trying(rec *record.Record, without ...record.Kind) *bench {
	bare := *rec
	bare.Setup.Readings = slices.DeleteFunc(slices.Clone(rec.Setup.Readings), func(r record.Reading) bool { return slices.Contains(without, r.Kind) })
	b := layOut(&bare)
	b.trying, b.tried = true, map[place]taken{}
	return b
}

// alone works out what needs no spring of a valve.
func (t *trial) alone(at record.Position) (v Valve) {
	f := t.b.fit(at)
	t.b.heights(&v, f)
	t.b.lift(&v, f)
	return v
}

// stacksOf lists the thicknesses that at most MostShims shims of these sizes make.
func stacksOf(sizes []unit.Quantity) []shimStack {
	all := map[unit.Length][]unit.Length{0: nil}
	for range MostShims {
		for sum, stack := range cloned(all) {
			for _, s := range sizes {
				if l := s.Length(); l > 0 {
					if had, ok := all[sum+l]; !ok || len(stack)+1 < len(had) {
						all[sum+l] = append(slices.Clone(stack), l)
					}
				}
			}
		}
	}
	stacks := make([]shimStack, 0, len(all))
	for sum, stack := range all {
		slices.SortFunc(stack, func(a, b unit.Length) int { return int(b - a) })
		stacks = append(stacks, shimStack{sum, stack})
	}
	slices.SortFunc(stacks, func(a, b shimStack) int { return int(a.sum - b.sum) })
	return stacks
}

// cloned is a copy to go through while the map grows, in order so that equal sums are made the same way each time.
func cloned(all map[unit.Length][]unit.Length) func(func(unit.Length, []unit.Length) bool) {
	sums := make([]unit.Length, 0, len(all))
	for sum := range all {
		sums = append(sums, sum)
	}
	slices.Sort(sums)
	stacks := make([][]unit.Length, len(sums))
	for i, sum := range sums {
		stacks[i] = all[sum]
	}
	return func(yield func(unit.Length, []unit.Length) bool) {
		for i, sum := range sums {
			if !yield(sum, stacks[i]) {
				return
			}
		}
	}
}

// fit puts a spring of a type and a stack on the valve; no spring where s is nil.
func (t *trial) fit(s *record.Spring, stack shimStack) {
	valve := t.valve
	valve.Spring, valve.Stack, valve.NoShim = "", nil, "none"
	if len(stack.sizes) > 0 {
		valve.NoShim = ""
	}
	for _, l := range stack.sizes {
		valve.Stack = append(valve.Stack, record.Shim{Thickness: t.size(l), Under: record.UnderLocator})
	}
	pack := t.pack
	pack.Spring, pack.Least = "", nil
	if s != nil {
		pack.Spring, pack.Least = s.ID, leastsFor(t.pack, len(s.Coils))
		t.b.springs[s.ID] = s
	}
	t.b.valves[t.at], t.b.packages[t.pack.Role] = valve, pack
	delete(t.b.over, t.at)
}

// on works the valve out with a spring of a type over a stack.
func (t *trial) on(s *record.Spring, stack shimStack) *Valve {
	t.fit(s, stack)
	t.v = Valve{Findings: t.v.Findings[:0]}
	t.b.valve(&t.v, t.at)
	return &t.v
}

// margins works out of the valve, with a spring over no shims, what tells how thick they may be, and judges nothing.
func (t *trial) margins(s *record.Spring) (*Valve, *fitted) {
	t.fit(s, shimStack{})
	t.v = Valve{Findings: t.v.Findings[:0]}
	v := &t.v
	v.At, v.Role, v.Governing = t.at, t.at.Role, -1
	f := t.b.fit(t.at)
	t.b.heights(v, f)
	t.b.lift(v, f)
	t.b.coils(v, f)
	t.b.margins(v)
	t.b.workBack(v, f)
	return v, f
}

// bare works the valve out without a spring.
func (t *trial) bare() *Valve { return t.on(nil, shimStack{}) }

// size is the shop's size as it was entered.
func (t *trial) size(l unit.Length) unit.Quantity {
	for _, s := range t.b.setup.Rules.Sizes {
		if s.Length() == l {
			return s
		}
	}
	return unit.Quantity{}
}

// leastsFor are the least margins of a spring's coils: those that were chosen, and for a coil without one that of
// the outermost.
func leastsFor(p record.Package, coils int) []record.Least {
	outer, ok := leastOf(p, 1)
	if !ok {
		return p.Least
	}
	all := slices.Clone(p.Least)
	for coil := 2; coil <= coils; coil++ {
		if _, ok := leastOf(p, coil); !ok {
			one := outer
			one.Coil = coil
			all = append(all, one)
		}
	}
	return all
}

// target is the seat load that is wanted, nil where nobody set one.
func (t *trial) target() *unit.Load {
	if b := t.pack.SeatLoad; b != nil && b.Target != nil {
		l := unit.Load(b.Target.Value)
		return &l
	}
	return nil
}

// shimmed works a spring out over the shims that suit it. What they leave unproven for the guard of their own
// thickness is taken back a stack at a time.
func (t *trial) shimmed(s *record.Spring) (*Valve, []unit.Length) {
	// Of the type before nothing is asked again.
	clear(t.b.doubt.curves)
	clear(t.b.doubt.binds)
	v, f := t.margins(s)
	at := 0
	if v.ShimNeeded.Known && v.ShimNeeded.Value > 0 {
		w := unit.Length(0)
		if v.Margin.Known && v.Margin.Mark != Estimate {
			w = t.b.guardOf(v.Margin).W
		}
		at = sort.Search(len(t.stacks), func(i int) bool { return t.stacks[i].sum > v.ShimNeeded.Value-w }) - 1
		at = t.byLoad(v, f, max(at, 0))
	}
	const back = 4 // stacks that are tried one below the other
	for tries := 0; ; tries++ {
		v = t.on(s, t.stacks[at])
		if at == 0 || tries == back || !v.nearBind() {
			return v, t.stacks[at].sizes
		}
		at--
	}
}

// nearBind reports whether a valve is kept from being within for nothing but the guard of its margin.
func (v *Valve) nearBind() bool {
	return v.Margin.Known && v.Margin.Mark != Estimate && v.Margin.Value >= v.Least.Value &&
		slices.ContainsFunc(v.Findings, func(f Finding) bool { return f.Key == "bind" && f.Verdict == Unproven })
}

// byLoad is the stack, not above the one given, that the loads ask for: the nearest to the target, or the thickest
// that keeps seat and open load at or below what they may be at most. Loads grow with the stack, so that it is
// found by halving.
func (t *trial) byLoad(v *Valve, f *fitted, most int) int {
	c := t.b.springOn(v, f)
	if c.up == nil || !v.Height.Known {
		return most
	}
	atMost := func(load *unit.Quantity, lift unit.Length, releasing bool) {
		if load == nil {
			return
		}
		on := c.up
		if releasing {
			on = c.back
		}
		n := sort.Search(most+1, func(i int) bool {
			f, err := on.At(v.Height.Value - t.stacks[i].sum - lift)
			return err == nil && f.Load > unit.Load(load.Value)
		})
		most = max(min(most, n-1), 0)
	}
	if b := t.pack.SeatLoad; b != nil {
		atMost(b.Most, 0, true)
	}
	if v.Lift.Known {
		if b := t.pack.OpenLoad; b != nil {
			atMost(b.Most, v.Lift.Value, false)
		}
		atMost(t.b.setup.Needs.LifterMost, v.Lift.Value, false)
		atMost(t.b.setup.Needs.CamMost, v.Lift.Value, false)
	}
	target := t.target()
	if target == nil {
		return most
	}
	off := func(i int) unit.Load {
		f, err := c.back.At(v.Height.Value - t.stacks[i].sum)
		if err != nil {
			return unit.Load(1) << 62
		}
		return missed(Load{Value: f.Load}, target)
	}
	over := sort.Search(most+1, func(i int) bool {
		f, err := c.back.At(v.Height.Value - t.stacks[i].sum)
		return err == nil && f.Load >= *target
	})
	switch {
	case over > most:
		return most
	case over > 0 && off(over-1) <= off(over):
		return over - 1
	}
	return over
}
