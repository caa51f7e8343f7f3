package shop_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"keeperbook/app/internal/screen/shop"
	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// empty makes a book with nothing in it.
func empty(t testing.TB) *task.Desk {
	t.Helper()
	desk, err := task.MakeBook(context.Background(), t.TempDir()+"/new", "test", clock)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { desk.Close() })
	return desk
}

// begun is the rules of a set-up that is begun now.
func begun(t testing.TB, desk *task.Desk, length unit.Symbol) record.Rules {
	t.Helper()
	ctx := context.Background()
	setup, err := desk.Begin(ctx, task.NewHead{
		Tag: "R-" + task.NewID()[:6], Cylinders: []string{"1"}, Intakes: 1, Exhausts: 1, Kind: record.AsBuilt,
		Units: record.Units{Length: length, Load: unit.Lbf},
	})
	if err != nil {
		t.Fatal(err)
	}
	b, err := desk.OpenBench(ctx, setup)
	if err != nil {
		t.Fatal(err)
	}
	return b.Record().Setup.Rules
}

// What is typed into a rule, how the field shows it, and what is said below; or why it is refused, and then
// the rule is as it was.
func TestRules(t *testing.T) {
	if testing.Short() {
		t.Skip("once a run is enough: it works on one goroutine")
	}
	const usual = "common practice, no published source"
	for _, c := range []struct{ field, typed, shown, unit, note, key string }{
		{"in agree", "4", ".004", "in", "the shop's own; common practice .003", ""},
		{"in agree", ".0025", ".0025", "in", "the shop's own; common practice .003", ""},
		{"in agree", "0.1 mm", "0.1 mm", "", "the shop's own; common practice .003", ""},
		{"in agree", "003", ".003", "in", "the shop's own; common practice .003", ""},
		{"in seal", "60", ".060", "in", "the shop's own; common practice .050", ""},
		{"in rated", "750", ".750", "in", "the shop's own; common practice .800", ""},
		{"mm set", "0.1", "0.1", "mm", "the shop's own; common practice 0.13", ""},
		{"mm agree", "0,05", "0.05", "mm", "the shop's own; common practice 0.08", ""},
		{"mm retainer", "50 thou", ".050 in", "", "the shop's own; common practice 1.27", ""},
		{"in shim", "1", ".001", "in", "the shop's own; common practice .002", ""},
		{"in scatter caliper", ".0005", ".0005", "in", "the shop's own; assumed .0010", ""},
		{"mm step fixture", "0.01", "0.01", "mm", "the shop's own; assumed 0.02", ""},
		{"in seat-loads", "8", "8", "lbf", "the shop's own; common practice 5 lbf", ""},
		{"in seat-loads", "30 N", "30 N", "", "the shop's own; common practice 5 lbf", ""},
		{"mm seat-loads", "30", "30", "N", "the shop's own; common practice 22 N", ""},
		{"in seat-share", "2,5 %", "2.5", "%", "the shop's own; common practice 3 %", ""},
		{"in lost-watch", "8", "8", "%", "the shop's own; common practice 5 %", ""},
		{"in lost-replace", "15", "15", "%", "the shop's own; common practice 10 %", ""},
		{"in angles", "7 10", "7 10", "°", "the shop's own; common practice 7 8 10 °", ""},
		{"in offsets", "-30; +30", "−.030 .030", "in", "the shop's own; common practice −.050 .050 in", ""},
		{"in offsets", "−.030 .030", "−.030 .030", "in", "the shop's own; common practice −.050 .050 in", ""},
		{"mm bosses", "14,35 16", "14.35 16", "mm", "the shop's own; common practice 12.70 14.35 16.00 mm", ""},
		{"in load-scatter", "0.5", "0.5", "lbf", "the shop's own; assumed 1.0 lbf", ""},
		{"mm load-step", "1", "1", "N", "the shop's own; assumed 5 N", ""},
		{"in lost-watch", "12", "5", "%", usual, "record.lost"},
		{"in lost-replace", "4", "10", "%", usual, "record.lost"},
		{"in seat-share", "much", "3", "%", usual, "record.percent"},
		{"in seat-share", "101", "3", "%", usual, "record.percent"},
		{"in angles", "steep", "7 8 10", "°", usual, "record.angle"},
		{"in angles", "700", "7 8 10", "°", usual, "shop.rule-angle"},
		{"in angles", "7 0.9", "7 8 10", "°", usual, "shop.rule-angle"},
		{"in angles", "45", "45", "°", "the shop's own; common practice 7 8 10 °", ""},
		{"in angles", "", "7 8 10", "°", usual, "shop.rule-empty"},
		{"in offsets", "50 0", "−.050 .050", "in", usual, "shop.rule-list"},
		{"in bosses", "-.500", ".500 .565 .630", "in", usual, "unit.negative"},
		{"in seat-loads", "0", "5", "lbf", usual, "shop.rule-load"},
		{"in seat-loads", "5 in", "5", "lbf", usual, "unit.dimension"},
		{"in load-step", "900", "1", "lbf", "assumed, no source", "shop.rule-load"},
		{"mm scatter micrometer", "5", "0.005", "mm", "assumed, no source", "shop.rule-range"},
		{"in agree", "", ".003", "in", usual, "shop.rule-empty"},
		{"in agree", "  ", ".003", "in", usual, "shop.rule-empty"},
		{"in seal", "-50", ".050", "in", usual, "unit.negative"},
		{"in seal", "fifty", ".050", "in", usual, "unit.letters"},
		{"in seal", "0", ".050", "in", usual, "shop.rule-range"},
		{"in seal", "50 lbf", ".050", "in", usual, "unit.dimension"},
		{"in rated", ".0008", ".800", "in", usual, "shop.rule-range"},
		{"in rated", "8.5", ".800", "in", usual, "shop.rule-range"},
		{"mm agree", "3", "0.08", "mm", usual, "shop.rule-range"},
		{"mm set", "0.1.3", "0.13", "mm", usual, "unit.marks"},
	} {
		t.Run(c.field+" "+c.typed, func(t *testing.T) {
			_, p := pages(t, empty(t))
			p.Go(shop.Rules)
			if err := p.Put(context.Background(), c.field, c.typed); key(err) != c.key {
				t.Fatalf("%v, want %q", err, c.key)
			}
			f := field(t, p, c.field)
			if f.Value != c.shown || f.Unit != c.unit || f.Note != c.note || f.CanBack() != (c.key == "") {
				t.Errorf("shows %q %q, says %q, can go back: %t; want %q %q, %q", f.Value, f.Unit, f.Note, f.CanBack(), c.shown, c.unit, c.note)
			}
		})
	}
}

