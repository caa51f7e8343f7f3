package store

import (
	"context"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// tags lists the heads that a text finds.
func tags(t *testing.T, b *Book, text string) []string {
	t.Helper()
	lines, err := b.Heads(context.Background(), Filter{Text: text})
	if err != nil {
		t.Fatal(text, err)
	}
	var all []string
	for _, l := range lines {
		all = append(all, l.Tag)
	}
	return all
}

func TestSearch(t *testing.T) {
	b := newBook(t)
	keepRecord(t, b, rich())
	other := small("2")
	other.Owner.Name, other.Head.Tag = "Jory Àngström", "OF-2P"
	other.Setup.Begun = "2026-03-04T09:00:00Z"
	keepRecord(t, b, other)
	both := []string{"OF-2P", "Bank A"} // the newest set-up first
	one := both[1:]
	for _, c := range []struct {
		text string
		want []string
	}{
		{"", both}, {"   ", both}, {"–", both},
		{"Orla", one}, {"penh", one}, {"o", []string{"OF-2P", "Bank A"}}, // of both: OF, Orla
		{"straight", one}, {"Str tw", one}, // engine
		{"bank", one}, {"BANK a", one}, // tag
		{"4471", one}, {"cx 44", one}, // casting
		{"wo-118", one}, {"wo-1", one}, {"118", one}, // work order
		{"barn", one}, {"dowel", one}, {"second", one}, // notes of engine, head and set-up
		{"angstrom", both[:1]}, {"OF-2", both[:1]}, {"jory of", both[:1]},
		{"orla jory", nil}, {"arn", nil}, {"chip", nil}, // a reading's note is not looked at
		{`"`, both}, {`"orla`, one}, {`orla" OR "jory`, nil}, {"orla NOT bank", nil}, {"(orla", one}, {"tag:bank", nil}, {"orla*", one}, {"^orla", one},
	} {
		if d := cmp.Diff(c.want, tags(t, b, c.text)); d != "" {
			t.Errorf("%q: %s", c.text, d)
		}
	}

	// What changes is found under its new words and no longer under the old.
	renamed := *rich().Owner
	renamed.Name = "Wenna Trease"
	keep(t, b, "owner", "", record.Put("", renamed))
	engine := rich().Engine
	engine.Note = "reed valve"
	keep(t, b, "engine", "", record.Put("", engine))
	head := rich().Head
	head.Tag = "Bank B"
	keep(t, b, "head", "", record.Put("", head))
	setup := rich().Setup
	setup.Note = "third go"
	keep(t, b, "setup", "S-1", record.Put("", setup))
	for text, want := range map[string][]string{
		"wenna": {"Bank B"}, "reed": {"Bank B"}, "third": {"Bank B"}, "bank b": {"Bank B"},
		"orla": nil, "barn": nil, "second": nil,
	} {
		if d := cmp.Diff(want, tags(t, b, text)); d != "" {
			t.Errorf("%q: %s", text, d)
		}
	}
	if _, err := b.Undo(context.Background(), "S-1", "Tamsin", noon, "u"); err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff([]string{"Bank B"}, tags(t, b, "second")); d != "" {
		t.Error(d)
	}
	bare := record.Head{ID: "H-7", Engine: "E-1", Tag: "scrap", Cylinders: []string{"1"}, Intakes: 1, Exhausts: 1}
	keep(t, b, "bare", "", record.Put("", bare))
	if d := cmp.Diff([]string{"OF-2P", "Bank B", "scrap"}, tags(t, b, "")); d != "" {
		t.Error(d) // a head without a set-up comes last
	}
	keep(t, b, "no head", "", record.Remove("", bare))
	if got := tags(t, b, "scrap"); got != nil {
		t.Error(got)
	}
	sound(t, b)
}

func TestHeadLine(t *testing.T) {
	ctx := context.Background()
	b := newBook(t)
	r := rich()
	keepRecord(t, b, r)
	found := small("1").Setup
	found.ID, found.Kind, found.State, found.Begun = "S-0", record.AsFound, record.Closed, "2026-03-01T08:00:00Z"
	keep(t, b, "found", "", record.Put("", found))
	lines, err := b.Heads(ctx, Filter{Limit: 1})
	if err != nil {
		t.Fatal(err)
	}
	want := []HeadLine{{
		Head: "H-1", Tag: "Bank A", Casting: "CX 4471", WorkOrder: "WO-118", Engine: "Straight two", Owner: r.Owner.Name,
		Setup: "S-1", Kind: record.AsBuilt, State: record.Open, Begun: noon, Setups: 2,
	}}
	if d := cmp.Diff(want, lines); d != "" {
		t.Error(d)
	}
	setups, err := b.Setups(ctx, "H-1")
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff([]record.Setup{found, bare(r.Setup)}, setups); d != "" {
		t.Error(d)
	}
	_, err = b.Setups(ctx, "H-9")
	refused(t, err, say.NotFound, "no head H-9")
	parts, err := b.Parts(ctx)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(r.Parts, parts); d != "" {
		t.Error(d)
	}
	gauges, err := b.Gauges(ctx)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(r.Gauges, gauges); d != "" {
		t.Error(d)
	}
	shop, err := b.Shop(ctx)
	if err != nil || shop != r.Shop {
		t.Error(shop, err)
	}
}

func TestFindHead(t *testing.T) {
	ctx := context.Background()
	b := newBook(t)
	keep(t, b, "engine", "", record.Put("", record.Engine{ID: "E-1", Name: "x"}))
	for id, tag := range map[string]string{"ab1": "left", "ab2": "right", "ab": "middle", "cd1": "twin", "cd2": "twin", "ef%": "ab1"} {
		keep(t, b, id, "", record.Put("", record.Head{ID: id, Engine: "E-1", Tag: tag, Cylinders: []string{"1"}, Intakes: 1, Exhausts: 1}))
	}
	for text, want := range map[string]string{
		"left": "ab1", " right ": "ab2", "ab": "ab", "ab2": "ab2", "cd1": "cd1", "e": "ef%", "ef%": "ef%",
		"ab1": "ef%", // a name comes before an identifier
	} {
		h, err := b.FindHead(ctx, text)
		if err != nil || h.ID != want {
			t.Errorf("%q finds %q, %v", text, h.ID, err)
		}
	}
	for _, c := range []struct {
		text  string
		code  say.Code
		words []string
	}{
		{"twin", say.Conflict, []string{"twin (cd1)", "twin (cd2)", "Give more"}},
		{"a", say.Conflict, []string{"left (ab1)", "right (ab2)", "middle (ab)"}},
		{"%", say.NotFound, []string{"No head is called %"}},
		{"lef", say.NotFound, []string{"List the heads"}},
		{"  ", say.Invalid, []string{"Give its name"}},
	} {
		_, err := b.FindHead(ctx, c.text)
		refused(t, err, c.code, c.words...)
	}
}
