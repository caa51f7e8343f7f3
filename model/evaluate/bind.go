package evaluate

import (
	"keeperbook/model/measure"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// bound is a bind height with what it rests on.
type bound struct {
	Figure
	proven bool
	apart  []apart // repeats that lie further apart than their gauge scatters
}

// coils lays out the coils of a valve's spring with their binds, steps and heights. Coil by coil where
// every coil has a bind; else the spring counts as one coil, where it was measured as one on the very
// retainer and locator of this valve; else coil by coil with what is missing.
func (b *bench) coils(v *Valve, f *fitted) {
	if f.spring == nil || len(f.spring.Coils) == 0 {
		v.need(Need{What: "need.spring"})
		return
	}
	binds := make([]bound, len(f.spring.Coils))
	complete := true
	for i := range f.spring.Coils {
		binds[i] = b.bindOf(v.At, f, i+1)
		complete = complete && binds[i].Known
	}
	if !complete {
		if whole, ok := b.assembly(v, f); ok {
			v.Coils = []Coil{{Index: 1, Name: "assembly", Bind: whole.Figure, Proven: whole.proven}}
			b.apartFinding(v, whole.apart)
			b.finishCoil(v, f, &v.Coils[0], false)
			return
		}
		for i := range binds {
			if !binds[i].Known {
				binds[i] = bindOfTurns(&f.spring.Coils[i], f.spring.Name)
			}
		}
	}
	v.Coils = make([]Coil, len(binds))
	for i := range binds {
		c := &v.Coils[i]
		*c = Coil{Index: i + 1, Name: f.spring.Coils[i].Name, Bind: binds[i].Figure, Proven: binds[i].proven}
		b.apartFinding(v, binds[i].apart)
		if !c.Bind.Known {
			v.need(Need{Kind: record.BindReading, What: "need.bind", Coil: i + 1, Name: c.Name})
		}
		b.finishCoil(v, f, c, len(binds) > 1)
	}
}

// finishCoil gives a coil its installed height and its least margin.
func (b *bench) finishCoil(v *Valve, f *fitted, c *Coil, several bool) {
	if l, ok := f.leastFor(c); ok {
		c.Least = known(l.Margin.Length(), "", func() say.Line {
			return say.New("work.least", ofCoil("least", c, several), l.Margin, leastFrom(l))
		})
	} else {
		v.need(Need{What: "need.least", Coil: c.Index, Name: c.Name})
	}
	steps, unsaid := stepsOf(f, c)
	for _, what := range unsaid {
		v.need(Need{What: what, Coil: c.Index, Name: c.Name})
	}
	if len(unsaid) > 0 || !v.Height.Known {
		return
	}
	from, outerOnly := v.Height.Value, unit.Length(0)
	if c.Index > 1 {
		// The outer coil's height, measured or computed, with the shims that only it stands on given back.
		all, inner := stackHeights(f.Stack)
		outerOnly = all - inner
	}
	h := measure.CoilHeightFromCheck(from, outerOnly, steps.retainer, steps.locator)
	// Steps and shims that cancel each other out are known no better for that: only where there are none is it the same height.
	if c.Index == 1 || steps == (ends{}) && !f.Lies(record.UnderOuter) {
		c.Height = known(h, v.Height.Mark, func() say.Line {
			return say.New("work.plain", ofCoil("installed", c, several), h)
		}).like(v.Height)
		return
	}
	c.Height = known(h, Computed, func() say.Line {
		return is(ofCoil("installed", c, several), minus(plus(from, outerOnly), steps.retainer, steps.locator), h)
	})
	if sum, ok := v.Height.sum(); ok {
		sum = f.shimTerms(less(sum, nil), 1, underOuterOnly)
		c.Height = c.Height.on(b, b.stepTerms(sum, -1, f, c.Index))
	}
}

// ends are the steps of retainer and locator under one coil.
type ends struct{ retainer, locator unit.Length }

// stepsOf returns what the two ends take from a coil's room, and which of them does not say it: a
// nought is never guessed, and the coil's height stays unknown.
func stepsOf(f *fitted, c *Coil) (e ends, unsaid []string) {
	if c.Index == 1 {
		return e, nil
	}
	ok := false
	if f.retainer != nil {
		e.retainer, ok = stepOf(f.retainer.Steps, c.Index)
	}
	if !ok {
		unsaid = append(unsaid, "need.retainer-step")
	}
	// A head may have no locator, or one with a flat floor: then there is no step to take off.
	if f.locator != nil && len(f.locator.Steps) > 0 {
		if e.locator, ok = stepOf(f.locator.Steps, c.Index); !ok {
			unsaid = append(unsaid, "need.locator-step")
		}
	}
	return e, unsaid
}

// bindOf is the bind of one coil at a position, from the first that there is: a reading on this
// position (of the spring that is on it now), the tagged spring, the spring type.
func (b *bench) bindOf(at record.Position, f *fitted, coil int) bound {
	var here []*record.Reading
	for _, r := range b.readings[place{at, record.BindReading, coil}] {
		if r.Piece == f.Spring || r.Piece == "" && f.Spring == "" {
			here = append(here, r)
		}
	}
	if len(here) > 0 {
		return b.bindRead(here, at)
	}
	if f.piece != nil {
		for i := range f.piece.Binds {
			if p := &f.piece.Binds[i]; p.Coil == coil {
				return b.bindFigure(&p.Bind, f, false)
			}
		}
	}
	if c := f.spring.Coils[coil-1]; c.Bind != nil {
		return b.bindFigure(c.Bind, f, true)
	}
	return bound{}
}

// bindRead is a bind that was read on the very spring.
func (b *bench) bindRead(here []*record.Reading, at record.Position) bound {
	return bound{mean(here).on(b, b.readingsSum(here, at)), true, b.repeatsApart(here)}
}

// bindFigure is the bind of a single spring, or of a type of which another spring is fitted.
func (b *bench) bindFigure(bind *record.Bind, f *fitted, ofType bool) bound {
	fig := known(corrected(record.BindReading, bind.Reading, bind.Correction), "", func() say.Line {
		line := correctedLine(record.BindReading, bind.Reading, bind.Correction)
		of := say.New("bind.of-type", f.spring.Name)
		if !ofType {
			of = say.New("bind.of-piece", f.piece.Tag)
		}
		return say.New("bind.from", line, of, say.New("source."+string(bind.Source)))
	})
	if bind.Source == record.Estimated {
		fig.Mark = Estimate
		return bound{fig, false, nil}
	}
	return bound{fig.on(b, b.bindSum(bind, f, ofType)), true, nil}
}

// bindOfTurns is where a coil that nobody measured is solid by its turns and wire: an estimate, on which nothing is
// called within.
func bindOfTurns(c *record.Coil, spring string) bound {
	w, ok := woundOf(c)
	if !ok {
		return bound{}
	}
	solid := unit.Length(w.spring.Solid(w.ends))
	if solid <= 0 || solid >= w.free {
		return bound{}
	}
	return bound{known(solid, Estimate, func() say.Line { return say.New("work.bind-geometry", solid, spring) }), false, nil}
}

// assembly is the bind of the spring measured as one, if both ends carried this valve's parts. Bare
// ends count only where the valve's own parts have no steps to carry.
func (b *bench) assembly(v *Valve, f *fitted) (bound, bool) {
	now := record.Over{Retainer: f.over.Retainer, Locator: f.over.Locator}
	var here []*record.Reading
	for _, r := range b.readings[place{v.At, record.BindReading, 0}] {
		if r.Over != nil && r.Over.Retainer == now.Retainer && r.Over.Locator == now.Locator && r.Piece == f.Spring {
			here = append(here, r)
		}
	}
	if len(here) > 0 {
		return b.bindRead(here, v.At), true
	}
	a := f.spring.Assembly
	if a == nil || a.Bind == nil {
		return bound{}, false
	}
	if a.Retainer != now.Retainer || a.Locator != now.Locator {
		v.need(Need{What: "need.assembly", Coil: 0})
		return bound{}, false
	}
	return b.bindFigure(a.Bind, f, true), true
}

// leastFor is the least margin that a coil must keep. Of a spring measured as one nobody knows which coil touches first, so that
// it keeps the greatest least margin of its coils.
func (f *fitted) leastFor(c *Coil) (most record.Least, ok bool) {
	if c.Name != "assembly" {
		return leastOf(f.pack, c.Index)
	}
	for coil := range f.spring.Coils {
		if l, said := leastOf(f.pack, coil+1); said && (!ok || l.Margin.Value > most.Margin.Value) {
			most, ok = l, true
		}
	}
	return most, ok
}

func leastOf(p record.Package, coil int) (record.Least, bool) {
	for _, l := range p.Least {
		if l.Coil == coil {
			return l, true
		}
	}
	return record.Least{}, false
}

func leastFrom(l record.Least) say.Line {
	if l.From == "" {
		return say.New("from.unsaid")
	}
	return say.New("expr.one", l.From)
}
