package life_test

import (
	"testing"

	"keeperbook/model/evaluate"
	"keeperbook/model/life"
	"keeperbook/model/record"
)

// A part takes its cycles along: 20 passes of 9 s at a mean of 7,000 are 20·9/60·7,000/2 = 10,500 valve cycles (a valve opens
// every second turn; hand computation), wherever they were run. What the head ran before or after is not its own.
func TestAPartTakesItsCyclesAlong(t *testing.T) {
	at := record.Position{Cylinder: "3", Role: record.Exhaust, N: 1}
	pass := func(head, day string) record.Run {
		return record.Run{Head: head, Day: record.Date(day), Kind: record.Passes, Count: "20", Seconds: "9", Mean: "7000"}
	}
	first := []record.Run{pass("a", "2026-03-01"), pass("a", "2026-03-08"), pass("a", "2026-04-01")}
	second := []record.Run{pass("b", "2026-03-08"), pass("b", "2026-04-01"), pass("b", "2026-04-02")}
	check := record.SpringCheck{Day: "2026-04-01", Service: record.CheckedEnd, Valves: []record.CheckedValve{
		{At: at, Seen: []record.Sight{record.RetainerWear, record.LockWear, record.Nick}},
	}}
	all := []life.Service{
		{Spell: life.Spell{From: "2026-04-01", HeadID: "b", Head: "B-1", At: at}, Runs: second},
		{Spell: life.Spell{From: "2026-04-01", Box: "4"}},
		{Spell: life.Spell{From: "2026-03-08", HeadID: "a", Head: "A-1", At: at}, Runs: first, Checks: []record.SpringCheck{check}},
	}
	s := life.StoryOf(record.RetainerItem, all)
	if len(s.Spells) != 3 || s.Spells[0].Until != "2026-04-01" || s.Spells[0].Now() || s.Where() == nil || s.Where().Box != "4" {
		t.Fatalf("%+v", s.Spells)
	}
	// On the day it was taken off the head ran without it.
	if got := s.Spells[0].Ran.Cycles; got != 10_500 {
		t.Errorf("%g cycles on the first head", got)
	}
	if f := s.Spells[0].Found; len(f) != 1 || f[0].Key != "life.seen" {
		t.Errorf("of a retainer was found %+v", f)
	}
	// What stands on one day in two lines goes by the last of them: nothing ran in between.
	if s.Spells[1].Ran.Runs != 0 || s.Ran.Cycles != 10_500 || s.Ran.Runs != 1 {
		t.Errorf("%+v", s.Ran)
	}
	all[1].From = "2026-03-20"
	s = life.StoryOf(record.RetainerItem, all)
	if s.Spells[1].Box != "4" || s.Spells[0].Until != "2026-03-20" || s.Spells[2].Ran.Cycles != 2*10_500 || s.Ran.Cycles != 3*10_500 {
		t.Errorf("%+v", s.Spells)
	}
	// A set-up that ended leaves its spring nowhere.
	all[2].Until = "2026-03-10"
	s = life.StoryOf(record.PieceItem, all[2:])
	if s.Where() != nil || s.Spells[0].Ran.Cycles != 10_500 {
		t.Errorf("%+v", s.Spells)
	}
}

// What the sheet promises falls due by what was run, until somebody looked; a trend falls due as an interval.
func TestDueBySheetAndTrend(t *testing.T) {
	rec := &record.Record{}
	run := record.Run{Day: "2026-03-01", Kind: record.Miles, Count: "350"}
	for _, c := range []struct {
		words  string
		runs   []record.Run
		checks []record.SpringCheck
		key    string
		over   bool
	}{
		{"after 500 miles, by the owner", []record.Run{run}, nil, "due.sheet-runs", false},
		{"after 500 miles, by the owner", []record.Run{run, run}, nil, "due.sheet-runs", true},
		{"After 1,000 miles.", []record.Run{run, run}, nil, "due.sheet-runs", false},
		{"nach 300,5 miles", []record.Run{run, run}, nil, "due.sheet-runs", true}, // read as 3005 it would not be due
		{"nach 1.500 miles", []record.Run{run, run}, nil, "due.sheet", false},     // 1.5 or 1500
		{"in spring", []record.Run{run}, nil, "due.sheet", false},
		{"after 500 miles", []record.Run{run, run}, []record.SpringCheck{{Day: "2026-03-01", Service: record.CheckedRunIn}}, "due.sheet-runs", true},
		{"after 500 miles", []record.Run{run, run}, []record.SpringCheck{{Day: "2026-03-02", Service: record.CheckedLater}}, "", false},
		{" ", []record.Run{run}, nil, "", false},
	} {
		rec.Setup.Needs.Recheck = c.words
		l := life.Of(rec, evaluate.Evaluation{}, nil, c.runs, c.checks)
		key, over := "", false
		for _, d := range l.Due("A-1", "s", c.runs, "2026-04-01") {
			key, over = d.What.Key, d.Over
		}
		if key != c.key || over != c.over {
			t.Errorf("%q: %s, %v, want %s, %v", c.words, key, over, c.key, c.over)
		}
	}
}
