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
)

// PlanModes lists what may be planned, in the order it is offered.
func PlanModes() []plan.Mode { return []plan.Mode{plan.Both, plan.Shims, plan.Heights} }

// MostShims is how many shims a plan lays under a spring where nobody says otherwise.
const MostShims = evaluate.MostShims

// Plan is a plan of the open set-up, made or in the making.
type Plan struct {
	planning *evaluate.Planning
	print    string // of the record that it was made from
	Made     *evaluate.Planned
}

// NewPlan gathers what a plan takes: the set-up as it is now, the springs that are on hand for its head, and the shelf of
// shims. Most is how many shims may lie under a spring.
func (b *Bench) NewPlan(ctx context.Context, mode plan.Mode, most int) (*Plan, error) {
	if most < 1 {
		return nil, say.Fail(say.Invalid, "plan.most-shims", most, plan.MostUnder)
	}
	print, err := exchange.Fingerprint(b.rec)
	if err != nil {
		return nil, err
	}
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
	rec := trialOf(b.rec)
	rec.Setup.Packages = slices.Clone(rec.Setup.Packages)
	rec.Parts, rec.Gauges = shelf.Parts, shelf.Gauges
	from := evaluate.PlanFor{Mode: mode, Springs: springs, Most: plan.Most{Shims: most}}
	for _, s := range shims {
		from.Shelf = append(from.Shelf, evaluate.ShelfShim{StockShim: s.StockShim, Count: s.Count, Counted: s.Counted})
	}
	p, err := evaluate.NewPlanning(&rec, from)
	if err != nil {
		return nil, err
	}
	return &Plan{planning: p, print: print}, nil
}

// Make makes the plan. It keeps nothing and may run beside other work.
func (p *Plan) Make(o plan.Options) (err error) {
	p.Made, err = p.planning.Solve(o)
	return err
}

// PutPlan puts a plan on the head: springs, shims and the moves of the shelf in one action, which one undo takes back.
// A plan of a set-up that changed since is refused (say.Conflict).
func (b *Bench) PutPlan(ctx context.Context, p *Plan) error {
	switch {
	case p.Made == nil || len(p.Made.Rows) == 0:
		return say.Fail(say.Invalid, "plan.none")
	case !b.Stands(p):
		return say.Fail(say.Conflict, "plan.stale")
	case len(p.Made.Edits) == 0:
		return say.Fail(say.Invalid, "plan.same")
	}
	setup := b.rec.Setup.ID
	edits := make([]record.Edit, len(p.Made.Edits))
	for i, v := range p.Made.Edits {
		edits[i] = record.Put(setup, v)
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
	return err == nil && print == p.print
}

// PlanColumns are the keys of the heads of a plan's table, in the order of [evaluate.PlannedValve.Cells].
func PlanColumns() []string {
	return []string{
		"plan.head.valve", "plan.head.spring", "plan.head.shims", "plan.head.height", "plan.head.margin", "plan.head.seat", "plan.head.open",
		"plan.head.verdict",
	}
}
