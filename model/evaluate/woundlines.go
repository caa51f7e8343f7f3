package evaluate

import (
	"fmt"
	"math"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/spring/wire"
	"keeperbook/model/unit"
)

// WoundLines say what a coil comes to by its geometry: rate, solid height, stress, surge, growth and buckling. Where
// something is missing for that they say what, and where nothing of its wire and turns was said there are none. Loads
// name the unit that stresses go with: kpsi beside pounds, else MPa.
func WoundLines(c *record.Coil, loads unit.Symbol) []say.Line {
	if c.Wire == nil && c.Active+c.Total+string(c.Ends) == "" {
		return nil
	}
	if c.Wire != nil && c.Wire.Section != "" && c.Wire.Section != record.Round {
		return []say.Line{say.New("wound.not-round")}
	}
	var lines []say.Line
	steel, known := steelOf(c)
	if known {
		lines = moduli(steel, c.Wire, loads)
	}
	if need := woundNeeds(c); len(need) > 0 {
		return append(lines, say.New("wound.needs", need))
	}
	w, ok := woundOf(c)
	if !ok {
		return append(lines, say.New("wound.no-coil"))
	}
	lines = append(lines, say.New("wound.rate", w.spring.Rate(), plainNumber(w.spring.Index(), 1)))
	if closes, told := w.spring.Closes(); told && !cylinder(c) {
		lines = append(lines, say.New("wound.closes", closes, string(loads)))
	}
	lines = append(lines, w.solid(c, steel, loads)...)
	if f, err := w.surge(c); err == nil {
		lines = append(lines, say.New("wound.surge", plainNumber(f, 0), plainNumber(60*f, -1)))
	}
	return append(lines, w.sideways(c, steel)...)
}

// cylinder reports whether all turns of a coil are of one diameter, as those are of which nobody says otherwise.
func cylinder(c *record.Coil) bool { return c.Form == "" || c.Form == record.Cylindrical }

// woundNeeds is what is missing of the geometry of a coil of round wire.
func woundNeeds(c *record.Coil) (need []say.Line) {
	w := c.Wire
	if w == nil {
		w = &record.Wire{}
	}
	ask := func(missing bool, what string) {
		if missing {
			need = append(need, say.New("wound.need."+what))
		}
	}
	ask(w.Section == "", "section")
	ask(w.Diameter == nil, "wire")
	ask(w.G == nil, "modulus")
	ask(c.Outside == nil, "outside")
	ask(c.Small == nil && (c.Form == record.Conical || c.Form == record.Beehive), "small")
	ask(c.Conical == "" && c.Form == record.Beehive, "conical")
	ask(c.Active+c.Total == "", "turns")
	ask(c.Ends == "", "ends")
	ask(c.Free == nil, "free")
	return need
}

// moduli are what handbooks print for a steel: they differ by 2 to 5 %, and the rate with them.
func moduli(s wire.Steel, w *record.Wire, loads unit.Symbol) []say.Line {
	var d unit.Length
	if w.Diameter != nil {
		d = w.Diameter.Length()
	}
	var all []say.Line
	for _, m := range wire.Moduli(s, d) {
		key := "wound.modulus"
		if m.FromMemory {
			key = "wound.modulus-memory"
		}
		all = append(all, say.New(key, modulusText(m.G, loads), m.Source))
	}
	if len(all) == 0 {
		return nil
	}
	return []say.Line{say.New("wound.moduli", s.Name(), all)}
}

// solid says where a coil is solid by its geometry and what its wire bears there.
func (w wound) solid(c *record.Coil, steel wire.Steel, loads unit.Symbol) []say.Line {
	solid := unit.Length(w.spring.Solid(w.ends))
	lines := []say.Line{say.New("wound.solid", solid)}
	if solid >= w.free {
		return append(lines, say.New("wound.solid-over", w.free))
	}
	load, err := w.spring.Load(w.free - solid)
	if err != nil {
		closed, told := w.spring.Closed()
		if !told {
			return lines
		}
		load = closed - 1 // the last turn is closed at it and bears what comes
	}
	stress, err := w.spring.Stress(load, wire.Bergstrasser)
	if err != nil {
		return lines
	}
	if tensile, ok := wire.Tensile(steel); ok {
		if most := tensile.At(c.Wire.Diameter.Length()); most > 0 {
			return append(lines, say.New("wound.stress-of", load, string(loads), stressText(stress, loads), plainNumber(100*float64(stress/most), 0), stressText(most, loads)))
		}
	}
	return append(lines, say.New("wound.stress", load, string(loads), stressText(stress, loads)))
}

