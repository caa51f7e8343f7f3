package takein_test

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"keeperbook/app/internal/screen/takein"
	"keeperbook/app/internal/task"
	"keeperbook/model/exchange"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

type host struct {
	win    fyne.Window
	told   []say.Line
	failed []error
}

func (h *host) Window() fyne.Window { return h.win }
func (h *host) Tell(l say.Line)     { h.told = append(h.told, l) }
func (h *host) Fail(err error)      { h.failed = append(h.failed, err) }
func (h *host) Changed()            {}
func (h *host) Show(string)         {}

// shop is a book with one head of four valves and a table beside it.
func shop(t *testing.T, table string) (*task.Desk, *task.Bench, string) {
	t.Helper()
	ctx := context.Background()
	clock := func() time.Time { return time.Date(2026, 3, 2, 12, 0, 0, 0, time.UTC) }
	desk, err := task.MakeBook(ctx, filepath.Join(t.TempDir(), "shop"), "T. Marl", clock)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { desk.Close() })
	setup, err := desk.Begin(ctx, task.NewHead{
		Owner: "Somebody", Engine: "Engine one", Tag: "T-1", Cylinders: []string{"1", "2"}, Intakes: 1, Exhausts: 1,
		Kind: record.AsBuilt, Units: record.Units{Length: unit.In, Load: unit.Lbf},
	})
	if err != nil {
		t.Fatal(err)
	}
	bench, err := desk.OpenBench(ctx, setup)
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "mine.csv")
	if err := os.WriteFile(path, []byte(table), 0o600); err != nil {
		t.Fatal(err)
	}
	return desk, bench, path
}

const mine = "Valve,Height bare,Shim mm,Remark\n1 in,46.79,0.5+0.25,good\n1 ex,46.65,none,\n2 in,no idea,0.5,\nleft one,46.1,,\n2 ex,46.70,0.5,\n"

// A table of somebody's own goes in by what its columns are said to be; what does not fit stays out and says why.
func TestTableOfOnesOwn(t *testing.T) {
	ctx := context.Background()
	desk, bench, path := shop(t, mine)
	table, err := desk.OpenTable(ctx, path, bench)
	if err != nil {
		t.Fatal(err)
	}
	p := takein.NewPresenter(table)
	is := func() (all []string) {
		for _, c := range p.Columns() {
			all = append(all, c.Is)
		}
		return all
	}
	if got := strings.Join(is(), "; "); got != "which valve, such as 3 ex; left out; shims under the locator; left out" {
		t.Errorf("it is guessed that the columns are %s", got)
	}
	base := slices.Index(exchange.Uses(), exchange.Use(record.BaseHeight))
	took := func(take func(), err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		take()
	}
	took(p.Use(ctx, 1, base))
	if len(p.Wrong()) < 3 { // 46.79 in is no height of a spring
		t.Errorf("as inches %d lines are wrong: %+v", len(p.Wrong()), p.Wrong())
	}
	took(p.SetInches(ctx, false))
	if wrong := p.Wrong(); len(wrong) != 2 || wrong[0].Label != "line 4" || wrong[1].Label != "line 5" {
		t.Errorf("%+v", wrong)
	}
	if got := p.Sum(); got != "6 readings and shim stacks fit; 2 lines do not, and stay out." {
		t.Error(got)
	}
	take, err := p.Keep(ctx)
	if err != nil {
		t.Fatal(err)
	}
	if told := take(); told.Key != "table.kept" {
		t.Errorf("%+v", told)
	}
	if p.Can() {
		t.Error("it can be taken in twice")
	}
	again, err := desk.OpenBench(ctx, bench.Record().Setup.ID)
	if err != nil {
		t.Fatal(err)
	}
	rec := again.Record()
	if len(rec.Setup.Readings) != 3 || rec.Setup.Readings[0].Quantity.Typed != "46.79 mm" || rec.Setup.Readings[0].Method != record.FromFile {
		t.Errorf("%+v", rec.Setup.Readings)
	}
	if v := rec.ValveAt(record.Position{Cylinder: "1", Role: record.Intake, N: 1}); len(v.Stack) != 2 || v.Stack[1].Thickness.Unit != unit.Mm {
		t.Errorf("%+v", v)
	}
}

