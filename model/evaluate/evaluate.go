package evaluate

import (
	"keeperbook/model/record"
)

// Evaluate works out a record. It never fails: what the record does not say is missing in the result.
// The record is not written to; the result keeps pointers into its deviations.
func Evaluate(rec *record.Record) Evaluation {
	b := layOut(rec)
	positions := rec.Head.Positions()
	late := b.late()
	ev := Evaluation{Gauges: b.listGauges(late), Valves: make([]Valve, len(positions)), Tightest: -1}
	for i, at := range positions {
		b.valve(&ev.Valves[i], at)
	}
	ev.shareFits()
	b.unlooked(&ev)
	b.sumUp(&ev)
	b.pastDue(&ev, late)
	return ev
}

// valve works out one position.
func (b *bench) valve(v *Valve, at record.Position) {
	v.At, v.Label, v.Role, v.Governing = at, b.head.Label(at), at.Role, -1
	v.rule = b.doubt.rule
	f := b.fit(at)
	b.heights(v, f)
	b.missingHeights(v)
	b.lift(v, f)
	b.coils(v, f)
	b.margins(v)
	b.judgeBind(v, f)
	b.gaps(v, f)
	b.loads(v, f)
	b.judgeLoads(v, f)
	b.judgeRatedLift(v, f)
	b.judgeFits(v, f)
	b.tipAndLash(v, f)
	b.workBack(v, f)
	b.conclude(v)
}

// missingHeights names what a height still lacks: the base height itself, or the half of it that was
// not taken where it is measured by difference.
func (b *bench) missingHeights(v *Valve) {
	if !v.StackSaid {
		v.need(Need{What: "need.shims"})
	}
	if v.Base.Known {
		return
	}
	seat, top := b.take(v.At, record.SeatDepth, 0).Known, b.take(v.At, record.RetainerDepth, 0).Known
	switch {
	case seat && top:
		v.need(Need{What: "need.lid"})
	case seat:
		v.need(Need{Kind: record.RetainerDepth, What: "need.retainer-depth"})
	case top:
		v.need(Need{Kind: record.SeatDepth, What: "need.seat-depth"})
	default:
		v.need(Need{Kind: record.BaseHeight, What: "need.base"})
	}
}
