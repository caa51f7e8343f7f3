package task

import (
	"bytes"
	"context"
	"slices"

	"keeperbook/model/evaluate"
	"keeperbook/model/exchange"
	"keeperbook/model/plan"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/pdf"
	"keeperbook/store"
)

// PlanModes lists what may be planned, in the order it is offered.
func PlanModes() []plan.Mode { return []plan.Mode{plan.Both, plan.Shims, plan.Heights} }

// MostShims is how many shims a plan lays under a spring where nobody says otherwise.
const MostShims = evaluate.MostShims

// PlanAsk is what a plan is asked for.
type PlanAsk struct {
	Mode plan.Mode
	Most int  // shims under a spring
	All  bool // all heads of the engine together, by their newest set-ups, and not this one alone
}

// Plan is a plan of the open set-up, made or in the making.
type Plan struct {
	planning *evaluate.Planning
	prints   map[string]string // fingerprints of the records that it was made from, by set-up
	Made     *evaluate.Planned
}

// Kin are the other heads of the engine that have a set-up, in the order of the register.
func (b *Bench) Kin(ctx context.Context) ([]HeadLine, error) {
	all, err := b.desk.Book.Heads(ctx, store.Filter{Engine: b.rec.Head.Engine})
	return slices.DeleteFunc(all, func(l HeadLine) bool { return l.Head == b.rec.Head.ID || l.Setup == "" }), err
}

// NewPlan gathers what a plan takes: the set-up as it is now, those of the other heads of its engine where they are asked
// for, the springs that are on hand for them, and the shelf of shims.
func (b *Bench) NewPlan(ctx context.Context, ask PlanAsk) (*Plan, error) {
	if ask.Most < 1 {
		return nil, say.Fail(say.Invalid, "plan.most-shims", ask.Most, plan.MostUnder)
	}
	p := &Plan{prints: map[string]string{}}
	shelf, err := b.Shelf(ctx)
	if err != nil {
		return nil, err
	}
	springs, err := b.desk.Book.SpringsFor(ctx, b.rec.Head.ID)
	if err != nil {
		return nil, err
	}
	shims, err := b.desk.Book.Shims(ctx)
	if err != nil {
		return nil, err
	}
	// The plan is made while the bench may go on: it has lists of its own. A spring may have been tested between parts,
	// and on gauges, that the set-up itself does not hold.
	from := evaluate.PlanFor{Mode: ask.Mode, Springs: springs, Most: plan.Most{Shims: ask.Most}}
	own, err := p.takes(b.rec, shelf)
	if err != nil {
		return nil, err
	}
	if ask.All {
		kin, err := b.Kin(ctx)
		if err != nil {
			return nil, err
		}
		for _, l := range kin {
			if l.State == record.Closed {
				return nil, say.Fail(say.Conflict, "plan.closed", l.Tag)
			}
			rec, err := b.desk.Book.Record(ctx, l.Setup)
			if err != nil {
				return nil, err
			}
			other, err := p.takes(rec, shelf)
			if err != nil {
				return nil, err
			}
			from.Others = append(from.Others, other)
		}
	}
	for _, s := range shims {
		from.Shelf = append(from.Shelf, evaluate.ShelfShim{StockShim: s.StockShim, Count: s.Count, Counted: s.Counted})
	}
	p.planning, err = evaluate.NewPlanning(own, from)
	if err != nil {
		return nil, err
	}
	return p, nil
}

// takes notes that a record is planned for, and returns it with lists of its own and everything that is on the shelf.
func (p *Plan) takes(of *record.Record, shelf Shelf) (*record.Record, error) {
	print, err := exchange.Fingerprint(of)
	if err != nil {
		return nil, err
	}
	p.prints[of.Setup.ID] = print
	rec := trialOf(of)
	s := &rec.Setup
	s.Packages, s.Shared, s.SeatWork = slices.Clone(s.Packages), slices.Clone(s.Shared), slices.Clone(s.SeatWork)
	s.Deviations, s.Checks = slices.Clone(s.Deviations), slices.Clone(s.Checks)
	rec.Parts, rec.Gauges = shelf.Parts, shelf.Gauges
	return &rec, nil
}

// Make makes the plan. It keeps nothing and may run beside other work.
func (p *Plan) Make(o plan.Options) (err error) {
	p.Made, err = p.planning.Solve(o)
	return err
}

// PutPlan puts a plan on the head: springs, shims and the moves of the shelf in one action, which one undo takes back.
// A plan of a set-up that changed since is refused (say.Conflict), and one with a spring that went onto another head meanwhile.
func (b *Bench) PutPlan(ctx context.Context, p *Plan) error {
	switch {
	case p.Made == nil || len(p.Made.Rows) == 0:
		return say.Fail(say.Invalid, "plan.none")
	case !b.Stands(p):
		return say.Fail(say.Conflict, "plan.stale")
	case len(p.Made.Edits) == 0:
		return say.Fail(say.Invalid, "plan.same")
	}
	for other, print := range p.prints {
		if other == b.rec.Setup.ID {
			continue
		}
		rec, err := b.desk.Book.Record(ctx, other)
		if err != nil {
			return err
		}
		if now, err := exchange.Fingerprint(rec); err != nil || now != print {
			return say.Fail(say.Conflict, "plan.stale-other", rec.Head.Tag)
		}
	}
	setup := b.rec.Setup.ID
	edits := make([]record.Edit, len(p.Made.Edits))
	for i, e := range p.Made.Edits {
		edits[i] = record.Put(e.Setup, e.Valve)
	}
	if err := b.elsewhere(ctx, edits); err != nil {
		return err
	}
	_, err := b.desk.Book.Keep(ctx, record.Action{
		Token: NewID(), Setup: setup, By: b.desk.Who, At: b.desk.now(), Edits: edits, Moves: p.Made.Moves,
	})
	if err != nil {
		return err
	}
	return b.load(ctx, setup)
}

// SavePlan writes the pick list of a plan, in the way of [Bench.Save].
func (b *Bench) SavePlan(p *Plan, paper Paper, path string, replace bool) (string, error) {
	return b.saveAs(OutPlan, path, replace, func() ([]byte, error) { return b.planPDF(p, paper) })
}

func (b *Bench) planPDF(p *Plan, paper Paper) ([]byte, error) {
	if p.Made == nil || len(p.Made.Rows) == 0 {
		return nil, say.Fail(say.Invalid, "plan.none")
	}
	var buf bytes.Buffer
	err := pdf.WritePlan(&buf, pdf.Plan{Record: b.rec, Made: p.Made, Paper: paper, Words: b.Words()})
	return buf.Bytes(), err
}

// Stands reports whether the set-up is still as it was when the plan was begun.
func (b *Bench) Stands(p *Plan) bool {
	print, err := exchange.Fingerprint(b.rec)
	return err == nil && print == p.prints[b.rec.Setup.ID]
}

// PlanColumns are the keys of the heads of a plan's table, in the order of [evaluate.PlannedValve.Cells].
func PlanColumns() []string {
	return []string{
		"plan.head.valve", "plan.head.spring", "plan.head.shims", "plan.head.height", "plan.head.margin", "plan.head.seat", "plan.head.open",
		"plan.head.verdict",
	}
}