// surge is the first frequency of a coil between its seats, in hertz. A coil that was weighed has the mass of its
// active turns; else that of steel wire.
func (w wound) surge(c *record.Coil) (float64, error) {
	active, total := number(c.Active), number(c.Total)
	if active == 0 {
		active = w.ends.Active(total)
	}
	if total == 0 {
		total = w.ends.Total(active)
	}
	if c.Mass != nil && cylinder(c) {
		return wire.BetweenPlates(w.spring.Rate(), wire.ActiveMass(float64(c.Mass.Value)*kilograms, active, total)), nil
	}
	return w.spring.Surge(0, wire.SteelEN)
}

// sideways says how a cylinder grows as it closes, and whether it stands by itself.
func (w wound) sideways(c *record.Coil, steel wire.Steel) []say.Line {
	if !cylinder(c) {
		return nil
	}
	d := c.Wire.Diameter.Length()
	mean := c.Outside.Length() - d
	active := number(c.Active)
	if active == 0 {
		active = w.ends.Active(number(c.Total))
	}
	lines := []say.Line{say.New("wound.grows", wire.Growth(d, mean, w.ends.Pitch(d, w.free, active)))}
	for _, m := range wire.Moduli(steel, d) {
		if m.E == 0 {
			continue
		}
		switch y, stable, err := wire.Buckling(w.free, mean, m.E, m.G, wire.Plates); {
		case err != nil:
		case stable:
			return append(lines, say.New("wound.stands"))
		default:
			return append(lines, say.New("wound.buckles", y))
		}
		break
	}
	return lines
}

// fatigue says how far the swing between two loads is from what steel wire bears without end, by Goodman's line
// through the published limits (package wire). Loads name the unit that stresses go with.
func (w wound) fatigue(c *record.Coil, coil say.Line, seat, open unit.Load, loads unit.Symbol) (say.Line, bool) {
	amplitude, mean, err := w.spring.Swing(seat, open, wire.Bergstrasser)
	if err != nil || open <= seat || seat < 0 {
		return say.Line{}, false
	}
	swing := say.New("wound.swing", coil, stressText(amplitude, loads), stressText(mean, loads))
	surface, said := surfaceOf[c.Wire.Surface]
	if !said {
		return say.New("wound.surface", swing), true
	}
	limit, err := wire.Zimmerli(surface, c.Wire.Diameter.Length())
	if err != nil {
		return say.New("wound.no-limit", swing, line(err)), true
	}
	steel, _ := steelOf(c)
	tensile, known := wire.Tensile(steel)
	if !known {
		return say.New("wound.no-strength", swing), true
	}
	n, err := limit.Safety(wire.Goodman, amplitude, mean, torsional*tensile.At(c.Wire.Diameter.Length()))
	if err != nil {
		return say.New("wound.no-limit", swing, line(err)), true
	}
	return say.New("wound.fatigue", swing, plainNumber(n, 2)), true
}

// torsional is the torsional strength of spring wire by its tensile strength (Shigley eq. 10-30).
const torsional = 0.67

// kilograms is a unit of mass, a microgram, in kilograms.
const kilograms = 1e-9

var surfaceOf = map[record.Surface]wire.Surface{
	record.Unpeened: wire.Unpeened, record.Peened: wire.Peened, record.Nitrided: wire.Nitrided,
}

// steelOf is the steel of a coil, false where it is none of those in the handbooks.
func steelOf(c *record.Coil) (wire.Steel, bool) {
	if c.Wire == nil {
		return "", false
	}
	for _, s := range wire.Steels() {
		if string(s) == c.Wire.Material {
			return s, true
		}
	}
	return "", false
}

// stressText writes a stress as whoever reads loads in that unit does.
func stressText(s wire.Stress, loads unit.Symbol) say.Number {
	if loads == unit.Lbf {
		return plainNumber(float64(s/wire.KPSI), 1) + " kpsi"
	}
	return plainNumber(float64(s/wire.MPa), 0) + " MPa"
}

func modulusText(g wire.Stress, loads unit.Symbol) say.Number {
	if loads == unit.Lbf {
		return plainNumber(float64(g/wire.MPSI), 2) + " Mpsi"
	}
	return plainNumber(float64(g/wire.GPa), 1) + " GPa"
}

// plainNumber writes a number with so many places; below nought, rounded to tens and so on.
func plainNumber(x float64, places int) say.Number {
	if places >= 0 {
		return say.Number(fmt.Sprintf("%.*f", places, x))
	}
	ten := math.Pow(10, float64(-places))
	return say.Number(fmt.Sprintf("%.0f", math.Round(x/ten)*ten))
}
