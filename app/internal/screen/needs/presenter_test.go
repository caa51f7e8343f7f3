package needs

import (
	"context"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

func clock() time.Time { return time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC) }

// fresh is the page of a new head with two cylinders and a spring of two coils on the intakes.
func fresh(t *testing.T) (*Presenter, *task.Bench) {
	t.Helper()
	ctx := context.Background()
	d, err := task.MakeBook(ctx, filepath.Join(t.TempDir(), "new"), "M. Tester", clock)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { d.Close() })
	setup, err := d.Begin(ctx, task.NewHead{
		Engine: "Engine", Tag: "T-1", Cylinders: []string{"1", "2"}, Intakes: 1, Exhausts: 1,
		Kind: record.AsBuilt, Units: record.Units{Length: unit.In, Load: unit.Lbf},
	})
	if err != nil {
		t.Fatal(err)
	}
	b, err := d.OpenBench(ctx, setup)
	if err != nil {
		t.Fatal(err)
	}
	err = b.Keep(ctx, record.Spring{ID: "s", Name: "pair", Coils: []record.Coil{{Name: "outer"}, {Name: "inner"}}},
		record.Package{Role: record.Intake, Spring: "s"})
	if err != nil {
		t.Fatal(err)
	}
	return NewPresenter(b), b
}

// field finds a field of the page as it is shown.
func field(t *testing.T, p *Presenter, name string) Field {
	t.Helper()
	for _, g := range p.Groups() {
		for _, f := range g.Fields {
			if f.Name == name {
				return f
			}
		}
	}
	t.Fatalf("no field %s", name)
	return Field{}
}

func TestCommit(t *testing.T) {
	if testing.Short() {
		t.Skip("once a run is enough: it works on one goroutine")
	}
	for _, tt := range []struct {
		field, text string
		shows       string // afterwards
		key         string // of the refusal
		in          func(r *record.Record) bool
	}{
		{"needs.use", " ferry ", "ferry", "", func(r *record.Record) bool { return r.Setup.Needs.Use == "ferry" }},
		{"needs.held", "3,200", "3,200", "", func(r *record.Record) bool { return r.Setup.Needs.Held == "3,200" }},
		{"needs.boost", "12", "12 psi", "", func(r *record.Record) bool { return r.Setup.Needs.Boost.Unit == unit.Psi }},
		{"needs.boost", "0.8 bar", "0.8 bar", "", func(r *record.Record) bool { return r.Setup.Needs.Boost.Unit == unit.Bar }},
		{"needs.boost", "none", "none", "", func(r *record.Record) bool { return r.Setup.Needs.Boost.Value == 0 }},
		{"needs.boost", "12 mm", "12 mm", "unit.dimension", func(r *record.Record) bool { return r.Setup.Needs.Boost == nil }},
		{"needs.note", "came in with a tick", "came in with a tick", "", func(r *record.Record) bool { return r.Setup.Note != "" }},
		{"needs.casting", "K17", "K17", "", func(r *record.Record) bool { return r.Head.Casting == "K17" }},
		{"in.least.1", "60", ".060", "", func(r *record.Record) bool {
			return r.Setup.Packages[0].Least[0].Margin.Length() == 60*unit.Thou
		}},
		{"in.least.2", "six", "six", "unit.letters", func(r *record.Record) bool { return r.Setup.Packages[0].Least == nil }},
		{"in.most", "80", ".080", "", func(r *record.Record) bool { return r.Setup.Packages[0].Most != nil }},
		{"ex.nearest", "bucket", "bucket", "", func(r *record.Record) bool { return r.PackageOf(record.Exhaust).Nearest == "bucket" }},
		{"in.card.lobe", ".3775", ".3775", "", func(r *record.Record) bool { return r.Setup.Packages[0].Card == nil }},
		{"in.card.ratio", "1,6", "1,6", "", func(r *record.Record) bool { return r.Setup.Packages[0].Card == nil }},
		{"in.card.ratio", "0", "0", "needs.ratio", func(r *record.Record) bool { return r.Setup.Packages[0].Card == nil }},
		{"in.seat-load.least", "120", "120", "", func(r *record.Record) bool {
			return r.Setup.Packages[0].SeatLoad.Least.Value == 533787 // 120 × 4.4482216152605 N
		}},
		{"in.seat-load.most", "600 N", "134.9", "", func(r *record.Record) bool { return r.Setup.Packages[0].SeatLoad.Most.Unit == unit.N }},
		{"ex.open-load.target", "-5", "-5", "unit.negative", func(r *record.Record) bool { return r.PackageOf(record.Exhaust).OpenLoad == nil }},
		{"in.open-load.from", "cam card", "cam card", "", func(r *record.Record) bool { return r.Setup.Packages[0].OpenLoad.From == "cam card" }},
		{"needs.lifter-most", "420", "420", "", func(r *record.Record) bool { return r.Setup.Needs.LifterMost != nil }},
		{"needs.cam-most", "", "", "", func(r *record.Record) bool { return r.Setup.Needs.CamMost == nil }},
		{"needs.pocket", "1650", "1.650", "", func(r *record.Record) bool { return r.Setup.Needs.Pocket.Length() == 1650*unit.Thou }},
		{"needs.boss", ".565", ".565", "", func(r *record.Record) bool { return r.Setup.Needs.Boss != nil }},
		{"needs.centres", "48 mm", "1.8898", "", func(r *record.Record) bool { return r.Setup.Needs.Centres.Unit == unit.Mm }},
		{"needs.material", "aluminium", "aluminium", "", func(r *record.Record) bool { return r.Head.Material == record.Aluminium }},
		{"check.other", "", "", "", func(r *record.Record) bool { return len(r.Setup.Checks) == 0 }},
	} {
		t.Run(tt.field+" "+tt.text, func(t *testing.T) {
			p, b := fresh(t)
			err := p.Commit(context.Background(), tt.field, tt.text)
			if got := keyOf(err); got != tt.key {
				t.Fatalf("refused with %q (%v), want %q", got, err, tt.key)
			}
			f := field(t, p, tt.field)
			if shows := strings.TrimSpace(f.Value + " " + f.Unit); shows != tt.shows && f.Value != tt.shows {
				t.Errorf("shows %q, want %q", shows, tt.shows)
			}
			if (f.Refused != "") != (tt.key != "") {
				t.Errorf("says %q", f.Refused)
			}
			if !tt.in(b.Record()) {
				t.Errorf("not in the record as it should be: %+v", b.Record().Setup)
			}
		})
	}
}

