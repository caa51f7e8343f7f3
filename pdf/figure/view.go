package figure

import (
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"
)

// Lengths in points that stand for no measured length: how far casting, guide and stem are drawn before
// they are broken off.
const (
	castingDepth vg.Length = 15
	stemBelow    vg.Length = 20
	stemAbove    vg.Length = 14
	castingLip   vg.Length = 5
)

// view is the stack as it stands at one lift, drawn to one scale.
type view struct {
	brush
	stack
	profile
	axis, ground vg.Length // where the valve's axis and the pocket's floor are on the canvas
	scale        float64   // points on the canvas for a point at full size
	lift         float64
	governing    int
}

// profile is the sign for the widths: half widths from the axis, in points on the canvas.
type profile struct {
	one                           vg.Length // a wire of the outer coil
	stemHalf, guideHalf, sealHalf vg.Length
	at                            []vg.Length // middle of each coil's wire
	wire                          []vg.Length
	between                       []vg.Length // between coil i and coil i+1
	rim                           vg.Length   // outer edge of the outer coil
}

// newProfile places the coils from the stem outwards so that they nest with even gaps.
func newProfile(s stack, scale float64) profile {
	p := profile{one: vg.Length(s.outerWire() * scale)}
	p.stemHalf = p.one * 0.55
	p.guideHalf = p.stemHalf + p.one*0.4
	p.sealHalf = p.guideHalf + p.one*0.24
	n := len(s.coils)
	p.at, p.wire, p.between = make([]vg.Length, n), make([]vg.Length, n), make([]vg.Length, n)
	gap := p.one * 0.16
	x := p.sealHalf + p.one*0.2
	for i := n - 1; i >= 0; i-- {
		d := p.one * 0.8
		if s.coils[i].drawn {
			d = vg.Length(s.coils[i].wire() * scale)
		}
		p.at[i], p.wire[i], p.between[i] = x+d/2, d, x-gap/2
		x += d + gap
	}
	p.rim = max(x-gap, p.sealHalf+p.one*1.2)
	return p
}

// outerWire is a wire of the outer coil at full size; without a bind height, a common share of the height.
func (s stack) outerWire() float64 {
	if len(s.coils) > 0 && s.coils[0].drawn {
		return s.coils[0].wire()
	}
	return (s.top - s.seat) / 10
}

// half is half the width of everything drawn.
func (p profile) half() vg.Length { return p.rim + p.one*0.35 }

// y returns where a height over the pocket's floor is on the canvas.
func (v view) y(z float64) vg.Length { return v.ground + vg.Length(z*v.scale) }

// land is the retainer's outer land at this lift.
func (v view) upper() float64 { return v.top - v.lift }

func (v view) draw() {
	v.casting()
	for i := range v.coils {
		v.behind(i)
	}
	v.guide()
	v.stem()
	v.locator()
	v.shims()
	for i := range v.coils {
		v.cut(i)
	}
	v.retainer()
	v.centreLine()
}

// mirrored calls draw for the left half and the right half; x turns a half width into a place.
func (v view) mirrored(draw func(x func(vg.Length) vg.Length)) {
	draw(func(half vg.Length) vg.Length { return v.axis - half })
	draw(func(half vg.Length) vg.Length { return v.axis + half })
}

func (v view) casting() {
	v.mirrored(func(x func(vg.Length) vg.Length) {
		out := v.half() + castingLip
		face := rectangle(x(v.guideHalf), v.y(0)-castingDepth, x(out), v.y(0))
		v.hatch(face, 45, 5.2, thin, v.look.Ink)
		v.line(heavy, v.look.Ink, at(x(v.guideHalf), v.y(0)), at(x(out), v.y(0)))
	})
}

func (v view) locator() {
	v.mirrored(func(x func(vg.Length) vg.Length) {
		in, out := v.guideHalf+v.one*0.08, v.half()
		if !v.hasFloor {
			v.line(heavy, v.look.Ink, at(x(in), v.y(v.land)), at(x(out), v.y(v.land)))
			return
		}
		bottom := sum(v.under)
		outline := []vg.Point{at(x(out), v.y(bottom)), at(x(out), v.y(v.land))}
		for i := 1; i < len(v.coils); i++ {
			z := v.land + step(v.rises, i)
			outline = append(outline, at(x(v.between[i-1]), outline[len(outline)-1].Y), at(x(v.between[i-1]), v.y(z)))
		}
		outline = append(outline, at(x(in), outline[len(outline)-1].Y), at(x(in), v.y(bottom)))
		v.fill(v.look.Paper, outline...)
		v.hatch(outline, -45, 2.8, thin, v.look.Ink)
		v.outline(mid, v.look.Ink, outline...)
	})
}

// shims are solid ink: they are what the drawing is looked at for. A thin line of paper parts two that
// lie on each other.
func (v view) shims() {
	v.mirrored(func(x func(vg.Length) vg.Length) {
		z := 0.0
		for _, t := range v.under {
			v.shim(x(v.guideHalf+v.one*0.08), x(v.half()), z, z+t)
			z += t
		}
		z = v.land
		for _, t := range v.outer {
			v.shim(x(v.inside(0)), x(v.rim), z, z+t)
			z += t
		}
	})
}

func (v view) inside(i int) vg.Length {
	if len(v.coils) == 0 {
		return v.sealHalf
	}
	return v.at[i] - v.wire[i]/2
}

