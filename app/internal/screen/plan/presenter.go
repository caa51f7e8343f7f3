// Package plan is the leaf on which the best springs and shims for the whole head are found: what may be chosen, the head
// before and after, what to pick, and the button that puts it on.
package plan

import (
	"context"
	"errors"
	"strconv"
	"strings"
	"sync/atomic"

	"keeperbook/app/internal/task"
	"keeperbook/model/plan"
	"keeperbook/model/say"
)

// Presenter is the leaf without a window.
type Presenter struct {
	bench  *task.Bench
	mode   plan.Mode
	most   int        // shims under a spring
	all    bool       // all heads of the engine
	made   *task.Plan // nil until one was made
	failed error      // why none could be
	making *making    // nil while none is
}

// making is a plan in the making.
type making struct {
	plan   *task.Plan
	cancel atomic.Bool
}

// NewPresenter returns the leaf of a set-up.
func NewPresenter(bench *task.Bench) *Presenter {
	return &Presenter{bench: bench, most: task.MostShims}
}

func (p *Presenter) say(key string, args ...any) string { return p.bench.Say(key, args...) }

// Modes are what may be planned, and which of them is.
func (p *Presenter) Modes() (labels []string, at int) {
	for i, m := range task.PlanModes() {
		labels = append(labels, p.say("plan.mode."+modes[m]))
		if m == p.mode {
			at = i
		}
	}
	return labels, at
}

var modes = map[plan.Mode]string{plan.Both: "springs", plan.Shims: "shims", plan.Heights: "heights"}

// What says what the mode in force does.
func (p *Presenter) What() string { return p.say("plan.what." + modes[p.mode]) }

// Choose takes another mode. The plan that was made for another one goes.
func (p *Presenter) Choose(at int) {
	if m := task.PlanModes()[at]; m != p.mode {
		p.mode = m
		p.forget()
	}
}

// forget drops what was planned, and ends what is in the making.
func (p *Presenter) forget() {
	p.Stop()
	p.made, p.failed, p.making = nil, nil, nil
}

// Most is how many shims may lie under a spring, and SetMost reads it.
func (p *Presenter) Most() string { return strconv.Itoa(p.most) }

// SetMost is described at [Presenter.Most].
func (p *Presenter) SetMost(text string) error {
	n, err := strconv.Atoi(strings.TrimSpace(text))
	if err != nil || n < 1 || n > plan.MostUnder {
		return say.Fail(say.Invalid, "plan.most-typed", strings.TrimSpace(text), plan.MostUnder)
	}
	if n != p.most {
		p.most = n
		p.forget()
	}
	return nil
}

// Kin are which heads may be planned for, and which are; nothing where the engine has no other one.
func (p *Presenter) Kin(ctx context.Context) (labels []string, at int, err error) {
	kin, err := p.bench.Kin(ctx)
	if err != nil || len(kin) == 0 {
		return nil, 0, err
	}
	tags := make([]say.Line, len(kin))
	for i, l := range kin {
		tags[i] = say.New("plan.name", l.Tag)
	}
	if p.all {
		at = 1
	}
	return []string{p.say("plan.head-alone"), p.say("plan.heads-all", tags)}, at, nil
}

// WithKin says whether the other heads of the engine are planned for too.
func (p *Presenter) WithKin(all bool) {
	if all != p.all {
		p.all = all
		p.forget()
	}
}

// Refresh forgets a plan that is no longer of the set-up as it is.
func (p *Presenter) Refresh() {
	if p.made != nil && !p.bench.Stands(p.made) {
		p.forget()
	}
	p.failed = nil
}

// Begin gathers what the plan takes and returns the work that makes it, which may run beside other work and tells how far
// it is, and what takes it over afterwards. Both are nil where it cannot be made, which [Presenter.Says] then says.
func (p *Presenter) Begin(ctx context.Context) (work func(tell func(string)), done func()) {
	p.forget()
	made, err := p.bench.NewPlan(ctx, task.PlanAsk{Mode: p.mode, Most: p.most, All: p.all})
	if err != nil {
		p.failed = err
		return nil, nil
	}
	m := &making{plan: made}
	p.making = m
	var failed error
	words := p.bench.Words() // the bench is not looked at while the plan is made
	work = func(tell func(string)) {
		failed = made.Make(plan.Options{Cancel: m.cancel.Load, Progress: func(at plan.Progress) { tell(words.Line(progress(at))) }})
	}
	done = func() {
		if p.making != m {
			return // another one was begun meanwhile
		}
		p.making = nil
		if failed != nil {
			p.failed = failed
			return
		}
		p.made = made
	}
	return work, done
}

