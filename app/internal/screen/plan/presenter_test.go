package plan_test

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"keeperbook/app/internal/screen/plan"
	"keeperbook/app/internal/task"
	"keeperbook/assets"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

func clock() time.Time { return time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC) }

// demonstration opens a set-up of a fresh demonstration book.
func demonstration(t *testing.T, setup string) (*task.Desk, *task.Bench, *plan.Presenter) {
	t.Helper()
	ctx := context.Background()
	path, err := task.DemoBook(ctx, t.TempDir(), assets.Demo(), clock)
	if err != nil {
		t.Fatal(err)
	}
	desk, err := task.OpenBook(ctx, path, "test", clock)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { desk.Close() })
	b, err := desk.OpenBench(ctx, setup)
	if err != nil {
		t.Fatal(err)
	}
	return desk, b, plan.NewPresenter(b)
}

// shelf puts counted shims on the shelf and returns how many of each there are now.
func shelf(t *testing.T, desk *task.Desk, counts map[string]int) func() map[string]int {
	t.Helper()
	ctx := context.Background()
	c, err := desk.OpenCounter(ctx)
	if err != nil {
		t.Fatal(err)
	}
	for size, n := range counts {
		s, err := c.NewShim(size)
		if err != nil {
			t.Fatal(err)
		}
		if err := c.Keep(ctx, s); err != nil {
			t.Fatal(err)
		}
		if err := c.Move(ctx, record.MoveShims(s.ID, n)); err != nil {
			t.Fatal(err)
		}
	}
	return func() map[string]int {
		c, err := desk.OpenCounter(ctx)
		if err != nil {
			t.Fatal(err)
		}
		now := map[string]int{}
		for _, s := range c.Shims() {
			now[s.Thickness.Typed] = s.Count
		}
		return now
	}
}

func run(t *testing.T, p *plan.Presenter) {
	t.Helper()
	work, done := p.Begin(context.Background())
	if work == nil {
		return
	}
	if !p.Making() {
		t.Error("it is not in the making")
	}
	work(func(string) {})
	done()
}

func typed(t *testing.T, err error, key string) {
	t.Helper()
	var e *say.Error
	if !errors.As(err, &e) || e.Line.Key != key {
		t.Errorf("%v, want %s", err, key)
	}
}

// A plan is made, put on and taken back by one undo, the shelf included.
func TestPlanIsPutOnAndTakenBack(t *testing.T) {
	ctx := context.Background()
	desk, b, p := demonstration(t, "setup-launch-built")
	now := shelf(t, desk, map[string]int{".010": 4, ".015": 4, ".020": 8, ".030": 4})
	before := now()
	if p.Says() != "No plan was made of this set-up as it is." || len(p.Rows()) > 0 || p.Ready() {
		t.Errorf("before, it says %q", p.Says())
	}
	if _, err := p.Put(ctx); err == nil {
		t.Error("nothing was put on")
	}
	run(t, p)
	if p.Says() != "Nothing is better; that is proved." || len(p.Rows()) != 8 || !p.Ready() || len(p.Pick()) < 8 {
		t.Fatalf("it says %q, %d rows", p.Says(), len(p.Rows()))
	}
	if notes := strings.Join(p.Notes(), "\n"); strings.Contains(notes, "Shims page") {
		t.Errorf("the shelf is counted, and yet it says %q", notes)
	}
	was := map[string]string{}
	for _, v := range b.Record().Setup.Valves {
		was[v.At.Cylinder+string(v.At.Role)] = v.Spring
	}
	told, err := p.Put(ctx)
	if err != nil {
		t.Fatal(err)
	}
	if told.Key != "plan.put-done" || p.Ready() {
		t.Errorf("told %v", told)
	}
	moved := false
	for size, n := range now() {
		moved = moved || n != before[size]
	}
	changed := 0
	for _, v := range b.Record().Setup.Valves {
		if v.Spring != was[v.At.Cylinder+string(v.At.Role)] {
			changed++
		}
	}
	if !moved || changed == 0 {
		t.Errorf("on the shelf are %v, were %v; %d springs changed", now(), before, changed)
	}
	// Put on, there is nothing better.
	run(t, p)
	if !p.Same() || p.Ready() {
		t.Errorf("on the head already, it says %q", p.Says())
	}
	if _, err := b.Undo(ctx); err != nil {
		t.Fatal(err)
	}
	for size, n := range now() {
		if n != before[size] {
			t.Errorf("taken back, of %s there are %d, were %d", size, n, before[size])
		}
	}
	for _, v := range b.Record().Setup.Valves {
		if v.Spring != was[v.At.Cylinder+string(v.At.Role)] {
			t.Errorf("taken back, %v has spring %s", v.At, v.Spring)
		}
	}
}

