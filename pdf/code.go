package pdf

import (
	"strings"

	"rsc.io/qr"
)

// codeSide is how large the square code of a fingerprint is printed, in points, with the white around it that readers need.
const codeSide = 74.0

// code sets the fingerprint as a QR code (ISO/IEC 18004) at the right edge, so that whoever scans a sheet can look whether
// their record is the one on it.
func (f *flow) code(hex string) {
	if hex == "" {
		return
	}
	// In capitals it takes the smaller alphabet of the code.
	f.squares(strings.ToUpper(hex), f.right-codeSide, f.y, codeSide)
}

// squares sets a QR code of a text with its corner at a place, so wide with the white around it.
func (f *flow) squares(text string, x0, y0, wide float64) {
	c, err := qr.Encode(text, qr.M)
	if err != nil {
		f.fail(err)
		return
	}
	const quiet = 4 // modules
	side := wide / float64(c.Size+2*quiet)
	left, top := x0+quiet*side, y0+quiet*side
	for y := range c.Size {
		for x := 0; x < c.Size; {
			run := x
			for run < c.Size && c.Black(run, y) {
				run++
			}
			if run > x {
				f.box(left+float64(x)*side, top+float64(y)*side, float64(run-x)*side, side, ink)
				x = run
			}
			x++
		}
	}
}
