package shop

import (
	"context"
	"slices"
	"strconv"

	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// stock is what lies on the shelf, the thinnest first.
func (p *Presenter) stock() List {
	l := List{
		Kind: record.StockShimItem, Title: p.say("stock.shelf"), Note: p.say("stock.by-hand"),
		Empty: p.say("stock.none"), Add: p.say("stock.add"),
	}
	if len(p.counter.UsualShims()) > 0 {
		l.Deed = p.say("stock.usual")
	}
	for _, s := range p.counter.Shims() {
		l.Lines = append(l.Lines, Line{record.ItemOf("", s.StockShim), p.shimText(s.StockShim), p.stocked(s)})
	}
	return l
}

func (p *Presenter) shimText(s record.StockShim) string {
	return sizeText(s.Thickness, p.counter.Units().Length)
}

// stocked says how many there are and what is known of them.
func (p *Presenter) stocked(s task.ShimStock) string {
	more := []say.Line{say.New("stock.uncounted")}
	if s.Counted {
		more[0] = say.New("stock.there", s.Count)
	}
	more = append(more, say.New("stock.under."+string(s.Under)))
	if s.Measured != nil {
		more = append(more, say.New("stock.measured-as", *s.Measured))
	}
	if s.Hardened {
		more = append(more, say.New("stock.hardened"))
	}
	if s.Serrated {
		more = append(more, say.New("stock.serrated"))
	}
	return p.say("expr.one", more)
}

// shelved is the kind of shim that is open with its count.
func (p *Presenter) shelved() (task.ShimStock, bool) {
	all := p.counter.Shims()
	at := slices.IndexFunc(all, func(s task.ShimStock) bool { return record.ItemOf("", s.StockShim) == p.open })
	if at < 0 {
		return task.ShimStock{}, false
	}
	return all[at], true
}

// answer is yes or no.
type answer string

const (
	yes answer = "yes"
	no  answer = "no"
)

func answerOf(b bool) answer {
	if b {
		return yes
	}
	return no
}

// shim is a kind of shim on the shelf: how many, then what it is.
func (p *Presenter) shim(held task.ShimStock) []Section {
	s, length := held.StockShim, p.counter.Units().Length
	count := Field{Name: "count", Label: p.say("stock.counted")}
	if held.Counted {
		count.Value = strconv.Itoa(held.Count)
	}
	count.move = func(t string) (record.Move, error) { return p.counter.Counted(held, t) }
	more := Field{Name: "move", Label: p.say("stock.moved"), Beside: true, Again: true}
	more.move = func(t string) (record.Move, error) { return p.counter.Moved(held, t) }
	thick := Field{Name: "thickness", Label: p.say("stock.thickness")}
	thick.Value, thick.Unit = p.shown(&s.Thickness, length)
	thick.put = func(t string) (record.Noun, error) {
		q, err := p.counter.ShimThickness(t)
		s.Thickness = q
		return s, err
	}
	return []Section{
		{Fields: []Field{count, more}},
		{Title: p.say("stock.what"), Fields: []Field{
			thick,
			beside(p.quantity("measured", "stock.as-measured", s.Measured, length, p.counter.ShimMeasured,
				func(q *unit.Quantity) record.Noun {
					if s.Measured = q; q == nil {
						s.Gauge = ""
					}
					return s
				})),
			p.readOn("gauge", s.Gauge, func(id string) record.Noun { s.Gauge = id; return s }),
			p.quantity("outside", "stock.outside", s.Outside, length, p.counter.ShimMeasured,
				func(q *unit.Quantity) record.Noun { s.Outside = q; return s }),
			beside(p.quantity("inside", "stock.inside", s.Inside, length, p.counter.ShimMeasured,
				func(q *unit.Quantity) record.Noun { s.Inside = q; return s })),
			choice(p, "under", "stock.goes-under", s.Under, []record.Under{record.UnderLocator, record.UnderOuter}, "stock.under.",
				func(u record.Under) record.Noun { s.Under = u; return s }),
			choice(p, "hardened", "stock.hardened", answerOf(s.Hardened), []answer{yes, no}, "stock.answer.",
				func(a answer) record.Noun { s.Hardened = a == yes; return s }),
			beside(choice(p, "serrated", "stock.serrated", answerOf(s.Serrated), []answer{yes, no}, "stock.answer.",
				func(a answer) record.Noun { s.Serrated = a == yes; return s })),
			p.word("note", "shop.note", s.Note, func(t string) record.Noun { s.Note = t; return s }),
		}},
	}
}

// AddUsual puts the sizes of common practice on the shelf that it has no shim of.
func (p *Presenter) AddUsual(ctx context.Context) error { return p.counter.AddUsual(ctx) }

// removing is the question before what is open is taken away, and what is said once it was.
func (p *Presenter) removing() (sure, done say.Line) {
	title := p.Title()
	if _, size := sized(p.open.Kind); size {
		return say.New("shop.size-sure", title), say.New("shop.size-removed", title)
	}
	if p.open.Kind == record.StockShimItem {
		return say.New("stock.sure", title), say.New("shop.removed", title)
	}
	return say.New("shop.remove-sure", title), say.New("shop.removed", title)
}
