package assets_test

import (
	"bytes"
	"image/png"
	"testing"

	"keeperbook/assets"
)

// Hue carries no meaning anywhere in the program, so its mark has none either.
func TestIconIsGreyAndSquare(t *testing.T) {
	icon, err := png.Decode(bytes.NewReader(assets.Icon))
	if err != nil {
		t.Fatal(err)
	}
	b := icon.Bounds()
	if b.Dx() != 512 || b.Dy() != 512 {
		t.Errorf("got %d × %d pixels", b.Dx(), b.Dy())
	}
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			if r, g, b, _ := icon.At(x, y).RGBA(); r != g || g != b {
				t.Fatalf("the pixel at %d, %d has a hue", x, y)
			}
		}
	}
}
