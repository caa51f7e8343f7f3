package store

import (
	"bytes"
	"compress/gzip"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// form is a book that the program wrote while its bodies had an earlier form: a record that fills every field
// there was, a base height that was replaced, and one that was taken back.
func form(t *testing.T, version int) string {
	t.Helper()
	packed, err := os.ReadFile(fmt.Sprintf("testdata/book-%d.keeperbook.gz", version))
	if err != nil {
		t.Fatal(err)
	}
	r, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		t.Fatal(err)
	}
	book, err := io.ReadAll(r)
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "bench.keeperbook")
	writeFile(t, path, string(book))
	return path
}

// comesIn opens a book of an earlier form and returns it with its set-up.
func comesIn(t *testing.T, path string) (*Book, *record.Record) {
	t.Helper()
	ctx := context.Background()
	b, err := Open(ctx, path, options())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { b.Close() })
	sound(t, b)
	r, err := b.Record(ctx, "S-1")
	if err != nil {
		t.Fatal(err)
	}
	return b, r
}

// A book of form 1 opens, means what it meant, has a whole history, and takes entries of today's form beside
// those of form 1.
func TestABookOfForm1(t *testing.T) {
	ctx := context.Background()
	b, r := comesIn(t, form(t, 1))
	if r.Setup.Rules.Decision != record.Plain || r.Setup.Rules.Assumed != nil || r.Setup.Rules.ShimTolerance != nil {
		t.Errorf("the rules became %+v", r.Setup.Rules)
	}
	if len(r.Gauges) != 3 || r.Gauges[0].Step != nil || r.Gauges[0].Calibration != nil || r.Gauges[0].Setting[0].Gauge != "" {
		t.Errorf("the gauges became %+v", r.Gauges)
	}
	if all := r.ReadingsAt(in1, record.BaseHeight, 0); len(all) != 2 || all[0].Quantity.Length() != 1700*unit.Thou {
		t.Errorf("the base heights became %+v", all)
	}
	if _, err := b.Undo(ctx, "S-1", "Tamsin", noon, "back to 1842"); err != nil {
		t.Fatal(err)
	}
	r, err := b.Record(ctx, "S-1")
	if err != nil || r.ReadingsAt(in1, record.BaseHeight, 0)[0].Quantity.Length() != 1842*unit.Thou {
		t.Errorf("undone it is %+v, %v", r.ReadingsAt(in1, record.BaseHeight, 0), err)
	}
	gauge := r.Gauges[0]
	gauge.Step = q(".001", 254_000)
	keep(t, b, "gauge", "", record.Put("", gauge), record.Put("", study()))
	for what, want := range map[string]int{
		`SELECT version FROM part WHERE id = 'G-1'`: bodyVersion, `SELECT version FROM part WHERE id = 'G-2'`: 1,
		`SELECT version FROM event ORDER BY seq DESC LIMIT 1`: bodyVersion, `SELECT version FROM event ORDER BY seq LIMIT 1`: 1,
	} {
		var version int
		if _, err := one(ctx, b.desk, what, nil, &version); err != nil || version != want {
			t.Errorf("%s: %d, %v, want %d", what, version, err, want)
		}
	}
	sound(t, b)
}

// A book of form 2 opens as it was, assemblies with their bind heights, and takes what form 3 added into what
// was kept before.
func TestABookOfForm2(t *testing.T) {
	ctx := context.Background()
	b, r := comesIn(t, form(t, 2))
	rules := r.Setup.Rules
	if rules.Decision != record.Guarded95 || len(rules.Assumed) != 1 || rules.AssumedLoad != nil || rules.SeatLoads != nil || rules.Fits != nil {
		t.Errorf("the rules became %+v", rules)
	}
	s := r.Parts.Springs[0]
	if s.Assembly == nil || s.Assembly.Bind == nil || s.Assembly.Bind.Reading.Read != "1.155" || s.Assembly.Loads != nil || s.Coils[0].Bind.Lot == nil {
		t.Errorf("the spring became %+v", s)
	}
	if got := r.ReadingsAt(in1, record.BaseHeight, 0); got[0].Quantity.Length() != 1700*unit.Thou || got[0].Height != nil {
		t.Errorf("the base height became %+v", got[0])
	}
	if studies, err := b.Studies(ctx); err != nil || len(studies) != 1 {
		t.Errorf("studies %+v, %v", studies, err)
	}
	now := rich()
	keep(t, b, "springs", "", record.Put("", now.Gauges[1]), record.Put("", now.Gauges[2]), record.Put("", record.Gauge{ID: "G-9", Name: "caliper"}),
		record.Put("", now.Parts.Springs[0]))
	r, err := b.Record(ctx, "S-1")
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(now.Parts.Springs[0], r.Parts.Springs[0]); d != "" {
		t.Error(d)
	}
	sound(t, b)
}

