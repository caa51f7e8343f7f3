package evaluate

import (
	"slices"
	"strings"

	"keeperbook/model/measure"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// taken is a figure that rests on readings, with what has changed since they were taken.
type taken struct {
	Figure
	changed []string        // keys of what is no longer there, empty when the figure holds
	last    *record.Reading // the latest of the readings used
	apart   []apart         // repeats that lie further apart than their gauge scatters
	from    string          // the valve that it was borrowed from, empty where the position has its own
}

// take returns what the readings of a kind say at a position: each corrected by the setting it was
// taken under, then their mean. Where the position has none and the kind was taken once for its
// role, the figure is borrowed from there, and held against what this position carries.
//
// Readings that were taken before something under them changed count only while there is none
// taken after it.
func (b *bench) take(at record.Position, kind record.Kind, coil int) taken {
	if !b.trying {
		return b.takeNow(at, kind, coil)
	}
	key := place{at, kind, coil}
	t, ok := b.tried[key]
	if !ok {
		t = b.takeNow(at, kind, coil)
		b.tried[key] = t
	}
	return t
}

func (b *bench) takeNow(at record.Position, kind record.Kind, coil int) taken {
	mark, from := Mark(""), at
	readings := b.readings[place{at, kind, coil}]
	if len(readings) == 0 {
		shared, ok := b.shared[sharedKey{kind, at.Role}]
		if !ok || shared == at || !Shareable(kind) {
			return taken{}
		}
		readings, mark, from = b.readings[place{shared, kind, coil}], Borrowed, shared
	}
	if len(readings) == 0 {
		return taken{}
	}
	readings, changed := b.holding(readings, kind, at)
	t := taken{changed: changed, last: readings[len(readings)-1], apart: b.repeatsApart(readings)}
	sum := b.readingsSum(readings, from)
	t.Figure = mean(readings)
	t.Mark, t.Stale = mark, len(changed) > 0
	if mark == Borrowed {
		t.from = b.head.Label(from)
		t.Figure = t.also(func() say.Line { return say.New("work.borrowed", KindName(kind), t.from) })
		sum = b.borrow(sum, sharedKey{kind, at.Role}, from)
	}
	t.Figure = t.on(b, sum)
	return t
}

// Shareable reports whether a kind of reading can be taken once for a role. A bind and a load belong to the spring that was
// measured, and a check height is there to hold one valve's own height against.
func Shareable(kind record.Kind) bool {
	return kind != record.BindReading && kind != record.CheckHeight && !kind.IsLoad()
}

// holding picks the readings that hold over what a position carries; where none does it returns those that were taken over
// the same as the latest, and what has changed since.
func (b *bench) holding(readings []*record.Reading, kind record.Kind, at record.Position) ([]*record.Reading, []string) {
	now := b.overNow(at)
	trimmed := Trim(kind, now)
	if trimmed == nil || kind == record.BindReading {
		return readings, nil
	}
	if hold := over(readings, trimmed); len(hold) > 0 {
		return hold, nil
	}
	last := readings[len(readings)-1].Over
	return over(readings, last), changes(last, trimmed)
}

// over picks the readings that were measured over the same, or nobody knows over what.
func over(readings []*record.Reading, same *record.Over) []*record.Reading {
	differs := func(r *record.Reading) bool { return r.Over != nil && len(changes(r.Over, same)) > 0 }
	if !slices.ContainsFunc(readings, differs) {
		return readings
	}
	return slices.DeleteFunc(slices.Clone(readings), differs)
}

// mean corrects each reading and averages them, rounded once.
func mean(readings []*record.Reading) Figure {
	var f Figure
	values := make([]unit.Length, len(readings))
	for i, r := range readings {
		values[i] = corrected(r.Kind, r.Quantity, r.Correction)
		f = f.also(func() say.Line { return correctedLine(r.Kind, r.Quantity, r.Correction) })
	}
	f.Known, f.Value = true, values[0]
	if len(values) > 1 {
		m := unit.Mean(values)
		f.Value = m
		f = f.also(func() say.Line { return say.New("work.mean", KindName(readings[0].Kind), len(values), m) })
	}
	return f
}

// corrected takes off one reading what was in it beside what was to be read, and was not zeroed out.
func corrected(kind record.Kind, q unit.Quantity, parts []record.Taken) unit.Length {
	value := q.Length()
	for _, p := range parts {
		switch {
		case p.Zero == record.Zeroed:
		case reversed(kind, p.Part):
			value = measure.Corrected(value, -p.Amount.Length())
		default:
			value = measure.Corrected(value, p.Amount.Length())
		}
	}
	return value
}

// reversed reports whether a part is added to a reading. In a depth to the retainer's top the parts of
// the stack stand the other way round: the land is further from the datum. What the gauge shows at
// nought is in every reading the same way.
func reversed(kind record.Kind, part record.PartOfStack) bool {
	return kind == record.RetainerDepth && part != record.ZeroOffset
}

// Term returns what a part that was not zeroed out does to a reading as it is written behind it: an
// amount without a sign, and whether it is taken off or added.
func Term(kind record.Kind, t record.Taken) (amount unit.Quantity, off bool) {
	amount, off = t.Amount, !reversed(kind, t.Part)
	if amount.Value < 0 {
		amount.Read, amount.Value = strings.TrimPrefix(amount.Read, "-"), -amount.Value
		off = !off
	}
	return amount, off
}

// Lessen writes a term behind an expression: "1.155 − .095", "1.843 + .001".
func Lessen(expr say.Line, kind record.Kind, t record.Taken) say.Line {
	amount, off := Term(kind, t)
	if off {
		return say.New("expr.minus", expr, amount)
	}
	return say.New("expr.plus", expr, amount)
}

// correctedLine writes what corrected does: "bind height 1.060 ⟵ 1.155 − .095".
func correctedLine(kind record.Kind, q unit.Quantity, parts []record.Taken) say.Line {
	expr, zeroed := say.New("expr.one", q), []say.Line(nil)
	for _, p := range parts {
		if p.Zero == record.Zeroed {
			zeroed = append(zeroed, say.New("stack."+string(p.Part)))
			continue
		}
		expr = Lessen(expr, kind, p)
	}
	line := say.New("work.plain", KindName(kind), q)
	if expr.Key != "expr.one" {
		line = say.New("work.corrected", KindName(kind), corrected(kind, q, parts), expr)
	}
	if len(zeroed) > 0 {
		line = say.New("work.zeroed", line, zeroed)
	}
	return line
}

// predict moves a stale figure by what seat work and lock offset did to it since, where that is all
// that changed. The figure stays stale.
func (b *bench) predict(t taken, at record.Position, move func(measure.Move, unit.Length) unit.Length) taken {
	if !t.Known || len(t.changed) == 0 || t.last.Over == nil {
		return t
	}
	for _, key := range t.changed {
		if key != "over.seat" && key != "over.locks" {
			return t
		}
	}
	now := b.overNow(at)
	moved := move(measure.Move{Seat: now.Seat - t.last.Over.Seat, Offset: now.Offset - t.last.Over.Offset}, t.Value)
	t.Figure = moveLine(t, moved)
	t.Value, t.Mark = moved, Predicted
	t.Figure = t.unsure()
	return t
}

func moveLine(t taken, moved unit.Length) Figure {
	key := "work.predicted"
	if t.from != "" {
		key = "work.predicted.borrowed"
	}
	was, kind := t.Value, t.last.Kind
	return t.also(func() say.Line { return say.New(key, KindName(kind), plus(was, moved-was), moved) })
}
