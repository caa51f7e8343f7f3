package pdf

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"image"
	"image/color"
	"io"
	"math"
	"regexp"
	"strings"
	"testing"
	"time"

	"gonum.org/v1/plot/vg"

	"keeperbook/pdf/face"
)

// content draws on an empty page of 200 by 300 points and returns the page's operators.
func content(t *testing.T, draw func(c *canvas)) string {
	t.Helper()
	p := newPress(200, 300, time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC), "")
	p.page()
	draw(canvasAt(p, 10, 290))
	data, err := p.bytes()
	if err != nil {
		t.Fatal(err)
	}
	at := regexp.MustCompile(`(?s)/FlateDecode /Length \d+>>\nstream\n`).FindIndex(data)
	r, err := zlib.NewReader(bytes.NewReader(data[at[1]:]))
	if err != nil {
		t.Fatal(err)
	}
	out, err := io.ReadAll(r)
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

func line(x1, y1, x2, y2 vg.Length) vg.Path {
	var p vg.Path
	p.Move(vg.Point{X: x1, Y: y1})
	p.Line(vg.Point{X: x2, Y: y2})
	return p
}

// wants reports the operators that a page lacks.
func wants(t *testing.T, got string, operators ...string) {
	t.Helper()
	for _, op := range operators {
		if !strings.Contains(got, op) {
			t.Errorf("the page lacks %q:\n%s", op, got)
		}
	}
}

// The origin lies 10 points from the left and 290 from the top of a page of 300, so at 10, 10 from its
// lower left corner.
func TestTheOriginIsAtTheLowerLeft(t *testing.T) {
	got := content(t, func(c *canvas) {
		c.SetLineWidth(2)
		c.SetLineDash([]vg.Length{3, 1}, 2)
		c.SetColor(color.Gray{128})
		c.Stroke(line(0, 0, 50, 40))
	})
	wants(t, got, "10.00 10.00 m", "60.00 50.00 l", "2.00 w", "[3.00 1.00] 2.00 d", "0.502 G")
}

func TestTransformationsGoOneAfterTheOther(t *testing.T) {
	got := content(t, func(c *canvas) {
		c.Push()
		c.Translate(vg.Point{X: 20, Y: 30})
		c.Rotate(math.Pi / 2)
		c.Scale(2, 2)
		c.SetLineWidth(1)
		c.Stroke(line(0, 0, 10, 0)) // to the right, twice as long, turned upwards, from 20, 30
		c.Pop()
		c.Stroke(line(0, 0, 1, 0))
	})
	wants(t, got, "30.00 40.00 m", "30.00 60.00 l", "2.00 w", "10.00 10.00 m", "11.00 10.00 l", "1.00 w")
}

func TestColoursMixWithThePaper(t *testing.T) {
	got := content(t, func(c *canvas) {
		c.SetColor(color.NRGBA{0, 0, 0, 51}) // a fifth of ink
		c.Fill(line(0, 0, 5, 5))
		c.SetColor(nil)
		c.Fill(line(0, 0, 6, 6))
	})
	wants(t, got, "0.800 g", "0.000 g")
}

// TestCurvesStayOnTheirCircle: the points of a circle drawn in cubic curves are a radius from its middle.
func TestCurvesStayOnTheirCircle(t *testing.T) {
	got := content(t, func(c *canvas) {
		var p vg.Path
		p.Arc(vg.Point{X: 50, Y: 50}, 20, 0.3, -5.1)
		c.Stroke(p)
		var q vg.Path
		q.Move(vg.Point{})
		q.QuadTo(vg.Point{X: 30, Y: 60}, vg.Point{X: 60})
		c.Stroke(q)
	})
	var x0, y0 float64
	curves := regexp.MustCompile(`([\d. -]+) c\n`).FindAllStringSubmatch(got, -1)
	start := regexp.MustCompile(`([\d.-]+) ([\d.-]+) m\n`).FindStringSubmatch(got)
	fmt.Sscan(start[1]+" "+start[2], &x0, &y0)
	if len(curves) != 5 {
		t.Fatalf("%d curves for an arc of five quarters at most and one parabola", len(curves))
	}
	for _, m := range curves[:4] {
		var c [6]float64
		fmt.Sscan(m[1], &c[0], &c[1], &c[2], &c[3], &c[4], &c[5])
		for _, s := range []float64{0.25, 0.5, 0.75, 1} {
			b := func(p0, p1, p2, p3 float64) float64 {
				u := 1 - s
				return u*u*u*p0 + 3*u*u*s*p1 + 3*u*s*s*p2 + s*s*s*p3
			}
			x, y := b(x0, c[0], c[2], c[4]), b(y0, c[1], c[3], c[5])
			// 0.01 is what the page rounds coordinates to.
			if r := math.Hypot(x-60, y-60); math.Abs(r-20) > 0.02 {
				t.Errorf("a point %g from the middle of a circle of 20", r)
			}
		}
		x0, y0 = c[4], c[5]
	}
	// The middle of a parabola over 60 points with its control at 30, 60 is at half that height.
	var c [6]float64
	fmt.Sscan(curves[4][1], &c[0], &c[1], &c[2], &c[3], &c[4], &c[5])
	if y := (10 + 3*c[1] + 3*c[3] + c[5]) / 8; math.Abs(y-40) > 0.01 {
		t.Errorf("the parabola peaks at %g, want 40", y)
	}
}

