package figure_test

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"os/exec"
	"testing"

	"gonum.org/v1/plot/vg"

	"keeperbook/model/unit"
	"keeperbook/pdf/figure"
)

// grey reads a picture as how dark each of its fields is, 0 to 1, on a raster so coarse that the smoothing of edges does not count.
func grey(t *testing.T, data []byte) [][]float64 {
	t.Helper()
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	const across, down = 90, 60
	b := img.Bounds()
	fields := make([][]float64, down)
	for i := range fields {
		fields[i] = make([]float64, across)
		for j := range fields[i] {
			part := image.Rect(b.Dx()*j/across, b.Dy()*i/down, b.Dx()*(j+1)/across, b.Dy()*(i+1)/down)
			sum := 0.0
			for y := part.Min.Y; y < part.Max.Y; y++ {
				for x := part.Min.X; x < part.Max.X; x++ {
					sum += 255 - float64(color.GrayModel.Convert(img.At(b.Min.X+x, b.Min.Y+y)).(color.Gray).Y)
				}
			}
			fields[i][j] = sum / 255 / float64(part.Dx()*part.Dy())
		}
	}
	return fields
}

// A drawing written as SVG is the one written as a picture: librsvg, which knows nothing of this program, draws it so, letters
// and all. A field of the raster holds some letters; none may be off by as much as a stroke.
func TestSVGIsThePicture(t *testing.T) {
	rsvg, err := exec.LookPath("rsvg-convert")
	if err != nil {
		if os.Getenv("CI") != "" {
			t.Fatal("rsvg-convert is not installed: ", err)
		}
		t.Skip("rsvg-convert is not installed")
	}
	v, parts := nested()
	size, look := vg.Point{X: 540, Y: 360}, paper()
	d := figure.NewSection(v, parts, words(unit.Inches))
	svg, err := figure.SVG(d, size, look)
	if err != nil {
		t.Fatal(err)
	}
	picture, err := figure.PNG(d, size, look)
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(rsvg, "--width", "1500", "--height", "1000")
	cmd.Stdin = bytes.NewReader(svg)
	drawn, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	a, b := grey(t, picture), grey(t, drawn)
	ink := 0.0
	for i := range a {
		for j := range a[i] {
			ink += a[i][j]
			if d := math.Abs(a[i][j] - b[i][j]); d > 0.12 {
				t.Errorf("field %d, %d is %.2f dark as SVG, %.2f as a picture", i, j, b[i][j], a[i][j])
			}
		}
	}
	if ink < 20 {
		t.Errorf("hardly anything is drawn: %.1f fields of ink", ink)
	}
	if bytes.Contains(svg, []byte("<text")) {
		t.Error("letters stand as text, in a font that others do not have")
	}
}
