package life

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
	"keeperbook/model/wear"
)

// Verdict says what to do with a spring.
type Verdict string

// The verdicts, worst last.
const (
	Unknown Verdict = ""
	Keep    Verdict = "keep"
	Watch   Verdict = "watch"
	Replace Verdict = "replace"
)

var rank = map[Verdict]int{Unknown: 0, Keep: 1, Watch: 2, Replace: 3}

// Settling is N₀ of [wear.Settles] in valve cycles: a spring has set once it ran some ten minutes at 2,000 turns a minute. An
// assumption of ours; which shape the checks have is found from them.
const Settling = 10_000

// Life is what became of a set-up in service.
type Life struct {
	Ran    Ran
	Checks int
	Valves []Valve // in the order of the head
	Last   *record.SpringCheck

	recheck   string // as the sheet promises it
	rechecked bool   // somebody looked at the springs since the engine ran in
}

// Valve is the life of the spring at one valve.
type Valve struct {
	At       record.Position
	Label    string
	Points   []Point     // loads in the order of checks
	Base     int         // index of the baseline in Points; −1 without one
	Now      int         // index of the last point that is compared with it, the baseline itself where none is; −1 without one
	Lost     *wear.Lost  // of that point against the baseline; nil where there is none to compare
	FromNew  *wear.Lost  // of the same against the spring when it was new, where that is not the baseline
	Trend    *wear.Trend // nil where there are not enough checks
	NoTrend  say.Line    // why
	Crossing *wear.Crossing
	Lash     *unit.Length // found at the last check, less what was left before
	Verdict  Verdict
	Why      []say.Line          // of the verdict, worst first
	looked   *record.SpringCheck // the last one in which somebody looked at it; nil where nobody did
}

// Point is a load found at one check.
type Point struct {
	Day     record.Date
	Service record.Service
	Cycles  float64   // valve cycles that the head had run
	Load    unit.Load // carried to the height of the baseline
	U       float64   // its standard uncertainty in millinewtons; nought where nobody knows or assumes one
	Carried bool      // it was read at another height
	Apart   say.Line  // why it is not compared; zero where it is
	height  unit.Length
	gauge   string
	blind   int // runs before it that have no cycles
}

// Of works out the life of a set-up: of what was worked out of it, the runs and checks that it saw in the order of days, and
// the gauges of the book.
func Of(rec *record.Record, ev evaluate.Evaluation, gauges []record.Gauge, runs []record.Run, checks []record.SpringCheck) Life {
	l := Life{Ran: ranOf(runs), Checks: len(checks), recheck: rec.Setup.Needs.Recheck}
	l.rechecked = slices.ContainsFunc(checks, func(c record.SpringCheck) bool {
		return c.Service != record.CheckedNew && c.Service != record.CheckedRunIn
	})
	checks = slices.Clone(checks)
	slices.SortStableFunc(checks, func(a, b record.SpringCheck) int {
		return cmp.Or(cmp.Compare(a.Day, b.Day), cmp.Compare(slices.Index(record.Services, a.Service), slices.Index(record.Services, b.Service)))
	})
	if len(checks) > 0 {
		l.Last = &checks[len(checks)-1]
	}
	at := ranBefore(runs, checks)
	for i := range ev.Valves {
		v := Valve{At: ev.Valves[i].At, Label: ev.Valves[i].Label, Base: -1, Now: -1}
		for n := range checks {
			v.take(&ev.Valves[i], rec, gauges, &checks[n], at[n])
		}
		v.compare(&ev.Valves[i], rec, l.Ran)
		v.seen(checks)
		v.lash(&ev.Valves[i], checks)
		l.Valves = append(l.Valves, v)
	}
	l.apart(rec)
	l.overRevs(runs)
	return l
}

// take adds what a check found at the valve.
func (v *Valve) take(e *evaluate.Valve, rec *record.Record, gauges []record.Gauge, c *record.SpringCheck, ran reached) {
	for _, found := range c.Valves {
		if found.At != v.At {
			continue
		}
		if lookedAt(found) {
			v.looked = c
		}
		if found.Load == nil {
			continue
		}
		p := Point{
			Day: c.Day, Service: c.Service, Cycles: ran.cycles, Load: unit.Load(found.Load.Value), gauge: c.Gauge, blind: ran.blind,
			U: scatterOf(rec, gauges, c.Gauge),
		}
		if found.Height != nil {
			p.height = found.Height.Length()
		} else if e.Height.Known {
			p.height = e.Height.Value
		}
		v.Points = append(v.Points, p)
	}
}

