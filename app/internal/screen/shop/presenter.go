// Package shop is the shop's own pages: the springs it has, the shims it buys, its gauges, the rules a
// set-up begins with, and who it is on a sheet.
package shop

import (
	"context"
	"slices"

	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Page is one of the shop's pages.
type Page string

// The pages.
const (
	Springs Page = "springs"
	Shims   Page = "shims"
	Gauges  Page = "gauges"
	Signers Page = "signers"
	Rules   Page = "rules"
	Self    Page = "self" // name, place and phone
)

// Pages lists the pages in the order they are offered.
func Pages() []Page { return []Page{Springs, Shims, Gauges, Signers, Rules, Self} }

// Presenter is the pages without a window.
type Presenter struct {
	counter *task.Counter
	uses    map[record.Item][]task.Use // of the things that somebody looked at
	page    Page
	open    record.Item                    // whose fields are shown; none where its key is empty
	stories map[record.Item]task.PartStory // of the parts that somebody looked at
	waiting map[string]task.Certificate    // typed of a gauge's calibration and not in the book yet, by identifier
}

// NewPresenter returns the pages of a book, at the first.
func NewPresenter(counter *task.Counter) *Presenter {
	return &Presenter{counter: counter, page: Springs, uses: map[record.Item][]task.Use{}, stories: map[record.Item]task.PartStory{}, waiting: map[string]task.Certificate{}}
}

// Load takes the shop's things from the book again.
func (p *Presenter) Load(ctx context.Context) error {
	if err := p.counter.Load(ctx); err != nil {
		return err
	}
	clear(p.uses)
	clear(p.stories)
	if _, _, size := p.size(); !size && p.noun() == nil {
		p.open = record.Item{}
	}
	return nil
}

// Look finds out which set-ups use a thing of the book, and returns how to take it over. It may run beside
// other work; what it returns may not.
func (p *Presenter) Look(ctx context.Context, item record.Item) (func(), error) {
	uses, err := p.counter.UsedIn(ctx, item)
	if err != nil {
		return nil, err
	}
	story, err := p.lookStory(ctx, item)
	if err != nil {
		return nil, err
	}
	return func() {
		p.uses[item] = uses
		story()
	}, nil
}

// Page returns the page that is shown.
func (p *Presenter) Page() Page { return p.page }

// Go shows another page.
func (p *Presenter) Go(page Page) {
	if p.page != page {
		p.page, p.open = page, record.Item{}
	}
}

// Line is one thing in a list.
type Line struct {
	Item record.Item
	Text string
	More string
}

// List is one list of a page, with what is said where it is empty.
type List struct {
	Kind  record.ItemKind
	Title string
	Note  string // said under the title; may be empty
	Warn  string // said first, in bold; may be empty
	Lines []Line
	Empty string
	Add   string // words of the button that adds one; "" where none can be added yet
	Deed  string // words of what else can be done with the whole list; "" where there is nothing
	Print string // words of the button that prints labels of it; "" where there are none
}

// Lists returns the lists of the page.
func (p *Presenter) Lists() []List {
	switch p.page {
	case Springs:
		return []List{p.types(), p.pieces(), p.tagged(record.RetainerItem), p.tagged(record.LocksItem)}
	case Shims:
		return append([]List{p.stock()}, p.shims()...)
	case Gauges:
		return []List{p.gauges()}
	}
	return nil
}

func (p *Presenter) types() List {
	l := List{Kind: record.SpringItem, Title: p.say("shop.types"), Empty: p.say("shop.types-none"), Add: p.say("shop.type-add")}
	for _, s := range p.counter.Parts().Springs {
		l.Lines = append(l.Lines, Line{record.ItemOf("", s), s.Name, p.binds(s)})
	}
	return l
}

func (p *Presenter) pieces() List {
	l := List{Kind: record.PieceItem, Title: p.say("shop.pieces"), Empty: p.say("shop.pieces-wait")}
	if len(p.counter.Parts().Springs) > 0 {
		l.Empty, l.Add, l.Deed = p.say("shop.pieces-none"), p.say("shop.piece-add"), p.say("springs.paste")
	}
	if len(p.counter.Parts().Pieces) > 0 {
		l.Print = p.say("labels.print")
	}
	for _, n := range p.counter.Parts().Pieces {
		more := []say.Line{say.New("expr.one", p.counter.SpringOf(n.Spring).Name)}
		if n.Condition != "" {
			more = append(more, say.New("condition."+string(n.Condition)))
		}
		if n.Batch != "" {
			more = append(more, say.New("shop.of-batch", n.Batch))
		}
		l.Lines = append(l.Lines, Line{record.ItemOf("", n), n.Tag, p.say("expr.one", more)})
	}
	return l
}

func (p *Presenter) gauges() List {
	l := List{Kind: record.GaugeItem, Title: p.say("shop.gauges"), Empty: p.say("shop.gauges-none"), Add: p.say("shop.gauge-add"), Warn: p.pastDue()}
	for _, g := range p.counter.Gauges() {
		l.Lines = append(l.Lines, Line{record.ItemOf("", g), g.Name, p.summary(g)})
	}
	return l
}

// Choose opens a thing beside the list.
func (p *Presenter) Choose(item record.Item) { p.open = item }

// Chosen returns what is open beside the list; its key is empty where nothing is.
func (p *Presenter) Chosen() record.Item { return p.open }

// noun is what is open, nil where it is not there.
func (p *Presenter) noun() record.Noun {
	switch p.open.Kind {
	case record.SpringItem:
		return byKey(p.counter.Parts().Springs, p.open.Key)
	case record.PieceItem:
		return byKey(p.counter.Parts().Pieces, p.open.Key)
	case record.StockShimItem:
		if s, ok := p.shelved(); ok {
			return s.StockShim
		}
		return nil
	case record.TaggedItem:
		if t, ok := p.openTagged(); ok {
			return t
		}
		return nil
	case record.GaugeItem:
		return byKey(p.counter.Gauges(), p.open.Key)
	}
	return nil
}

func byKey[T record.Noun](all []T, key string) record.Noun {
	at := slices.IndexFunc(all, func(n T) bool { return n.Key() == key })
	if at < 0 {
		return nil
	}
	return all[at]
}

// Add makes a new thing of a kind by its name, keeps it and opens it. A single spring is of the type that
// is open, else of the first.
func (p *Presenter) Add(ctx context.Context, kind record.ItemKind, name string) error {
	var n record.Noun
	var err error
	switch kind {
	case record.SpringItem:
		n, err = p.counter.NewSpring(name)
	case record.PieceItem:
		n, err = p.counter.NewPiece(name, p.typeForNew())
	case record.GaugeItem:
		n, err = p.counter.NewGauge(name)
	case record.StockShimItem:
		n, err = p.counter.NewShim(name)
	case record.RetainerItem, record.LocksItem:
		n, err = p.counter.NewTagged(kind, name)
	}
	if err != nil {
		return err
	}
	if err := p.counter.Keep(ctx, n); err != nil {
		return err
	}
	p.open = record.ItemOf("", n)
	p.uses[p.open] = nil
	return p.tell(ctx)
}

func (p *Presenter) typeForNew() string {
	switch n := p.noun().(type) {
	case record.Spring:
		return n.ID
	case record.SpringPiece:
		return n.Spring
	}
	return p.counter.Parts().Springs[0].ID
}

// Discard takes what is open out of the book, or off the list of shims.
func (p *Presenter) Discard(ctx context.Context) error {
	if q, length, ok := p.size(); ok {
		rules, err := p.counter.Rules(length).WithoutSize(q.Length())
		if err == nil {
			err = p.counter.Keep(ctx, rules)
		}
		if err == nil {
			p.open = record.Item{}
		}
		return err
	}
	n := p.noun()
	if n == nil {
		return nil
	}
	if err := p.counter.Discard(ctx, n); err != nil {
		return err
	}
	p.open = record.Item{}
	return nil
}

// Used says which set-ups the thing that is open stands in, so that whoever changes it knows what else
// changes.
func (p *Presenter) Used() string {
	if _, ok := sized(p.open.Kind); ok {
		return p.say("shop.size-kept")
	}
	if p.open.Kind == record.StockShimItem {
		return p.say("stock.by-hand")
	}
	if story, ok := p.stories[p.open]; ok && p.open.Kind == record.TaggedItem {
		where := story.Where()
		return p.say(where.Key, where.Args...)
	}
	switch uses, known := p.uses[p.open]; {
	case !known:
		return p.say("shop.looking")
	case len(uses) == 0:
		return p.say("shop.unused")
	default:
		lines := make([]say.Line, len(uses))
		for i, u := range uses {
			lines[i] = say.New("shop.use", u.Head, say.New("setup."+string(u.Kind)), u.Begun.Day())
		}
		return p.say("shop.used."+string(p.open.Kind), lines)
	}
}

// Known reports whether it is known which set-ups use what is open; until then nothing can be changed.
func (p *Presenter) Known() bool {
	_, size := sized(p.open.Kind)
	_, known := p.uses[p.open]
	return size || known || p.open.Kind == record.StockShimItem // a shim is in no record
}

// InUse reports whether a set-up names what is open.
func (p *Presenter) InUse() bool { return len(p.uses[p.open]) > 0 }

func (p *Presenter) say(key string, args ...any) string {
	return p.counter.Words().Line(say.New(key, args...))
}
