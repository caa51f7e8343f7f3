package evaluate

import (
	"slices"

	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// OverNow returns what a reading taken now at this position would be measured over. Whoever keeps a
// reading keeps this with it ([Trim] takes out what its kind does not depend on); the reading is stale
// once the two differ.
func OverNow(rec *record.Record, at record.Position) record.Over {
	v, p := rec.ValveAt(at), rec.PackageOf(at.Role)
	var offset, seat unit.Length
	for _, l := range rec.Parts.Locks {
		if l.ID == first(v.Locks, p.Locks) && l.Offset != nil {
			offset = l.Offset.Length()
		}
	}
	for _, w := range rec.Setup.SeatWork {
		if w.At == at {
			seat += w.Depth.Length()
		}
	}
	return overOf(v, p, offset, seat)
}

func overOf(v record.Valve, p record.Package, offset, seat unit.Length) record.Over {
	return record.Over{
		Stack: v.Stack, Locks: first(v.Locks, p.Locks), Offset: offset, Retainer: first(v.Retainer, p.Retainer),
		Locator: first(v.Locator, p.Locator), Valve: first(v.Valve, p.Valve), Seat: seat,
	}
}

// Trim returns the part of over that a reading of this kind depends on, nil for a kind that depends
// on nothing that is fitted.
func Trim(kind record.Kind, over record.Over) *record.Over {
	switch kind {
	case record.CheckHeight, record.SeatLoad:
	case record.BaseHeight, record.RetainerDepth:
		over.Stack = nil
	case record.SealGap, record.Room:
		over.Stack, over.Locator = nil, ""
	case record.SeatDepth:
		over = record.Over{Locator: over.Locator}
	case record.Tip, record.LashFound, record.LashLeft:
		over = record.Over{Valve: over.Valve, Seat: over.Seat}
	case record.BindReading:
		over = record.Over{Retainer: over.Retainer, Locator: over.Locator}
	default:
		return nil
	}
	return &over
}

// changes names what differs between then and now, as keys of words: "over.shims", "over.locks", …
func changes(then, now *record.Over) []string {
	var keys []string
	add := func(differs bool, key string) {
		if differs {
			keys = append(keys, key)
		}
	}
	add(!slices.EqualFunc(then.Stack, now.Stack, sameShim), "over.shims")
	add(then.Locks != now.Locks || then.Offset != now.Offset, "over.locks")
	add(then.Retainer != now.Retainer, "over.retainer")
	add(then.Locator != now.Locator, "over.locator")
	add(then.Valve != now.Valve, "over.valve")
	add(then.Seat != now.Seat, "over.seat")
	return keys
}

func sameShim(a, b record.Shim) bool {
	return a.Thickness.Value == b.Thickness.Value && a.Under == b.Under
}
