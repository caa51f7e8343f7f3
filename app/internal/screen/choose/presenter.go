// Package choose is the leaf on which the shop's spring types are held against what the head asks for: what is
// not known yet first, then the types that serve, those that nearly do, and what stands against each.
package choose

import (
	"context"
	"strings"

	"keeperbook/app/internal/task"
	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// mostListed is how many types are listed: who looks for a spring does not read on.
const mostListed = 40

// Presenter is the leaf without a window.
type Presenter struct {
	bench  *task.Bench
	role   record.Role
	choice evaluate.Choice
	open   string // id of the type that is looked at
}

// NewPresenter returns the leaf of a set-up.
func NewPresenter(bench *task.Bench) *Presenter {
	p := &Presenter{bench: bench}
	if roles := bench.Roles(); len(roles) > 0 {
		p.role = roles[0]
	}
	return p
}

// Load holds the book's types against the set-up as it is now.
func (p *Presenter) Load(ctx context.Context) (err error) {
	p.choice, err = p.bench.Choice(ctx, p.role)
	return err
}

// Open counts the roles that have no spring yet.
func (p *Presenter) Open() int {
	n := 0
	for _, role := range p.bench.Roles() {
		if p.bench.Record().PackageOf(role).Spring == "" {
			n++
		}
	}
	return n
}

// Roles are those of the head, as they are called, and the index of the one in sight.
func (p *Presenter) Roles() (names []string, at int) {
	for i, role := range p.bench.Roles() {
		names = append(names, p.bench.Say("role."+string(role)))
		if role == p.role {
			at = i
		}
	}
	return names, at
}

// Show takes another role.
func (p *Presenter) Show(ctx context.Context, at int) error {
	p.role, p.open = p.bench.Roles()[at], ""
	return p.Load(ctx)
}

func (p *Presenter) roleLine() say.Line { return say.New("role." + string(p.role)) }

// On says on which valve the types were worked out.
func (p *Presenter) On() string {
	c := &p.choice
	switch {
	case !c.Base.Known:
		return p.bench.Say("choose.on-no-base", p.roleLine())
	case !c.Lift.Known:
		return p.bench.Say("choose.on-no-lift", c.Label, c.Base.Value)
	}
	return p.bench.Say("choose.on", c.Label, c.Base.Value, c.Lift.Value)
}

// Asks are the questions that are open.
func (p *Presenter) Asks() []string { return p.lines(p.choice.Asks) }

// Beside is what stands against every spring.
func (p *Presenter) Beside() []string { return p.sentences(p.choice.Beside) }

func (p *Presenter) lines(all []say.Line) []string {
	texts := make([]string, len(all))
	for i, l := range all {
		texts[i] = p.bench.Words().Line(l)
	}
	return texts
}

func (p *Presenter) sentences(all []evaluate.Finding) []string {
	lines := make([]say.Line, len(all))
	for i, f := range all {
		lines[i] = f.Line
	}
	return p.lines(lines)
}

// Line is one type of springs in the list.
type Line struct {
	Spring, Stands, Why string
	Height, Shims       string
	Margin, Seat, Open  string
}

// Lines are the types, best first, and how many more there are that do not serve.
func (p *Presenter) Lines() (all []Line, more int) {
	for i := range p.choice.All {
		c := &p.choice.All[i]
		if i >= mostListed {
			return all, len(p.choice.All) - i
		}
		l := Line{Spring: c.Spring.Name, Stands: p.bench.Words().Line(c.Grade.Line())}
		var why []string
		for _, f := range append(append([]evaluate.Finding(nil), c.Against...), c.Unsaid...) {
			why = append(why, p.bench.Words().Line(f.Short))
		}
		const few = 2 // reasons in the list; all of them stand below it
		if more := len(why) - few; more > 0 {
			l.Why = p.bench.Say("choose.why-more", strings.Join(why[:few], "; "), more)
		} else {
			l.Why = strings.Join(why, "; ")
		}
		l.Height, l.Margin = p.length(c.Height), p.length(c.Margin)
		l.Seat, l.Open = p.load(c.Seat), p.load(c.Open)
		if c.Height.Known && p.choice.Base.Known {
			l.Shims = p.shims(c.Stack)
		}
		all = append(all, l)
	}
	return all, 0
}

func (p *Presenter) length(f evaluate.Figure) string {
	if !f.Known {
		return ""
	}
	return p.bench.Say("expr.one", f.Value)
}

func (p *Presenter) load(l evaluate.Load) string {
	if !l.Known {
		return ""
	}
	text := p.bench.Say("choose.of-load", l.Value, string(p.bench.Record().Setup.Units.Load))
	if l.Beyond {
		return p.bench.Say("choose.beyond", text)
	}
	return text
}

func (p *Presenter) shims(stack []unit.Length) string {
	if len(stack) == 0 {
		return p.bench.Say("choose.no-shim")
	}
	sizes := make([]string, len(stack))
	for i, s := range stack {
		sizes[i] = p.bench.Say("expr.one", s)
	}
	return strings.Join(sizes, " + ")
}

// Look opens a type of the list.
func (p *Presenter) Look(i int) { p.open = p.choice.All[i].Spring.ID }

// Seen is the type that is open, with everything that is said of it.
type Seen struct {
	Name            string
	Against, Unsaid []string
	Clear           bool   // nothing stands against it and nothing is open
	Fitted          bool   // the role's package has it already
	At              int    // in the list
	Role            string // as it is called
}

// Seen returns the type that is open; false where none is.
func (p *Presenter) Seen() (Seen, bool) {
	for i := range p.choice.All {
		c := &p.choice.All[i]
		if c.Spring.ID != p.open {
			continue
		}
		return Seen{
			Name: c.Spring.Name, Against: p.sentences(c.Against), Unsaid: p.sentences(c.Unsaid), Clear: c.Grade == evaluate.Serves,
			Fitted: p.bench.Record().PackageOf(p.role).Spring == c.Spring.ID, At: i, Role: p.bench.Words().Line(p.roleLine()),
		}, true
	}
	return Seen{}, false
}

// Put puts the open type on the role and says so.
func (p *Presenter) Put(ctx context.Context) (say.Line, error) {
	seen, ok := p.Seen()
	if !ok {
		return say.Line{}, nil
	}
	if err := p.bench.PutOn(ctx, p.role, p.open); err != nil {
		return say.Line{}, err
	}
	if struck := p.bench.Notice(); !struck.Zero() {
		return say.New("choose.put-struck", seen.Name, p.roleLine(), struck), nil
	}
	return say.New("choose.put-done", seen.Name, p.roleLine()), nil
}

// Path proposes where the question form goes.
func (p *Presenter) Path() string { return p.bench.OutPath(task.OutAsks) }

// Save writes the question form and says where it is, in the way of the bench's Save.
func (p *Presenter) Save(path string, replace bool) (say.Line, error) {
	where, err := p.bench.Save(task.OutAsks, p.bench.UsualPaper(), path, replace)
	if err != nil {
		return say.Line{}, err
	}
	return say.New("choose.form-saved", where), nil
}