func progress(at plan.Progress) say.Line {
	if at.Found {
		return say.New("plan.progress-found", at.Nodes)
	}
	return say.New("plan.progress", at.Nodes)
}

// Making reports whether a plan is in the making, and Stop ends that; what was found by then is shown.
func (p *Presenter) Making() bool { return p.making != nil }

// Stop is described at [Presenter.Making].
func (p *Presenter) Stop() {
	if p.making != nil {
		p.making.cancel.Store(true)
	}
}

// Says is the state of the plan in one sentence.
func (p *Presenter) Says() string {
	switch {
	case p.failed != nil:
		return p.words(p.failed)
	case p.making != nil:
		return p.say("plan.making")
	case p.made == nil:
		return p.say("plan.yet")
	}
	return p.bench.Words().Line(p.made.Made.Say())
}

func (p *Presenter) words(err error) string {
	var e *say.Error
	if errors.As(err, &e) {
		return p.bench.Words().Line(e.Line)
	}
	return err.Error()
}

// Why says why nothing fits, and Free what would free it; nothing while a plan fits.
func (p *Presenter) Why() (why, free []string) {
	if p.made == nil || p.made.Made.Reason == nil {
		return nil, nil
	}
	return p.lines(p.made.Made.Reason.Lines), p.lines(p.made.Made.Reason.Free)
}

func (p *Presenter) lines(all []say.Line) []string {
	texts := make([]string, len(all))
	for i, l := range all {
		texts[i] = p.bench.Words().Line(l)
	}
	return texts
}

// Notes are what the plan takes for granted.
func (p *Presenter) Notes() []string {
	if p.made == nil {
		return nil
	}
	return p.lines(p.made.Made.Notes)
}

// Heads are the titles of the table, and Rows its lines.
func (p *Presenter) Heads() []string {
	var heads []string
	for _, key := range task.PlanColumns() {
		heads = append(heads, p.say(key))
	}
	return heads
}

// Row is one valve before and after.
type Row struct {
	Cells []Cell
	Same  bool // nothing changes on it
}

// Cell is what will be and, in smaller letters, what was or where it comes from.
type Cell struct {
	Text, More string
}

// Rows are described at [Presenter.Heads].
func (p *Presenter) Rows() []Row {
	if p.made == nil {
		return nil
	}
	rows := make([]Row, len(p.made.Made.Rows))
	for i := range rows {
		r := &p.made.Made.Rows[i]
		rows[i].Same = r.Same
		for _, c := range r.Cells(p.bench.Words()) {
			more := c.From
			if c.Was != "" {
				more = p.say("plan.was", c.Was)
			}
			rows[i].Cells = append(rows[i].Cells, Cell{c.Is, more})
		}
	}
	return rows
}

// Spreads say how far apart heights and loads lie, before and after.
func (p *Presenter) Spreads() []string {
	if p.made == nil {
		return nil
	}
	var lines []say.Line
	for _, s := range p.made.Made.Spreads {
		lines = append(lines, s.Lines(p.bench.LoadUnit())...)
	}
	return p.lines(lines)
}

// Pick is the pick list, in bench order.
func (p *Presenter) Pick() []string {
	if p.made == nil {
		return nil
	}
	return p.lines(p.made.Made.Pick)
}

// Ready reports whether there is a plan that changes something.
func (p *Presenter) Ready() bool { return p.made != nil && len(p.made.Made.Edits) > 0 }

// Same reports whether there is a plan, and the head is so already.
func (p *Presenter) Same() bool {
	return p.made != nil && len(p.made.Made.Rows) > 0 && len(p.made.Made.Edits) == 0
}

// Put puts the plan on the head and says so.
func (p *Presenter) Put(ctx context.Context) (say.Line, error) {
	if p.made == nil {
		return say.Line{}, say.Fail(say.Invalid, "plan.none")
	}
	n := len(p.made.Made.Edits)
	if err := p.bench.PutPlan(ctx, p.made); err != nil {
		return say.Line{}, err
	}
	p.forget()
	return say.New("plan.put-done", n), nil
}

// Path proposes where the pick list goes.
func (p *Presenter) Path() string { return p.bench.OutPath(task.OutPlan) }

// Save writes the pick list and says where it is.
func (p *Presenter) Save(path string, replace bool) (say.Line, error) {
	if p.made == nil {
		return say.Line{}, say.Fail(say.Invalid, "plan.none")
	}
	where, err := p.bench.SavePlan(p.made, p.bench.UsualPaper(), path, replace)
	if err != nil {
		return say.Line{}, err
	}
	return say.New("plan.saved", where), nil
}