// A plan of a set-up that changed since is not put on.
func TestPlanGoesStale(t *testing.T) {
	ctx := context.Background()
	_, b, p := demonstration(t, "setup-launch-built")
	run(t, p)
	v := b.Record().Setup.Valves[0]
	v.Note = "changed"
	if err := b.Keep(ctx, v); err != nil {
		t.Fatal(err)
	}
	_, err := p.Put(ctx)
	typed(t, err, "plan.stale")
	p.Refresh()
	if p.Ready() || len(p.Rows()) > 0 {
		t.Error("the old plan is still shown")
	}
}

// What cannot be planned says why, and what does not fit says what would free it.
func TestPlanThatCannotBe(t *testing.T) {
	ctx := context.Background()
	_, _, p := demonstration(t, "setup-ferry-built")
	run(t, p)
	if p.Says() != "The base height of 4 in is not known, and a plan takes it; measure it, then plan." {
		t.Errorf("it says %q", p.Says())
	}
	for _, text := range []string{"", "0", "13", "many", "-1"} {
		typed(t, p.SetMost(text), "plan.most-typed")
	}
	if p.Most() != "3" {
		t.Errorf("refused, it is %s", p.Most())
	}
	_, b, p := demonstration(t, "setup-launch-built")
	pack := b.Record().PackageOf(record.Exhaust)
	q, err := unit.Of("0.130", unit.In)
	if err != nil {
		t.Fatal(err)
	}
	pack.Least = []record.Least{{Coil: 1, Margin: q}}
	if err := b.Keep(ctx, pack); err != nil {
		t.Fatal(err)
	}
	p.Choose(1)
	run(t, p)
	why, free := p.Why()
	if p.Says() != "Nothing fits; that is proved." || len(why) < 2 || len(free) == 0 || !strings.Contains(strings.Join(why, " "), "is to keep .130") {
		t.Errorf("it says %q, %q, %q", p.Says(), why, free)
	}
}

// A search that is stopped shows what was found by then, and one that was overtaken shows nothing.
func TestPlanIsStopped(t *testing.T) {
	_, _, p := demonstration(t, "setup-launch-built")
	work, done := p.Begin(context.Background())
	p.Stop()
	work(func(string) {})
	done()
	if p.Making() || p.Says() == "Looking for the best plan." {
		t.Errorf("stopped, it says %q", p.Says())
	}
	// Another mode ends what is in the making, and what comes of it is not shown.
	work, done = p.Begin(context.Background())
	p.Choose(2)
	if p.Making() {
		t.Error("it goes on for another mode")
	}
	work(func(string) {})
	done()
	if len(p.Rows()) > 0 {
		t.Error("a plan for another mode is shown")
	}
	p.Choose(0)
	_, first := p.Begin(context.Background())
	run(t, p)
	first()
	if p.Says() != "Nothing is better; that is proved." {
		t.Errorf("overtaken, it says %q", p.Says())
	}
}

// How far a plan is, is told without a look at the bench, which may be in another language by then.
func TestPlanIsMadeBesideTheBench(t *testing.T) {
	defer say.Speak("en")
	_, _, p := demonstration(t, "setup-launch-built")
	p.Choose(2)
	if err := p.SetMost("6"); err != nil { // enough stacks for a search that tells how far it is
		t.Fatal(err)
	}
	work, _ := p.Begin(context.Background())
	say.Speak("de")
	var told []string
	work(func(far string) { told = append(told, far) })
	if len(told) == 0 {
		t.Fatal("nothing is told")
	}
	for _, far := range told {
		if !strings.Contains(far, "steps so far") {
			t.Fatalf("it tells %q", far)
		}
	}
}

// Each mode says what it does, and the pick list goes to paper.
func TestPlanModesAndPaper(t *testing.T) {
	desk, _, p := demonstration(t, "setup-launch-built")
	labels, at := p.Modes()
	if len(labels) != 3 || at != 0 {
		t.Fatalf("%v, %d", labels, at)
	}
	said := map[string]bool{}
	for i := range labels {
		p.Choose(i)
		said[p.What()] = true
		run(t, p)
		if len(p.Rows()) != 8 || len(p.Spreads()) == 0 {
			t.Errorf("%s: %d rows, says %q", labels[i], len(p.Rows()), p.Says())
		}
	}
	if len(said) != 3 {
		t.Errorf("they say %v", said)
	}
	path := filepath.Join(filepath.Dir(desk.Path()), "pick.pdf")
	told, err := p.Save(path, false)
	if err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(path)
	if err != nil || !strings.HasPrefix(string(data), "%PDF-") || told.Key != "plan.saved" {
		t.Errorf("%v, told %v", err, told)
	}
	_, err = p.Save(path, false)
	if say.CodeOf(err) != say.Conflict {
		t.Errorf("written over: %v", err)
	}
}
