// Package face holds the letters of sheets and drawings: DejaVu Sans Condensed in two weights.
//
// The fonts carry every sign the trade writes (″ ′ µ ± ≥ ≤ Δ − × → ✓ ⚠ ⌀ ☐) and digits of one width.
// Their licence is assets/licences/dejavu.txt.
package face

import (
	"sync"

	"codeberg.org/go-fonts/dejavu/dejavusanscondensed"
	"codeberg.org/go-fonts/dejavu/dejavusanscondensedbold"
	stdfont "golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/font/sfnt"
	"gonum.org/v1/plot/font"
)

// Typeface is the name under which the letters are known to drawings.
const Typeface font.Typeface = "DejaVuSansCondensed"

// Regular returns the letters for running text in this size.
func Regular(size font.Length) font.Face {
	return font.Face{
		Font: font.Font{Typeface: Typeface, Size: size},
		Face: regular(),
	}
}

// Bold returns the letters for what must be seen first, in this size.
func Bold(size font.Length) font.Face {
	return font.Face{
		Font: font.Font{Typeface: Typeface, Weight: stdfont.WeightBold, Size: size},
		Face: bold(),
	}
}

// RegularTTF and BoldTTF return a copy of the font file each. It is a copy because a writer that cuts
// a font down to the letters it uses may write into the bytes while it reads them.
func RegularTTF() []byte { return append([]byte(nil), dejavusanscondensed.TTF...) }

// BoldTTF returns a copy of the bold font file.
func BoldTTF() []byte { return append([]byte(nil), dejavusanscondensedbold.TTF...) }

// Has reports whether the letters have a picture of r. They have none outside the basic plane.
func Has(r rune) bool {
	return r >= 0 && r <= 0xFFFF && pictures()[r/64]&(1<<(r%64)) != 0
}

// pictures marks each sign of the basic plane that has a picture, one bit a sign.
var pictures = sync.OnceValue(func() *[1024]uint64 {
	var all [1024]uint64
	var buf sfnt.Buffer
	f := regular()
	for r := range rune(0x10000) {
		if i, err := f.GlyphIndex(&buf, r); err == nil && i != 0 {
			all[r/64] |= 1 << (r % 64)
		}
	}
	return &all
})

var (
	regular = sync.OnceValue(func() *opentype.Font { return parse(dejavusanscondensed.TTF) })
	bold    = sync.OnceValue(func() *opentype.Font { return parse(dejavusanscondensedbold.TTF) })
)

func parse(ttf []byte) *opentype.Font {
	f, err := opentype.Parse(ttf)
	if err != nil {
		// The fonts are part of the program; a test reads them. A fault here cannot be met at run time.
		panic(err)
	}
	return f
}