// A rule reaches the set-ups that are begun from then on in its unit, and no other; given back, common
// practice holds again.
func TestRulesReachNewSetups(t *testing.T) {
	if testing.Short() {
		t.Skip("one goroutine: once a run is enough")
	}
	ctx := context.Background()
	desk := demonstration(t)
	_, p := pages(t, desk)
	p.Go(shop.Rules)
	before, err := desk.OpenBench(ctx, "setup-ferry-found")
	if err != nil {
		t.Fatal(err)
	}
	fixed := before.Record().Setup.Rules
	put(t, p, "in seal", "60")
	put(t, p, "in decision", "plain")
	put(t, p, "in scatter caliper", ".0005")
	put(t, p, "mm agree", "0.05")
	p.Go(shop.Shims)
	put(t, p, "in size", "25")
	r := begun(t, desk, unit.In)
	if r.Decision != record.Plain || r.Of(record.ScatterOf(record.Caliper)).Length() != unit.Thou/2 ||
		r.Of(record.StepOf(record.Caliper)) != record.DefaultRules(unit.In).Of(record.StepOf(record.Caliper)) {
		t.Errorf("in inches it begins with %s, and assumes %+v", r.Decision, r.Assumed)
	}
	if r.SealLeast.Length() != 60*unit.Thou || r.Agree != record.DefaultRules(unit.In).Agree || len(r.Sizes) != 7 || r.Sizes[3].Length() != 25*unit.Thou {
		t.Errorf("in inches it begins with %+v", r)
	}
	if r := begun(t, desk, unit.Mm); r.Agree.Length() != unit.MM/20 || r.SealLeast != record.DefaultRules(unit.Mm).SealLeast || len(r.Sizes) != 3 {
		t.Errorf("in millimetres it begins with %+v", r)
	}
	// One that follows begins with the shop's rules of today; the one before keeps its own.
	next, err := desk.Follow(ctx, "setup-ferry-found", record.AsBuilt)
	if err != nil {
		t.Fatal(err)
	}
	for setup, want := range map[string]unit.Length{next: 60 * unit.Thou, "setup-ferry-found": fixed.SealLeast.Length()} {
		b, err := desk.OpenBench(ctx, setup)
		if err != nil || b.Record().Setup.Rules.SealLeast.Length() != want {
			t.Errorf("%s has %v, %v", setup, b.Record().Setup.Rules.SealLeast, err)
		}
	}
	p.Go(shop.Rules)
	if err := p.Back(ctx, "in seal"); err != nil {
		t.Fatal(err)
	}
	if f := field(t, p, "in seal"); f.Value != ".050" || f.CanBack() {
		t.Errorf("given back it shows %q", f.Value)
	}
	if r := begun(t, desk, unit.In); r.SealLeast != record.DefaultRules(unit.In).SealLeast {
		t.Errorf("given back it begins with %v", r.SealLeast)
	}
}

// texts are what a list says.
func texts(l shop.List) []string {
	all := []string{l.Note}
	for _, line := range l.Lines {
		all = append(all, line.Text)
	}
	return all
}

