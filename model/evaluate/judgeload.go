package evaluate

import (
	"errors"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// judgeLoads holds the loads of a valve against what was asked for of its role, and against what the makers of
// lifter and cam allow. Their word comes before any number here.
func (b *bench) judgeLoads(v *Valve, f *fitted) {
	b.judgeBand(v, "seat-load", f.pack.SeatLoad, v.SeatLoad, v.SeatLoad)
	b.judgeBand(v, "open-load", f.pack.OpenLoad, v.OpenLoad, v.mostLoad)
	b.judgeMaker(v, "lifter", b.setup.Needs.LifterMost)
	b.judgeMaker(v, "cam", b.setup.Needs.CamMost)
}

// loadLimit is one limit of a load.
type loadLimit struct {
	key  string // of the finding
	name string // of the load
	from say.Line
	most bool
	load Load
	at   unit.Load
}

// judgeBand holds a load against its band: the least load against the least, the greatest against the most. The
// worst of the two is said.
func (b *bench) judgeBand(v *Valve, key string, band *record.Band, load, most Load) {
	if band == nil || band.Least == nil && band.Most == nil {
		return
	}
	if !load.Known {
		b.noLoad(v, key)
		return
	}
	from := say.New("from.unsaid")
	if band.From != "" {
		from = say.New("expr.one", band.From)
	}
	worst := Finding{Verdict: Within + 1}
	if band.Least != nil {
		worst = b.judgeLimit(v, loadLimit{key, key, from, false, load, unit.Load(band.Least.Value)})
	}
	if band.Most != nil {
		if f := b.judgeLimit(v, loadLimit{key, key, from, true, most, unit.Load(band.Most.Value)}); f.Verdict < worst.Verdict {
			worst = f
		}
	}
	b.say(v, worst)
}

// say adds a finding. Where an open load rests on an estimated lift and is no bad news, the lift limit says already
// what was not measured, and the head says once that its open loads wait for the lift.
func (b *bench) say(v *Valve, f Finding) {
	if f.Key != "seat-load" && v.Lift.Mark == Estimate && f.Verdict > Over {
		return
	}
	v.add(f)
}

// noLoad says why a load that is asked for is not known. Where the spring, the height or the lift is missing, that is
// said already.
func (b *bench) noLoad(v *Valve, key string) {
	why := v.curveWhy
	if why.Zero() || key == "seat-load" && v.onHead.apart {
		why = v.loadWhy
	}
	if len(v.Coils) == 0 || !v.Height.Known || key == "open-load" && !v.Lift.Known || why.Zero() {
		return
	}
	v.add(Finding{Key: key, Verdict: Missing, Line: say.New("finding.load.none", v.Label, name(key), why),
		Short: say.New("short.load.none", name(key))})
}

// judgeMaker holds the open load against the most that a maker allows.
func (b *bench) judgeMaker(v *Valve, who string, most *unit.Quantity) {
	if most == nil || !v.mostLoad.Known {
		return
	}
	b.say(v, b.judgeLimit(v, loadLimit{who + "-load", "open-load", say.New("from." + who), true, v.mostLoad, unit.Load(most.Value)}))
}

// judgeLimit says how a load stands to one limit. With both signs turned, a most is held as a least is.
func (b *bench) judgeLimit(v *Valve, l loadLimit) Finding {
	f, limit := l.load.figure(), unit.Length(l.at)
	worse, word := Short, "short"
	if l.most {
		f.Value, limit, worse, word = -f.Value, -limit, Over, "over"
	}
	h := b.hold(f, limit)
	if b.trying && h.verdict == Within {
		return Finding{Key: l.key, Verdict: Within} // nobody reads what serves
	}
	this := h.printedLoad(l.load, l.at)
	plain, other := unit.BesideLoad{This: l.load.Value, Other: l.at}, unit.BesideLoad{This: l.at, Other: l.load.Value}
	line := func(key string) say.Line {
		return say.New("finding.load."+key, v.Label, name(l.name), this, other, b.loadUnit(), l.from)
	}
	side := "least"
	if l.most {
		side = "most"
	}
	switch h.verdict {
	case Short:
		return Finding{Key: l.key, Verdict: worse, Line: line(word), Short: say.New("short.load."+word, name(l.name), plain, other)}.by(limit - f.Value)
	case Unproven:
		return Finding{Key: l.key, Verdict: Unproven,
			Line: h.endingLoad(line("near-"+side), l.load), Short: say.New("short.load."+side, name(l.name), plain, other)}.by(limit - f.Value)
	}
	return Finding{Key: l.key, Verdict: Within, Line: line(side), Short: say.New("short.load."+side, name(l.name), plain, other)}
}

// printedLoad is the load of a finding: with its ± where the rule looks at it.
func (h held) printedLoad(l Load, limit unit.Load) any {
	if h.guard.budget.Std == 0 {
		return unit.BesideLoad{This: l.Value, Other: limit}
	}
	return say.New("expr.sure", unit.BesideLoad{This: l.Value, Other: limit}, unit.UpLoad(upward(h.guard.budget.Expanded)))
}

// endingLoad is [held.ending] of a load.
func (h held) endingLoad(sentence say.Line, l Load) say.Line {
	switch h.why {
	case tooNear:
		return say.New("unproven.load-near", sentence, l.Decides())
	case tooFew:
		return say.New(l.figure().tooFewKey(), sentence, l.figure().tooFew())
	case noBudget:
		var e *say.Error
		if errors.As(h.guard.err, &e) {
			return say.New("unproven.unsure", sentence, e.Line)
		}
	}
	return say.New("unproven.load-estimate", sentence)
}
