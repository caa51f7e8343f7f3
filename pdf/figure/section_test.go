package figure_test

import (
	"cmp"
	"fmt"
	"image/color"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/recorder"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
	"keeperbook/pdf/figure"
)

// drawing is what a section put on the canvas.
type drawing struct {
	lines   []vg.Path // stroked
	fills   []vg.Path
	texts   []recorder.FillString
	colours []color.Color
}

func drawn(v evaluate.Valve, p figure.Parts, s unit.Style, w, h vg.Length) drawing {
	var c recorder.Canvas
	figure.NewSection(v, p, words(s)).Draw(&c, vg.Point{X: w, Y: h}, paper())
	var d drawing
	for _, a := range c.Actions {
		switch a := a.(type) {
		case *recorder.Stroke:
			d.lines = append(d.lines, a.Path)
		case *recorder.Fill:
			d.fills = append(d.fills, a.Path)
		case *recorder.FillString:
			d.texts = append(d.texts, *a)
		case *recorder.SetColor:
			d.colours = append(d.colours, a.Color)
		}
	}
	return d
}

// says reports whether one of the texts holds this.
func (d drawing) says(text string) bool {
	return slices.ContainsFunc(d.texts, func(f recorder.FillString) bool { return strings.Contains(f.String, text) })
}

// scale reads the ratio "1.25 : 1" that stands behind these words.
func (d drawing) scale(t *testing.T, behind string) float64 {
	t.Helper()
	ratio := regexp.MustCompile(regexp.QuoteMeta(behind) + ` ([\d.]+) : ([\d.]+)`)
	for _, f := range d.texts {
		if m := ratio.FindStringSubmatch(f.String); m != nil {
			a, _ := strconv.ParseFloat(m[1], 64)
			b, _ := strconv.ParseFloat(m[2], 64)
			return a / b
		}
	}
	t.Fatalf("no scale behind %q", behind)
	return 0
}

// hasUpright reports whether a straight upright line of this length was drawn.
func (d drawing) hasUpright(length float64) bool {
	for _, p := range d.lines {
		if len(p) == 2 && p[0].Pos.X == p[1].Pos.X && math.Abs(math.Abs(float64(p[1].Pos.Y-p[0].Pos.Y))-length) < 1e-6 {
			return true
		}
	}
	return false
}

// hasFace reports whether a filled rectangle of this height was drawn.
func (d drawing) hasFace(height float64) bool {
	for _, p := range d.fills {
		low, high := math.Inf(1), math.Inf(-1)
		for _, c := range p {
			if c.Type == vg.MoveComp || c.Type == vg.LineComp {
				low, high = math.Min(low, float64(c.Pos.Y)), math.Max(high, float64(c.Pos.Y))
			}
		}
		if len(p) == 5 && math.Abs(high-low-height) < 1e-6 {
			return true
		}
	}
	return false
}

// full is a length at full size in points: 72 to the inch.
func full(l unit.Length) float64 { return float64(l) / float64(unit.Inch) * 72 }

// TestOneScaleForAllHeights measures the dimension lines and the shims on the canvas.
func TestOneScaleForAllHeights(t *testing.T) {
	for name, of := range map[string]func() (evaluate.Valve, figure.Parts){"nested": nested, "single": single} {
		for _, size := range []vg.Point{{X: 523, Y: 330}, {X: 700, Y: 260}, {X: 420, Y: 600}} {
			v, p := of()
			d := drawn(v, p, unit.Inches, size.X, size.Y)
			k := d.scale(t, "to scale")
			for what, l := range map[string]unit.Length{
				"base": v.Base.Value, "height": v.Height.Value, "lift": v.Lift.Value, "open": v.Open.Value, "bind": v.Bind.Value,
			} {
				if !d.hasUpright(full(l) * k) {
					t.Errorf("%s at %v: no line for the %s of %d at %g : 1", name, size, what, l, k)
				}
			}
			if m := d.scale(t, "gap"); !d.hasUpright(full(v.Margin.Value) * m) {
				t.Errorf("%s: no enlarged line for the margin at %g : 1", name, m)
			}
			for _, s := range v.Stack {
				if !d.hasFace(full(s.Thickness.Length()) * k) {
					t.Errorf("%s: no shim of %s", name, s.Thickness.Read)
				}
			}
			if !d.hasFace(full(v.Bind.Value) * k) {
				t.Errorf("%s: no solid column as high as the bind", name)
			}
		}
	}
}