func TestSizes(t *testing.T) {
	ctx := context.Background()
	desk := empty(t)
	_, p := pages(t, desk)
	p.Go(shop.Shims)
	lists := p.Lists()[1:] // after the shelf
	if got := texts(lists[0]); !slices.Equal(got, []string{
		"Common practice, no published source.", ".010 in", ".015 in", ".020 in", ".030 in", ".045 in", ".060 in",
	}) || lists[0].Deed != "" {
		t.Errorf("before anybody changed it: %q, back %q", got, lists[0].Deed)
	}
	for _, c := range []struct {
		field, typed, key string
	}{
		{"in size", "25", ""},
		{"in size", "0.75 mm", ""},
		{"in size", "30", "shop.size-twice"},
		{"in size", ".0250", "shop.size-twice"},
		{"in size", "0.762 mm", "shop.size-twice"},
		{"in size", "0", "shop.size-none"},
		{"in size", "none", "shop.size-none"},
		{"in size", ".001", "shop.size-thin"},
		{"in size", "-30", "unit.negative-shim"},
		{"in size", "750", "unit.thick-shim"},
		{"in size", "30+15", "shop.size-one"},
		{"in size", "2x35", "shop.size-one"},
		{"in size", "thick", "unit.letters"},
		{"in size", "", "unit.empty"},
		{"mm size", "0,75", ""},
		{"mm size", "15", "unit.thick-shim"},
		{"mm size", "0.25", "shop.size-twice"},
	} {
		before := texts(p.Lists()[1])
		if f := field(t, p, c.field); f.Value != "" || !f.Again {
			t.Errorf("the field of the next size begins with %q", f.Value)
		}
		if err := p.Put(ctx, c.field, c.typed); key(err) != c.key {
			t.Errorf("%s %q: %v, want %q", c.field, c.typed, err, c.key)
		}
		if after := texts(p.Lists()[1]); c.key != "" && !slices.Equal(after, before) {
			t.Errorf("%q was refused, and %q became %q", c.typed, before, after)
		}
	}
	lists = p.Lists()[1:]
	if got := texts(lists[0]); !slices.Equal(got, []string{
		"The shop's own list. Common practice is .010 .015 .020 .030 .045 .060.",
		".010 in", ".015 in", ".020 in", ".025 in", "0.75 mm", ".030 in", ".045 in", ".060 in",
	}) {
		t.Errorf("in order of thickness: %q", got)
	}
	if got := texts(lists[1])[1:]; !slices.Equal(got, []string{"0.25 mm", "0.50 mm", "0.75 mm", "1.00 mm"}) {
		t.Errorf("in millimetres: %q", got)
	}

	// One that is open can be taken off, whoever uses it: set-ups keep their copy.
	open(t, p, "0.75 mm")
	if p.Title() != "0.75 mm" || p.InUse() || !strings.Contains(p.Used(), "keeps the sizes") {
		t.Errorf("open is %q, said of it %q", p.Title(), p.Used())
	}
	if err := p.Discard(ctx); err != nil || p.Chosen().Key != "" || slices.Contains(texts(p.Lists()[1]), "0.75 mm") {
		t.Errorf("taken off: %q, %v", texts(p.Lists()[1]), err)
	}
	for _, size := range []string{".010 in", ".015 in", ".020 in", ".025 in", ".030 in", ".045 in"} {
		open(t, p, size)
		if err := p.Discard(ctx); err != nil {
			t.Fatal(err)
		}
	}
	open(t, p, ".060 in")
	if err := p.Discard(ctx); key(err) != "shop.size-last" || say.CodeOf(err) != say.Invalid || p.Title() != ".060 in" {
		t.Errorf("the last size: %v", err)
	}
	if got := begun(t, desk, unit.In).Sizes; len(got) != 1 || got[0].Length() != 60*unit.Thou {
		t.Errorf("a set-up begins with %v", got)
	}
	inches := p.Lists()[1].Kind
	if !strings.Contains(p.BackSure(inches), ".010 .015 .020 .030 .045 .060") {
		t.Errorf("asks %q", p.BackSure(inches))
	}
	if err := p.BackSizes(ctx, inches); err != nil || len(p.Lists()[1].Lines) != 6 || p.Lists()[1].Deed != "" {
		t.Errorf("back: %q, %v", texts(p.Lists()[1]), err)
	}
	if len(p.Lists()[2].Lines) != 4 {
		t.Error("the other list went back too")
	}
}

// What the shop set is there again when the book is opened anew, beside its other things.
func TestRulesAreKept(t *testing.T) {
	if testing.Short() {
		t.Skip("one goroutine: once a run is enough")
	}
	ctx := context.Background()
	desk := demonstration(t)
	_, p := pages(t, desk)
	p.Go(shop.Rules)
	put(t, p, "in agree", "4")
	path := desk.Book.Path()
	if err := desk.Close(); err != nil {
		t.Fatal(err)
	}
	again, err := task.OpenBook(ctx, path, "test", clock)
	if err != nil {
		t.Fatal(err)
	}
	defer again.Close()
	_, p = pages(t, again)
	p.Go(shop.Rules)
	if f := field(t, p, "in agree"); f.Value != ".004" || !f.CanBack() {
		t.Errorf("opened anew it shows %q", f.Value)
	}
	report, err := again.Book.Examine(ctx)
	if err != nil || !report.Sound() {
		t.Errorf("%+v, %v", report, err)
	}
}
