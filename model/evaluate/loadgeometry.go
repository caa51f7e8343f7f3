package evaluate

import (
	"errors"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/spring/curve"
	"keeperbook/model/spring/wire"
	"keeperbook/model/unit"
)

// endOf are the kinds of ends as package wire has them.
var endOf = map[record.Ends]wire.End{
	record.PlainEnds: wire.Plain, record.PlainGround: wire.PlainGround, record.Squared: wire.Squared, record.SquaredGround: wire.SquaredGround,
}

// wound is a coil worked out from its geometry.
type wound struct {
	spring wire.Spring
	ends   wire.End
	free   unit.Length
}

// woundOf returns a coil of round wire as its geometry has it; false where something that it takes is not known.
// Ovate and flat wire have other factors, and coils of them are known by their points alone.
func woundOf(c *record.Coil) (wound, bool) {
	w := c.Wire
	if w == nil || w.Section != record.Round || w.Diameter == nil || w.G == nil || c.Outside == nil || c.Free == nil {
		return wound{}, false
	}
	ends, known := endOf[c.Ends]
	active := number(c.Active)
	if total := number(c.Total); active == 0 && total > 0 {
		active = ends.Active(total)
	}
	if !known || active <= 0 {
		return wound{}, false
	}
	one := wound{ends: ends, free: c.Free.Length()}
	d, g := w.Diameter.Length(), wire.Stress(w.G.Value)
	mean, gap := c.Outside.Length()-d, max(0, ends.Pitch(d, one.free, active)-d)
	var err error
	switch c.Form {
	case record.Conical, record.Beehive:
		if c.Small == nil {
			return wound{}, false
		}
		cone, top := active, c.Small.Length()-d
		if c.Form == record.Beehive {
			if cone = number(c.Conical); cone <= 0 || cone >= active {
				return wound{}, false
			}
			one.spring, err = wire.Beehive(d, mean, top, active-cone, cone, gap, g)
			break
		}
		one.spring, err = wire.Cone(d, top, mean, active, gap, g)
	default:
		one.spring, err = wire.Cylinder(d, mean, active, g)
	}
	return one, err == nil
}

// geometrySteps is how many points a curve from geometry has between nothing and solid: a cone's rate rises
// turn by turn.
const geometrySteps = 12

// drawn is the curve of a coil by its geometry; nil where it has none.
func (w wound) drawn() *curve.Curve {
	solid := unit.Length(w.spring.Solid(w.ends))
	if w.free <= solid {
		return nil
	}
	var points []curve.Point
	for i := 0; i <= geometrySteps; i++ {
		h := w.free - (w.free-solid)*unit.Length(i)/(geometrySteps+1)
		load, err := w.spring.Load(w.free - h)
		if err != nil {
			break
		}
		points = append(points, curve.Point{Height: h, Load: load})
	}
	c, err := curve.New(points, solid)
	if err != nil {
		return nil
	}
	return c
}

// fromGeometry is the curve of a spring of which coils were never tested, by their geometry. It is an estimate
// whatever else of it was measured.
func (b *bench) fromGeometry(t tests, steps []unit.Length) (springCurve, bool) {
	sp := curve.Spring{Coils: make([]*curve.Curve, len(t.coils))}
	for i, c := range t.coils {
		if sp.Coils[i] = b.testCurve(c.loads, c.bind, compressing, c.ofType); sp.Coils[i] != nil {
			continue
		}
		if w, ok := woundOf(&t.spring.Coils[i]); ok {
			sp.Coils[i] = w.drawn()
		}
	}
	up, err := sp.On(steps...)
	if err != nil {
		return springCurve{}, false
	}
	return springCurve{up: up, back: up, estimate: true}, true
}

// line is the sentence of an error.
func line(err error) say.Line {
	var e *say.Error
	if errors.As(err, &e) {
		return e.Line
	}
	return say.Line{}
}