// wires returns the full circles drawn, from the lowest, of one radius at one place from left to right.
func (d drawing) wires(radius float64) map[float64][]float64 {
	at := map[float64][]float64{}
	for _, p := range d.fills {
		for _, c := range p {
			if c.Type == vg.ArcComp && math.Abs(float64(c.Radius)-radius) < 1e-6 && math.Abs(c.Angle-2*math.Pi) < 1e-9 {
				x := math.Round(float64(c.Pos.X)*1e6) / 1e6
				at[x] = append(at[x], float64(c.Pos.Y))
			}
		}
	}
	return at
}

// TestACoilIsSolidAtItsBindHeight: with no margin the wires touch, and their stack is the bind height.
func TestACoilIsSolidAtItsBindHeight(t *testing.T) {
	v, p := single()
	c := &v.Coils[0]
	c.Bind = measured(c.Open.Value)
	c.Margin = computed(0)
	lift3(&v)
	d := drawn(v, p, unit.Millimetres, 523, 330)
	k := d.scale(t, "to scale")
	const wires = 7
	diameter := full(c.Bind.Value) * k / wires
	solid := 0
	for x, ys := range d.wires(diameter / 2) {
		slices.Sort(ys)
		if len(ys) != wires {
			continue
		}
		touching := true
		for i := 1; i < len(ys); i++ {
			touching = touching && math.Abs(ys[i]-ys[i-1]-diameter) < 1e-6
		}
		if touching {
			solid++
			if high := ys[wires-1] - ys[0] + diameter; math.Abs(high-full(c.Bind.Value)*k) > 1e-6 {
				t.Errorf("at %g the stack is %g high, want %g", x, high, full(c.Bind.Value)*k)
			}
		}
	}
	if solid != 1 {
		t.Errorf("%d columns of touching wires, want the left one of the open half", solid)
	}
}

// TestOnlyWhatIsKnownHasANumber: every number on the drawing is one of the valve's, and what is not known
// is named in the line under it.
func TestOnlyWhatIsKnownHasANumber(t *testing.T) {
	number := regexp.MustCompile(`[−]?\d*\.\d+`)
	for _, c := range partial() {
		v, p := c.of()
		d := drawn(v, p, unit.Inches, 523, 330)
		allowed := map[string]bool{}
		for _, f := range []evaluate.Figure{v.Base, v.Height, v.Lift, v.Open, v.Bind, v.Margin, v.Least, v.SealOpen, v.UpTo} {
			if f.Known {
				allowed[unit.Inches.LengthIn(f.Value)] = true
			}
		}
		for _, s := range v.Stack {
			allowed[unit.Inches.LengthIn(s.Thickness.Length())] = true
		}
		for _, f := range d.texts {
			if strings.Contains(f.String, " : ") {
				continue
			}
			for _, n := range number.FindAllString(f.String, -1) {
				if !allowed[n] {
					t.Errorf("%s: %q has the number %s, which nobody measured", c.name, f.String, n)
				}
			}
		}
		whole := ""
		for _, f := range d.texts {
			whole += f.String + " "
		}
		for _, want := range c.says {
			if !strings.Contains(whole, want) {
				t.Errorf("%s: the drawing does not say %q but %q", c.name, want, whole)
			}
		}
	}
}

type partly struct {
	name string
	of   func() (evaluate.Valve, figure.Parts)
	says []string
}

