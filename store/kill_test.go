package store

import (
	"context"
	"flag"
	"math/rand/v2"
	"strconv"
	"testing"
	"time"
)

var rounds = flag.Int("rounds", 20, "how often a process is killed while it keeps")

// Whatever was acknowledged is there after the process was killed, and what was not can be asked
// for again without being kept twice.
func TestKilledWhileKeeping(t *testing.T) {
	ctx := context.Background()
	b := newBook(t)
	keepRecord(t, b, small("1"))
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	dice := rand.New(rand.NewPCG(7, 7))
	kept, ahead := 0, 0
	for range *rounds {
		c, lines, _ := child(t, "keep", b.Path(), strconv.Itoa(kept+1))
		last, after := kept, dice.IntN(40)
		for lines.Scan() {
			n, err := strconv.Atoi(lines.Text())
			if err != nil {
				t.Fatal(err)
			}
			if last = n; n == kept+1 {
				time.AfterFunc(time.Duration(after)*time.Millisecond, func() { c.Process.Kill() })
			}
		}
		if err := c.Wait(); err == nil {
			t.Fatal("the other process ended by itself")
		}
		if last == kept {
			t.Fatal("nothing was acknowledged before the process ended")
		}

		again, err := Open(ctx, b.Path(), options())
		if err != nil {
			t.Fatal(err)
		}
		r, err := again.Record(ctx, "S-1")
		if err != nil {
			t.Fatal(err)
		}
		found := len(r.Setup.Readings)
		if found != last && found != last+1 {
			t.Fatalf("%d acknowledged, %d found", last, found)
		}
		// Nobody knows whether the one after the last was kept, so it is asked for again.
		k, err := again.Keep(ctx, entry(last+1))
		if err != nil {
			t.Fatal(err)
		}
		if k.Repeated != (found == last+1) || k.Changes != 1 {
			t.Fatalf("found %d of %d, and asking again gave %+v", found, last+1, k)
		}
		if k.Repeated {
			ahead++
		}
		if r, err = again.Record(ctx, "S-1"); err != nil {
			t.Fatal(err)
		}
		if len(r.Setup.Readings) != last+1 {
			t.Fatalf("%d readings where %d were entered", len(r.Setup.Readings), last+1)
		}
		for i, one := range r.Setup.Readings {
			if one.N != i+1 || thousandths(one) != 1800+(i+1)%100 {
				t.Fatalf("reading %d is %+v", i+1, one)
			}
		}
		sound(t, again)
		if err := again.Close(); err != nil {
			t.Fatal(err)
		}
		kept = last + 1
	}
	t.Logf("%d kept in %d rounds, none lost; %d times the last was kept and not acknowledged", kept, *rounds, ahead)
}
