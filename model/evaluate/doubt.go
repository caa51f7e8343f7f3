package evaluate

import (
	"slices"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Doubt refuses a reading that cannot be, before it is kept: at a valve that the head does not have, of
// a coil that the spring does not have, a lift longer than the room under the retainer. It returns nil
// or a *say.Error with code Invalid. A reading that is merely bad news is kept and judged.
func Doubt(rec *record.Record, r record.Reading) error {
	if !slices.Contains(rec.Head.Positions(), r.At) {
		return say.Fail(say.Invalid, "doubt.position", rec.Head.Label(r.At), rec.Head.Tag)
	}
	b := layOut(rec)
	f := b.fit(r.At)
	if r.Kind == record.BindReading && f.spring != nil && r.Coil > len(f.spring.Coils) {
		return say.Fail(say.Invalid, "doubt.coil", r.Coil, f.spring.Name, len(f.spring.Coils))
	}
	if r.Kind != record.BindReading && r.Coil != 0 {
		return say.Fail(say.Invalid, "doubt.no-coil", KindName(r.Kind))
	}
	switch r.Kind {
	case record.LiftChecking, record.LiftRunning:
		v := Valve{At: r.At, Label: rec.Head.Label(r.At), Governing: -1}
		b.heights(&v, f)
		room := v.Height
		if !room.Known {
			room = v.Base
		}
		if room.Known && corrected(r.Kind, r.Quantity, r.Correction) >= room.Value {
			return say.Fail(say.Invalid, "doubt.lift", v.Label, r.Quantity,
				StyleOf(rec.Setup.Units).LengthIn(room.Value)+" "+string(rec.Setup.Units.Length))
		}
	}
	return nil
}
