package task

import (
	"context"
	"slices"
	"strings"

	"keeperbook/model/evaluate"
	"keeperbook/model/life"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/store"
)

// HeadLife is the life of one set-up in service.
type HeadLife struct {
	Record *record.Record
	Words  say.Printer // in the units of the set-up, of the chosen language where [HeadLife.In] did not say another
	Runs   []record.Run
	Done   []record.SpringCheck // the checks, in the order of days
	Times  life.Times
	Lash   life.LashLog
	life.Life
}

// LifeOf returns the life of a set-up: from the day it was begun to the day the next one was built.
func LifeOf(ctx context.Context, book *store.Book, setup string) (HeadLife, error) {
	rec, _, err := recordOf(ctx, book, setup)
	if err != nil {
		return HeadLife{}, err
	}
	return livedBy(ctx, book, rec, evaluate.Evaluate(rec))
}

func livedBy(ctx context.Context, book *store.Book, rec *record.Record, ev evaluate.Evaluation) (HeadLife, error) {
	gauges, err := book.Gauges(ctx)
	if err != nil {
		return HeadLife{}, err
	}
	setups, err := book.Setups(ctx, rec.Head.ID)
	if err != nil {
		return HeadLife{}, err
	}
	all, err := book.Life(ctx, rec.Head.ID)
	if err != nil {
		return HeadLife{}, err
	}
	return lifeOf(ctx, book, rec, ev, gauges, setups, all)
}

func lifeOf(ctx context.Context, book *store.Book, rec *record.Record, ev evaluate.Evaluation, gauges []record.Gauge, setups []record.Setup,
	all store.Life) (HeadLife, error) {
	h := HeadLife{Record: rec, Words: evaluate.Spoken(rec.Setup.Units)}
	for _, r := range all.Runs {
		if s := inService(setups, r.Day); s != nil && s.ID == rec.Setup.ID {
			h.Runs = append(h.Runs, r)
		}
	}
	var checks []record.SpringCheck
	for _, c := range all.Checks {
		if c.Setup == rec.Setup.ID {
			checks = append(checks, c)
		}
	}
	h.Life, h.Done = life.Of(rec, ev, gauges, h.Runs, checks), checks
	h.Times = life.TimesOf(record.Date(rec.Setup.Begun.Day()), h.Runs, checks)
	h.Lash = life.LashLogOf(ev, h.Life, checks)
	rules, err := book.ShopRules(ctx, rec.Setup.Units.Length)
	if most := rules.LashMoved(); most != nil {
		h.JudgeLash(most.Length())
	}
	return h, err
}

// In is the same life told in a language, in English where there is none of this tag.
func (h HeadLife) In(language string) HeadLife {
	h.Words = evaluate.WordsIn(language, h.Record.Setup.Units)
	return h
}

// RanIn says what the head ran, kind by kind; none where nothing is written down.
func (h HeadLife) RanIn() []string {
	var all []string
	for _, t := range h.Ran.Totals {
		all = append(all, h.Words.Number(life.Number(t.Count))+" "+h.Words.Line(say.New("run."+string(t.Kind))))
	}
	return all
}

// Besides says what a sum of runs leaves out or hides; "" where that is nothing.
func (h HeadLife) Besides() string {
	var all []string
	if n := h.Ran.Uncounted; n > 0 {
		all = append(all, h.Words.Line(say.New("life.ran-uncounted", n)))
	}
	if n := h.Ran.OverRevs; n > 0 {
		all = append(all, h.Words.Line(say.New("life.ran-over", n)))
	}
	return strings.Join(all, " ")
}

// Sum says what the head did in all.
func (h HeadLife) Sum() string {
	ran := h.RanIn()
	if len(ran) == 0 {
		return h.Words.Line(say.New("life.none"))
	}
	return strings.TrimSpace(h.Words.Line(say.New("life.sum", strings.Join(ran, ", "), life.Whole(h.Ran.Cycles))) + " " + h.Besides())
}

// DueOn says of something that falls due what it is and when.
func DueOn(d life.Due) say.Line {
	line := d.What
	if d.Day != "" {
		line = say.New("life.due-on", line, d.Day)
	}
	if d.Over {
		line = say.New("life.due-now", line)
	}
	return line
}

// inService returns the set-up that a head ran with on a day: the last one that was built by then, or, of a head of which no
// building is in the book, the last one found; nil before all of them. Set-ups are in the order in which they were begun.
func inService(setups []record.Setup, day record.Date) *record.Setup {
	all := served(setups)
	for i := len(all) - 1; i >= 0; i-- {
		if s := &all[i]; record.Date(s.Begun.Day()) <= day {
			return s
		}
	}
	return nil
}

// served are the set-ups that a head runs with one after the other: those that were built, or, where there is none, all.
func served(setups []record.Setup) []record.Setup {
	if !slices.ContainsFunc(setups, func(s record.Setup) bool { return s.Kind == record.AsBuilt }) {
		return setups
	}
	return slices.DeleteFunc(slices.Clone(setups), func(s record.Setup) bool { return s.Kind != record.AsBuilt })
}

// InService returns the identifier of the set-up that a head runs with now.
func InService(ctx context.Context, book *store.Book, name string, now record.Stamp) (string, error) {
	head, err := book.FindHead(ctx, name)
	if err != nil {
		return "", err
	}
	setups, err := book.Setups(ctx, head.ID)
	if err != nil {
		return "", err
	}
	s := inService(setups, record.Date(now.Day()))
	if s == nil {
		return "", say.Fail(say.NotFound, "task.no-setup", head.Tag)
	}
	return s.ID, nil
}