// lookedAt reports whether somebody looked at the spring itself: a lash is set without it, and a note may be of anything.
func lookedAt(v record.CheckedValve) bool { return v.Load != nil || v.Free != nil || len(v.Seen) > 0 }

// scatterOf is the standard uncertainty of one load of a tester in millinewtons, as its study and its step have it, or as the
// rules assume of one; without what all its readings share. Nought where nobody says.
func scatterOf(rec *record.Record, gauges []record.Gauge, id string) float64 {
	var s, step float64
	if a := rec.Setup.Rules.AssumedLoad; a != nil {
		s, step = float64(a.S.Value), float64(a.Step.Value)
	}
	for _, g := range gauges {
		if g.ID == id && g.LoadScale != nil {
			if g.LoadScale.Repeat != nil {
				s = float64(g.LoadScale.Repeat.S.Value)
			}
			if g.LoadScale.Step != nil {
				step = float64(g.LoadScale.Step.Value)
			}
		}
	}
	return math.Hypot(s, step/math.Sqrt(12))
}

// baseline is the point that losses count from: run in, else new, else the first one.
func (v *Valve) baseline() int {
	for _, s := range []record.Service{record.CheckedRunIn, record.CheckedNew} {
		if i := slices.IndexFunc(v.Points, func(p Point) bool { return p.Service == s }); i >= 0 {
			return i
		}
	}
	return min(0, len(v.Points)-1)
}

// compare holds the points against the baseline.
func (v *Valve) compare(e *evaluate.Valve, rec *record.Record, ran Ran) {
	v.Base = v.baseline()
	if v.Base < 0 {
		v.NoTrend = say.New("life.no-load")
		return
	}
	base := v.Points[v.Base]
	for i := range v.Points {
		v.Points[i].against(base, e.Rate)
	}
	// What was found before stands, also where a later check cannot be compared: nothing says that the spring got better.
	v.Now = v.Base
	for i := v.Base + 1; i < len(v.Points); i++ {
		if v.Points[i].Apart.Zero() {
			v.Now = i
		}
	}
	if newest := v.Points[len(v.Points)-1]; !newest.Apart.Zero() {
		defer func() { v.note(Unknown, newest.Apart) }()
	}
	if v.Now == v.Base {
		v.NoTrend = wearFew(nil)
		return
	}
	last := v.Points[v.Now]
	v.Lost = lossOf(last, base)
	if first := v.Points[0]; v.Base > 0 && first.Service == record.CheckedNew && first.Apart.Zero() {
		v.FromNew = lossOf(last, first)
	}
	v.judge(rec.Setup.Rules.LoadLost, base)
	v.trend(rec.Setup.Rules.LoadLost, ran)
}

// against carries a load to the height of the baseline, or says why it is not compared.
func (p *Point) against(base Point, rate unit.Rate) {
	switch {
	case p.gauge != base.gauge:
		p.Apart = say.New("life.other-tester", p.Day)
	case p.height == base.height:
	case p.height == 0 || base.height == 0:
		p.Apart = say.New("life.no-height", p.Day)
	case rate <= 0:
		p.Apart = say.New("life.no-rate", p.Day)
	default:
		const perMetre = 1e10 // tenths of a nanometre
		load := wear.AtHeight(float64(p.Load), float64(rate), float64(p.height)/perMetre, float64(base.height)/perMetre)
		p.Load, p.Carried = unit.Load(math.RoundToEven(load)), true
	}
}

func (p Point) check() wear.Check { return wear.Check{Cycles: p.Cycles, Load: float64(p.Load), U: p.U} }

func lossOf(last, base Point) *wear.Lost {
	lost, err := wear.LossOf(last.check(), base.check())
	if err != nil {
		return nil
	}
	return &lost
}

