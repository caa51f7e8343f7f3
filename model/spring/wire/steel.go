package wire

import (
	"math"

	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Steel is a kind of spring wire.
type Steel string

// The kinds of wire that the handbooks list.
const (
	Music          Steel = "music"
	HardDrawn      Steel = "hard-drawn"
	OilTempered    Steel = "oil-tempered"
	ValveSpring    Steel = "valve-spring" // carbon steel, ASTM A230
	ChromeVanadium Steel = "chrome-vanadium"
	ChromeSilicon  Steel = "chrome-silicon"
)

// Steels lists them in the order in which they are offered.
func Steels() []Steel {
	return []Steel{ChromeSilicon, ChromeVanadium, ValveSpring, OilTempered, Music, HardDrawn}
}

// Name returns the steel's name for people.
func (s Steel) Name() say.Line { return say.New("spring.steel." + string(s)) }

// Modulus is what one source prints of a steel. E is nought where it is not taken from there.
type Modulus struct {
	G, E       Stress
	From, To   unit.Length // of which wire; To is nought where there is no end
	Source     say.Line
	FromMemory bool // not seen in print by whoever wrote it down here
}

// Moduli returns what handbooks print for a wire, as suggestions: they differ by 2 to 5 %, and whoever
// enters a G should know whose it is. The names of the standards are those that the tables themselves give.
func Moduli(s Steel, wire unit.Length) (all []Modulus) {
	for _, m := range moduli[s] {
		if wire >= m.From && (m.To == 0 || wire < m.To) {
			all = append(all, m)
		}
	}
	return all
}

var (
	handbook = say.New("spring.source.handbook") // Shigley, 9th edition, Table 10-5
	textbook = say.New("spring.source.textbook") // Analysis and Design of Machine Elements, Wiley, Table 14.2
	drawn    = say.New("spring.source.drawn")    // EN 10270-1
	tempered = say.New("spring.source.tempered") // EN 10270-2
)

var moduli = map[Steel][]Modulus{
	Music: {
		{G: 81.0 * GPa, From: 64 * unit.Thou, To: 125*unit.Thou + 1, Source: handbook},
		{G: 80.0 * GPa, From: 125*unit.Thou + 1, Source: handbook},
		{G: 81.5 * GPa, E: 206 * GPa, Source: drawn, FromMemory: true},
	},
	HardDrawn: {{G: 81.5 * GPa, E: 206 * GPa, Source: drawn, FromMemory: true}},
	OilTempered: {
		{G: 77.2 * GPa, E: 203.4 * GPa, Source: handbook},
		{G: 79.5 * GPa, E: 206 * GPa, Source: tempered, FromMemory: true},
	},
	ValveSpring: {
		{G: 77.2 * GPa, E: 203.4 * GPa, Source: handbook},
		{G: 79.5 * GPa, E: 206 * GPa, Source: tempered, FromMemory: true},
	},
	ChromeVanadium: {
		{G: 77.2 * GPa, E: 203.4 * GPa, Source: handbook},
		{G: 77 * GPa, E: 203 * GPa, Source: textbook},
		{G: 79.5 * GPa, E: 206 * GPa, Source: tempered, FromMemory: true},
	},
	ChromeSilicon: {
		{G: 77.2 * GPa, E: 203.4 * GPa, Source: handbook, FromMemory: true},
		{G: 77 * GPa, E: 203 * GPa, Source: textbook},
		{G: 79.5 * GPa, E: 206 * GPa, Source: tempered, FromMemory: true},
	},
}

// Strength is a least tensile strength that falls with the wire's thickness, Sut = A/dᵐ with d counted in
// Of, an inch or a millimetre.
type Strength struct {
	A  Stress
	M  float64
	Of unit.Length
}

// At returns the strength of a wire; nought for a wire that is not above nought.
func (s Strength) At(wire unit.Length) Stress {
	if wire <= 0 {
		return 0
	}
	return s.A * Stress(math.Pow(float64(wire)/float64(s.Of), -s.M))
}

// Tensile returns the strength of a steel after Shigley Table 10-4, of which music wire was seen in print
// and the others are from memory; false where the table does not list it. Older textbooks print another
// set (10 mm of oil-tempered wire has 1032 MPa there and 1207 here): constants of the two do not mix.
func Tensile(s Steel) (Strength, bool) {
	v, ok := tensile[s]
	return v, ok
}

var tensile = map[Steel]Strength{
	Music:          {201 * KPSI, .145, unit.Inch},
	OilTempered:    {147 * KPSI, .187, unit.Inch},
	HardDrawn:      {140 * KPSI, .190, unit.Inch},
	ChromeVanadium: {169 * KPSI, .168, unit.Inch},
	ChromeSilicon:  {202 * KPSI, .108, unit.Inch},
}