func keyOf(err error) string {
	var e *say.Error
	if err == nil {
		return ""
	}
	if e, _ = err.(*say.Error); e == nil {
		return err.Error()
	}
	return e.Line.Key
}

// A band only grows from its least to its most, and goes away with the last of it.
func TestBandOfLoads(t *testing.T) {
	ctx := context.Background()
	p, b := fresh(t)
	for _, c := range []struct{ field, text, key string }{
		{"in.seat-load.least", "120", ""}, {"in.seat-load.most", "110", "record.band-order"}, {"in.seat-load.most", "140", ""},
		{"in.seat-load.target", "150", "record.band-order"}, {"in.seat-load.target", "130", ""},
		{"in.seat-load.least", "", ""}, {"in.seat-load.target", "", ""}, {"in.seat-load.most", "", ""},
	} {
		if got := keyOf(p.Commit(ctx, c.field, c.text)); got != c.key {
			t.Errorf("%s %s: %q, want %q", c.field, c.text, got, c.key)
		}
	}
	if band := b.Record().PackageOf(record.Intake).SeatLoad; band != nil {
		t.Errorf("there is still %+v", band)
	}
}

// A card goes in once it is whole, in one action, whatever the order; what waits for it asks for the rest.
func TestCardIsKeptWhole(t *testing.T) {
	ctx := context.Background()
	p, b := fresh(t)
	asks := func(want string) {
		t.Helper()
		if !slices.ContainsFunc(p.Questions(), func(q Question) bool { return q.Text == want }) {
			t.Errorf("does not ask %q but %v", want, p.Questions())
		}
	}
	asks("intakes: what is the lift? Type the cam card, or measure it under Valves.")
	for _, step := range []struct{ field, text string }{
		{"in.card.from", "builder's word"}, {"in.card.at", "cold"}, {"in.card.ratio", "1.6"},
	} {
		if err := p.Commit(ctx, step.field, step.text); err != nil {
			t.Fatal(err)
		}
		if b.Record().PackageOf(record.Intake).Card != nil {
			t.Fatalf("a card without a lobe lift was kept after %s", step.field)
		}
		if !field(t, p, step.field).Waits {
			t.Errorf("%s does not wait", step.field)
		}
	}
	asks("intakes: the cam card is not kept yet; it lacks cam card: lobe lift, lash at the valve.")
	for _, step := range []struct{ field, text string }{{"in.card.lash", "20"}, {"in.card.lobe", ".3775"}} {
		if err := p.Commit(ctx, step.field, step.text); err != nil {
			t.Fatal(err)
		}
	}
	c := b.Record().PackageOf(record.Intake).Card
	if c == nil || c.Ratio != "1.6" || c.At != record.Cold || c.From != "builder's word" || c.Lash.Length() != 20*unit.Thou {
		t.Fatalf("kept %+v", c)
	}
	if field(t, p, "in.card.ratio").Waits {
		t.Error("a kept field still waits")
	}
	if err := p.Commit(ctx, "in.card.ratio", ""); keyOf(err) != "needs.card-part" {
		t.Errorf("a card without a ratio: %v", err)
	}
	// The ratio that was cleared is given back with the old text, as Esc does.
	if err := p.Commit(ctx, "in.card.ratio", "1.6"); err != nil || field(t, p, "in.card.ratio").Refused != "" {
		t.Errorf("given back: %v", err)
	}
	if err := p.Commit(ctx, "in.card.lobe", ""); err != nil || b.Record().PackageOf(record.Intake).Card != nil {
		t.Fatalf("taken away: %v", err)
	}
	if f := field(t, p, "in.card.ratio"); f.Value != "1.6" || !f.Waits {
		t.Errorf("the ratio of a card that was taken away is %+v", f)
	}
	if _, err := b.Undo(ctx); err != nil || b.Record().PackageOf(record.Intake).Card == nil {
		t.Errorf("undo: %v", err)
	}
	if _, err := b.Undo(ctx); err != nil || b.Record().PackageOf(record.Intake).Card != nil {
		t.Errorf("the card took more than one action: %v", err)
	}
}

