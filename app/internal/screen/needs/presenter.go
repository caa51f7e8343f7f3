// Package needs is the leaf of a head that asks what must be known before a spring can be chosen, and
// says what is not known yet.
package needs

import (
	"context"
	"slices"

	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Presenter is the page without a window. Every text that a person commits is one action of the set-up's
// history, or stays in its field with the reason why it is not kept.
type Presenter struct {
	bench  *task.Bench
	drafts task.Drafts
}

// NewPresenter returns the presenter of a set-up.
func NewPresenter(bench *task.Bench) *Presenter { return &Presenter{bench: bench} }

// Group is fields that belong together.
type Group struct {
	Name   string // use, cam, who, in, ex, setup, checks
	Title  string
	Note   string // a sentence under the title
	Fields []Field
}

// Field is one thing that is asked, as it stands now.
type Field struct {
	Name    string
	Label   string
	Value   string // what the book has, or what was typed and is not in it
	Book    string // what the book has
	Unit    string
	Options []Option // of a choice
	Long    bool     // a sentence rather than a word or a number
	Many    bool     // of several lines
	Beside  bool     // stands in the line of the field before it
	Refused string   // why the value is not kept
	Waits   bool     // typed, and kept once the rest of it is there
}

// Option is one answer of a choice.
type Option struct{ Value, Label string }

// spec is a field with what reads and writes it.
type spec struct {
	Field
	// put returns what is to be kept for a text. Nothing is kept, and nothing wrong, where it returns neither.
	put func(text string) ([]record.Noun, error)
	// more names fields that are kept together with this one.
	more []string
	// remove, in place of put, takes something away.
	remove func(text string) record.Noun
}

// section is a group before it is shown.
type section struct {
	name, title, note string
	specs             []spec
}

func (p *Presenter) sections() []section {
	return []section{
		p.use(), p.cam(), p.deciding(), p.role(record.Intake), p.role(record.Exhaust), p.casting(), p.setup(), p.checks(),
	}
}

// Groups returns the page as it stands now.
func (p *Presenter) Groups() []Group {
	var groups []Group
	for _, s := range p.sections() {
		g := Group{Name: s.name, Title: s.title, Note: s.note}
		for _, one := range s.specs {
			g.Fields = append(g.Fields, p.shown(one.Field))
		}
		groups = append(groups, g)
	}
	return groups
}

// shown puts what was typed and not kept in the place of what the book has.
func (p *Presenter) shown(f Field) Field {
	f.Book = f.Value
	if d, ok := p.drafts.At(f.Name); ok {
		f.Value, f.Waits = d.Text, d.Err == nil
		f.Refused = p.bench.Words().Line(d.Line())
	}
	return f
}

// Commit keeps what was typed into a field, as one action. What the field shows already writes nothing,
// also where it is shown in another unit than it was read in. On an error the field keeps the text.
func (p *Presenter) Commit(ctx context.Context, name, text string) error {
	for _, s := range p.sections() {
		at := slices.IndexFunc(s.specs, func(f spec) bool { return f.Name == name })
		if at >= 0 {
			return p.commit(ctx, s.specs[at], text)
		}
	}
	return say.Fail(say.NotFound, "needs.no-field", name)
}

func (p *Presenter) commit(ctx context.Context, f spec, text string) error {
	if text == f.Value {
		p.drafts.Drop(f.Name)
		return nil
	}
	if f.remove != nil {
		if gone := f.remove(text); gone != nil {
			return p.drafts.Settle(f.Name, text, p.bench.Remove(ctx, gone))
		}
	}
	nouns, err := f.put(text)
	switch {
	case err != nil:
		return p.drafts.Settle(f.Name, text, err)
	case len(nouns) == 0:
		p.drafts.Keep(f.Name, text, nil)
		return nil
	}
	if err := p.drafts.Settle(f.Name, text, p.bench.Keep(ctx, nouns...)); err != nil {
		return err
	}
	p.drafts.Drop(f.more...)
	return nil
}