// partial are valves of which something is not known.
func partial() []partly {
	without := func(change func(*evaluate.Valve, *figure.Parts)) func() (evaluate.Valve, figure.Parts) {
		return func() (evaluate.Valve, figure.Parts) {
			v, p := nested()
			change(&v, &p)
			return v, p
		}
	}
	none := evaluate.Figure{}
	return []partly{
		{"no lift", without(func(v *evaluate.Valve, p *figure.Parts) {
			v.Lift, v.Margin, v.Open, v.SealOpen = none, none, none, none
		}), []string{"at the most lift it takes", "most lift", ".688", "Not known and left out: lift"}},
		{"an estimated lift", without(func(v *evaluate.Valve, p *figure.Parts) { v.Lift.Mark = evaluate.Estimate }),
			[]string{"at the estimated lift", "lift, estimate"}},
		{"no bind of the inner coil", without(func(v *evaluate.Valve, p *figure.Parts) {
			v.Coils[2].Bind, v.Governing = none, -1
			v.Open, v.Bind, v.Margin, v.Least, v.UpTo = none, none, none, none, none
		}), []string{"bind height of the inner"}},
		{"no locator and no lid", without(func(v *evaluate.Valve, p *figure.Parts) { p.Floor, p.Lid = nil, nil }),
			[]string{"thickness of the locator", "lid of the retainer"}},
		{"no seal gap", without(func(v *evaluate.Valve, p *figure.Parts) { v.Seal, v.SealOpen = none, none }), []string{"seal gap"}},
		{"no base height but a check height", without(func(v *evaluate.Valve, p *figure.Parts) {
			v.Base, v.Installed = none, none
			v.Check, v.Height = measured(thou(1814)), measured(thou(1814))
		}), []string{"checked", "1.814", "base height"}},
		{"no height", without(func(v *evaluate.Valve, p *figure.Parts) { v.Base, v.Installed, v.Height = none, none, none }),
			[]string{"no height is known", "Not known: base height"}},
		{"no spring, lift or limit", without(func(v *evaluate.Valve, p *figure.Parts) {
			v.Coils, v.Governing, v.Lift, v.UpTo = nil, -1, none, none
			v.Open, v.Bind, v.Margin, v.Least, v.SealOpen = none, none, none, none, none
		}), []string{"The open side is not drawn", "spring"}},
		{"binding", without(func(v *evaluate.Valve, p *figure.Parts) {
			c := &v.Coils[2]
			c.Bind, c.Margin = measured(c.Open.Value+thou(8)), computed(-thou(8))
			lift3(v)
		}), []string{"margin −.008"}},
		{"a huge margin", without(func(v *evaluate.Valve, p *figure.Parts) {
			c := &v.Coils[2]
			c.Bind, c.Margin = measured(thou(200)), computed(c.Open.Value-thou(200))
			lift3(v)
		}), []string{"margin .843"}},
	}
}

// TestEverythingIsInsideTheFrame on wide, tall and page-sized canvases, for whole and partly known valves.
func TestEverythingIsInsideTheFrame(t *testing.T) {
	all := append(partial(), partly{"nested", nested, nil}, partly{"single", single, nil})
	for _, c := range all {
		for _, size := range []vg.Point{{X: 523, Y: 300}, {X: 540, Y: 340}, {X: 900, Y: 420}, {X: 480, Y: 700},
			{X: 480, Y: 190}, {X: 480, Y: 150}, {X: 380, Y: 150}, {X: 360, Y: 90}, {X: 300, Y: 70}} {
			v, p := c.of()
			d := drawn(v, p, unit.Inches, size.X, size.Y)
			inside := func(what string, q vg.Point) {
				if q.X < -0.5 || q.Y < -0.5 || q.X > size.X+0.5 || q.Y > size.Y+0.5 {
					t.Errorf("%s at %.0f × %.0f: %s at %.1f, %.1f", c.name, size.X, size.Y, what, q.X, q.Y)
				}
			}
			for _, path := range append(slices.Clone(d.lines), d.fills...) {
				for _, part := range path {
					if part.Type == vg.MoveComp || part.Type == vg.LineComp {
						inside("a line", part.Pos)
					}
				}
			}
			look := paper()
			for _, f := range d.texts {
				inside(fmt.Sprintf("%q", f.String), f.Point)
				letters := look.Regular
				if f.Font.Weight != letters.Font.Weight {
					letters = look.Bold
				}
				inside(fmt.Sprintf("the end of %q", f.String), f.Point.Add(vg.Point{X: letters.Width(f.String)}))
				if f.Size < look.TextSize {
					t.Errorf("%s: %q in %.1f points", c.name, f.String, f.Size)
				}
			}
		}
	}
}

// TestALowFrame: with less room the margin stands in the title and no longer in an enlarged gap, and with
// less again there is a sentence and no half of a drawing.
func TestALowFrame(t *testing.T) {
	v, p := nested()
	for _, c := range []struct {
		height  vg.Length
		drawn   bool
		says    string
		without string
	}{
		{330, true, "least ", "make the window larger"},
		{155, true, "at full lift, margin ", "least "},
		{90, false, "There is no room here to draw the section", "margin"},
	} {
		d := drawn(v, p, unit.Inches, 523, c.height)
		if len(d.lines) > 0 != c.drawn || !d.says(c.says) || d.says(c.without) {
			var texts []string
			for _, f := range d.texts {
				texts = append(texts, f.String)
			}
			t.Errorf("%.0f points high: %d lines and %q", c.height, len(d.lines), texts)
		}
	}
}