// Who says a margin may be typed before the margin, and both become one action.
func TestLeastFromWaits(t *testing.T) {
	ctx := context.Background()
	p, b := fresh(t)
	for _, step := range []struct{ field, text string }{{"in.least.2.from", "shop rule"}, {"in.least.2", "70"}} {
		if err := p.Commit(ctx, step.field, step.text); err != nil {
			t.Fatal(err)
		}
	}
	l, ok := task.LeastOf(b.Record().PackageOf(record.Intake), 2)
	if !ok || l.From != "shop rule" || l.Margin.Length() != 70*unit.Thou {
		t.Errorf("kept %+v", l)
	}
}

// What a field shows already writes nothing, also where another unit is shown than was read.
func TestShowingNeverWrites(t *testing.T) {
	ctx := context.Background()
	p, b := fresh(t)
	if err := p.Commit(ctx, "in.most", "2.03 mm"); err != nil {
		t.Fatal(err)
	}
	before, _ := b.PeekUndo(ctx)
	shown := field(t, p, "in.most").Value
	if shown != ".0799" {
		t.Errorf("2.03 mm shows as %s", shown)
	}
	if err := p.Commit(ctx, "in.most", shown); err != nil {
		t.Fatal(err)
	}
	after, _ := b.PeekUndo(ctx)
	if before.Action != after.Action || b.Record().PackageOf(record.Intake).Most.Read != "2.03" {
		t.Error("showing wrote")
	}
}

func TestChecks(t *testing.T) {
	ctx := context.Background()
	p, b := fresh(t)
	open := p.Open()
	do := func(name, text string) {
		t.Helper()
		if err := p.Commit(ctx, name, text); err != nil {
			t.Fatal(err)
		}
	}
	do("check crack check", "here")
	c := b.Record().Setup.Checks
	if len(c) != 1 || c[0].Done != record.DoneHere || c[0].Who != "M. Tester" {
		t.Fatalf("kept %+v", c)
	}
	do("check crack check.who", "J. Second")
	do("check crack check", "not-here")
	if c := b.Record().Setup.Checks[0]; c.Who != "J. Second" || c.Done != record.NotDoneHere {
		t.Errorf("somebody else's name is gone: %+v", c)
	}
	do("check crack check", "")
	if len(b.Record().Setup.Checks) != 0 {
		t.Error("the answer was not taken back")
	}
	for _, key := range task.UsualChecks() {
		do("check "+p.bench.Say(key), "not-here")
	}
	if p.Open() != open-1 {
		t.Errorf("%d open, want %d", p.Open(), open-1)
	}
	do("check.other", "pressed guides")
	if got := field(t, p, "check pressed guides").Value; got != "not-here" {
		t.Errorf("another work is %q", got)
	}
	if f := field(t, p, "check.other"); f.Value != "" {
		t.Errorf("the next other work begins with %q", f.Value)
	}
}

