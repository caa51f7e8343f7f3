package evaluate

import "keeperbook/model/record"

// Outdated returns the readings of a set-up that no longer say anything of what is on a valve once it became another record: binds
// and seat loads of another type of spring, and seal gaps to another seal, or to one that sits on another locator. What such a
// reading was taken on does not stand with it, as other parts do ([OverNow]), so it has to be struck where the parts change. Readings on a
// single spring say on which; a part that was not named before was the same part.
func Outdated(was, is *record.Record) (all []record.Reading) {
	for _, r := range was.Setup.Readings {
		if r.Struck != nil {
			continue
		}
		before, after := under(was, r.At), under(is, r.At)
		switch r.Kind {
		case record.BindReading, record.SeatLoad:
			if r.Piece == "" && is.ValveAt(r.At).Spring == "" && gone(before.spring, after.spring) {
				all = append(all, r)
			}
		case record.SealGap:
			if gone(before.seal, after.seal) || gone(before.base, after.base) {
				all = append(all, r)
			}
		}
	}
	return all
}

func gone(before, after string) bool { return before != "" && before != after }

// carried are the ids of what a valve carries: its type of spring, its seal, and the locator that the seal sits on.
type carried struct{ spring, seal, base string }

func under(rec *record.Record, at record.Position) carried {
	v, p := rec.ValveAt(at), rec.PackageOf(at.Role)
	c := carried{spring: p.Spring, seal: first(v.Seal, p.Seal)}
	for _, piece := range rec.Parts.Pieces {
		if piece.Tag == v.Spring {
			c.spring = piece.Spring
		}
	}
	for _, s := range rec.Parts.Seals {
		if s.ID == c.seal && s.Sits == record.OnLocator {
			c.base = first(v.Locator, p.Locator)
		}
	}
	return c
}
