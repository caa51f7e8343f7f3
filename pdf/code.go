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
	c, err := qr.Encode(strings.ToUpper(hex), qr.M)
	if err != nil {
		f.fail(err)
		return
	}
	const quiet = 4 // modules
	side := codeSide / float64(c.Size+2*quiet)
	left, top := f.right-codeSide+quiet*side, f.y+quiet*side
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
