package task_test

import (
	"context"
	"testing"
	"time"

	"keeperbook/app/internal/task"
	"keeperbook/model/record"
)

func TestOthers(t *testing.T) {
	ctx, d := context.Background(), emptyDesk(t)
	now := clock()
	d.Clock = func() time.Time { now = now.Add(24 * time.Hour); return now }
	open := func(setup string, err error) *task.Bench {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		b, err := d.OpenBench(ctx, setup)
		if err != nil {
			t.Fatal(err)
		}
		return b
	}
	id := func(b *task.Bench) string { return b.Record().Setup.ID }
	first := open(d.Begin(ctx, newHead))
	if others, usual, err := first.Others(ctx); len(others) != 0 || usual != -1 || err != nil {
		t.Errorf("alone: %v, %d, %v", others, usual, err)
	}
	second := open(d.Follow(ctx, id(first), record.AsBuilt))
	third := open(d.Follow(ctx, id(second), record.AsBuilt))
	apart := open(d.Follow(ctx, id(first), record.AsBuilt)) // begun last, and it replaces the first
	for _, c := range []struct {
		name        string
		open, usual *task.Bench
		later       bool
	}{
		{"it replaces nothing", first, second, true},
		{"it replaces the one before", third, second, false},
		{"it replaces an older one", apart, first, false},
	} {
		others, usual, err := c.open.Others(ctx)
		if err != nil || len(others) != 3 || usual < 0 || others[usual].ID != id(c.usual) {
			t.Errorf("%s: %d of %v, %v", c.name, usual, others, err)
			continue
		}
		beside, err := c.open.Beside(ctx, others[usual].ID)
		if err != nil || beside.Later != c.later || beside.Record.Setup.ID != id(c.usual) {
			t.Errorf("%s: %+v, %v", c.name, beside, err)
		}
	}
	if _, err := first.Beside(ctx, "no such set-up"); err == nil {
		t.Error("a set-up that is not there lies beside")
	}
}

// Whichever of the two is open, the one begun earlier is what was.
func TestAgainst(t *testing.T) {
	ctx := context.Background()
	d := &task.Desk{Book: demonstration(t), Who: "test", Clock: clock}
	for _, c := range [][2]string{{"setup-ferry-found", "setup-ferry-built"}, {"setup-ferry-built", "setup-ferry-found"}} {
		b, err := d.OpenBench(ctx, c[0])
		if err != nil {
			t.Fatal(err)
		}
		beside, err := b.Beside(ctx, c[1])
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range b.Against(beside) {
			if p.Label != "5 in" {
				continue
			}
			margin := p.Changes[0]
			// As found a shim too many made it bind by .017; as built it keeps .077.
			if got := margin.Text(b.Words()); margin.Key != "margin" || got != "+.094" {
				t.Errorf("with %s open, %s changed by %s", c[0], margin.Key, got)
			}
		}
	}
}
