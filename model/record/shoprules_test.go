package record_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"keeperbook/model/internal/checkfile"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

func read(t testing.TB, text string, s unit.Symbol) unit.Quantity {
	t.Helper()
	q, err := unit.Of(text, s)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

func TestDefaultRules(t *testing.T) {
	inches, metric := record.DefaultRules(unit.In), record.DefaultRules(unit.Mm)
	checkfile.Each(t, "testdata/check/rules.txt", func(t *testing.T, r checkfile.Row) {
		want, name := r.Length("usual_in"), r.Text("rule")
		if n, ok := strings.CutPrefix(name, "size "); ok {
			i, err := strconv.Atoi(n)
			if err != nil || inches.Sizes[i-1].Length() != want {
				t.Errorf("size %s is %v", n, inches.Sizes[i-1])
			}
			return
		}
		key := record.RuleKey(name)
		if got := inches.Of(key).Length(); got != want {
			t.Errorf("%s is %s in, want %s", key, unit.Inches.LengthIn(got), unit.Inches.LengthIn(want))
		}
		// A metric shop rounds the inch figure to what its gauges show, a hundredth.
		if got := metric.Of(key).Length(); max(got-want, want-got) > unit.MM/100 {
			t.Errorf("%s is %s mm for %s in", key, unit.Millimetres.LengthIn(got), unit.Inches.LengthIn(want))
		}
	})
}

// What a shop set is what a set-up begins with, and the rest is common practice; through JSON and back
// nothing changes, and what was given back leaves no trace.
func TestShopRulesRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := rapid.SampledFrom([]unit.Symbol{unit.In, unit.Mm}).Draw(t, "length")
		rules, usual := record.ShopRules{Length: length}, record.DefaultRules(length)
		set, sizes := map[record.RuleKey]unit.Quantity{}, lengths(usual.Sizes)
		keys := record.RuleKeys()
		for _, kind := range record.GaugeKinds {
			keys = append(keys, record.ScatterOf(kind), record.StepOf(kind))
		}
		for range rapid.IntRange(0, 25).Draw(t, "steps") {
			q, err := unit.Of(fmt.Sprintf("0.%04d", rapid.IntRange(0, 5200).Draw(t, "size")), unit.In)
			if err != nil {
				t.Fatal(err)
			}
			before, err := json.Marshal(rules)
			if err != nil {
				t.Fatal(err)
			}
			var next record.ShopRules
			key := rapid.SampledFrom(keys).Draw(t, "rule")
			switch rapid.IntRange(0, 3).Draw(t, "what") {
			case 0:
				if next, err = rules.With(key, q); err == nil {
					set[key] = q
				}
			case 1:
				next = rules.Without(key)
				delete(set, key)
			case 2:
				if next, err = rules.WithSize(q); err == nil {
					sizes = append(sizes, q.Length())
				}
			case 3:
				gone := rapid.SampledFrom(sizes).Draw(t, "gone")
				if next, err = rules.WithoutSize(gone); err == nil {
					sizes = slices.DeleteFunc(sizes, func(s unit.Length) bool { return s == gone })
				}
			}
			if after, _ := json.Marshal(rules); string(after) != string(before) {
				t.Fatalf("the rules that were there changed: %s, were %s", after, before)
			}
			if err == nil {
				rules = next
			} else if say.CodeOf(err) != say.Invalid {
				t.Fatal(err)
			}
		}
		got := rules.Rules()
		for _, key := range keys {
			want := usual.Of(key)
			own, isSet := set[key]
			if isSet {
				want = own
			}
			if got.Of(key) != want || rules.Own(key) != isSet {
				t.Fatalf("%s is %v, want %v", key, got.Of(key), want)
			}
		}
		slices.Sort(sizes)
		if !slices.Equal(lengths(got.Sizes), sizes) || len(slices.Compact(sizes)) != len(got.Sizes) || len(sizes) == 0 {
			t.Fatalf("sizes are %v, want %v", lengths(got.Sizes), sizes)
		}
		body, err := json.Marshal(rules)
		if err != nil {
			t.Fatal(err)
		}
		var again record.ShopRules
		if err := json.Unmarshal(body, &again); err != nil || cmp.Diff(rules, again) != "" || cmp.Diff(got, again.Rules()) != "" {
			t.Fatalf("%s comes back as %+v, %v", body, again, err)
		}
	})
}

func lengths(all []unit.Quantity) []unit.Length {
	lengths := make([]unit.Length, len(all))
	for i, q := range all {
		lengths[i] = q.Length()
	}
	return lengths
}

