package shop

import (
	"context"
	"slices"
	"strings"

	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// tagged is the list of the retainers, or the pairs of locks, that have tags of their own.
func (p *Presenter) tagged(of record.ItemKind) List {
	l := List{Kind: of, Title: p.say("tagged.list." + string(of)), Empty: p.say("tagged.wait." + string(of))}
	if len(p.counter.KindsOf(of)) > 0 {
		l.Empty, l.Add = p.say("tagged.empty"), p.say("tagged.add."+string(of))
	}
	for _, t := range p.counter.Tagged(of) {
		l.Lines = append(l.Lines, Line{record.ItemOf("", t), t.Tag, p.kindOf(t)})
	}
	return l
}

// kindOf is the name of the retainer or locks that a part is one of.
func (p *Presenter) kindOf(t record.Tagged) string {
	for _, n := range p.counter.KindsOf(t.Of) {
		if n.Key() == t.Type {
			return nameOf(n)
		}
	}
	return ""
}

func nameOf(n record.Noun) string {
	switch n := n.(type) {
	case record.Retainer:
		return n.Name
	case record.Locks:
		return n.Name
	}
	return ""
}

// Labels writes labels of the single springs of a text of tags, of all where it is empty, and says where they are.
func (p *Presenter) Labels(tags, grid, from, path string, replace bool) (say.Line, error) {
	ask := task.LabelAsk{Tags: strings.FieldsFunc(tags, func(r rune) bool { return r == ',' || r == ' ' }), Grid: grid, From: task.ReadFrom(from)}
	where, err := p.counter.SaveLabels(ask, path, replace)
	if err != nil {
		return say.Line{}, err
	}
	return say.New("labels.saved", where), nil
}

// openTagged is the part with a tag that is open.
func (p *Presenter) openTagged() (record.Tagged, bool) {
	for _, of := range record.TaggedKinds {
		for _, t := range p.counter.Tagged(of) {
			if record.ItemOf("", t) == p.open {
				return t, true
			}
		}
	}
	return record.Tagged{}, false
}

// part is what a retainer or a pair of locks with a tag is, and where it was.
func (p *Presenter) part(t record.Tagged) []Section {
	kind := Field{Name: "kind", Label: p.say("tagged.kind." + string(t.Of)), Value: t.Type}
	for _, n := range p.counter.KindsOf(t.Of) {
		kind.Options = append(kind.Options, Option{n.Key(), nameOf(n)})
	}
	kind.put = func(id string) (record.Noun, error) {
		t.Type = id
		return t, nil
	}
	what := Section{Fields: []Field{
		kind,
		p.word("note", "shop.note", t.Note, func(text string) record.Noun { t.Note = text; return t }),
	}}
	return []Section{what, p.story(t.Of, t.Tag)}
}

// story is where a part was, and where it goes now.
func (p *Presenter) story(of record.ItemKind, tag string) Section {
	s := Section{Title: p.say("story.title")}
	if story, ok := p.stories[p.open]; ok {
		for _, l := range story.Lines() {
			s.Notes = append(s.Notes, p.say(l.Key, l.Args...))
		}
	}
	key := "tagged.goes"
	if of == record.PieceItem {
		key = "tagged.goes-box"
	}
	s.Fields = []Field{{Name: "goes", Label: p.say(key), Again: true, put: func(text string) (record.Noun, error) {
		return p.counter.Goes(context.Background(), of, tag, text)
	}}}
	return s
}

// tell reads the story of what is open anew.
func (p *Presenter) tell(ctx context.Context) error {
	take, err := p.lookStory(ctx, p.open)
	if err == nil {
		take()
	}
	return err
}

// lookStory reads the story of a part, and returns how to take it over; of anything else there is none.
func (p *Presenter) lookStory(ctx context.Context, item record.Item) (func(), error) {
	of, tag := item.Kind, item.Key
	if of == record.TaggedItem {
		t, ok := p.openTagged()
		if !ok {
			return func() {}, nil
		}
		of, tag = t.Of, t.Tag
	}
	if !slices.Contains(record.TaggedKinds, of) {
		return func() {}, nil
	}
	story, err := p.counter.Story(ctx, of, tag)
	return func() { p.stories[item] = story }, err
}

// listOf is the list that a thing stands in.
func (p *Presenter) listOf(item record.Item) record.ItemKind {
	if t, ok := p.openTagged(); ok && item.Kind == record.TaggedItem {
		return t.Of
	}
	return item.Kind
}
