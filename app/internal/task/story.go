package task

import (
	"context"
	"slices"

	"keeperbook/model/exchange"
	"keeperbook/model/life"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/store"
)

// PartStory is the story of one part with a tag.
type PartStory struct {
	Tag string
	life.Story
}

// StoryOf tells what became of one part: of a single spring its set-ups say on which valve it was, of a retainer or a pair of
// locks what was written down of it. It touches nothing that others use: it may run beside other work.
func StoryOf(ctx context.Context, book *store.Book, of record.ItemKind, tag string) (PartStory, error) {
	all, err := book.Tagged(ctx)
	if err != nil {
		return PartStory{}, err
	}
	part := taggedAs(all, of, tag)
	in := storyIn{book: book, heads: map[string]*headLived{}}
	for _, s := range part.Stays {
		if err := in.stay(ctx, s); err != nil {
			return PartStory{}, err
		}
	}
	if of == record.PieceItem {
		if err := in.fitted(ctx, tag); err != nil {
			return PartStory{}, err
		}
	}
	return PartStory{tag, life.StoryOf(of, in.all)}, nil
}

// taggedAs is what is kept of a part; nothing but its tag where that is nothing.
func taggedAs(all []record.Tagged, of record.ItemKind, tag string) record.Tagged {
	if i := slices.IndexFunc(all, func(t record.Tagged) bool { return t.Of == of && t.Tag == tag }); i >= 0 {
		return all[i]
	}
	return record.Tagged{Of: of, Tag: tag}
}

// storyIn gathers where a part was.
type storyIn struct {
	book  *store.Book
	heads map[string]*headLived
	all   []life.Service
}

// headLived is a head with its set-ups in service and its life.
type headLived struct {
	head   record.Head
	setups []record.Setup
	store.Life
}

func (in *storyIn) head(ctx context.Context, id string) (*headLived, error) {
	if h := in.heads[id]; h != nil {
		return h, nil
	}
	head, err := in.book.FindHead(ctx, id)
	if err != nil {
		return nil, err
	}
	h := &headLived{head: head}
	setups, err := in.book.Setups(ctx, id)
	if err != nil {
		return nil, err
	}
	h.setups = served(setups)
	h.Life, err = in.book.Life(ctx, id)
	in.heads[id] = h
	return h, err
}

// on adds a time on a valve of a head.
func (in *storyIn) on(h *headLived, at record.Position, from, until record.Date) {
	in.all = append(in.all, life.Service{
		Spell: life.Spell{From: from, Until: until, HeadID: h.head.ID, Head: h.head.Tag, At: at, Label: h.head.Label(at)}, Runs: h.Runs, Checks: h.Checks,
	})
}

// stay adds what was written down.
func (in *storyIn) stay(ctx context.Context, s record.Stay) error {
	if s.Head == "" {
		in.all = append(in.all, life.Service{Spell: life.Spell{From: s.Day, Box: s.Box}})
		return nil
	}
	h, err := in.head(ctx, s.Head)
	if err == nil {
		in.on(h, *s.At, s.Day, "")
	}
	return err
}

// fitted adds the set-ups in service that a spring stands in.
func (in *storyIn) fitted(ctx context.Context, tag string) error {
	fits, err := in.book.Fitted(ctx, tag)
	if err != nil {
		return err
	}
	for _, f := range fits {
		h, err := in.head(ctx, f.Head)
		if err != nil {
			return err
		}
		for i, s := range h.setups {
			if s.ID != f.Setup {
				continue
			}
			until := record.Date("")
			if i+1 < len(h.setups) {
				until = record.Date(h.setups[i+1].Begun.Day())
			}
			in.on(h, f.At, record.Date(s.Begun.Day()), until)
		}
	}
	return nil
}