func (v view) shim(x1, x2 vg.Length, z1, z2 float64) {
	v.fill(v.look.Ink, rectangle(x1, v.y(z1), x2, v.y(z2))...)
	v.line(0.35, v.look.Paper, at(x1, v.y(z2)), at(x2, v.y(z2)))
}

// guide stands in the casting and carries the seal. Where the seal's height is not known the guide is
// broken off instead of ending somewhere.
func (v view) guide() {
	top := v.y(v.land) + v.one*1.1
	sealed := v.hasSeal && v.y(v.seal) > v.y(0)+v.one
	if sealed {
		top = v.y(v.seal) - v.one*0.3
	}
	v.mirrored(func(x func(vg.Length) vg.Length) {
		wall := rectangle(x(v.stemHalf), v.y(0)-castingDepth, x(v.guideHalf), top)
		v.fill(v.look.Paper, wall...)
		v.hatch(wall, -45, 3.4, thin, v.look.Ink)
		v.line(mid, v.look.Ink, at(x(v.guideHalf), v.y(0)-castingDepth), at(x(v.guideHalf), top))
		if !sealed {
			v.broken(x(v.stemHalf), x(v.guideHalf), top)
			return
		}
		v.line(mid, v.look.Ink, at(x(v.guideHalf), top), at(x(v.stemHalf), top))
		v.sealRing(x, top)
	})
}

// sealRing is a cap over the guide's end, dark because rubber is.
func (v view) sealRing(x func(vg.Length) vg.Length, guideTop vg.Length) {
	top, bottom := v.y(v.seal), guideTop-v.one*0.7
	cap := []vg.Point{
		at(x(v.guideHalf), bottom), at(x(v.sealHalf), bottom), at(x(v.sealHalf), top),
		at(x(v.stemHalf), top), at(x(v.stemHalf), guideTop), at(x(v.guideHalf), guideTop),
	}
	v.fill(v.shade(0.55), cap...)
	v.outline(mid, v.look.Ink, cap...)
}

func (v view) stem() {
	bottom, top := v.y(0)-stemBelow, v.y(v.upper()+v.lid)+stemAbove
	v.fill(v.look.Paper, rectangle(v.axis-v.stemHalf, bottom, v.axis+v.stemHalf, top)...)
	v.mirrored(func(x func(vg.Length) vg.Length) {
		v.line(heavy, v.look.Ink, at(x(v.stemHalf), bottom), at(x(v.stemHalf), top))
	})
	v.broken(v.axis-v.stemHalf, v.axis+v.stemHalf, bottom)
	v.broken(v.axis-v.stemHalf, v.axis+v.stemHalf, top)
}

// broken is the wavy end of a part that goes on outside the picture.
func (v view) broken(x1, x2, y vg.Length) {
	var p vg.Path
	w := x2 - x1
	p.Move(at(x1, y))
	p.CubeTo(at(x1+w*0.2, y+2.2), at(x1+w*0.35, y+2.2), at(x1+w*0.5, y))
	p.CubeTo(at(x1+w*0.65, y-2.2), at(x1+w*0.8, y-2.2), at(x2, y))
	v.c.SetLineWidth(thin)
	v.c.SetColor(v.look.Ink)
	v.c.Stroke(p)
}

// retainer with its lid above the outer land, its steps down to the inner lands, and the locks in its bore.
func (v view) retainer() {
	z := v.upper()
	low, high := z-v.hub, z+v.lid
	v.mirrored(func(x func(vg.Length) vg.Length) {
		out := v.rim - v.one*0.12
		wide, narrow := v.stemHalf+v.one*0.42, v.stemHalf+v.one*0.16
		if high-low <= 0 {
			v.line(2*heavy, v.look.Ink, at(x(narrow), v.y(z)), at(x(out), v.y(z)))
			return
		}
		outline := []vg.Point{at(x(out), v.y(high)), at(x(out), v.y(z))}
		for i := 1; i < len(v.coils); i++ {
			y := v.y(z - step(v.steps, i))
			outline = append(outline, at(x(v.between[i-1]), outline[len(outline)-1].Y), at(x(v.between[i-1]), y))
		}
		outline = append(outline, at(x(narrow), outline[len(outline)-1].Y), at(x(wide), v.y(high)))
		v.fill(v.look.Paper, outline...)
		v.hatch(outline, 45, 3.4, thin, v.look.Ink)
		v.outline(heavy, v.look.Ink, outline...)
		lock := []vg.Point{
			at(x(v.stemHalf), outline[len(outline)-2].Y), at(x(narrow), outline[len(outline)-2].Y),
			at(x(wide), v.y(high)), at(x(v.stemHalf), v.y(high)),
		}
		v.fill(v.shade(0.8), lock...)
		v.outline(mid, v.look.Ink, lock...)
	})
}

func (v view) centreLine() {
	v.dashed(thin, v.look.Faint, []vg.Length{9, 2.5, 2, 2.5},
		at(v.axis, v.ground-stemBelow-5), at(v.axis, v.y(v.upper()+v.lid)+stemAbove+5))
}

// shade is the ink thinned with paper: 1 is ink, 0 is paper.
func (b brush) shade(t float64) color.Color {
	r1, g1, b1, _ := b.look.Ink.RGBA()
	r2, g2, b2, _ := b.look.Paper.RGBA()
	mix := func(ink, paper uint32) uint8 {
		return uint8(math.Round((float64(ink)*t + float64(paper)*(1-t)) / 257))
	}
	return color.RGBA{mix(r1, r2), mix(g1, g2), mix(b1, b2), 255}
}
