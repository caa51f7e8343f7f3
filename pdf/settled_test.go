package pdf

import (
	"strings"
	"testing"

	"gonum.org/v1/plot/vg"
)

// The last place of a coordinate is the processor's, and no page may show it: a sheet that was signed on one processor is drawn
// anew on another and compared.
func TestPagesAreOfNoProcessor(t *testing.T) {
	drawn := func(by float64) string {
		at := func(points float64) float64 { return points + by }
		return content(t, func(c *canvas) {
			p := c.press
			for i := range 20 {
				v := float64(i) + 0.125 // between two hundredths, as the writer rounds
				p.text(at(v), at(v), body, ink, "spring")
				p.line(at(v), at(v), at(v+1), at(v+2), 1, ink)
				p.put(block{x: at(v), y: at(v), w: at(v), h: at(v)})
				var path vg.Path
				path.Move(spot(at(v), at(v)))
				path.Line(spot(at(v+1), at(v+1)))
				// Between two hundred-thousandths, in which the writer gives curves.
				c := spot(at(v+0.000005), at(v+0.000005))
				path.CubeTo(c, c, c)
				p.put(shape{path: path})
			}
		})
	}
	down, up := strings.Split(drawn(-1e-10), "\n"), strings.Split(drawn(1e-10), "\n")
	if len(down) < 100 || len(down) != len(up) {
		t.Fatalf("%d and %d lines are drawn", len(down), len(up))
	}
	for i := range down {
		if down[i] != up[i] {
			t.Errorf("hardly anything apart, and printed as %q and as %q", down[i], up[i])
		}
	}
}
