package kit

import (
	"image"
	"image/color"

	"fyne.io/fyne/v2/canvas"
	"gonum.org/v1/plot/vg"

	"keeperbook/pdf/figure"
)

// gridBar draws the window bar of a cell at the pixels of the screen, and keeps the picture.
type gridBar struct {
	raster *canvas.Raster
	bar    figure.Bar
	look   figure.Look
	text   float32
	drawn  image.Image
}

func newGridBar() *gridBar {
	b := &gridBar{}
	b.raster = canvas.NewRaster(b.picture)
	return b
}

// gridLook is the palette of a bar; it carries no letters, for a bar has none.
func gridLook(i gridInks, ink, paper color.Color) figure.Look {
	return figure.Look{Ink: ink, Faint: i.rule, Fill: i.rule, Paper: paper}
}

func (b *gridBar) set(bar figure.Bar, look figure.Look, text float32) {
	b.bar, b.look, b.text, b.drawn = bar, look, text, nil
	b.raster.Refresh()
}

// bodyText is the text beside which the widths of a bar's lines are right; they grow with it.
const bodyText = 14

// picture is asked for by the painter with the size in pixels of the screen.
func (b *gridBar) picture(w, h int) image.Image {
	if b.drawn != nil && b.drawn.Bounds().Dx() == w && b.drawn.Bounds().Dy() == h {
		return b.drawn
	}
	width := b.raster.Size().Width
	if w <= 0 || h <= 0 || width <= 0 {
		return image.NewUniform(color.Transparent)
	}
	perInch := 96 * float64(w) / float64(width) * float64(b.text) / bodyText
	b.drawn = drawn(w, h, perInch, color.Transparent, func(c vg.Canvas, size vg.Point) { b.bar.Draw(c, size, b.look) })
	return b.drawn
}
