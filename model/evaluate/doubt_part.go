package evaluate

import (
	"errors"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/spring/curve"
	"keeperbook/model/unit"
)

// DoubtPart refuses a spring, or a single spring, of which what was read cannot all be so once the corrections
// are taken off: a load below the bind height, a load at the free height or above it. It returns nil or a
// *say.Error with code Invalid. What shows without a correction is refused by [record.Doubt].
func DoubtPart(n record.Noun) error {
	switch n := n.(type) {
	case record.Spring:
		for i := range n.Coils {
			c := &n.Coils[i]
			free := unit.Length(0)
			if c.Free != nil {
				free = c.Free.Length()
			}
			if err := doubtLoads(say.New("doubt.of-coil", n.Name, coilName(c.Name)), c.Loads, c.Bind, free); err != nil {
				return err
			}
		}
		if a := n.Assembly; a != nil {
			return doubtLoads(say.New("expr.one", n.Name), a.Loads, a.Bind, 0)
		}
	case record.SpringPiece:
		for i := range n.Loads {
			l := &n.Loads[i]
			name, free := say.New("expr.one", n.Tag), unit.Length(0)
			if l.Coil > 0 {
				name = say.New("doubt.of-number", n.Tag, l.Coil)
			} else if n.Free != nil {
				free = n.Free.Length()
			}
			if err := doubtLoads(name, &l.Loads, pieceBind(&n, l.Coil), free); err != nil {
				return err
			}
		}
	}
	return nil
}

// pieceBind is the bind of a coil of a single spring; nil where it has none.
func pieceBind(p *record.SpringPiece, coil int) *record.Bind {
	for i := range p.Binds {
		if p.Binds[i].Coil == coil {
			return &p.Binds[i].Bind
		}
	}
	return nil
}

// doubtLoads holds loads against the heights between which a spring carries any. One point alone makes no
// curve yet and is passed over; a bind that is only estimated proves nothing.
func doubtLoads(name say.Line, l *record.Loads, bind *record.Bind, free unit.Length) error {
	if l == nil || len(l.Points) < 2 {
		return nil
	}
	points := pointsOf(l)
	for _, p := range points {
		if free > 0 && p.Load > 0 && p.Height >= free {
			return say.Fail(say.Invalid, "doubt.free", name, p.Load, p.Height, free).About("loads")
		}
	}
	solid := unit.Length(0)
	if bind != nil && bind.Source != record.Estimated {
		solid = corrected(record.BindReading, bind.Reading, bind.Correction)
	}
	_, err := curve.New(points, solid)
	var fault *say.Error
	if !errors.As(err, &fault) {
		return err
	}
	return say.Fail(say.Invalid, "doubt.loads", name, fault.Line).About("loads").From(err)
}

// pointsOf returns the points of a test with what its heights were read through taken off. The loads are as the
// tester showed them; its calibration is not taken off.
func pointsOf(l *record.Loads) []curve.Point {
	points := make([]curve.Point, len(l.Points))
	for i, p := range l.Points {
		points[i] = curve.Point{Height: corrected(record.BindReading, p.Height, l.Correction), Load: unit.Load(p.Load.Value)}
	}
	return points
}
