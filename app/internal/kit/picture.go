package kit

import (
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"gonum.org/v1/plot/vg"
)

// picture is a drawing at the pixels of the screen. The drawing is in points, 96 of the toolkit's units
// to 72 of them, so that its letters are as large as the letters beside it.
type picture struct {
	raster *canvas.Raster
	ground color.Color
	draw   func(c vg.Canvas, size vg.Point)
}

func newPicture() *picture {
	p := &picture{}
	p.raster = canvas.NewRaster(p.image)
	return p
}

// image draws into w by h pixels.
func (p *picture) image(w, h int) image.Image {
	if p.draw == nil || w < 2 || h < 2 {
		return blank(color.Transparent)
	}
	// Where the toolkit does not say how wide the picture is, a unit is a pixel.
	perUnit := 1.0
	if width := p.raster.Size().Width; width > 0 {
		perUnit = float64(w) / float64(width)
	}
	return drawn(w, h, 96*perUnit, p.ground, p.draw)
}

// blank is one pixel of a colour; the painter spreads it over the whole place.
func blank(c color.Color) image.Image {
	i := image.NewRGBA(image.Rect(0, 0, 1, 1))
	i.Set(0, 0, c)
	return i
}

// drawn returns a drawing of w by h pixels, so many of them to the inch, on a ground.
func drawn(w, h int, perInch float64, ground color.Color, draw func(c vg.Canvas, size vg.Point)) image.Image {
	perPoint := perInch / 72
	e := newEasel(w, h, perPoint, ground)
	draw(e, vg.Point{X: vg.Length(float64(w) / perPoint), Y: vg.Length(float64(h) / perPoint)})
	return e.image
}

// pointsOf returns a size of text in the toolkit as a size in a drawing.
func pointsOf(size float32) vg.Length { return vg.Length(size) * 0.75 }

// ratio keeps a number of units in proportion to the text.
func ratio(w fyne.Widget, units float32) float32 { return units * sizeOf(w, textName) / size(textName) }
