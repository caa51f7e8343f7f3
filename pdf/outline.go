package pdf

import (
	"bytes"
	"fmt"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"keeperbook/pdf/face"
)

// outlines are a line of letters as paths that are filled, in points, with the left end of its base line at x and y, y up: for
// where a page has no letters of its own any more.
func outlines(l letters, x, y float64, line string) []byte {
	f := face.Regular(1).Face
	if l.bold {
		f = face.Bold(1).Face
	}
	const em = 1000
	var out bytes.Buffer
	var buf sfnt.Buffer
	unit := l.size / em
	for _, r := range visual(clean(line)) {
		glyph, err := f.GlyphIndex(&buf, r)
		if err != nil {
			continue
		}
		p := func(v fixed.Point26_6) point { return point{x + float64(v.X)/64*unit, y - float64(v.Y)/64*unit} }
		parts, err := f.LoadGlyph(&buf, glyph, fixed.I(em), nil)
		if err == nil && len(parts) > 0 {
			var now point
			for i, s := range parts {
				switch a := s.Args; s.Op {
				case sfnt.SegmentOpMoveTo:
					if i > 0 {
						out.WriteString("h\n")
					}
					now = p(a[0])
					fmt.Fprintf(&out, "%s m\n", now)
				case sfnt.SegmentOpLineTo:
					now = p(a[0])
					fmt.Fprintf(&out, "%s l\n", now)
				case sfnt.SegmentOpQuadTo: // a parabola is a cubic whose handles lie two thirds of the way to its own
					q, end := p(a[0]), p(a[1])
					fmt.Fprintf(&out, "%s %s %s c\n", now.towards(q, 2./3), end.towards(q, 2./3), end)
					now = end
				case sfnt.SegmentOpCubeTo:
					now = p(a[2])
					fmt.Fprintf(&out, "%s %s %s c\n", p(a[0]), p(a[1]), now)
				}
			}
			out.WriteString("h f\n")
		}
		if advance, err := f.GlyphAdvance(&buf, glyph, fixed.I(em), 0); err == nil {
			x += float64(advance) / 64 * unit
		}
	}
	return out.Bytes()
}

// point is a place in points, written to a thousandth of one.
type point struct{ x, y float64 }

func (p point) towards(q point, share float64) point {
	return point{p.x + share*(q.x-p.x), p.y + share*(q.y-p.y)}
}

func (p point) String() string { return fmt.Sprintf("%.3f %.3f", p.x, p.y) }
