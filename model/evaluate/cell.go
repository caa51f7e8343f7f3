package evaluate

import (
	"strconv"
	"strings"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Text returns what the table says of a valve under a column's key, letter for letter as
// [Evaluation.Figures] has it, and under "seat-read" the seat load that was read on the head; "" under a key
// that it does not know.
func (v *Valve) Text(p say.Printer, key string) string {
	if key == "seat-read" {
		return v.SeatMeasured.Text(p)
	}
	for i := range columns {
		if columns[i].key == key {
			return columns[i].cell(p, v)
		}
	}
	return ""
}

// Text returns the number with the letter of its mark, as it stands in a cell; "" where it is not known.
func (f Figure) Text(p say.Printer) string {
	if !f.Known {
		return ""
	}
	return marked(p, f, f.Value)
}

// Taken returns what the readings of a kind and coil come to, valve by valve in the order of the head:
// corrected, and their mean where there are repeats. It is for readings that are no figure of a valve by
// themselves, such as the two depths that a base height is the difference of. Of bind heights only
// those count that were taken on the spring that is fitted now.
func Taken(rec *record.Record, kind record.Kind, coil int) []Figure {
	b := layOut(rec)
	positions := rec.Head.Positions()
	figures := make([]Figure, len(positions))
	for i, at := range positions {
		if kind != record.BindReading {
			figures[i] = b.take(at, kind, coil).Figure
			continue
		}
		var here []*record.Reading
		for _, r := range b.readings[place{at, kind, coil}] {
			if r.Piece == b.valves[at].Spring {
				here = append(here, r)
			}
		}
		if len(here) > 0 {
			figures[i] = mean(here)
		}
	}
	return figures
}

// Figure returns the number that stands under a column's key, "bind-1" for the bind of the first coil and
// "bind-0" for that of the spring measured as one among them; false where a column holds no number.
func (v *Valve) Figure(key string) (Figure, bool) {
	if coil, ok := strings.CutPrefix(key, "bind-"); ok {
		for _, c := range v.Coils {
			if (c.Name == "assembly") == (coil == "0") && (coil == "0" || coil == strconv.Itoa(c.Index)) {
				return c.Bind, true
			}
		}
		return Figure{}, true
	}
	of, ok := map[string]Figure{
		"base": v.Base, "seal": v.Seal, "room": v.Room, "shims": v.Shims, "calc": v.Installed, "check": v.Check, "lift": v.Lift,
		"open": v.Open, "bind": v.Bind, "bar": v.Margin, "margin": v.Margin, "u": v.Margin, "least": v.Least, "up-to": v.UpTo,
		"seal-open": v.SealOpen, "room-open": v.RoomOpen, "tip": v.Tip, "lash-found": v.LashFound, "lash-shim": v.LashShim,
		"lash-left": v.LashLeft,
	}[key]
	return of, ok
}

// Load returns the load that stands under a column's key; false where a column holds none.
func (v *Valve) Load(key string) (Load, bool) {
	switch key {
	case "seat-load":
		return v.SeatLoad, true
	case "seat-read":
		return v.SeatMeasured, true
	case "open-load":
		return v.OpenLoad, true
	}
	return Load{}, false
}
