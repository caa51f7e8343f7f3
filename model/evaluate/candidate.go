package evaluate

import (
	"cmp"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Grade says how a type of springs stands to what is asked for.
type Grade int

// The grades, best first.
const (
	Serves    Grade = iota // nothing stands against it, and nothing is open
	Promising              // nothing stands against it as far as is known
	Nearly                 // one thing stands against it
	Fails                  // more than one thing does
)

// Line returns the grade's word.
func (g Grade) Line() say.Line {
	return say.New("choose.grade." + [...]string{"serves", "promising", "nearly", "fails"}[g])
}

// Candidate is a type of springs as it would stand on a valve.
type Candidate struct {
	Spring  *record.Spring
	Grade   Grade
	Stack   []unit.Length // shims that it was worked out with, thickest first
	Height  Figure        // installed height over these
	Margin  Figure        // of its governing coil
	Seat    Load
	Open    Load
	Against []Finding // what stands against it, worst first
	Unsaid  []Finding // what cannot be decided yet
}

// Choice is what the types of a shop come to on one role of a head.
type Choice struct {
	Role   record.Role
	At     record.Position
	Label  string     // of the valve that leaves least room, on which they were worked out
	Base   Figure     // its base height
	Lift   Figure     // and its lift
	Asks   []say.Line // what is not known yet, as questions
	Beside []Finding  // what stands against every spring, for it is not the spring's
	All    []Candidate
}

// ofSpring are the findings that another spring, or other shims for it, can change.
var ofSpring = []string{
	"bind", "seat-load", "open-load", "lifter-load", "cam-load", "fit-pocket", "fit-cup", "fit-neighbour", "fit-locator", "fit-retainer",
	"fit-coils", "fit-seal", "fit-titanium", "fit-aluminium", "rated-lift", "missing", "most", "window",
}

// Choose holds types of springs against what a role of a head asks for. Each is worked out by the code that works
// out the record, as if it stood on the valve of the role that leaves least room, over shims of the shop's sizes:
// those that bring the seat load nearest to its target where one is set, else as much as its margins, and the most
// that its loads may be, allow. A coil for which no least margin was chosen takes that of the outermost one.
// The record is not written to.
func Choose(rec *record.Record, role record.Role, types []record.Spring) Choice {
	t := newTrial(rec, role)
	c := Choice{Role: role, At: t.at, Label: t.b.head.Label(t.at), All: t.candidates(rec, types)}
	bare := t.bare()
	c.Base, c.Lift = bare.Base, bare.Lift
	for _, f := range bare.Findings {
		if !f.Note && f.Verdict <= Unfit && !slices.Contains(ofSpring, f.Key) {
			c.Beside = append(c.Beside, f)
		}
	}
	c.Asks = t.asks(bare)
	target := t.target()
	slices.SortStableFunc(c.All, func(x, y Candidate) int {
		return cmp.Or(cmp.Compare(x.Grade, y.Grade), cmp.Compare(len(x.Against), len(y.Against)),
			cmp.Compare(missed(x.Seat, target), missed(y.Seat, target)), cmp.Compare(x.Spring.Name, y.Spring.Name))
	})
	return c
}

// atOnce is how many types are worked out on one bench, which keeps what it worked out.
const atOnce = 64

// candidates works types out, more than a few of them on as many processors as there are.
func (t *trial) candidates(rec *record.Record, types []record.Spring) []Candidate {
	all := make([]Candidate, len(types))
	work := func(t *trial, from int) {
		for i := from; i < min(from+atOnce, len(types)); i++ {
			all[i] = t.candidate(&types[i])
		}
	}
	if len(types) <= atOnce {
		work(t, 0)
		return all
	}
	var next atomic.Int64
	var done sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		done.Go(func() {
			for from := int(next.Add(atOnce)) - atOnce; from < len(types); from = int(next.Add(atOnce)) - atOnce {
				work(newTrial(rec, t.pack.Role), from)
			}
		})
	}
	done.Wait()
	return all
}

// missed is how far a seat load lies from its target; nought where there is none.
func missed(l Load, target *unit.Load) unit.Load {
	if target == nil {
		return 0
	}
	if d := l.Value - *target; d < 0 {
		return -d
	} else {
		return d
	}
}

// candidate works one type out.
func (t *trial) candidate(s *record.Spring) Candidate {
	c := Candidate{Spring: s}
	v, stack := t.shimmed(s)
	c.Stack = stack
	c.Height, c.Margin = bareFigure(v.Height), bareFigure(v.Margin)
	c.Seat, c.Open = bareLoad(v.SeatLoad), bareLoad(v.OpenLoad)
	if !c.Height.Known {
		// Without a base height there is still the height to aim for.
		c.Height = bareFigure(v.Target)
	}
	for _, f := range v.Findings {
		switch {
		case f.Note || !slices.Contains(ofSpring, f.Key) || f.Verdict == Within:
		case f.Verdict <= Unfit:
			c.Against = append(c.Against, f)
		default:
			c.Unsaid = append(c.Unsaid, f)
		}
	}
	switch {
	case len(c.Against) > 1:
		c.Grade = Fails
	case len(c.Against) == 1:
		c.Grade = Nearly
	case len(c.Unsaid) > 0:
		c.Grade = Promising
	}
	return c
}

// bareFigure is a figure without its working, so that thousands of them weigh little.
func bareFigure(f Figure) Figure { return Figure{Known: f.Known, Value: f.Value, Mark: f.Mark} }

func bareLoad(l Load) Load {
	return Load{Known: l.Known, Value: l.Value, Mark: l.Mark, Beyond: l.Beyond}
}
