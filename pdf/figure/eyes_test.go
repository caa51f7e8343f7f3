package figure_test

import (
	"image/png"
	"os"
	"testing"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/vgimg"
	"keeperbook/model/evaluate"
	"keeperbook/model/unit"
	"keeperbook/pdf/figure"
)

func save(t *testing.T, name string, v evaluate.Valve, p figure.Parts, s unit.Style, w, h vg.Length) {
	c := vgimg.NewWith(vgimg.UseWH(w, h), vgimg.UseDPI(130))
	figure.NewSection(v, p, words(s)).Draw(c, vg.Point{X: w, Y: h}, paper())
	f, _ := os.Create("/tmp/fig-" + name + ".png")
	defer f.Close()
	png.Encode(f, c.Image())
}

func TestEyes(t *testing.T) {
	v, p := nested()
	save(t, "nested", v, p, unit.Inches, 511, 330)
	v, p = single()
	save(t, "single", v, p, unit.Millimetres, 511, 330)
}
