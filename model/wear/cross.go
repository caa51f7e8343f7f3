package wear

import (
	"math"

	"keeperbook/model/say"
)

// Crossing is when a share of the load is lost, in cycles since the baseline. High is infinite where the checks set no latest
// one, and At where the load does not fall.
type Crossing struct {
	Band
	Shape Shape
}

// Never reports whether the load is not falling at all, as far as the checks tell.
func (c Crossing) Never() bool { return math.IsInf(c.Low, 1) }

// Open reports whether there is no latest number of cycles.
func (c Crossing) Open() bool { return math.IsInf(c.High, 1) }

// Cross returns when the fitted load will have lost a share, between nought and one, of what it was at the baseline.
func (f Fitted) Cross(share float64) (Crossing, error) {
	if !(share > 0 && share < 1) {
		return Crossing{}, say.Fail(say.Invalid, "wear.share")
	}
	// All g with (c a + b g)² ≤ t² var(c a + b g), which is A g² + 2 B g + C ≤ 0.
	t2 := f.quantile() * f.quantile() * f.spread()
	a := f.b*f.b - t2*f.curve.Known.At(1, 1)
	b := share * (f.a*f.b - t2*f.curve.Known.At(0, 1))
	c := share * share * (f.a*f.a - t2*f.curve.Known.At(0, 0))
	none := Crossing{Band{math.Inf(1), math.Inf(1), math.Inf(1)}, f.Shape}
	if a > 0 && f.b > 0 || c <= 0 {
		// The load rises beyond doubt, or the load at the baseline is not known from nought.
		if c <= 0 {
			none.Low = 0
		}
		return none, nil
	}
	x := none
	if f.b < 0 {
		x.At = f.cyclesAt(-share * f.a / f.b)
	}
	// The lesser root in the form that loses no digits and holds for A = 0 too.
	root := math.Sqrt(b*b - a*c)
	x.Low = f.cyclesAt(c / (root - b))
	if a > 0 {
		x.High = f.cyclesAt((root - b) / a)
	}
	return x, nil
}

// Trend is both shapes through the same checks.
type Trend struct {
	Line, Settles Fitted
}

// Of fits both shapes. Errors are those of [Fit].
func Of(baseline Check, checks []Check, settling float64) (t Trend, err error) {
	if t.Line, err = Fit(Line, baseline, checks, settling); err != nil {
		return Trend{}, err
	}
	t.Settles, err = Fit(Settles, baseline, checks, settling)
	return t, err
}

// Shape is the shape that the checks are nearer to, or [Either].
func (t Trend) Shape() Shape {
	switch d := t.Line.Chi2 - t.Settles.Chi2; {
	case d > choice:
		return Settles
	case d < -choice:
		return Line
	}
	return Either
}

// Better is the shape with the lesser χ², which is drawn.
func (t Trend) Better() Fitted {
	if t.Settles.Chi2 < t.Line.Chi2 {
		return t.Settles
	}
	return t.Line
}

// Load is [Fitted.Load] of the shape that was chosen, or of both.
func (t Trend) Load(cycles float64) Band {
	return t.both(t.Line.Load(cycles), t.Settles.Load(cycles))
}

// Next is [Fitted.Next] of the shape that was chosen, or of both.
func (t Trend) Next(cycles, u float64) Band {
	return t.both(t.Line.Next(cycles, u), t.Settles.Next(cycles, u))
}

// Cross is [Fitted.Cross] of the shape that was chosen, or of both.
func (t Trend) Cross(share float64) (Crossing, error) {
	line, err := t.Line.Cross(share)
	if err != nil {
		return Crossing{}, err
	}
	settles, err := t.Settles.Cross(share)
	return Crossing{t.both(line.Band, settles.Band), t.Shape()}, err
}

// both is the band of the shape that was chosen, or one that holds both.
func (t Trend) both(line, settles Band) Band {
	switch t.Shape() {
	case Line:
		return line
	case Settles:
		return settles
	}
	at := line.At
	if t.Better().Shape == Settles {
		at = settles.At
	}
	return Band{at, min(line.Low, settles.Low), max(line.High, settles.High)}
}
