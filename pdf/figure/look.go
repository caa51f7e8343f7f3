// Package figure draws what a valve looks like: the section of its spring stack to scale and the small bar
// that holds a margin against its limit.
//
// The drawings go onto gonum's vg.Canvas, so that a window and a page show the same picture. Colours and
// letters are passed in; nothing is said by hue, only by weight of ink, hatching and greys. The package
// knows nothing of paper or pixels.
package figure

import (
	"image/color"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// Look is the palette and the letters of a drawing.
type Look struct {
	Ink      color.Color // outlines, numbers
	Faint    color.Color // extension lines, what lies behind the cut
	Fill     color.Color // cut faces
	Paper    color.Color // the ground
	Regular  font.Face
	Bold     font.Face
	TextSize vg.Length // of every number and word; on paper at least nine points
	OnPaper  bool      // the scale can be stated as a ratio, because the size of the picture is fixed
}

func (l Look) regular() font.Face { return sized(l.Regular, l.TextSize) }
func (l Look) bold() font.Face    { return sized(l.Bold, l.TextSize) }

func sized(f font.Face, size vg.Length) font.Face {
	f.Font.Size = size
	return f
}
