package record

import (
	"math/big"
	"slices"

	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// doubtSetup looks at the rules and the needs that a set-up is kept with. What is wrong with the needs is
// about "needs", everything else is about a rule.
func doubtSetup(s Setup) *say.Error {
	if err := doubtRules(s.Rules); err != nil {
		return err
	}
	n := s.Needs
	err := sized(
		size{say.New("record.need.pocket"), n.Pocket, ""}, size{say.New("record.need.boss"), n.Boss, ""},
		size{say.New("record.need.centres"), n.Centres, ""},
		size{say.New("record.need.lifter"), n.LifterMost, ""}, size{say.New("record.need.cam"), n.CamMost, ""},
	)
	if err != nil {
		return err.About("needs")
	}
	return nil
}

func doubtRules(r Rules) *say.Error {
	// Rules that nobody filled in yet decide nothing.
	if r.Decision != "" && !slices.Contains(Decisions, r.Decision) {
		return invalid("record.decision", string(r.Decision)).About("decision")
	}
	seen := map[GaugeKind]bool{}
	for _, a := range r.Assumed {
		name := say.New("gauge." + string(a.Kind))
		switch {
		case seen[a.Kind]:
			return invalid("record.assumed-twice", name).About("assumed")
		case a.Step.Value <= 0:
			return invalid("record.step", name, written(a.Step)).About("assumed")
		case a.S.Value < 0:
			return invalid("record.scatter", name, written(a.S)).About("assumed")
		}
		seen[a.Kind] = true
	}
	if t := r.ShimTolerance; t != nil && t.Value < 0 {
		return invalid("record.tolerance", written(*t)).About("shimTolerance")
	}
	return doubtLoadRules(r)
}

// doubtLoadRules looks at the rules for loads and fits.
func doubtLoadRules(r Rules) *say.Error {
	if a := r.AssumedLoad; a != nil {
		name := say.New("gauge." + string(SpringTester))
		switch {
		case a.Step.Value <= 0:
			return invalid("record.step", name, written(a.Step)).About("assumedLoad")
		case a.S.Value < 0:
			return invalid("record.scatter", name, written(a.S)).About("assumedLoad")
		}
	}
	if w := r.SeatLoads; w != nil {
		if w.Load.Value < 0 {
			return invalid("record.within", written(w.Load)).About("seatLoads")
		}
		if !share(w.Percent) {
			return invalid("record.percent", w.Percent).About("seatLoads")
		}
	}
	if l := r.LoadLost; l != nil {
		for _, text := range []string{l.Watch, l.Replace} {
			if !share(text) {
				return invalid("record.percent", text).About("loadLost")
			}
		}
		if number(l.Replace).Cmp(number(l.Watch)) < 0 {
			return invalid("record.lost", l.Watch, l.Replace).About("loadLost")
		}
	}
	for _, a := range r.LockAngles {
		if !positive(a) {
			return invalid("record.angle", a).About("lockAngles")
		}
	}
	for i := range r.Bosses {
		if err := sized(size{say.New("record.need.boss"), &r.Bosses[i], ""}); err != nil {
			return err.About("bosses")
		}
	}
	return doubtFits(r.Fits)
}

// share reports whether a text is a percentage that something can lose or differ by.
func share(text string) bool {
	return positive(text) && number(text).Cmp(big.NewRat(100, 1)) <= 0
}

// number is a decimal that [positive] passed.
func number(text string) *big.Rat {
	x, ok := new(big.Rat).SetString(text)
	if !ok {
		return new(big.Rat)
	}
	return x
}

func doubtFits(f *Fits) *say.Error {
	if f == nil {
		return nil
	}
	for _, c := range []*Clearance{f.Boss, f.Pocket, f.Cup, f.Locator, f.Retainer, f.Coils, f.Seal, f.Neighbour} {
		if c != nil && c.Least != nil && c.Most != nil && c.Most.Value < c.Least.Value {
			return invalid("record.clearance", written(*c.Least), written(*c.Most)).About("fits")
		}
	}
	return nil
}

// doubtPackage looks at the bands of loads of a role.
func doubtPackage(p Package) *say.Error {
	if err := doubtBand(say.New("record.band.seat"), p.SeatLoad); err != nil {
		return err.About("seatLoad")
	}
	if err := doubtBand(say.New("record.band.open"), p.OpenLoad); err != nil {
		return err.About("openLoad")
	}
	return nil
}

func doubtBand(name say.Line, b *Band) *say.Error {
	if b == nil {
		return nil
	}
	for _, q := range []*unit.Quantity{b.Least, b.Target, b.Most} {
		if q != nil && q.Value < 0 {
			return invalid("record.band-below", name, written(*q))
		}
	}
	// Of the three, each that is there is no smaller than those before it.
	for _, pair := range [][2]*unit.Quantity{{b.Least, b.Target}, {b.Target, b.Most}, {b.Least, b.Most}} {
		if low, high := pair[0], pair[1]; low != nil && high != nil && high.Value < low.Value {
			return invalid("record.band-order", name, written(*high), written(*low))
		}
	}
	return nil
}