// A book of form 3 opens as it was, with rules of its shop that are lengths only, and takes those that are loads,
// shares and lists beside them.
func TestABookOfForm3(t *testing.T) {
	ctx := context.Background()
	b, r := comesIn(t, form(t, 3))
	if rules := r.Setup.Rules; rules.SeatLoads == nil || rules.Fits == nil || len(rules.LockAngles) != 2 {
		t.Errorf("the rules became %+v", rules)
	}
	if got := r.ReadingsAt(in1, record.BaseHeight, 0); got[0].Quantity.Length() != 1700*unit.Thou {
		t.Errorf("the base height became %+v", got[0])
	}
	rules, err := b.ShopRules(ctx, unit.In)
	if err != nil || rules.Lengths[record.RuleSeal].Length() != 60*unit.Thou || rules.Loads != nil {
		t.Fatalf("the shop's rules became %+v, %v", rules, err)
	}
	want := moreRules(t, rules)
	keep(t, b, "more rules", "", record.Put("", want))
	if got, err := b.ShopRules(ctx, unit.In); err != nil || cmp.Diff(want, got) != "" {
		t.Errorf("%s, %v", cmp.Diff(want, got), err)
	}
	sound(t, b)
}

// A book of form 4 opens as it was signed, and takes beside it whom the shop trusts.
func TestABookOfForm4(t *testing.T) {
	ctx := context.Background()
	b, r := comesIn(t, form(t, 4))
	if r.Setup.State != record.Closed {
		t.Errorf("it became %s", r.Setup.State)
	}
	all, err := b.Signatures(ctx, "S-1")
	if err != nil || len(all) != 1 || all[0].Name != "M. Ashlock" {
		t.Errorf("%+v, %v", all, err)
	}
	if s, err := b.Sheet(ctx, "S-1"); err != nil || string(s.File) != "%PDF one" {
		t.Errorf("the sheet became %+v, %v", s, err)
	}
	if _, err := b.Sign(ctx, sheetOf(2, "%PDF two"), nil, nil, record.Action{Token: "second", By: "x", At: noon}); err != nil {
		t.Errorf("a second signature: %v", err)
	}
	want := record.Trust{Root: all[0].Root, Name: "M. Ashlock", How: "on paper", By: "Tamsin", When: noon}
	keep(t, b, "trust", "", record.Put("", want))
	if got, err := b.Trusted(ctx); err != nil || len(got) != 1 || got[0] != want {
		t.Errorf("%+v, %v", got, err)
	}
	keep(t, b, "withdrawn", "", record.Remove("", want))
	if got, err := b.Trusted(ctx); err != nil || len(got) != 0 {
		t.Errorf("%+v, %v", got, err)
	}
	sound(t, b)
}

// unfound is a record as books had it before they kept what a finding came to when it was accepted.
func unfound(r *record.Record) *record.Record {
	for i := range r.Setup.Deviations {
		r.Setup.Deviations[i].Found = nil
	}
	return r
}

// A book of form 5 opens as it was, and takes what a head did and what was found on its springs.
func TestABookOfForm5(t *testing.T) {
	ctx := context.Background()
	b, r := comesIn(t, form(t, 5))
	if d := cmp.Diff(unfound(rich()), r); d != "" {
		t.Errorf("the record changed: %s", d)
	}
	if all, err := b.Trusted(ctx); err != nil || len(all) != 1 || all[0].Name != "M. Ashlock" {
		t.Errorf("%+v, %v", all, err)
	}
	if lives, err := b.LivedHeads(ctx); err != nil || len(lives) != 0 {
		t.Errorf("%+v, %v", lives, err)
	}
	run, check := aLife(r)
	keep(t, b, "life", "", record.Put("", run), record.Put("", check))
	if l, err := b.Life(ctx, r.Head.ID); err != nil || len(l.Runs) != 1 || len(l.Checks) != 1 {
		t.Errorf("%+v, %v", l, err)
	}
	sound(t, b)
}

