package shop

import (
	"context"
	"strings"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Field is one thing that can be said of what is open.
type Field struct {
	Name    string // unique among the fields of a thing
	Label   string
	Value   string
	Unit    string
	Options []Option // of a choice
	Beside  bool     // stands in one line with the field before it
	Note    string   // said beside it
	Back    string   // words of the button that gives the value back to common practice; "" for none
	Again   bool     // empty again once its text is kept, for the next
	put     func(text string) (record.Noun, error)
	move    func(text string) (record.Move, error) // in the place of put: what moves the stock
	back    func() (record.Noun, error)            // nil where it is common practice already
}

// CanBack reports whether there is anything to give back to common practice.
func (f Field) CanBack() bool { return f.back != nil }

// Option is one answer of a choice.
type Option struct{ Value, Label string }

// Section is a group of fields with what is to be known beside them.
type Section struct {
	Title  string
	Notes  []string
	Fields []Field
	Beside bool   // stands beside the section before it where there is room
	Deed   string // words of the button that opens the studies of the gauge; "" for none
}

// Sections returns the fields of what is open, or of the page where it has no list.
func (p *Presenter) Sections() []Section {
	switch p.page {
	case Shims:
		if held, ok := p.shelved(); ok {
			return p.shim(held)
		}
		return []Section{p.adding()}
	case Rules:
		return p.rules()
	case Self:
		return []Section{p.self()}
	}
	switch n := p.noun().(type) {
	case record.Spring:
		return p.spring(n)
	case record.SpringPiece:
		return p.piece(n)
	case record.Tagged:
		return p.part(n)
	case record.Gauge:
		return p.gauge(n)
	}
	return nil
}

// place is what the fields belong to: what is open, or nothing where they are those of the page itself.
func (p *Presenter) place() record.Item {
	if _, size := sized(p.open.Kind); size {
		return record.Item{}
	}
	return p.open
}

// Title is the name of what is open.
func (p *Presenter) Title() string {
	if q, length, ok := p.size(); ok {
		return sizeText(q, length)
	}
	switch n := p.noun().(type) {
	case record.Spring:
		return n.Name
	case record.SpringPiece:
		return p.say("shop.piece-title", n.Tag)
	case record.StockShim:
		return p.shimText(n)
	case record.Tagged:
		return n.Tag
	case record.Gauge:
		return n.Name
	}
	return ""
}

// Put keeps a text in a field of what is open. On an error the book is as it was.
func (p *Presenter) Put(ctx context.Context, field, text string) error {
	f, ok := p.field(field)
	if !ok {
		return nil
	}
	if f.move != nil {
		m, err := f.move(text)
		if err != nil {
			return err
		}
		return p.counter.Move(ctx, m)
	}
	n, err := f.put(text)
	if err != nil {
		return err
	}
	return p.keep(ctx, n)
}

// Back gives a field back to common practice.
func (p *Presenter) Back(ctx context.Context, field string) error {
	f, ok := p.field(field)
	if !ok || f.back == nil {
		return nil
	}
	n, err := f.back()
	if err != nil {
		return err
	}
	return p.keep(ctx, n)
}

func (p *Presenter) field(name string) (Field, bool) {
	for _, s := range p.Sections() {
		for _, f := range s.Fields {
			if f.Name == name {
				return f, true
			}
		}
	}
	return Field{}, false
}

// keep keeps what is open as it is now. Other things may be used elsewhere by it: a single spring of
// another type takes that type into its set-ups.
func (p *Presenter) keep(ctx context.Context, n record.Noun) error {
	if err := p.counter.Keep(ctx, n); err != nil {
		return err
	}
	if _, ok := n.(record.Tagged); ok {
		return p.tell(ctx) // it is used in no set-up
	}
	uses, known := p.uses[p.open]
	clear(p.uses)
	if known {
		p.uses[p.open] = uses
	}
	return nil
}

// word is a field that takes any text.
func (p *Presenter) word(name, label, value string, put func(string) record.Noun) Field {
	return Field{Name: name, Label: p.say(label), Value: value, put: func(t string) (record.Noun, error) {
		return put(strings.TrimSpace(t)), nil
	}}
}

// named is a field that may not be empty.
func (p *Presenter) named(name, label, value string, put func(string) record.Noun) Field {
	return Field{Name: name, Label: p.say(label), Value: value, put: func(t string) (record.Noun, error) {
		t, err := p.counter.Named(t)
		return put(t), err
	}}
}

// beside sets a field in one line with the one before it.
func beside(f Field) Field {
	f.Beside = true
	return f
}

// choice is a field with a few answers.
func choice[T ~string](p *Presenter, name, label string, value T, all []T, prefix string, put func(T) record.Noun) Field {
	f := Field{Name: name, Label: p.say(label), Value: string(value)}
	for _, o := range all {
		f.Options = append(f.Options, Option{string(o), p.say(prefix + string(o))})
	}
	f.put = func(t string) (record.Noun, error) { return put(T(t)), nil }
	return f
}

// shown writes a quantity in its field, and the unit that stands behind it there: the column's, or none
// where the quantity has one of its own.
func (p *Presenter) shown(q *unit.Quantity, column unit.Symbol) (value, behind string) {
	if q == nil {
		return "", string(column)
	}
	value = record.PlainColumn(column).Understood(*q)
	if bare, ok := strings.CutSuffix(value, " "+string(column)); ok {
		return bare, string(column)
	}
	return value, ""
}

// self is who keeps the book.
func (p *Presenter) self() Section {
	s := p.counter.Shop()
	return Section{Title: p.say("shop.self"), Notes: []string{p.say("shop.self-what")}, Fields: []Field{
		p.word("name", "shop.self-name", s.Name, func(t string) record.Noun { s.Name = t; return s }),
		p.word("place", "shop.self-place", s.Place, func(t string) record.Noun { s.Place = t; return s }),
		p.word("phone", "shop.self-phone", s.Phone, func(t string) record.Noun { s.Phone = t; return s }),
	}}
}

// setting says in one line what a gauge or a reading goes through: "lid .095 taken off, jaws .060 zeroed".
func (p *Presenter) setting(all []record.Taken) string {
	if len(all) == 0 {
		return p.say("shop.through-nothing")
	}
	lines := make([]say.Line, len(all))
	for i, t := range all {
		lines[i] = say.New("shop.through-"+string(t.Zero), say.New("stack."+string(t.Part)), t.Amount)
	}
	return p.say("expr.one", lines)
}
