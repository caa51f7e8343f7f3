package choose

import (
	"context"
	"os"
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

// fresh is the leaf of a new head of one cylinder in a book with two spring types, everything invented: the tall
// one is .050 taller at bind.
func fresh(t *testing.T) (*Presenter, *task.Bench) {
	t.Helper()
	ctx := context.Background()
	d, err := task.MakeBook(ctx, filepath.Join(t.TempDir(), "new"), "M. Tester", clock)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { d.Close() })
	setup, err := d.Begin(ctx, task.NewHead{
		Engine: "Engine", Tag: "T-1", Cylinders: []string{"1"}, Intakes: 1, Exhausts: 1,
		Kind: record.AsBuilt, Units: record.Units{Length: unit.In, Load: unit.Lbf},
	})
	if err != nil {
		t.Fatal(err)
	}
	b, err := d.OpenBench(ctx, setup)
	if err != nil {
		t.Fatal(err)
	}
	keep := func(nouns ...record.Noun) {
		if err := b.Fit(ctx, nouns...); err != nil {
			t.Fatal(err)
		}
	}
	of := func(read string, in unit.Symbol) unit.Quantity {
		q, err := unit.Of(read, in)
		if err != nil {
			t.Fatal(err)
		}
		return q
	}
	spring := func(name, bind string) record.Spring {
		points := []record.Point{
			{Height: of("1.900", unit.In), Load: of("120", unit.Lbf)}, {Height: of("1.140", unit.In), Load: of("424", unit.Lbf)},
		}
		return record.Spring{ID: name, Name: name, Coils: []record.Coil{{
			Name: "outer", Bind: &record.Bind{Reading: of(bind, unit.In), Source: record.Measured},
			Loads: &record.Loads{Points: points, Source: record.Measured},
		}}}
	}
	at := record.Position{Cylinder: "1", Role: record.Intake, N: 1}
	keep(spring("tall", "1.110"), spring("short", "1.060"))
	keep(record.Package{Role: record.Intake, Least: []record.Least{{Coil: 1, Margin: of("0.080", unit.In)}}})
	keep(record.Reading{At: at, Kind: record.BaseHeight, N: 1, Quantity: of("1.870", unit.In), Method: record.Typed},
		record.Reading{At: at, Kind: record.LiftChecking, N: 1, Quantity: of("0.700", unit.In), Method: record.Typed})
	plain := b.Record().Setup
	plain.Rules.Decision = record.Plain // as the figures below are
	keep(plain)
	p := NewPresenter(b)
	if err := p.Load(ctx); err != nil {
		t.Fatal(err)
	}
	return p, b
}

// Bind 1.060, margin .080 and lift .700 make 1.840, which .030 of shim under 1.870 give (common practice, no
// published source). What is taller by .050 stands too low even without a shim.
func TestTypesAreListed(t *testing.T) {
	p, b := fresh(t)
	lines, more := p.Lines()
	if len(lines) != 2 || more != 0 {
		t.Fatalf("listed %v and %d more", lines, more)
	}
	if l := lines[0]; l.Spring != "short" || l.Height != "1.840" || l.Shims != ".030" || l.Margin != ".080" || l.Seat != "144.0 lbf" || l.Open != "424.0 lbf" {
		t.Errorf("first: %+v", l)
	}
	if l := lines[1]; l.Stands != "nearly" || !strings.Contains(l.Why, ".060") || l.Shims != "no shim" {
		t.Errorf("second: %+v", l)
	}
	if _, ok := p.Seen(); ok {
		t.Error("one is open before anybody looked")
	}
	p.Look(1)
	if s, ok := p.Seen(); !ok || s.Name != "tall" || len(s.Against) != 1 || s.Clear || s.Fitted {
		t.Errorf("looked at: %+v", s)
	}
	p.Look(0)
	if p.Open() != 2 {
		t.Errorf("%d roles without a spring, want 2", p.Open())
	}
	told, err := p.Put(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	if text := b.Words().Line(told); !strings.Contains(text, "short") || b.Record().PackageOf(record.Intake).Spring != "short" || p.Open() != 1 {
		t.Errorf("told %q, package %+v", text, b.Record().PackageOf(record.Intake))
	}
	if s, _ := p.Seen(); !s.Fitted {
		t.Error("it is not said to be on")
	}
	// What was put on comes off again with one undo.
	if _, err := b.Undo(context.Background()); err != nil || b.Record().PackageOf(record.Intake).Spring != "" {
		t.Errorf("after undo: %v, %+v", err, b.Record().PackageOf(record.Intake))
	}
}

// Of exhausts nothing was measured: that is what is asked, and no number is made up.
func TestNothingKnownOfARole(t *testing.T) {
	p, _ := fresh(t)
	if err := p.Show(context.Background(), 1); err != nil {
		t.Fatal(err)
	}
	lines, _ := p.Lines()
	for _, l := range lines {
		if l.Height != "" || l.Margin != "" || l.Seat != "" || l.Stands != "serves as far as is known" {
			t.Errorf("%+v", l)
		}
	}
	if asks := p.Asks(); !slices.ContainsFunc(asks, func(s string) bool { return strings.Contains(s, "lift of the exhausts") }) {
		t.Errorf("asked: %v", asks)
	}
}

func TestQuestionForm(t *testing.T) {
	p, _ := fresh(t)
	path := filepath.Join(t.TempDir(), "ask.pdf")
	if _, err := p.Save(path, false); err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(path)
	if err != nil || !strings.HasPrefix(string(data), "%PDF-") || strings.Count(string(data), "/Type /Page")-strings.Count(string(data), "/Type /Pages") != 1 {
		t.Errorf("%v, %d bytes", err, len(data))
	}
	if _, err := p.Save(path, false); say.CodeOf(err) != say.Conflict {
		t.Errorf("over another file: %v", err)
	}
}
