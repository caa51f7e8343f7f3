package record

import (
	"cmp"
	"slices"

	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// doubtLoads looks at the loads of a spring or of one of its coils. What is off every height alike, and the
// calibration of the tester, change neither which heights are the same nor which load is the greater.
func doubtLoads(spring string, l *Loads) *say.Error {
	if l == nil {
		return nil
	}
	if err := doubtLot(spring, l.Lot, "record.loads-lot-count", "record.loads-lot-spread"); err != nil {
		return err
	}
	for _, p := range l.Points {
		switch {
		case p.Height.Value <= 0:
			return invalid("record.point-height", spring, written(p.Height)).About("loads")
		case p.Load.Value < 0:
			return invalid("record.point-load", spring, written(p.Load)).About("loads")
		case p.Back != nil && p.Back.Value < 0:
			return invalid("record.point-load", spring, written(*p.Back)).About("loads")
		case p.Back != nil && p.Back.Value > p.Load.Value:
			return invalid("record.back", spring, written(p.Height), written(p.Load), written(*p.Back)).About("loads")
		}
	}
	up := slices.SortedStableFunc(slices.Values(l.Points), func(a, b Point) int { return cmp.Compare(a.Height.Value, b.Height.Value) })
	for i := 1; i < len(up); i++ {
		switch low, tall := up[i-1], up[i]; {
		case low.Height.Value == tall.Height.Value:
			return invalid("record.same-height", spring, written(low.Height), written(low.Load), written(tall.Load)).About("loads")
		case low.Load.Value <= tall.Load.Value:
			return invalid("record.falls", spring, written(tall.Load), written(tall.Height), written(low.Load), written(low.Height)).About("loads")
		}
	}
	return nil
}

// doubtWeights looks at the weights that a tester was tried with. The same weight may be put on again and
// show something else; a greater one that shows less is no scale.
func doubtWeights(name say.Line, w Weights, now Stamp) *say.Error {
	if err := doubtDay(name, w.Date); err != nil {
		return err
	}
	switch {
	case toCome(w.Date, now):
		return invalid("record.to-come", name, string(w.Date))
	case w.Degree < 0 || w.Degree > 2:
		return invalid("record.degree", name, w.Degree)
	case w.Gravity != "" && !(positive(w.Gravity) && onGround(w.Gravity)):
		return invalid("record.gravity", name, w.Gravity)
	}
	for _, p := range w.Points {
		if p.Applied.Value < 0 {
			return invalid("record.weight", name, written(p.Applied))
		}
	}
	up := slices.SortedStableFunc(slices.Values(w.Points), func(a, b Weighing) int {
		return cmp.Or(cmp.Compare(a.Applied.Value, b.Applied.Value), cmp.Compare(a.Shown.Value, b.Shown.Value))
	})
	for i := 1; i < len(up); i++ {
		if less, more := up[i-1], up[i]; less.Applied.Value < more.Applied.Value && less.Shown.Value > more.Shown.Value {
			return invalid("record.weights", name, written(less.Shown), written(less.Applied), written(more.Shown), written(more.Applied))
		}
	}
	return nil
}

// onGround reports whether gravity is that of a place on the ground, from some 9.76 on high mountains at
// the equator to 9.84 m/s² at the poles; package spring takes the same.
func onGround(gravity string) bool {
	g := number(gravity)
	return g.Cmp(number("9.76")) >= 0 && g.Cmp(number("9.84")) <= 0
}

// doubtReading looks at what a reading is of. A length in the place of a load would be taken for one of so
// many millinewtons.
func doubtReading(r Reading) *say.Error {
	load := r.Kind.IsLoad()
	switch {
	case r.Quantity.Zero():
		return nil // a reading that was never entered says nothing
	case load != isLoad(r.Quantity):
		return invalid("record.reading-unit", say.New("kind."+string(r.Kind)), written(r.Quantity)).About("quantity")
	case !load && (r.Height != nil || r.Heights != ""):
		return invalid("record.reading-height", say.New("kind."+string(r.Kind))).About("height")
	case load && r.Height == nil && len(r.Correction) > 0:
		return invalid("record.reading-correction", say.New("kind."+string(r.Kind))).About("correction")
	case load && r.Height == nil && r.Heights != "":
		return invalid("record.reading-at-none", say.New("kind."+string(r.Kind))).About("heights")
	case r.Height != nil:
		return sized(size{say.New("record.reading-at", say.New("kind."+string(r.Kind))), r.Height, "height"})
	}
	return nil
}

func isLoad(q unit.Quantity) bool { return q.Unit.Dimension() == unit.OfLoad }