// judge holds the loss against the rule of the shop.
func (v *Valve) judge(rule *record.Lost, base Point) {
	if v.Lost == nil || rule == nil {
		return
	}
	watch, replace := share(rule.Watch), share(rule.Replace)
	since := say.New("life.since-" + string(base.Service))
	said := say.New("life.lost", Percent(v.Lost.Share), since, Percent(v.Lost.U))
	if v.Lost.U == 0 {
		said = say.New("life.lost-bare", Percent(v.Lost.Share), since) // nobody says how well the tester repeats
	}
	switch lost := v.Lost.Share; {
	case lost >= replace:
		v.note(Replace, said)
	case lost >= watch, lost+v.Lost.U >= replace:
		v.note(Watch, said)
	default:
		v.note(Keep, said)
	}
}

// share reads a rule in percent.
func share(percent string) float64 {
	x, err := strconv.ParseFloat(percent, 64)
	if err != nil {
		return math.Inf(1)
	}
	return x / 100
}

// Percent writes a share in percent, with one decimal.
func Percent(share float64) say.Number { return say.Number(strconv.FormatFloat(100*share, 'f', 1, 64)) }

// checksAfter are the points after the baseline that can be compared with it.
func (v *Valve) checksAfter() (all []Point) {
	for _, p := range v.Points[v.Base+1:] {
		if p.Apart.Zero() {
			all = append(all, p)
		}
	}
	return all
}

func wearFew(after []Point) say.Line { return say.New("wear.few", len(after), wear.LeastChecks) }

// trend fits the points, where they are enough and every run before them has cycles.
func (v *Valve) trend(rule *record.Lost, ran Ran) {
	after, base := v.checksAfter(), v.Points[v.Base]
	switch {
	case len(after) < wear.LeastChecks:
		v.NoTrend = wearFew(after)
		return
	case after[len(after)-1].blind > base.blind:
		v.NoTrend = say.New("life.uncounted", after[len(after)-1].blind-base.blind)
		return
	case base.U == 0:
		v.NoTrend = say.New("life.no-scatter")
		return
	}
	checks := make([]wear.Check, len(after))
	for i, p := range after {
		checks[i] = p.check()
	}
	t, err := wear.Of(base.check(), checks, Settling)
	if err != nil {
		v.NoTrend = say.New("life.one-time") // the head did not run between the checks
		return
	}
	v.Trend = &t
	if rule == nil {
		return
	}
	x, err := t.Cross(share(rule.Replace))
	if err != nil {
		return
	}
	v.Crossing = &x
	v.forecast(x, base, ran, rule.Replace)
}

// farthest is how many times what was run so far a forecast may end at: beyond that nobody knows how a spring goes on, and only
// the near end is said.
const farthest = 10

// forecast says in the user's own runs when the load is lost. The cycles of one run cancel where all runs are alike, and so does
// whatever is wrong with the mean speed.
func (v *Valve) forecast(x wear.Crossing, base Point, ran Ran, percent string) {
	own, ok := ran.own()
	if !ok || x.Never() {
		return
	}
	if ran.Uncounted > base.blind {
		// More was run than is counted: what is left is less than it looks.
		v.note(Keep, say.New("life.uncounted", ran.Uncounted-base.blind))
		return
	}
	left := func(cycles float64) int {
		return int(min(max(0, math.Floor((cycles-(ran.Cycles-base.Cycles))/own.Each)), 1e9))
	}
	kind := say.New("run." + string(own.Kind))
	low, verdict := left(x.Low), Keep
	if low == 0 {
		verdict = Watch // it may have come to it
	}
	switch {
	case v.Verdict == Replace:
	case x.Open(), x.High > farthest*(ran.Cycles-base.Cycles):
		v.note(verdict, say.New("life.goes-open", percent, low, kind))
	default:
		v.note(verdict, say.New("life.goes", percent, low, left(x.High), kind))
	}
}

// note adds to what is said of the valve, and makes the verdict no better.
func (v *Valve) note(verdict Verdict, why say.Line) {
	if rank[verdict] > rank[v.Verdict] {
		v.Verdict = verdict
		v.Why = slices.Insert(v.Why, 0, why)
		return
	}
	v.Why = append(v.Why, why)
}
