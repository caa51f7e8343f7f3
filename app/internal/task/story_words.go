package task

import (
	"context"

	"keeperbook/model/life"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Lines tell the story in the order of days, and what the part ran in all where it was at more than one place.
func (p PartStory) Lines() (all []say.Line) {
	for _, s := range p.Spells {
		var line say.Line
		switch {
		case s.HeadID != "" && s.Now():
			line = say.New("story.on-now", s.From, s.Head, s.Label, ranLine(s.Ran))
		case s.HeadID != "":
			line = say.New("story.on", s.From, s.Until, s.Head, s.Label, ranLine(s.Ran))
		case s.Now():
			line = say.New("story.box-now", s.From, s.Box)
		default:
			line = say.New("story.box", s.From, s.Until, s.Box)
		}
		all = append(append(all, line), s.Found...)
	}
	switch {
	case len(all) == 0:
		return []say.Line{say.New("story.none")}
	case len(p.Spells) > 1 && p.Ran.Runs > 0:
		all = append(all, say.New("story.all", totals(p.Ran), life.Whole(p.Ran.Cycles)))
	}
	return all
}

// Where says where the part is now.
func (p PartStory) Where() say.Line {
	switch s := p.Story.Where(); {
	case s == nil:
		return say.New("story.none")
	case s.HeadID != "":
		return say.New("story.is-on", s.Head, s.Label, s.From)
	default:
		return say.New("story.box-now", s.From, s.Box)
	}
}

// ranLine says what was run.
func ranLine(r life.Ran) say.Line {
	if r.Runs == 0 {
		return say.New("story.ran-not")
	}
	return say.New("story.ran", totals(r), life.Whole(r.Cycles))
}

// totals says it kind by kind.
func totals(r life.Ran) (all []say.Line) {
	for _, t := range r.Totals {
		all = append(all, say.New("story.total", life.Number(t.Count), say.New("run."+string(t.Kind))))
	}
	return all
}

// Story tells what became of a part of the shop, by its kind and tag. It may run beside other work.
func (c *Counter) Story(ctx context.Context, of record.ItemKind, tag string) (PartStory, error) {
	return StoryOf(ctx, c.bench.desk.Book, of, tag)
}

// Tagged are the retainers and locks that have tags, each kind by tag.
func (c *Counter) Tagged(of record.ItemKind) (all []record.Tagged) {
	for _, t := range c.tagged {
		if t.Of == of {
			all = append(all, t)
		}
	}
	return all
}

// NewTagged is a part with a tag of a kind, to be kept; of the first retainer or locks of the book. It refuses (say.Conflict) a
// tag that is there.
func (c *Counter) NewTagged(of record.ItemKind, tag string) (record.Tagged, error) {
	tag, err := c.name(tag)
	if err != nil {
		return record.Tagged{}, err
	}
	t := taggedAs(c.tagged, of, tag)
	if t.Type != "" {
		return t, say.Fail(say.Conflict, "tagged.known", tag)
	}
	if kinds := c.KindsOf(of); len(kinds) > 0 {
		t.Type = kinds[0].Key()
	}
	return t, record.Doubt(t, c.bench.desk.now())
}

// KindsOf are the retainers or locks that a part with a tag may be.
func (c *Counter) KindsOf(of record.ItemKind) (all []record.Noun) {
	switch of {
	case record.RetainerItem:
		for _, r := range c.Parts().Retainers {
			all = append(all, r)
		}
	case record.LocksItem:
		for _, l := range c.Parts().Locks {
			all = append(all, l)
		}
	}
	return all
}

// Goes is a part after it went to a place that was typed, to be kept.
func (c *Counter) Goes(ctx context.Context, of record.ItemKind, tag, text string) (record.Tagged, error) {
	return c.bench.desk.goes(ctx, taggedAs(c.tagged, of, tag), text)
}
