package face

import (
	stdfont "golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// Outlines calls draw with the outline of each letter of a text, the left end of its base line at a point. A face without a
// size or a font has none.
func Outlines(f font.Face, at vg.Point, text string, draw func(letter vg.Path)) {
	if f.Font.Size <= 0 || f.Face == nil {
		return
	}
	// The outlines are read at a thousand units to the em and brought to size.
	const em = 1000
	unit := vg.Length(float64(f.Font.Size) / em)
	var buf sfnt.Buffer
	ppem, x := fixed.I(em), vg.Length(0)
	before := sfnt.GlyphIndex(0)
	for i, r := range []rune(text) {
		glyph, err := f.Face.GlyphIndex(&buf, r)
		if err != nil {
			continue
		}
		if i > 0 {
			if k, err := f.Face.Kern(&buf, before, glyph, ppem, stdfont.HintingNone); err == nil {
				x += units(k) * unit
			}
		}
		before = glyph
		if parts, err := f.Face.LoadGlyph(&buf, glyph, ppem, nil); err == nil {
			if l := letter(parts, at.Add(vg.Point{X: x}), unit); len(l) > 0 { // a space has none
				draw(l)
			}
		}
		if a, err := f.Face.GlyphAdvance(&buf, glyph, ppem, stdfont.HintingNone); err == nil {
			x += units(a) * unit
		}
	}
}

// units are 26.6 fixed-point numbers as numbers.
func units(v fixed.Int26_6) vg.Length { return vg.Length(v) / 64 }

// letter is a glyph's outline as a path. Fonts count upwards with a minus.
func letter(parts sfnt.Segments, at vg.Point, unit vg.Length) (path vg.Path) {
	p := func(f fixed.Point26_6) vg.Point {
		return vg.Point{X: at.X + units(f.X)*unit, Y: at.Y - units(f.Y)*unit}
	}
	for _, s := range parts {
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			path.Move(p(s.Args[0]))
		case sfnt.SegmentOpLineTo:
			path.Line(p(s.Args[0]))
		case sfnt.SegmentOpQuadTo:
			path.QuadTo(p(s.Args[0]), p(s.Args[1]))
		case sfnt.SegmentOpCubeTo:
			path.CubeTo(p(s.Args[0]), p(s.Args[1]), p(s.Args[2]))
		}
	}
	return path
}
