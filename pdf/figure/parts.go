package figure

import (
	"slices"

	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// Parts are the heights of the parts in a valve's stack. Nil is not known, and is left out of a drawing.
type Parts struct {
	Lid           *unit.Length    // retainer above its outer land
	Floor         *unit.Length    // locator under the outer coil
	RetainerSteps []unit.Length   // from the outer land down to the land of coil 2, 3, …
	LocatorSteps  []unit.Length   // rise of the land of coil 2, 3, … over the outer land
	SealOn        record.SealSeat // "" where there is no seal
}

// PartsOf returns the parts of a position: those of the valve's own, else those of its role's package.
func PartsOf(r *record.Record, at record.Position) Parts {
	var pack record.Package
	for _, p := range r.Setup.Packages {
		if p.Role == at.Role {
			pack = p
		}
	}
	var own record.Valve
	for _, v := range r.Setup.Valves {
		if v.At == at {
			own = v
		}
	}
	var parts Parts
	if t, ok := find(r.Parts.Retainers, own.Retainer, pack.Retainer); ok {
		parts.Lid, parts.RetainerSteps = length(t.Lid), lengths(t.Steps)
	}
	if t, ok := find(r.Parts.Locators, own.Locator, pack.Locator); ok {
		parts.Floor, parts.LocatorSteps = length(t.Floor), lengths(t.Steps)
	}
	if t, ok := find(r.Parts.Seals, own.Seal, pack.Seal); ok {
		parts.SealOn = t.Sits
	}
	return parts
}

// find returns the part with the valve's own id, or with the package's where the valve names none.
func find[T record.Noun](parts []T, own, pack string) (T, bool) {
	id := own
	if id == "" {
		id = pack
	}
	i := slices.IndexFunc(parts, func(t T) bool { return id != "" && t.Key() == id })
	if i < 0 {
		var none T
		return none, false
	}
	return parts[i], true
}

func length(q *unit.Quantity) *unit.Length {
	if q == nil {
		return nil
	}
	l := q.Length()
	return &l
}

func lengths(qs []unit.Quantity) []unit.Length {
	all := make([]unit.Length, len(qs))
	for i, q := range qs {
		all[i] = q.Length()
	}
	return all
}
