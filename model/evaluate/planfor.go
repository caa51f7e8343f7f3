package evaluate

import (
	"cmp"
	"math"
	"slices"

	"keeperbook/model/budget"
	"keeperbook/model/plan"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// PlanFor is what a plan of a head is to be made from.
type PlanFor struct {
	Mode    plan.Mode
	Springs []record.SpringPiece // on hand: on the shelf and on this head
	Shelf   []ShelfShim
	Most    plan.Most // nought: three shims, as thick as the shop's sizes make them
	// Others are the records of other heads that share springs and shims with this one: those of its engine. Their parts
	// and gauges are those of this one.
	Others []*record.Record
}

// ShelfShim is a kind of shim and how many of it lie on the shelf.
type ShelfShim struct {
	record.StockShim
	Count   int
	Counted bool // where nobody counted them there are as many as it takes
}

// Planning is a head with everything that could go on it, from which a plan is made. It belongs to one goroutine.
type Planning struct {
	Problem plan.Problem
	Notes   []say.Line // what the plan takes for granted

	heads   []planHead
	at      []planAt     // of each valve of the problem
	springs []planSpring // of each spring of the problem
	sizes   []planSize   // of each size of shim of the problem
	outer   []ShelfShim  // kinds for under the outer coil only, to which those that come out go back
	unknown record.Shim  // the shim whose thickness is known least of all that there are
	cells   map[planKey]*planCell
}

// planHead is one head that is planned for.
type planHead struct {
	rec *record.Record
	b   *bench
}

// planAt is a valve of one of the heads.
type planAt struct {
	head int
	record.Position
}

// planSpring is a single spring, or what is on a valve that carries no tagged one.
type planSpring struct {
	piece *record.SpringPiece // nil: a spring of the valve's own type
	on    int                 // the only valve that an untagged one can be on
}

// planSize is all shims of one thickness: those that lie in the head and those on the shelf.
type planSize struct {
	thick unit.Length
	kinds []ShelfShim
	worst record.Shim // as one of them that is known least counts
}

// NewPlanning lays a plan out. It refuses (say.Invalid) a head of which a plan takes what nobody measured; what
// [plan.Solve] refuses besides is refused there.
func NewPlanning(rec *record.Record, from PlanFor) (*Planning, error) {
	p := &Planning{cells: map[planKey]*planCell{}}
	for _, r := range append([]*record.Record{rec}, from.Others...) {
		// A bind that was read on a valve counts as long as its spring is on it.
		p.heads = append(p.heads, planHead{r, trying(r, record.CheckHeight, record.SeatLoad)})
	}
	p.Problem.Mode, p.Problem.Together, p.unknown.Under = from.Mode, len(p.heads) > 1, record.UnderLocator
	p.Problem.Fit = p.fit
	for _, q := range rec.Setup.Rules.LockOffsets {
		p.Problem.Locks = append(p.Problem.Locks, q.Length())
	}
	if err := p.valves(); err != nil {
		return nil, err
	}
	p.onHand(from)
	p.shims(from)
	p.Problem.Most = from.Most
	if p.Problem.Most.Shims == 0 {
		p.Problem.Most.Shims = MostShims
	}
	if p.Problem.Most.Total == 0 {
		thickest := unit.Length(0)
		for _, s := range p.sizes {
			thickest = max(thickest, s.thick)
		}
		p.Problem.Most.Total = unit.Length(p.Problem.Most.Shims) * thickest
	}
	p.seals()
	return p, p.springsKnown()
}

// planRole is what valves aim at together: a role, and the seat load that is wanted.
type planRole struct {
	record.Role
	target plan.Given[unit.Load]
}

// valves are those of the heads with what each aims at, in their order.
func (p *Planning) valves() error {
	roles := map[planRole]int{}
	var guessed []say.Line
	for h, head := range p.heads {
		for _, at := range head.rec.Head.Positions() {
			label := p.label(planAt{h, at})
			pack := head.b.packages[at.Role]
			aims := planRole{Role: at.Role}
			if band := pack.SeatLoad; band != nil && band.Target != nil {
				aims.target = plan.Give(unit.Load(band.Target.Value))
			}
			role, ok := roles[aims]
			if !ok {
				role = len(p.Problem.Roles)
				roles[aims] = role
				p.Problem.Roles = append(p.Problem.Roles, plan.Role{Name: say.Chosen().Line(roleName(at.Role)), Load: aims.target})
			}
			var v Valve
			v.At, v.Governing = at, -1
			f := head.b.fit(at)
			head.b.heights(&v, f)
			head.b.lift(&v, f)
			_, least := leastOf(pack, 1)
			switch {
			case !v.Base.Known:
				return say.Fail(say.Invalid, "plan.base", label)
			case !v.Lift.Known:
				return say.Fail(say.Invalid, "plan.lift", label)
			case !least:
				return say.Fail(say.Invalid, "plan.least", roleName(at.Role))
			case v.Lift.Mark == Estimate:
				guessed = append(guessed, say.New("plan.name", label))
			}
			needs := &head.b.setup.Needs
			p.Problem.Valves = append(p.Problem.Valves, plan.Valve{
				Name: label, Head: h, Role: role, Base: v.Base.Value, Seat: bandOf(pack.SeatLoad, nil, nil),
				Open: bandOf(pack.OpenLoad, needs.LifterMost, needs.CamMost),
			})
			p.at = append(p.at, planAt{h, at})
		}
	}
	if len(guessed) > 0 {
		p.Notes = append(p.Notes, say.New("plan.note.lift", guessed))
	}
	return nil
}

// label is what a valve is called: with its head where there are several.
func (p *Planning) label(at planAt) string {
	head := &p.heads[at.head].rec.Head
	if len(p.heads) > 1 {
		return head.Tag + " " + head.Label(at.Position)
	}
	return head.Label(at.Position)
}

// bench is what a valve is worked out on, and fitted what is on it now.
func (p *Planning) bench(at planAt) *bench { return p.heads[at.head].b }

func (p *Planning) fitted(at planAt) record.Valve { return p.bench(at).valves[at.Position] }

// bandOf is what a load may be: between what was asked for, and not above what a maker allows.
func bandOf(b *record.Band, makers ...*unit.Quantity) (band plan.Band) {
	if b != nil && b.Least != nil {
		band.Least = plan.Give(unit.Load(b.Least.Value))
	}
	if b != nil && b.Most != nil {
		band.Most = plan.Give(unit.Load(b.Most.Value))
	}
	for _, most := range makers {
		if most != nil && (!band.Most.Known || unit.Load(most.Value) < band.Most.Value) {
			band.Most = plan.Give(unit.Load(most.Value))
		}
	}
	return band
}

// onHand are the springs that may be used: the tagged ones, or what is on each valve where springs stay.
func (p *Planning) onHand(from PlanFor) {
	taken := map[string]bool{}
	add := func(name string, s planSpring, on int) {
		p.springs = append(p.springs, s)
		p.Problem.Springs = append(p.Problem.Springs, plan.Spring{Name: name, On: on})
	}
	for i, at := range p.at {
		valve := p.fitted(at)
		if valve.Spring != "" {
			if piece := p.bench(at).pieces[valve.Spring]; piece != nil {
				taken[valve.Spring] = true
				add(piece.Tag, planSpring{piece: piece}, i)
			}
			continue
		}
		if from.Mode != plan.Both && p.bench(at).packages[at.Role].Spring != "" {
			add(p.Problem.Valves[i].Name, planSpring{on: i}, i)
		}
	}
	// What is on one head may go on another.
	defer func() {
		for _, s := range p.springs {
			for h := range p.heads {
				if s.piece != nil {
					p.heads[h].b.pieces[s.piece.Tag] = s.piece
				}
			}
		}
	}()
	if from.Mode != plan.Both {
		return
	}
	goes := func(spring string) bool {
		return slices.ContainsFunc(p.at, func(at planAt) bool {
			own := p.bench(at).packages[at.Role].Spring
			return own == "" || own == spring
		})
	}
	for i := range from.Springs {
		piece := &from.Springs[i]
		if !taken[piece.Tag] && goes(piece.Spring) {
			add(piece.Tag, planSpring{piece: piece}, plan.Nowhere)
		}
	}
}

// shims gathers the sizes: what lies in the head comes out of it first.
func (p *Planning) shims(from PlanFor) {
	size := func(s record.Shim) *planSize {
		thick := s.Thickness.Length()
		at := slices.IndexFunc(p.sizes, func(o planSize) bool { return o.thick == thick })
		if at < 0 {
			at = len(p.sizes)
			p.sizes = append(p.sizes, planSize{thick: thick, worst: s})
			p.Problem.Shims = append(p.Problem.Shims, plan.Shim{Thick: thick})
		}
		p.know(s)
		if p.heads[0].b.gauges[s.Gauge] == nil {
			p.sizes[at].worst = s
		}
		return &p.sizes[at]
	}
	count := func(s record.Shim, n int) {
		one := size(s)
		at := slices.IndexFunc(p.Problem.Shims, func(o plan.Shim) bool { return o.Thick == one.thick })
		p.Problem.Shims[at].Count += n
	}
	for _, at := range p.at {
		for _, s := range p.fitted(at).Stack {
			if s.Under == record.UnderLocator && s.Thickness.Value > 0 {
				count(s, 1)
			}
		}
	}
	enough := len(p.at) * max(MostShims, from.Most.Shims)
	var uncounted []say.Line
	for _, kind := range from.Shelf {
		if kind.Under != record.UnderLocator {
			p.outer = append(p.outer, kind)
			continue
		}
		one := size(kind.Shim())
		one.kinds = append(one.kinds, kind)
		if kind.Counted {
			count(kind.Shim(), kind.Count)
			continue
		}
		uncounted = append(uncounted, say.New("expr.one", kind.Thick()))
		count(kind.Shim(), enough)
	}
	if len(from.Shelf) == 0 {
		for _, q := range p.heads[0].rec.Setup.Rules.Sizes {
			s := record.Shim{Thickness: q, Under: record.UnderLocator}
			count(s, enough)
		}
		p.Notes = append(p.Notes, say.New("plan.note.shelf"))
	}
	if len(uncounted) > 0 {
		p.Notes = append(p.Notes, say.New("plan.note.uncounted", uncounted))
	}
	p.sortSizes()
}

// sortSizes puts the sizes in order of thickness, so that the same shelf makes the same plan.
func (p *Planning) sortSizes() {
	slices.SortFunc(p.sizes, func(a, b planSize) int { return cmp.Compare(a.thick, b.thick) })
	slices.SortFunc(p.Problem.Shims, func(a, b plan.Shim) int { return cmp.Compare(a.Thick, b.Thick) })
}

// know keeps the shim of which least is known: one that was sold so, else the one whose gauge tells least.
func (p *Planning) know(s record.Shim) {
	doubt := func(s record.Shim) float64 {
		b := p.heads[0].b
		if b.gauges[s.Gauge] == nil {
			return math.Inf(1)
		}
		sure, err := (budget.Sum{{C: 1, X: b.shimInputs([]record.Shim{s})[0].x}}).Budget()
		if err != nil {
			return math.MaxFloat64
		}
		return sure.Std
	}
	if p.unknown.Thickness.Value == 0 || doubt(s) > doubt(p.unknown) {
		p.unknown = s
	}
}

// seals notes where a seal that rises with the shims sets how thick they may be, or is too near without any.
func (p *Planning) seals() {
	var limited, near []say.Line
	for i, v := range p.Problem.Valves {
		for j := range p.springs {
			c := p.cell(planKey{i, j, 0})
			if c.seal == nil {
				continue
			}
			if c.seal.near {
				near = append(near, say.New("plan.name", v.Name))
			} else if c.seal.room < p.Problem.Most.Total {
				limited = append(limited, say.New("plan.note.seal-of", v.Name, p.bench(p.at[i]).promise(c.seal.room)))
			}
			break
		}
	}
	if len(limited) > 0 {
		p.Notes = append(p.Notes, say.New("plan.note.seal", limited))
	}
	if len(near) > 0 {
		p.Notes = append(p.Notes, say.New("plan.note.seal-near", near))
	}
}

// springsKnown refuses springs of which nothing is known that the plan takes: where none is solid or, where loads are to
// come out even, what any of them carries.
func (p *Planning) springsKnown() error {
	if len(p.springs) == 0 {
		return nil
	}
	bound, loaded := false, p.Problem.Mode == plan.Heights
	for i := range p.at {
		for j := range p.springs {
			c := p.cell(planKey{i, j, 0})
			bound = bound || c.bound
			loaded = loaded || c.curve != nil && c.curve.up != nil
		}
	}
	switch {
	case !bound:
		return say.Fail(say.Invalid, "plan.binds")
	case !loaded:
		return say.Fail(say.Invalid, "plan.loads")
	}
	return nil
}