func TestLettersStayLetters(t *testing.T) {
	got := content(t, func(c *canvas) {
		c.FillString(face.Bold(11), vg.Point{X: 5, Y: 7}, "A")
		c.Translate(vg.Point{X: 50, Y: 50})
		c.Rotate(math.Pi / 2)
		c.FillString(face.Regular(9), vg.Point{X: 3}, "B")
		c.FillString(face.Regular(0), vg.Point{}, "C")
	})
	wants(t, got, "11.00 Tf", "BT 15.00 17.00 Td (\x00A) Tj ET", "0.00000 1.00000 -1.00000 0.00000 60.00000 63.00000 cm", "BT 0.00 0.00 Td (\x00B) Tj ET")
	if strings.Contains(got, "\x00C") {
		t.Error("letters of no size were set")
	}
}

func TestWhatAPageRefuses(t *testing.T) {
	for name, draw := range map[string]func(c *canvas){
		"letters under nine points":     func(c *canvas) { c.FillString(face.Regular(8.9), vg.Point{}, "small") },
		"letters scaled under nine":     func(c *canvas) { c.Scale(0.5, 0.5); c.FillString(face.Regular(12), vg.Point{}, "small") },
		"a bitmap":                      func(c *canvas) { c.DrawImage(vg.Rectangle{}, image.NewGray(image.Rect(0, 0, 1, 1))) },
		"more states back than saved":   func(c *canvas) { c.Pop() },
		"a line to nowhere":             func(c *canvas) { c.Stroke(line(0, 0, vg.Length(math.NaN()), 1)) },
		"letters nowhere":               func(c *canvas) { c.FillString(face.Regular(9), vg.Point{X: vg.Length(math.Inf(1))}, "far") },
		"a curve that leaves the world": func(c *canvas) { var p vg.Path; p.Arc(vg.Point{}, vg.Length(math.NaN()), 0, 1); c.Fill(p) },
	} {
		p := newPress(200, 300, time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC), "")
		p.page()
		draw(canvasAt(p, 0, 300))
		if data, err := p.bytes(); err == nil || data != nil {
			t.Errorf("%s went onto the page", name)
		}
	}
}

func TestClean(t *testing.T) {
	for in, want := range map[string]string{
		"plain":          "plain",
		"7° ±.005 ≥ ″":   "7° ±.005 ≥ ″",
		"two\nlines\r\n": "two¶lines¶",
		"tab\there":      "tab here",
		"🏁":              "□",
		"\x00\x1b":       "□□",
		"\u202e\u200b":   "",
		"e\u0301":        "é",
		"caf\xe9":        "caf□",
		"日本":             "□□",
	} {
		if got := clean(in); got != want {
			t.Errorf("%q comes out as %q, want %q", in, got, want)
		}
	}
}

func TestVisualOrder(t *testing.T) {
	for in, want := range map[string]string{
		"plain 12":         "plain 12",
		"ראש 12":           "12 שאר",
		"A 12 ראש B":       "A 12 שאר B",
		"ראש (שמאל), 12.5": "12.5 ,(לאמש) שאר",
		"ראש ימין end":     "ןימי שאר end",
		"رأس 4":            "4 سأر",
	} {
		if got := visual(in); got != want {
			t.Errorf("%q is set as %q, want %q", in, got, want)
		}
	}
}
