package task

import (
	"cmp"
	"context"
	"encoding/json"
	"runtime/debug"
	"slices"

	"keeperbook/model/evaluate"
	"keeperbook/model/life"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/store"
)

// DueLine is something that falls due, in words.
type DueLine struct {
	life.Due
	Text        string // in the chosen language
	Head, Setup string // identifiers; "" of a gauge
}

// keptDue is a DueLine of a head as the book keeps it, without what the day decides.
type keptDue struct {
	Key  string      `json:"key"`
	Day  record.Date `json:"day,omitempty"`
	Over bool        `json:"over,omitempty"` // also without a day
	Text string      `json:"text"`
}

// reckoner names the program that worked something out, the form it is kept in, and the language of its words: another one may
// come to something else.
func reckoner(language string) string {
	form := "1"
	if language != say.English().Language {
		form += " " + language
	}
	if info, ok := debug.ReadBuildInfo(); ok {
		for _, s := range info.Settings {
			if s.Key == "vcs.revision" {
				return form + " " + s.Value
			}
		}
	}
	return form
}

// atOnce is how many heads are worked out before they are kept: what is entered meanwhile costs no more than these.
const atOnce = 16

// Dues returns what falls due in a book on a day, what is due first, then by day, then by what it is. What was worked out of a
// head is kept in the book until something changes it. Every word is of the language that is chosen as it begins, which may change
// before it ends.
func Dues(ctx context.Context, book *store.Book, today record.Date) ([]DueLine, error) {
	words := say.Chosen()
	heads, err := book.LivedHeads(ctx)
	if err != nil {
		return nil, err
	}
	gauges, err := book.Gauges(ctx)
	if err != nil {
		return nil, err
	}
	var all []DueLine
	for some := range slices.Chunk(heads, atOnce) {
		lines, err := duesOf(ctx, book, words.Language, some, gauges, today)
		if err != nil {
			return nil, err
		}
		all = append(all, lines...)
	}
	for _, d := range life.GaugeDue(gauges, today) {
		all = append(all, DueLine{Due: d, Text: words.Line(d.What)})
	}
	slices.SortFunc(all, func(a, b DueLine) int {
		if a.Over != b.Over {
			return map[bool]int{true: -1, false: 1}[a.Over]
		}
		// What goes by runs has no day, and comes before what has one.
		return cmp.Or(cmp.Compare(a.Day, b.Day), cmp.Compare(a.Text, b.Text), cmp.Compare(a.Key, b.Key))
	})
	return all, nil
}

// DueHeads returns how much is due today of each head, by its identifier. It may run beside other work.
func (d *Desk) DueHeads(ctx context.Context) (map[string]int, error) {
	all, err := d.Dues(ctx)
	heads := map[string]int{}
	for _, l := range all {
		if l.Over && l.Head != "" {
			heads[l.Head]++
		}
	}
	return heads, err
}

// duesOf returns what falls due of some heads, and keeps what it had to work out.
func duesOf(ctx context.Context, book *store.Book, language string, heads []string, gauges []record.Gauge, today record.Date) (all []DueLine, err error) {
	by := reckoner(language)
	known, upTo, err := book.Reckoned(ctx, by)
	if err != nil {
		return nil, err
	}
	var worked []store.Reckoned
	for _, head := range heads {
		setups, err := book.Setups(ctx, head)
		if err != nil {
			return nil, err
		}
		s := inService(setups, today)
		if s == nil {
			continue
		}
		var lines []keptDue
		if r, ok := known[head]; !ok || r.Setup != s.ID || json.Unmarshal([]byte(r.Body), &lines) != nil {
			if lines, err = worksDue(ctx, book, language, s.ID, setups, gauges); err != nil {
				return nil, err
			}
			body, err := json.Marshal(lines)
			if err != nil {
				return nil, err
			}
			worked = append(worked, store.Reckoned{Head: head, Setup: s.ID, By: by, Body: string(body)})
		}
		for _, l := range lines {
			due := life.Due{Key: l.Key, Day: l.Day, Over: l.Over || l.Day != "" && l.Day <= today}
			all = append(all, DueLine{Due: due, Text: l.Text, Head: head, Setup: s.ID})
		}
	}
	if len(worked) == 0 {
		return all, nil
	}
	return all, book.KeepReckoned(ctx, upTo, worked)
}

// worksDue works out what falls due of a set-up, whatever day it is, in words of a language.
func worksDue(ctx context.Context, book *store.Book, language, setup string, setups []record.Setup, gauges []record.Gauge) ([]keptDue, error) {
	rec, _, err := recordOf(ctx, book, setup)
	if err != nil {
		return nil, err
	}
	lived, err := book.Life(ctx, rec.Head.ID)
	if err != nil {
		return nil, err
	}
	h, err := lifeOf(ctx, book, rec, evaluate.Evaluate(rec), gauges, setups, lived)
	if err != nil {
		return nil, err
	}
	h = h.In(language)
	lines := []keptDue{}
	for _, d := range h.Due(rec.Head.Tag, setup, h.Runs, "") {
		lines = append(lines, keptDue{Key: d.Key, Day: d.Day, Over: d.Over, Text: h.Words.Line(d.What)})
	}
	return lines, nil
}
