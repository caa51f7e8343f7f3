package evaluate

import (
	"math"

	"keeperbook/model/budget"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Load is one load with the way it came about: what [Figure] is of lengths, in millinewtons.
type Load struct {
	Known  bool
	Value  unit.Load
	Mark   Mark
	Stale  bool // something under it changed after it was measured
	Beyond bool // outside the points that the tester gave, by the secant of the last two
	write  func() []say.Line
	rests  *rests // nil for what was chosen or estimated
}

// figure is a load as a figure, so that both are worked, budgeted and explained by the same code. Its value
// counts millinewtons.
func (l Load) figure() Figure {
	return Figure{Known: l.Known, Value: unit.Length(l.Value), Mark: l.Mark, Stale: l.Stale, write: l.write, rests: l.rests}
}

// Sure returns the uncertainty of a load in millinewtons. It fails where [Figure.Sure] does.
func (l Load) Sure() (budget.Budget, error) { return l.figure().Sure() }

// U returns the expanded uncertainty that stands behind the ±, rounded up to the unit; false where none can
// be told.
func (l Load) U() (unit.Load, bool) {
	u, ok := l.figure().U()
	return unit.Load(u), ok
}

// Parts returns the budget of a load line by line, as [Figure.Parts] does of a length. A load counts as often
// as it does there; a length counts with the rate.
func (l Load) Parts() []Part {
	sum, ok := l.figure().sum()
	if !ok {
		return nil
	}
	rows, err := sum.Rows()
	if err != nil {
		return nil
	}
	led := &l.rests.b.doubt
	parts := make([]Part, 0, len(rows))
	for _, r := range rows {
		p := led.part(r)
		if r.Kind != budget.Cancels {
			p.U = say.New("expr.one", unit.FineLoad(math.Round(r.Std)))
		}
		if math.Abs(r.C) < leastOfLoads && r.C != 0 {
			p.Times = rateTimes(r.C)
		}
		parts = append(parts, p)
	}
	return append(parts, led.unknown(sum)...)
}

// leastOfLoads tells sensitivities apart: that of a load is a whole number, and that of a length, in
// millinewtons for a tenth of a nanometre, is a spring rate, of which none comes near.
const leastOfLoads = 0.5

// rateTimes writes a sensitivity to a length as the rate that it is.
func rateTimes(c float64) say.Line {
	rate := unit.Rate(math.Round(math.Abs(c) * tenthsOfNm))
	if c < 0 {
		return say.New("sure.minus", rate)
	}
	return say.New("sure.plus", rate)
}

// tenthsOfNm is how many units of length a metre has.
const tenthsOfNm = 1e10

// Decides says where most of the doubt in a load comes from and what would help, as [Figure.Decides] does.
func (l Load) Decides() say.Line { return l.figure().Decides() }

// Working returns the lines of how the load came about.
func (l Load) Working() []say.Line { return l.figure().Working() }

// Text returns the load with the letters of its marks, as it stands in a cell; "" where it is not known.
func (l Load) Text(p say.Printer) string {
	if !l.Known {
		return ""
	}
	text := p.Line(say.New("expr.one", l.Value))
	if l.Mark != "" && l.Mark != Computed {
		text += p.Line(say.New("mark." + string(l.Mark)))
	}
	if l.Beyond {
		text += p.Line(say.New("mark.beyond"))
	}
	if l.Stale {
		text += p.Line(say.New("mark.stale"))
	}
	return text
}

func knownLoad(value unit.Load, mark Mark, write func() say.Line) Load {
	return Load{Known: true, Value: value, Mark: mark, write: func() []say.Line { return []say.Line{write()} }}
}

// onDemand returns the load resting on inputs that are added up when somebody asks. make must only read; it
// returns nothing where how sure the load is cannot be told.
func (l Load) onDemand(b *bench, make func() budget.Sum) Load {
	l.rests = &rests{b: b, make: make}
	return l
}

// also returns the load with one more line of working.
func (l Load) also(write func() say.Line) Load {
	l.write = l.figure().also(write).write
	return l
}
