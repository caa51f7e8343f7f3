package evaluate_test

import (
	"slices"
	"testing"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// What a shop sets is what a set-up is held against: each finding comes or goes with the least change of a rule.
// Around the register of the retainer are .010 in, and the seat loads of the two intakes lie 10.2 lbf off their mean.
func TestShopRulesChangeFindings(t *testing.T) {
	two := func() *record.Record {
		r := loaded(t)
		r.Head.Cylinders = []string{"1", "2"}
		for i, base := range []string{"2.030", "1.990"} {
			at := record.Position{Cylinder: r.Head.Cylinders[i], Role: record.Intake, N: 1}
			r.Put(record.Valve{At: at, Stack: []record.Shim{{Thickness: in(t, "0.030"), Under: record.UnderLocator}}})
			drop(r, at, record.BaseHeight)
			add(t, r, at, record.BaseHeight, 0, base)
		}
		return r
	}
	fit := func(text string) func(record.ShopRules) (record.ShopRules, error) {
		return func(s record.ShopRules) (record.ShopRules, error) {
			return s.With(record.FitRule("retainer", record.LeastRoom), in(t, text))
		}
	}
	spread := func(text, percent string) func(record.ShopRules) (record.ShopRules, error) {
		return func(s record.ShopRules) (record.ShopRules, error) {
			s, err := s.WithLoad(record.RuleSeatLoads, lbf(t, text))
			if err != nil {
				return s, err
			}
			return s.WithShare(record.RuleSeatShare, percent)
		}
	}
	for _, c := range []struct {
		name   string
		record *record.Record
		rule   func(record.ShopRules) (record.ShopRules, error)
		key    string
		found  bool
	}{
		{"as much room as there is", sized(t), fit("0.010"), "fit-retainer", false},
		{"a ten-thousandth more", sized(t), fit("0.0101"), "fit-retainer", true},
		{"a spread just above the worst", two(), spread("10.3", "1"), "seat-spread", false},
		{"a tenth of a pound less", two(), spread("10.1", "1"), "seat-spread", true},
		{"a share just above the worst", two(), spread("1", "3.3"), "seat-spread", false},
		{"a tenth of a percent less", two(), spread("1", "3.2"), "seat-spread", true},
		{"angles that are met", sized(t), func(s record.ShopRules) (record.ShopRules, error) { return s.WithAngles([]string{"10.0"}) }, "fit-angle-unmet", false},
		{"another angle alone", sized(t), func(s record.ShopRules) (record.ShopRules, error) { return s.WithAngles([]string{"7"}) }, "fit-angle-unmet", true},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, err := c.rule(record.ShopRules{Length: unit.In})
			if err != nil {
				t.Fatal(err)
			}
			c.record.Setup.Rules = s.Rules()
			ev := evaluate.Evaluate(c.record)
			all := slices.Clone(ev.Findings)
			for _, v := range ev.Valves {
				all = append(all, v.Findings...)
			}
			if found := slices.ContainsFunc(all, func(f evaluate.Finding) bool { return f.Key == c.key }); found != c.found {
				t.Errorf("%s is found: %t, want %t", c.key, found, c.found)
			}
		})
	}
}