// TestScalesHaveTheMarkOfTheLanguage: the scale of the heights and that of the enlarged gap are numbers like any other.
func TestScalesHaveTheMarkOfTheLanguage(t *testing.T) {
	for language, mark := range map[string]string{"en": ".", "de": ",", "es": ","} {
		v, p := single()
		v.Margin = computed(cmm(470))
		v.Coils[0].Margin = v.Margin
		var canvas recorder.Canvas
		figure.NewSection(v, p, evaluate.WordsIn(language, record.Units{Length: unit.Mm, Load: unit.N})).Draw(&canvas, vg.Point{X: 523, Y: 280}, paper())
		heights, gap := false, false
		for _, a := range canvas.Actions {
			if f, ok := a.(*recorder.FillString); ok {
				heights = heights || strings.Contains(f.String, " 1"+mark+"5 : 1;")
				gap = gap || strings.Contains(f.String, " 2"+mark+"5 : 1")
			}
		}
		if !heights || !gap {
			t.Errorf("%s: heights %v, gap %v", language, heights, gap)
		}
	}
}

// TestTitlesDoNotMeet: in no language do the words over the halves run into each other, in a narrow window either.
func TestTitlesDoNotMeet(t *testing.T) {
	bold := paper().Bold
	for _, language := range say.Languages() {
		words := evaluate.WordsIn(language, record.Units{Length: unit.In, Load: unit.Lbf})
		for _, c := range append(partial(), partly{"nested", nested, nil}, partly{"single", single, nil}) {
			for _, size := range []vg.Point{{X: 540, Y: 340}, {X: 523, Y: 155}, {X: 380, Y: 150}, {X: 330, Y: 150}, {X: 300, Y: 190}} {
				v, p := c.of()
				var canvas recorder.Canvas
				figure.NewSection(v, p, words).Draw(&canvas, size, paper())
				var above []recorder.FillString
				for _, a := range canvas.Actions {
					if f, ok := a.(*recorder.FillString); ok && f.Font.Weight == bold.Font.Weight {
						above = append(above, *f)
					}
				}
				slices.SortFunc(above, func(a, b recorder.FillString) int {
					return cmp.Or(cmp.Compare(b.Point.Y, a.Point.Y), cmp.Compare(a.Point.X, b.Point.X))
				})
				if len(above) < 2 || above[0].Point.Y != above[1].Point.Y {
					continue // one half, or a sentence in its place
				}
				if end := above[0].Point.X + bold.Width(above[0].String); end+1 > above[1].Point.X {
					t.Errorf("%s in %s at %.0f × %.0f: %q ends at %.0f, %q begins at %.0f", c.name, language, size.X, size.Y, above[0].String, end, above[1].String, above[1].Point.X)
				}
			}
		}
	}
}

// TestTheHeightOfASectionIsWhatItTakes: drawn into its own height, nothing changes in scale.
func TestTheHeightOfASectionIsWhatItTakes(t *testing.T) {
	for _, c := range append(partial(), partly{"nested", nested, nil}, partly{"single", single, nil}) {
		v, p := c.of()
		s := figure.NewSection(v, p, words(unit.Inches))
		h := s.Height(523, 340, paper())
		if h <= 0 || h > 340 {
			t.Errorf("%s takes %.0f of 340 points", c.name, h)
		}
		if again := s.Height(523, h, paper()); math.Abs(float64(again-h)) > 1e-6 {
			t.Errorf("%s takes %.1f points, and of those %.1f", c.name, h, again)
		}
	}
}

// TestNothingIsSaidByHue: a grey look gives a grey drawing.
func TestNothingIsSaidByHue(t *testing.T) {
	v, p := nested()
	for _, c := range drawn(v, p, unit.Inches, 523, 330).colours {
		if r, g, b, a := c.RGBA(); r != g || g != b || a != 0xFFFF {
			t.Fatalf("a colour of %v", c)
		}
	}
}

// TestShimsShowWhereTheyLie: under the locator they are as wide as it, under the outer coil as a wire.
func TestShimsShowWhereTheyLie(t *testing.T) {
	v, p := nested()
	d := drawn(v, p, unit.Inches, 523, 330)
	if !d.says("under locator") || !d.says("shims .030") || !d.says("under outer coil") || !d.says("shims .015") {
		t.Error("the two places of shims are not named")
	}
	k := d.scale(t, "to scale")
	width := func(t unit.Length) (wide float64) {
		for _, f := range d.fills {
			if len(f) == 5 && math.Abs(math.Abs(float64(f[2].Pos.Y-f[0].Pos.Y))-full(t)*k) < 1e-6 {
				wide = max(wide, math.Abs(float64(f[2].Pos.X-f[0].Pos.X)))
			}
		}
		return wide
	}
	if locator, outer := width(thou(30)), width(thou(15)); outer <= 0 || locator < 2*outer {
		t.Errorf("the shim under the locator is %.1f wide, that under the outer coil %.1f", locator, outer)
	}
}
