package needs

import (
	"context"
	"slices"
	"testing"

	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// The page shows every rule that the set-up is held against, and of one that is not common practice what would be.
func TestRulesOfLoadsAndFits(t *testing.T) {
	ctx := context.Background()
	p, b := fresh(t)
	value := func(name string) string {
		rules, _ := p.Rules()
		if i := slices.IndexFunc(rules, func(r Rule) bool { return r.Name == name }); i >= 0 {
			return rules[i].Value
		}
		return ""
	}
	want := func(all map[string]string) {
		t.Helper()
		for name, want := range all {
			if got := value(name); got != want {
				t.Errorf("%s: %q, want %q", name, got, want)
			}
		}
	}
	want(map[string]string{
		"seat loads of a role within ±": "5 lbf", "or within ± of their mean, whichever is more": "3 %",
		"watch a spring that lost of its seat load": "5 %", "replace one that lost": "10 %",
		"angles of locks that are met": "7 8 10 °", "offsets of locks that are met": "−.050 .050 in",
		"rim of the locator over spring: least": "", "load scale of a spring tester without a study": "",
	})
	s := b.Record().Setup
	least, err := unit.Of("0.010", unit.In)
	if err != nil {
		t.Fatal(err)
	}
	load, err := unit.Of("30", unit.N)
	if err != nil {
		t.Fatal(err)
	}
	s.Rules.Fits = &record.Fits{Cup: &record.Clearance{Least: &least}}
	s.Rules.SeatLoads = &record.Within{Load: load, Percent: "2"}
	s.Rules.LockAngles = nil // as in a set-up of an earlier version
	if err := b.Keep(ctx, s); err != nil {
		t.Fatal(err)
	}
	want(map[string]string{
		"seat loads of a role within ±":                "30 N; common practice is 5 lbf",
		"or within ± of their mean, whichever is more": "2 %; common practice is 3 %",
		"rim of the locator over spring: least":        ".010 in",
		"rim of the locator over spring: most":         "",
		"angles of locks that are met":                 "",
	})
}