// PartsCalled returns the stories of the parts with a tag: of a spring, and of a retainer and locks that may be called the same.
func PartsCalled(ctx context.Context, book *store.Book, tag string) ([]PartStory, error) {
	tagged, err := book.Tagged(ctx)
	if err != nil {
		return nil, err
	}
	parts, err := book.Parts(ctx)
	if err != nil {
		return nil, err
	}
	var all []PartStory
	for _, of := range record.TaggedKinds {
		is := slices.ContainsFunc(tagged, func(t record.Tagged) bool { return t.Of == of && t.Tag == tag })
		if of == record.PieceItem {
			is = slices.ContainsFunc(parts.Pieces, func(p record.SpringPiece) bool { return p.Tag == tag })
		}
		if !is {
			continue
		}
		s, err := StoryOf(ctx, book, of, tag)
		if err != nil {
			return nil, err
		}
		all = append(all, s)
	}
	if len(all) == 0 {
		return nil, say.Fail(say.NotFound, "tagged.none", tag)
	}
	return all, nil
}

// goes is a part after it went to a place that was typed ([exchange.ReadPlace]). Nothing goes back in time, and on a valve there
// is one retainer and one pair of locks.
func (d *Desk) goes(ctx context.Context, t record.Tagged, text string) (record.Tagged, error) {
	p, err := exchange.ReadPlace(text)
	if err != nil {
		return t, err
	}
	s := record.Stay{Day: p.Day, Box: p.Box, By: d.Who}
	if s.Day == "" {
		s.Day = record.Date(d.now().Day())
	}
	if p.Head != "" {
		if t.Of == record.PieceItem {
			return t, say.Fail(say.Invalid, "tagged.spring", t.Tag)
		}
		head, err := d.Book.FindHead(ctx, p.Head)
		if err != nil {
			return t, err
		}
		if !slices.Contains(head.Positions(), p.At) {
			return t, say.Fail(say.NotFound, "life.no-valve", head.Tag, head.Label(p.At))
		}
		s.Head, s.At = head.ID, &p.At
		others, err := d.Book.Tagged(ctx)
		if err != nil {
			return t, err
		}
		for _, o := range others {
			if l := o.Last(); o.Of == t.Of && o.Tag != t.Tag && l != nil && l.Head == s.Head && *l.At == p.At {
				return t, say.Fail(say.Conflict, "tagged.taken", o.Tag, head.Tag, head.Label(p.At), l.Day)
			}
		}
	}
	t.Stays = append(slices.Clone(t.Stays), s)
	if err := record.Doubt(t, d.now()); err != nil {
		return t, err
	}
	return t, nil
}

// elsewhere refuses a spring that is put on a valve while it stands on another head, but where the same edits take it off there.
func (b *Bench) elsewhere(ctx context.Context, edits []record.Edit) error {
	records := map[string]*record.Record{b.rec.Setup.ID: b.rec}
	for _, e := range edits {
		v, ok := e.Noun.(record.Valve)
		if !ok || v.Spring == "" {
			continue
		}
		rec := records[e.Item.Setup]
		if rec == nil {
			var err error
			if rec, err = b.desk.Book.Record(ctx, e.Item.Setup); err != nil {
				return err
			}
			records[e.Item.Setup] = rec
		}
		if v.Spring == rec.ValveAt(v.At).Spring {
			continue
		}
		s, err := StoryOf(ctx, b.desk.Book, record.PieceItem, v.Spring)
		if err != nil {
			return err
		}
		w := s.Story.Where()
		if w == nil || w.HeadID == "" || w.HeadID == rec.Head.ID {
			continue
		}
		off, err := b.takenOff(ctx, edits, v.Spring, w)
		if err != nil {
			return err
		}
		if !off {
			return say.Fail(say.Conflict, "tagged.elsewhere", v.Spring, w.Head, w.Label, string(w.From))
		}
	}
	return nil
}

// takenOff reports whether edits take a spring off the valve that it stands on, in the newest set-up that has it there.
func (b *Bench) takenOff(ctx context.Context, edits []record.Edit, spring string, from *life.Spell) (bool, error) {
	fits, err := b.desk.Book.Fitted(ctx, spring)
	if err != nil {
		return false, err
	}
	fits = slices.DeleteFunc(fits, func(f store.Fit) bool { return f.Head != from.HeadID || f.At != from.At })
	if len(fits) == 0 {
		return false, nil
	}
	valve := record.ItemOf(fits[len(fits)-1].Setup, record.Valve{At: from.At})
	return slices.ContainsFunc(edits, func(e record.Edit) bool {
		v, ok := e.Noun.(record.Valve)
		return e.Item == valve && (!ok || v.Spring != spring)
	}), nil
}
