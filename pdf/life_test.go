package pdf_test

import (
	"bytes"
	"strings"
	"testing"

	"keeperbook/model/evaluate"
	"keeperbook/model/life"
	"keeperbook/model/record"
	"keeperbook/model/unit"
	"keeperbook/pdf"
)

// The report says what was run, what became of each spring, what is due, what stands on the valves, and the cautions; the same
// report has the same bytes.
func TestReportSaysWhatBecameOfTheSprings(t *testing.T) {
	r := samples(t)["six"]
	at := r.Head.Positions()[0]
	load := func(text string) *unit.Quantity {
		q, err := unit.Of(text, unit.Lbf)
		if err != nil {
			t.Fatal(err)
		}
		return &q
	}
	r.Setup.Rules.LoadLost = &record.Lost{Watch: "5", Replace: "10"}
	r.Setup.Rules.AssumedLoad = nil
	runs := []record.Run{{Day: "2026-03-08", Kind: record.Passes, Count: "6", Seconds: "9.5", Mean: "6800", OverRevs: 1}}
	checks := []record.SpringCheck{
		{ID: "a", Day: "2026-03-07", Service: record.CheckedRunIn, Valves: []record.CheckedValve{{At: at, Load: load("130")}}},
		{ID: "b", Day: "2026-03-09", Service: record.CheckedLater, Valves: []record.CheckedValve{{At: at, Load: load("115"), Seen: []record.Sight{record.Nick}}}},
	}
	ev := evaluate.Evaluate(r)
	words := evaluate.Words(r.Setup.Units)
	l := life.Of(r, ev, nil, runs, checks)
	report := pdf.Report{
		Record: r, Life: l, Times: life.TimesOf("2026-03-02", runs, checks), Lash: life.LashLogOf(ev, l, checks), Ran: "6 passes; 3 230 valve cycles.",
		Runs: []pdf.Logged{{Day: "2026-03-08", Text: "6 passes, 9.5 s"}}, Checks: []pdf.Logged{{Day: "2026-03-09", Text: "in use, 1 valves"}},
		Due: []string{"change the spring of the first valve"}, Day: "2026-06-01", Paper: pdf.A4, Words: words,
	}
	var first, second bytes.Buffer
	if err := pdf.WriteReport(&first, report); err != nil {
		t.Fatal(err)
	}
	if err := pdf.WriteReport(&second, report); err != nil || !bytes.Equal(first.Bytes(), second.Bytes()) {
		t.Errorf("other bytes the second time, %v", err)
	}
	whole := flat(readPages(t, first.Bytes()))
	for _, text := range []string{
		"life report", "6 passes; 3 230 valve cycles.", "change the spring of the first valve", "replace11.5130.0", "130.0 → 115.0 lbf",
		"nick, seen 2026-03-09", "Day by day", "What was run", "2026-03-08 6 passes, 9.5 s", "in use, 1 valves", "Parts",
		"A spring that is sound by its load can still break", "wear eye and face protection",
	} {
		if !strings.Contains(whole, strings.ReplaceAll(text, " ", "")) {
			t.Errorf("%q stands nowhere", text)
		}
	}
}