// A book of form 6 opens as it was, and takes parts with tags and what was worked out of heads.
func TestABookOfForm6(t *testing.T) {
	ctx := context.Background()
	b, r := comesIn(t, form(t, 6))
	if d := cmp.Diff(unfound(rich()), r); d != "" {
		t.Errorf("the record changed: %s", d)
	}
	run, check := aLife(r)
	if l, err := b.Life(ctx, r.Head.ID); err != nil || cmp.Diff(Life{[]record.Run{run}, []record.SpringCheck{check}}, l) != "" {
		t.Errorf("%+v, %v", l, err)
	}
	keep(t, b, "tag", "", record.Put("", record.Tagged{Of: record.LocksItem, Tag: "K-1", Type: r.Parts.Locks[0].ID}))
	_, upTo, err := b.Reckoned(ctx, "1")
	if err != nil {
		t.Fatal(err)
	}
	if err := b.KeepReckoned(ctx, upTo, []Reckoned{{Head: r.Head.ID, Setup: r.Setup.ID, By: "1", Body: "[]"}}); err != nil {
		t.Fatal(err)
	}
	if all, _, err := b.Reckoned(ctx, "1"); err != nil || len(all) != 1 {
		t.Errorf("%+v, %v", all, err)
	}
	sound(t, b)
}

// A book of form 7 opens as it was, with its life and its parts with tags.
func TestABookOfForm7(t *testing.T) {
	ctx := context.Background()
	b, r := comesIn(t, form(t, 7))
	if d := cmp.Diff(unfound(rich()), r); d != "" {
		t.Errorf("the record changed: %s", d)
	}
	run, check := aLife(r)
	if l, err := b.Life(ctx, r.Head.ID); err != nil || cmp.Diff(Life{[]record.Run{run}, []record.SpringCheck{check}}, l) != "" {
		t.Errorf("%+v, %v", l, err)
	}
	if all, err := b.Tagged(ctx); err != nil || len(all) != 1 || all[0].Tag != "K-1" || all[0].Type != r.Parts.Locks[0].ID {
		t.Errorf("%+v, %v", all, err)
	}
	sound(t, b)
}

// A copy of any earlier form can be looked into and copied on, and a damaged book is saved onto it; the copy stays of its form.
func TestCopiesOfEveryForm(t *testing.T) {
	ctx := context.Background()
	for version := 1; version < bodyVersion; version++ {
		path := form(t, version)
		s, err := Summarize(ctx, path)
		if err != nil || s.Heads != 1 || s.Setups != 1 || s.Seq == 0 {
			t.Errorf("form %d: %+v, %v", version, s, err)
		}
		out := filepath.Join(t.TempDir(), "saved.keeperbook")
		if _, err := Salvage(ctx, path, path, out, options()); err != nil {
			t.Fatalf("form %d: %v", version, err)
		}
		comesIn(t, out)
		if _, err := OpenReadOnly(ctx, path, options()); version < 6 && err == nil {
			t.Errorf("form %d was brought to another", version)
		}
	}
}

// moreRules are a shop's rules with one of each kind besides.
func moreRules(t *testing.T, s record.ShopRules) record.ShopRules {
	t.Helper()
	for _, set := range []func() (record.ShopRules, error){
		func() (record.ShopRules, error) {
			return s.With(record.FitRule("cup", record.LeastRoom), inch(".010", 2_540_000))
		},
		func() (record.ShopRules, error) { return s.WithLoad(record.RuleSeatLoads, *lbf("8", 35_586)) },
		func() (record.ShopRules, error) { return s.WithShare(record.RuleLostWatch, "4") },
		func() (record.ShopRules, error) { return s.WithAngles([]string{"7", "10"}) },
		func() (record.ShopRules, error) {
			return s.WithList(record.RuleBosses, []unit.Quantity{inch(".500", 127_000_000)})
		},
	} {
		var err error
		if s, err = set(); err != nil {
			t.Fatal(err)
		}
	}
	return s
}

// Every kind of rule that a shop sets is there again when the book is opened anew.
func TestShopRulesAreThereAgain(t *testing.T) {
	ctx := context.Background()
	b := newBook(t)
	want := moreRules(t, record.ShopRules{Length: unit.In})
	keep(t, b, "rules", "", record.Put("", want))
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	again, err := Open(ctx, b.Path(), options())
	if err != nil {
		t.Fatal(err)
	}
	defer again.Close()
	got, err := again.ShopRules(ctx, unit.In)
	if err != nil || cmp.Diff(want, got) != "" || cmp.Diff(want.Rules(), got.Rules()) != "" {
		t.Errorf("%s, %v", cmp.Diff(want, got), err)
	}
	sound(t, again)
}

// A form that this program does not know is not guessed at.
func TestAFormToComeIsNotRead(t *testing.T) {
	for _, version := range []int{0, bodyVersion + 1} {
		if _, err := current(record.SealItem, version, []byte(`{}`)); err == nil {
			t.Errorf("a body of form %d was taken", version)
		}
		if _, err := decode(record.SealItem, version, []byte(`{}`)); err == nil {
			t.Errorf("a body of form %d was read", version)
		}
	}
}
