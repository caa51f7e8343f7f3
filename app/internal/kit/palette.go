package kit

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"gonum.org/v1/plot/vg"

	"keeperbook/pdf/face"
	"keeperbook/pdf/figure"
)

// Palette is the greys that everything on the screen is made of. Any of the three inks can be read on
// any of the three grounds at a contrast of at least 7:1.
type Palette struct {
	Ink   color.NRGBA // what was measured, what must be read
	Soft  color.NRGBA // what stands beside it: labels, units
	Faint color.NRGBA // hints and what cannot be used at the moment

	Rule   color.NRGBA // lines between things, at least 3:1 on paper and what is raised; never a letter
	Fill   color.NRGBA // selections, buttons, cut faces
	Paper  color.NRGBA // the ground
	Raised color.NRGBA // what lies on the ground: banner, bottom line, dialogs
}

// Greys returns the palette for light or dark rooms.
func Greys(dark bool) Palette {
	if dark {
		return Palette{
			Ink: grey(0xF4), Soft: grey(0xDA), Faint: grey(0xC8),
			Rule: grey(0x70), Fill: grey(0x2F), Paper: grey(0x14), Raised: grey(0x22),
		}
	}
	return Palette{
		Ink: grey(0x0C), Soft: grey(0x30), Faint: grey(0x40),
		Rule: grey(0x86), Fill: grey(0xE0), Paper: grey(0xFC), Raised: grey(0xEE),
	}
}

func grey(level uint8) color.NRGBA { return color.NRGBA{R: level, G: level, B: level, A: 0xFF} }

// look is the palette and the letters for a drawing on the screen, its text of this size in points.
func (p Palette) look(size vg.Length) figure.Look {
	return figure.Look{
		Ink: p.Ink, Faint: p.Rule, Fill: p.Fill, Paper: p.Paper,
		Regular: face.Regular(size), Bold: face.Bold(size), TextSize: size,
	}
}

// palette is the palette of the theme that a widget is drawn in.
func palette(w fyne.Widget) Palette {
	return Greys(level(theme.ColorForWidget(theme.ColorNameBackground, w)) < 0x80)
}

// level is how light an opaque colour is, from 0 to 255.
func level(c color.Color) uint8 { return color.GrayModel.Convert(c).(color.Gray).Y }