// A line of decimal commas between commas stays out with its reason, and the others go in, each shim of a stack in the table's unit.
func TestTableOfTooManyCells(t *testing.T) {
	ctx := context.Background()
	desk, bench, path := shop(t, "Valve,Base,Shim\n1 in,46,79,0,5\n1 ex,46.65,2x0.4\n")
	table, err := desk.OpenTable(ctx, path, bench)
	if err != nil {
		t.Fatal(err)
	}
	p := takein.NewPresenter(table)
	metric, err := p.SetInches(ctx, false)
	if err != nil {
		t.Fatal(err)
	}
	metric()
	if wrong := p.Wrong(); len(wrong) != 1 || wrong[0].Label != "line 2" || !strings.Contains(wrong[0].Why, "has 5 cells, and the first line names only 3 columns") {
		t.Errorf("%+v", wrong)
	}
	if got := p.Sum(); got != "2 readings and shim stacks fit; 1 lines do not, and stay out." {
		t.Error(got)
	}
	if _, err := p.Keep(ctx); err != nil {
		t.Fatal(err)
	}
	again, err := desk.OpenBench(ctx, bench.Record().Setup.ID)
	if err != nil {
		t.Fatal(err)
	}
	v := again.Record().ValveAt(record.Position{Cylinder: "1", Role: record.Exhaust, N: 1})
	if len(v.Stack) != 2 || v.Stack[0].Thickness.Read != "0.4" || v.Stack[0].Thickness.Unit != unit.Mm || v.Stack[1].Thickness.Unit != unit.Mm {
		t.Errorf("%+v", v.Stack)
	}
}

// The page asks with letters what a column is, and its button takes in what fits.
func TestTakeInByKeyboard(t *testing.T) {
	desk, bench, path := shop(t, mine)
	table, err := desk.OpenTable(context.Background(), path, bench)
	if err != nil {
		t.Fatal(err)
	}
	test.NewTempApp(t)
	h := &host{}
	v := takein.New(h, table, func(work func()) { work() })
	h.win = test.NewTempWindow(t, v.Object())
	h.win.Resize(fyne.NewSize(1000, 700))
	v.Focus()
	key := func(name fyne.KeyName) { h.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: name}) }
	key(fyne.KeyDown)
	key(fyne.KeyReturn)
	time.Sleep(200 * time.Millisecond) // a person is slower than a gauge
	h.win.Canvas().Focused().TypedRune('c')
	if got := v.Columns()[1].Is; got != "base height" {
		t.Errorf("the second column is %q", got)
	}
	v.Take()
	if len(h.told) != 1 || h.told[0].Key != "table.kept" || len(h.failed) > 0 {
		t.Errorf("told %+v, failed %v", h.told, h.failed)
	}
}

// A table of somebody's own needs an open head, and one of the program's own columns names its heads itself.
func TestTableWithoutAHead(t *testing.T) {
	ctx := context.Background()
	desk, _, path := shop(t, mine)
	if _, err := desk.OpenTable(ctx, path, nil); say.CodeOf(err) != say.NotFound {
		t.Errorf("%v", err)
	}
	desk, _, path = shop(t, "head,valve,what,reading\nT-1,1 in,base,1.842\nT-1,9 in,base,1.842\n")
	table, err := desk.OpenTable(ctx, path, nil)
	if err != nil || table.Right() != 1 || len(table.Wrong()) != 1 || len(table.Columns()) != 0 {
		t.Fatalf("%+v, %v", table, err)
	}
	if n, err := table.Keep(ctx); n != 1 || err != nil {
		t.Errorf("%d, %v", n, err)
	}
}

// What is given up changes nothing: neither what the columns are nor the book.
func TestGivenUp(t *testing.T) {
	ctx := context.Background()
	desk, bench, path := shop(t, mine)
	table, err := desk.OpenTable(ctx, path, bench)
	if err != nil {
		t.Fatal(err)
	}
	p := takein.NewPresenter(table)
	is, sum := fmt.Sprint(p.Columns()), p.Sum()
	seq, err := desk.Book.Seq(ctx)
	if err != nil {
		t.Fatal(err)
	}
	gone, stop := context.WithCancel(ctx)
	stop()
	if _, err := p.Use(gone, 1, 2); !errors.Is(err, context.Canceled) {
		t.Errorf("a column: %v", err)
	}
	if _, err := p.SetInches(gone, !p.Inches()); !errors.Is(err, context.Canceled) {
		t.Errorf("a unit: %v", err)
	}
	if _, err := p.Keep(gone); !errors.Is(err, context.Canceled) {
		t.Errorf("taken in: %v", err)
	}
	if fmt.Sprint(p.Columns()) != is || p.Sum() != sum || !p.Can() {
		t.Errorf("%v, %s", p.Columns(), p.Sum())
	}
	if now, err := desk.Book.Seq(ctx); err != nil || now != seq {
		t.Errorf("%d entries are in the book, %v", now-seq, err)
	}
}
