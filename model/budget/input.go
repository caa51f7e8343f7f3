package budget

import (
	"math"

	"keeperbook/model/say"
)

// Certificate is what a calibration certificate says of a gauge's error: the expanded uncertainty
// and the factor k it was expanded with. None leaves both nought.
type Certificate struct {
	U float64
	K float64
}

// Gauge is one gauge: the least step it shows (on a scale, the smallest part that is read), its
// certificate, and what the people who use it differ by. Inputs that name the same gauge share the
// error that its certificate speaks of.
type Gauge struct {
	Name        say.Line
	Step        float64
	Certificate Certificate
	People      Pool // s_o, from a study by several people; not divided by the number of readings
}

// Pool is an estimate of scatter, the standard deviation of one reading, with its degrees of freedom.
// Inputs that name the same pool share one estimate.
type Pool struct {
	S  float64
	Nu float64
}

// none reports whether there is no estimate at all; a scatter of nought that was found is one.
func (p Pool) none() bool { return p == Pool{} }

// Scatter is what an input's own repeats differ by: the sum of the squared differences from their mean,
// and the degrees of freedom, one fewer than there are repeats.
type Scatter struct {
	Squares float64
	Nu      float64
}

// Lot is a figure found on N pieces of a lot and used for another piece of it. S is the standard
// deviation between the pieces, Nu its degrees of freedom: N − 1 where it comes from them.
type Lot struct {
	S  float64
	Nu float64
	N  int
}

// Estimate is a standard uncertainty from elsewhere. Nu may be infinite.
type Estimate struct {
	U  float64
	Nu float64
}

// Input is one thing that a length is worked out from. Each part that is given counts; what is left
// nought does not.
//
// A reading has a gauge, a number of readings N, and a pool or its own scatter or both: own repeats
// join the pool. A bind from a lot has a gauge and a lot. A shim that nobody measured has a tolerance;
// shims of one batch are one input, named once for each of them. What was supplied has an estimate.
type Input struct {
	Name      say.Line
	Gauge     *Gauge
	Pool      *Pool
	N         int
	Own       Scatter
	Lot       Lot
	Tolerance float64 // ±T: anywhere within is as likely
	Estimate  Estimate
}

// Term is an input with its sensitivity c, how much the length grows where the input grows by one.
type Term struct {
	C float64
	X *Input
}

// read reports whether the input has a scatter of its own reading: from repeats, its own or others'.
func (x *Input) read() bool { return x.Pool != nil || x.Own != Scatter{} }

// number reports whether x is a finite number, not below nought.
func number(x float64) bool { return x >= 0 && !math.IsInf(x, 1) }

// degrees reports whether nu can be degrees of freedom. Infinitely many are allowed.
func degrees(nu float64) bool { return nu > 0 }

// Check refuses a gauge that nothing can be worked out with.
func (g *Gauge) Check() error {
	c := g.Certificate
	switch {
	case !number(g.Step) || g.Step == 0:
		return say.Fail(say.Invalid, "budget.step", called(g.Name))
	case !number(c.U):
		return say.Fail(say.Invalid, "budget.certificate", called(g.Name))
	case !number(c.K), c.K == 0 && c.U > 0:
		return say.Fail(say.Invalid, "budget.factor", called(g.Name))
	}
	return g.People.check(g.Name)
}

// Check refuses a pool that nothing can be worked out with. The name is its gauge's.
func (p *Pool) Check(name say.Line) error {
	if p.none() {
		return say.Fail(say.Invalid, "budget.degrees", called(name))
	}
	return p.check(name)
}

func (p Pool) check(name say.Line) error {
	switch {
	case p.none():
	case !number(p.S):
		return say.Fail(say.Invalid, "budget.scatter", called(name))
	case !degrees(p.Nu):
		return say.Fail(say.Invalid, "budget.degrees", called(name))
	}
	return nil
}

// Check refuses an input that nothing can be worked out with, and one that no uncertainty is known of:
// a number without any would pass for exact.
func (x *Input) Check() error {
	if x.Gauge != nil {
		if err := x.Gauge.Check(); err != nil {
			return err
		}
	}
	if x.Pool != nil {
		if err := x.Pool.Check(x.Name); err != nil {
			return err
		}
	}
	own, lot, read := x.Own != Scatter{}, x.Lot != Lot{}, x.read()
	switch {
	case read && x.N < 1:
		return say.Fail(say.Invalid, "budget.repeats", called(x.Name))
	case own && !number(x.Own.Squares), !number(x.Lot.S), !number(x.Tolerance), !number(x.Estimate.U):
		return say.Fail(say.Invalid, "budget.scatter", called(x.Name))
	case own && !degrees(x.Own.Nu), lot && !degrees(x.Lot.Nu), x.Estimate != Estimate{} && !degrees(x.Estimate.Nu):
		return say.Fail(say.Invalid, "budget.degrees", called(x.Name))
	case lot && x.Lot.N < 1:
		return say.Fail(say.Invalid, "budget.lot", called(x.Name))
	case !read && !lot && (x.Gauge != nil || x.Tolerance == 0 && x.Estimate == Estimate{}):
		return say.Fail(say.Invalid, "budget.unknown", called(x.Name))
	}
	return nil
}

// called is the name that a refusal speaks of.
func called(name say.Line) say.Line {
	if name.Zero() {
		return say.New("budget.unnamed")
	}
	return name
}
