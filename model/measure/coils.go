package measure

import "keeperbook/model/unit"

// Coil is one coil of a spring for working back: its bind height, what the steps of retainer and
// locator take from its room, and the least margin chosen for it.
type Coil struct {
	Bind  unit.Length
	Steps unit.Length // r + q
	Least unit.Length
}

// Governing returns the index of the coil with the least of margin − least margin, the first of
// equals, and −1 for none. The slices have the same length.
func Governing(margins, least []unit.Length) int {
	g := -1
	for i := range margins {
		if g < 0 || margins[i]-least[i] < margins[g]-least[g] {
			g = i
		}
	}
	return g
}

// WorkBack returns the installed height over the outer land that leaves every coil its least margin
// at full lift, T = L + max(Sj + rj + qj + cj), and the index of the coil that asks for it (−1 for no
// coils). The shim needed is then Hb − T.
func WorkBack(lift unit.Length, coils []Coil) (unit.Length, int) {
	g, most := -1, unit.Length(0)
	for i, c := range coils {
		if need := c.Bind + c.Steps + c.Least; g < 0 || need > most {
			g, most = i, need
		}
	}
	return lift + most, g
}

// AssemblyBind is the bind height of nested coils measured as one spring over the outer lands:
// max(Sj + rj + qj).
func AssemblyBind(coils []Coil) unit.Length {
	most := unit.Length(0)
	for i, c := range coils {
		if s := c.Bind + c.Steps; i == 0 || s > most {
			most = s
		}
	}
	return most
}
