package shop_test

import (
	"context"
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"keeperbook/app/internal/screen/shop"
	"keeperbook/app/internal/task"
	"keeperbook/assets"
	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

func clock() time.Time { return time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC) }

// demonstration opens a fresh demonstration book.
func demonstration(t testing.TB) *task.Desk {
	t.Helper()
	path, err := task.DemoBook(context.Background(), t.TempDir(), assets.Demo(), clock)
	if err != nil {
		t.Fatal(err)
	}
	desk, err := task.OpenBook(context.Background(), path, "test", clock)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { desk.Close() })
	return desk
}

// pages are the pages of a book.
func pages(t testing.TB, desk *task.Desk) (*task.Counter, *shop.Presenter) {
	t.Helper()
	counter, err := desk.OpenCounter(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return counter, shop.NewPresenter(counter)
}

func look(t testing.TB, p *shop.Presenter) {
	t.Helper()
	take, err := p.Look(context.Background(), p.Chosen())
	if err != nil {
		t.Fatal(err)
	}
	take()
}

// open opens the line of a list that begins with a text, and looks what uses it.
func open(t testing.TB, p *shop.Presenter, text string) shop.Line {
	t.Helper()
	for _, l := range p.Lists() {
		for _, line := range l.Lines {
			if line.Text == text {
				p.Choose(line.Item)
				if !p.Known() {
					look(t, p)
				}
				return line
			}
		}
	}
	t.Fatalf("%q stands in no list of %s", text, p.Page())
	return shop.Line{}
}

// field finds a field of what is open.
func field(t testing.TB, p *shop.Presenter, name string) shop.Field {
	t.Helper()
	for _, s := range p.Sections() {
		for _, f := range s.Fields {
			if f.Name == name {
				return f
			}
		}
	}
	t.Fatalf("no field %q", name)
	return shop.Field{}
}

func put(t testing.TB, p *shop.Presenter, name, text string) {
	t.Helper()
	if err := p.Put(context.Background(), name, text); err != nil {
		t.Fatalf("%s %q: %v", name, text, err)
	}
}

// key is the key of the sentence of an error.
func key(err error) string {
	var e *say.Error
	if errors.As(err, &e) {
		return e.Line.Key
	}
	return ""
}

func TestWhatStandsInTheLists(t *testing.T) {
	_, p := pages(t, demonstration(t))
	if line := open(t, p, "nest 12"); line.More != "outer coil 1.110, damper .970, inner coil 1.030" {
		t.Errorf("nest 12: %q", line.More)
	}
	p.Go(shop.Gauges)
	if line := open(t, p, "bind fixture"); line.More != "fixture, LY-027, due on 2026-10-06, lid .095 taken off" {
		t.Errorf("bind fixture: %q", line.More)
	}
}

// A change of a part is announced with the set-ups that name it, before there is a field to change it in.
func TestWhoIsConcernedIsSaidFirst(t *testing.T) {
	desk := demonstration(t)
	counter, err := desk.OpenCounter(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	p := shop.NewPresenter(counter)
	p.Choose(p.Lists()[0].Lines[0].Item)
	if p.Known() || !strings.Contains(p.Used(), "Looking") {
		t.Errorf("before anybody looked: %q", p.Used())
	}
	open(t, p, "nest 12")
	if !p.InUse() || p.Used() != "A change here changes what these set-ups come to: OF-2P as built of 2026-03-02." {
		t.Errorf("nest 12: %q", p.Used())
	}
	p.Go(shop.Gauges)
	open(t, p, "bind fixture")
	if !p.InUse() || !strings.Contains(p.Used(), "keep the setting they were taken under") {
		t.Errorf("bind fixture: %q", p.Used())
	}
	p.Go(shop.Springs)
	if err := p.Add(context.Background(), record.SpringItem, "new one"); err != nil {
		t.Fatal(err)
	}
	if p.InUse() || p.Used() != "No set-up names it." {
		t.Errorf("a new type: %q", p.Used())
	}
}

// What is typed into each field, how the book has it, and how the field shows it.
func TestFieldsOfASpring(t *testing.T) {
	counter, p := pages(t, demonstration(t))
	if err := p.Add(context.Background(), record.SpringItem, " dual 9 "); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ field, typed, shown, unit string }{
		{"name", "dual 9b", "dual 9b", ""},
		{"coils", "2", "2", ""},
		{"rate", "420", "420", "lbf/in"},
		{"rate", "73.5 N/mm", "73.5 N/mm", ""},
		{"rated", "700", ".700", "in"},
		{"rated", "18 mm", "18 mm", ""},
		{"rated", "", "", "in"},
		{"coil 1", "1155", "1.155", "in"},
		{"coil 1 source", "supplied", "supplied", ""},
		{"coil 2 name", "inside", "inside", ""},
		{"note", "blue paint", "blue paint", ""},
	} {
		put(t, p, c.field, c.typed)
		if f := field(t, p, c.field); f.Value != c.shown || f.Unit != c.unit {
			t.Errorf("%s %q shows %q %q, want %q %q", c.field, c.typed, f.Value, f.Unit, c.shown, c.unit)
		}
	}
	at := slices.IndexFunc(counter.Parts().Springs, func(s record.Spring) bool { return s.Name == "dual 9b" })
	if at < 0 {
		t.Fatal("the type is not in the book")
	}
	s := counter.Parts().Springs[at]
	if b := s.Coils[0].Bind; b == nil || b.Reading.Typed != "1155" || b.Reading.Length() != 1155*unit.Thou || b.Source != record.Supplied || b.By != "" {
		t.Errorf("bind of coil 1 is %+v", s.Coils[0].Bind)
	}
	if err := counter.Load(context.Background()); err != nil || counter.SpringOf(s.ID).Note != "blue paint" {
		t.Errorf("from the book comes %+v, %v", counter.SpringOf(s.ID), err)
	}
}

// A bind height goes through what its gauge reads through: 1.155 − .095 = 1.060 (common practice, no
// published source).
func TestBindOnAGauge(t *testing.T) {
	counter, p := pages(t, demonstration(t))
	if err := p.Add(context.Background(), record.SpringItem, "single 2"); err != nil {
		t.Fatal(err)
	}
	put(t, p, "coil 1", "1.155")
	fixture := counter.Gauges()[slices.IndexFunc(counter.Gauges(), func(g record.Gauge) bool { return g.Name == "bind fixture" })]
	put(t, p, "coil 1 gauge", fixture.ID)
	s := counter.SpringOf(p.Chosen().Key)
	if f := task.TypeBinds(s)[0]; f.Value != 1060*unit.Thou {
		t.Errorf("bind is %s, want 1.060", unit.Inches.LengthIn(f.Value))
	}
	if b := s.Coils[0].Bind; b.By != "test" || b.At != "2026-06-01T12:00:00Z" || b.Gauge != fixture.ID {
		t.Errorf("read by %q at %q on %q", b.By, b.At, b.Gauge)
	}
	notes := p.Sections()[1].Notes
	if !slices.Contains(notes, "Bind height 1.060; lid .095 taken off.") {
		t.Errorf("beside the coil stands %q", notes)
	}
	put(t, p, "coil 1 gauge", "")
	if b := counter.SpringOf(s.ID).Coils[0].Bind; b.Gauge != "" || b.Correction != nil {
		t.Errorf("without a gauge %+v", b)
	}
	put(t, p, "coil 1", "")
	if counter.SpringOf(s.ID).Coils[0].Bind != nil {
		t.Error("an emptied bind height is still there")
	}
}

func TestSingleSprings(t *testing.T) {
	ctx := context.Background()
	counter, p := pages(t, demonstration(t))
	open(t, p, "nest 12")
	if err := p.Add(ctx, record.PieceItem, "B-12 1"); err != nil {
		t.Fatal(err)
	}
	for _, c := range [][2]string{{"batch", "B-12"}, {"condition", "run-in"}, {"coil 3", "1.033"}, {"note", "paint"}} {
		put(t, p, c[0], c[1])
		if f := field(t, p, c[0]); f.Value != c[1] {
			t.Errorf("%s %q shows %q", c[0], c[1], f.Value)
		}
	}
	if line := open(t, p, "B-12 1"); line.More != "nest 12, run in, batch B-12" {
		t.Errorf("in the list: %q", line.More)
	}
	piece := func() record.SpringPiece {
		all := counter.Parts().Pieces
		return all[slices.IndexFunc(all, func(p record.SpringPiece) bool { return p.Tag == "B-12 1" })]
	}
	n := piece()
	if n.Spring != "spring-nest-12" || len(n.Binds) != 1 || n.Binds[0].Coil != 3 || n.Binds[0].Bind.Reading.Length() != 1033*unit.Thou {
		t.Errorf("kept is %+v", n)
	}
	if err := p.Add(ctx, record.PieceItem, "B-12 1"); key(err) != "shop.tag-taken" {
		t.Errorf("the same tag again: %v", err)
	}
	// A type without the coil that was measured would lose the reading.
	if err := p.Put(ctx, "type", counter.Parts().Springs[0].ID); key(err) != "shop.type-coils" {
		t.Errorf("a type of one coil: %v", err)
	}
	open(t, p, "nest 12")
	if err := p.Put(ctx, "coils", "2"); key(err) != "shop.piece-bind" {
		t.Errorf("two coils of three: %v", err)
	}
	open(t, p, "B-12 1")
	put(t, p, "coil 3", "")
	if n := piece(); n.Binds != nil {
		t.Errorf("emptied, it has %+v", n.Binds)
	}
}

func TestGaugeSetting(t *testing.T) {
	counter, p := pages(t, demonstration(t))
	p.Go(shop.Gauges)
	if err := p.Add(context.Background(), record.GaugeItem, "fixture 9"); err != nil {
		t.Fatal(err)
	}
	put(t, p, "kind", "fixture")
	put(t, p, "number", "LY-9")
	put(t, p, "lid", "95")
	put(t, p, "jaws", "1.5 mm")
	put(t, p, "jaws zero", "zeroed")
	put(t, p, "locator-step", "-10")
	at := slices.IndexFunc(counter.Gauges(), func(g record.Gauge) bool { return g.Number == "LY-9" })
	g := counter.Gauges()[at]
	var got []string
	for _, s := range g.Setting {
		got = append(got, string(s.Part)+" "+s.Amount.Read+" "+string(s.Zero))
	}
	want := []string{"lid 0.095 not-zeroed", "jaws 1.5 zeroed", "locator-step -0.010 not-zeroed"}
	if !slices.Equal(got, want) || g.Kind != record.Fixture {
		t.Errorf("%s with %q, want %q", g.Kind, got, want)
	}
	put(t, p, "lid", "")
	if g := counter.Gauges()[at]; len(g.Setting) != 2 {
		t.Errorf("without a lid %+v", g.Setting)
	}
}

// What is refused, and that the book is as it was.
func TestRefused(t *testing.T) {
	ctx := context.Background()
	_, p := pages(t, demonstration(t))
	open(t, p, "nest 12")
	for _, c := range []struct{ field, text, key string }{
		{"name", "  ", "shop.no-name"},
		{"coil 1", "abc", "unit.letters"},
		{"coil 1", "95", "unit.ambiguous"},
		{"coil 1", ".05", "unit.low"},
		{"rated", "1,5", "unit.comma"},
		{"rate", "1 in", "unit.dimension"},
		{"coils", "2", "shop.coil-bind"},
		{"coil 2 name", "", "shop.no-name"},
	} {
		before := field(t, p, c.field).Value
		if err := p.Put(ctx, c.field, c.text); key(err) != c.key {
			t.Errorf("%s %q: %v, want %s", c.field, c.text, err, c.key)
		}
		if after := field(t, p, c.field).Value; after != before {
			t.Errorf("%s %q was refused, and %q became %q", c.field, c.text, before, after)
		}
	}
	if err := p.Add(ctx, record.SpringItem, " "); key(err) != "shop.no-name" {
		t.Errorf("a type without a name: %v", err)
	}
	if err := p.Discard(ctx); say.CodeOf(err) != say.Conflict {
		t.Errorf("a type that a set-up names was taken away: %v", err)
	}
}

func TestDiscard(t *testing.T) {
	ctx := context.Background()
	counter, p := pages(t, demonstration(t))
	n := len(counter.Parts().Springs)
	if err := p.Add(ctx, record.SpringItem, "a mistake"); err != nil {
		t.Fatal(err)
	}
	if err := p.Discard(ctx); err != nil || len(counter.Parts().Springs) != n || p.Chosen().Key != "" {
		t.Errorf("%d types where %d were, %v", len(counter.Parts().Springs), n, err)
	}
}

// The shop's name is on the next sheet, and a change of a type changes what its set-ups come to.
func TestChangesReachTheSetups(t *testing.T) {
	if testing.Short() {
		t.Skip("one goroutine: once a run is enough")
	}
	ctx := context.Background()
	desk := demonstration(t)
	_, p := pages(t, desk)
	p.Go(shop.Self)
	put(t, p, "name", "Quay Heads")
	put(t, p, "phone", "0100 200")
	p.Go(shop.Springs)
	open(t, p, "nest 12")
	put(t, p, "coil 3", "1.150")
	b, err := desk.OpenBench(ctx, "setup-ferry-built")
	if err != nil {
		t.Fatal(err)
	}
	if s := b.Record().Shop; s.Name != "Quay Heads" || s.Phone != "0100 200" || s.Place == "" {
		t.Errorf("the record's shop is %+v", s)
	}
	// 1 ex had .061 with an inner coil of 1.030: 25 thousandths less are under the least margin of .060.
	if v := b.Evaluation().Valves[0]; unit.Inches.LengthIn(v.Margin.Value) != ".036" || v.Verdict != evaluate.Short {
		t.Errorf("1 ex has %s, %v", unit.Inches.LengthIn(v.Margin.Value), v.Verdict)
	}
}

func TestEmptyBook(t *testing.T) {
	counter, p := pages(t, empty(t))
	if counter.Units() != (record.Units{Length: unit.In, Load: unit.Lbf}) {
		t.Errorf("units of an empty book: %v", counter.Units())
	}
	for _, page := range shop.Pages() {
		p.Go(page)
		for i, l := range p.Lists() {
			if len(l.Lines) == 0 && (l.Empty == "" || i == 0 && l.Add == "") {
				t.Errorf("%s: nothing is said of the empty list %s", page, l.Title)
			}
			if l.Kind == record.PieceItem && l.Add != "" {
				t.Error("a single spring can be added before there is a type")
			}
		}
	}
}