func TestShopRulesRefuse(t *testing.T) {
	inches, metric := record.ShopRules{Length: unit.In}, record.ShopRules{Length: unit.Mm}
	with := func(s record.ShopRules, key record.RuleKey, text string, u unit.Symbol) error {
		_, err := s.With(key, read(t, text, u))
		return err
	}
	size := func(s record.ShopRules, text string, u unit.Symbol) error {
		_, err := s.WithSize(read(t, text, u))
		return err
	}
	one := record.ShopRules{Length: unit.In, Sizes: []unit.Quantity{read(t, "0.030", unit.In)}}
	_, last := one.WithoutSize(30 * unit.Thou)
	for _, c := range []struct {
		name string
		err  error
		says string // "" where it is taken
	}{
		{"nought", with(inches, record.RuleAgree, "0", unit.In), `"0" reads as .000 in, and this rule is more than .000 in and less than .100 in`},
		{"below nought", with(inches, record.RuleSeal, "-0.05", unit.In), "more than .000 in"},
		{"thousandths in a metric rule", with(metric, record.RuleAgree, "3", unit.Mm), `"3" reads as 3.00 mm, and this rule is more than 0.00 mm and less than 2.54 mm`},
		{"the greatest that is too large", with(inches, record.RuleSet, "0.1", unit.In), "less than .100 in"},
		{"just under it", with(inches, record.RuleSet, "0.0999", unit.In), ""},
		{"clearance of half an inch", with(inches, record.RuleRetainer, "0.5", unit.In), "less than .500 in"},
		{"rated lift in thousandths", with(inches, record.RuleRated, "0.008", unit.In), "more than .100 in and less than 2.000 in"},
		{"rated lift", with(inches, record.RuleRated, "0.750", unit.In), ""},
		{"a scatter in whole thousandths of a millimetre", with(metric, record.ScatterOf(record.Caliper), "25", unit.Mm), "less than 0.508 mm"},
		{"a step", with(metric, record.StepOf(record.Caliper), "0.01", unit.Mm), ""},
		{"rated lift read in the other unit", with(inches, record.RuleRated, "19", unit.Mm), ""},
		{"size of nought", size(inches, "0", unit.In), "no spring shim is thinner than .002 in"},
		{"size that is there", size(inches, "0.0300", unit.In), ".030 in is on the list already"},
		{"size that is there, in the other unit", size(metric, "0.5", unit.Mm), "0.50 mm is on the list already"},
		{"the same thickness by another unit", size(record.ShopRules{Length: unit.In}, "0.762", unit.Mm), ".030 in is on the list already"},
		{"size between two", size(inches, "0.025", unit.In), ""},
		{"the last size", last, ".030 in is the only size on the list"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var e *say.Error
			switch {
			case c.says == "" && c.err != nil:
				t.Error(c.err)
			case c.says != "" && (!errors.As(c.err, &e) || e.Code != say.Invalid || !strings.Contains(say.English().Line(e.Line), c.says)):
				t.Errorf("says %v, want %q", c.err, c.says)
			}
		})
	}
}

// Every rule that is no length can be set and given back, and is in what a set-up begins with.
func TestShopRulesThatAreNoLength(t *testing.T) {
	s := record.ShopRules{Length: unit.In}
	must := func(next record.ShopRules, err error) record.ShopRules {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return next
	}
	for _, key := range record.LoadRules() {
		s = must(s.WithLoad(key, read(t, "7", unit.Lbf)))
	}
	for i, key := range []record.RuleKey{record.RuleLostReplace, record.RuleLostWatch, record.RuleSeatShare} {
		s = must(s.WithShare(key, []string{"12", "6", "4"}[i]))
	}
	s = must(s.WithAngles([]string{"7"}))
	for _, key := range []record.RuleKey{record.RuleOffsets, record.RuleBosses} {
		s = must(s.WithList(key, []unit.Quantity{read(t, "0.060", unit.In)}))
	}
	for _, name := range record.FitNames() {
		s = must(s.With(record.FitRule(name, record.MostRoom), read(t, "0.040", unit.In)))
		s = must(s.With(record.FitRule(name, record.LeastRoom), read(t, "0.010", unit.In)))
	}
	body, err := json.Marshal(s)
	if err != nil {
		t.Fatal(err)
	}
	var again record.ShopRules
	if err := json.Unmarshal(body, &again); err != nil || cmp.Diff(s.Rules(), again.Rules()) != "" {
		t.Fatalf("%s comes back otherwise: %v", body, err)
	}
	r := again.Rules()
	if r.SeatLoads.Load.Read != "7" || r.SeatLoads.Percent != "4" || r.AssumedLoad.S.Read != "7" || r.AssumedLoad.Step.Read != "7" ||
		r.LoadLost.Watch != "6" || r.LoadLost.Replace != "12" || len(r.LockAngles) != 1 || len(r.LockOffsets) != 1 || len(r.Bosses) != 1 {
		t.Errorf("a set-up begins with %+v", r)
	}
	for _, name := range record.FitNames() {
		if r.Of(record.FitRule(name, record.LeastRoom)).Read != "0.010" || r.Of(record.FitRule(name, record.MostRoom)).Read != "0.040" {
			t.Errorf("%s: %+v", name, r.Fits)
		}
	}
	all := slices.Concat(record.LoadRules(), record.ShareRules(), record.ListRules())
	for _, name := range record.FitNames() {
		all = append(all, record.FitRule(name, record.LeastRoom), record.FitRule(name, record.MostRoom))
	}
	for _, key := range all {
		if !s.Own(key) {
			t.Errorf("%s is not the shop's own", key)
		}
		if s = s.Without(key); s.Own(key) {
			t.Errorf("given back, %s is still the shop's own", key)
		}
	}
	if diff := cmp.Diff(record.ShopRules{Length: unit.In}, s); diff != "" {
		t.Errorf("with all given back: %s", diff)
	}
	if diff := cmp.Diff(record.DefaultRules(unit.In), s.Rules()); diff != "" {
		t.Errorf("with all given back a set-up begins otherwise: %s", diff)
	}
}