// Every question leads to a field that is there, and goes away once it is answered.
func TestQuestions(t *testing.T) {
	ctx := context.Background()
	p, _ := fresh(t)
	if len(p.Questions()) != 2+1+2+13+1 { // two coils; the exhausts' spring; lifts; the needs; the checks
		t.Errorf("%d questions: %v", len(p.Questions()), p.Questions())
	}
	answers := map[string]string{"needs.boost": "none", "in.least.1": "60", "in.least.2": "60"}
	for _, q := range p.Questions() {
		if q.Field == "" {
			if q.Leaf != "parts" {
				t.Errorf("%q leads nowhere", q.Text)
			}
			continue
		}
		field(t, p, q.Field)
		if strings.HasPrefix(q.Field, "check") || strings.Contains(q.Field, "card") {
			continue
		}
		text := answers[q.Field]
		if text == "" {
			text = "answer"
		}
		if err := p.Commit(ctx, q.Field, text); err != nil {
			t.Fatal(err)
		}
	}
	for _, q := range p.Questions() {
		if q.Field != "" && !strings.HasPrefix(q.Field, "check") && !strings.Contains(q.Field, "card") {
			t.Errorf("still asks %q", q.Text)
		}
	}
}

// A field that could not be kept says why and keeps its text.
func TestNotKept(t *testing.T) {
	ctx := context.Background()
	p, b := fresh(t)
	s := b.Record().Setup
	s.State = record.Closed
	if err := b.Keep(ctx, s); err != nil {
		t.Fatal(err)
	}
	err := p.Commit(ctx, "needs.use", "ferry")
	if say.CodeOf(err) != say.ReadOnly {
		t.Fatalf("a closed set-up took an answer: %v", err)
	}
	if f := field(t, p, "needs.use"); f.Value != "ferry" || f.Refused == "" {
		t.Errorf("the field is %+v", f)
	}
}

// The rules that a set-up stands on are those it was begun with, and one that is not common practice
// says what that would be.
func TestRules(t *testing.T) {
	ctx := context.Background()
	p, b := fresh(t)
	value := func(name string) string {
		rules, _ := p.Rules()
		i := slices.IndexFunc(rules, func(r Rule) bool { return r.Name == name })
		if i < 0 {
			return ""
		}
		return rules[i].Value
	}
	if _, source := p.Rules(); !strings.Contains(source, "no published source") {
		t.Error(source)
	}
	for name, want := range map[string]string{
		"check height agrees": "within .003 in", "retainer to seal at full lift, least": ".050 in",
		"shims bought": ".010  .015  .020  .030  .045  .060 in", "decided by": "guarded",
		"a shim that nobody measured": "within ±.002 in", "caliper without a study": "",
	} {
		if got := value(name); got != want {
			t.Errorf("%s: %q, want %q", name, got, want)
		}
	}
	if err := b.Fit(ctx, record.Gauge{ID: "g", Name: "caliper 1", Kind: record.Caliper}, record.Spring{
		ID: "s", Name: "pair", Coils: []record.Coil{{Name: "outer", Bind: &record.Bind{
			Reading: record.DefaultRules(unit.In).RatedOver, Source: record.Measured, Gauge: "g",
		}}},
	}); err != nil {
		t.Fatal(err)
	}
	s := b.Record().Setup
	s.Rules.SealLeast, s.Rules.Sizes = s.Rules.RetainerLeast, s.Rules.Sizes[:2]
	s.Rules.SealLeast.Read, s.Rules.SealLeast.Value = "0.060", int64(60*unit.Thou)
	if err := b.Keep(ctx, s); err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]string{
		"retainer to seal at full lift, least": ".060 in; common practice is .050",
		"retainer to what it nears, least":     ".050 in",
		"shims bought":                         ".010  .015 in; common practice is .010  .015  .020  .030  .045  .060",
		"caliper without a study":              "scatters by .0010 in; step .0005 in",
	} {
		if got := value(name); got != want {
			t.Errorf("%s: %q, want %q", name, got, want)
		}
	}
	s.Rules.ShimTolerance, s.Rules.Assumed = nil, nil // as a set-up of an earlier version
	if err := b.Keep(ctx, s); err != nil {
		t.Fatal(err)
	}
	if value("a shim that nobody measured") != "" || value("caliper without a study") != "" {
		t.Error("a rule that the set-up does not have is shown")
	}
}
