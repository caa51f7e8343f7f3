package store

import (
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"keeperbook/model/record"
)

// childCopies keeps a reading and copies the book, again and again, and says the number once both are done.
func childCopies(path, folder string) {
	ctx := context.Background()
	b, err := Open(ctx, path, options())
	must(err)
	r, err := b.Record(ctx, "S-1")
	must(err)
	for n := len(r.Setup.Readings) + 1; ; n++ {
		_, err := b.Keep(ctx, entry(n))
		must(err)
		must(b.Copy(ctx, filepath.Join(folder, fmt.Sprint(n, ".keeperbook"))))
		fmt.Println(n)
	}
}

// childSigns begins one set-up after the other and signs it, and says the number once it is signed.
func childSigns(path, from string) {
	ctx := context.Background()
	b, err := Open(ctx, path, options())
	must(err)
	n, err := strconv.Atoi(from)
	must(err)
	for ; ; n++ {
		id := fmt.Sprint("n", n)
		_, err := b.Keep(ctx, record.Action{Token: "record " + id, By: "Tamsin", At: noon, Edits: editsOf(small(id))})
		must(err)
		r, err := b.Record(ctx, "S-"+id)
		must(err)
		s := sheetOf(1, fmt.Sprintf("%%PDF of %s %s", id, make([]byte, 50_000)))
		s.Setup = "S-" + id
		_, err = b.Sign(ctx, s, r, nil, record.Action{Token: "sign " + id, By: "Tamsin", At: noon})
		must(err)
		fmt.Println(n)
	}
}

// planEdits is how many edits go with one move of the shelf in what childPlans keeps.
const planEdits = 40

// childPlans keeps actions as a plan that is put on is one: many edits of a set-up, and what comes off the shelf for them.
func childPlans(path string) {
	ctx := context.Background()
	b, err := Open(ctx, path, options())
	must(err)
	r, err := b.Record(ctx, "S-1")
	must(err)
	for n := len(r.Setup.Readings) / planEdits; ; n++ {
		a := record.Action{Token: fmt.Sprint("plan ", n), Setup: "S-1", By: "Tamsin", At: noon, Moves: []record.Move{record.MoveShims("SH-30", -1)}}
		for i := range planEdits {
			a.Edits = append(a.Edits, entry(n*planEdits+i+1).Edits...)
		}
		_, err := b.Keep(ctx, a)
		must(err)
		fmt.Println(n + 1)
	}
}

// childMigrates brings a book to the form of today.
func childMigrates(path string) {
	fmt.Println(0)
	b, err := Open(context.Background(), path, options())
	must(err)
	must(b.Close())
	fmt.Println(1)
	time.Sleep(time.Minute)
}

// killed starts a child, kills it some milliseconds after its first word, and returns the last number that it said.
func killed(t *testing.T, after int, mode string, args ...string) (last int) {
	t.Helper()
	c, lines, _ := child(t, mode, args...)
	for first := true; lines.Scan(); first = false {
		n, err := strconv.Atoi(lines.Text())
		if err != nil {
			t.Fatal(err)
		}
		if last = n; first {
			time.AfterFunc(time.Duration(after)*time.Millisecond, func() { c.Process.Kill() })
		}
	}
	if err := c.Wait(); err == nil {
		t.Fatal("the other process ended by itself")
	}
	return last
}

// fewer is how often something is done, less often in a short run: under the race detector each time takes long.
func fewer(often, short int) int {
	if testing.Short() {
		return min(often, short)
	}
	return often
}

// reopened opens a book after a process was killed that had it, and looks through it.
func reopened(t *testing.T, path string) *Book {
	t.Helper()
	b, err := Open(context.Background(), path, options())
	if err != nil {
		t.Fatal(err)
	}
	sound(t, b)
	return b
}

// A copy that has its name is whole, whenever the program was killed, and each holds what was acknowledged before it.
func TestKilledWhileCopying(t *testing.T) {
	ctx := context.Background()
	b := newBook(t)
	keepRecord(t, b, small("1"))
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	dice := rand.New(rand.NewPCG(3, 9))
	copies := 0
	for range fewer(max(3, *rounds/4), 2) {
		folder := t.TempDir()
		last := killed(t, dice.IntN(60), "copy", b.Path(), folder)
		again := reopened(t, b.Path())
		r, err := again.Record(ctx, "S-1")
		if err != nil || len(r.Setup.Readings) < last {
			t.Fatalf("%d readings of %d, %v", len(r.Setup.Readings), last, err)
		}
		if err := again.Close(); err != nil {
			t.Fatal(err)
		}
		found, err := filepath.Glob(filepath.Join(folder, "*.keeperbook"))
		if err != nil || len(found) == 0 {
			t.Fatal(found, err)
		}
		for _, path := range found {
			var n int
			if _, err := fmt.Sscanf(filepath.Base(path), "%d", &n); err != nil {
				t.Fatal(err)
			}
			if s, err := Summarize(ctx, path); err != nil || s.Readings != n {
				t.Errorf("copy %d has %d readings, %v", n, s.Readings, err)
			}
			copies++
		}
	}
	t.Logf("%d copies, all whole", copies)
}

// A set-up is signed with its sheet or not at all.
func TestKilledWhileSigning(t *testing.T) {
	ctx := context.Background()
	b := newBook(t)
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	dice := rand.New(rand.NewPCG(4, 9))
	next, signed := 1, 0
	for range fewer(max(3, *rounds/4), 2) {
		last := killed(t, dice.IntN(60), "sign", b.Path(), strconv.Itoa(next))
		again := reopened(t, b.Path())
		for n := next; ; n++ {
			setup := fmt.Sprint("S-n", n)
			r, err := again.Record(ctx, setup)
			if err != nil {
				if n <= last {
					t.Fatalf("%s was acknowledged: %v", setup, err)
				}
				next = n // the first that is not there
				break
			}
			s, err := again.Sheet(ctx, setup)
			if err != nil || (s != nil) != (r.Setup.State == record.Closed) || n <= last && s == nil {
				t.Fatalf("%s of %d: %v, sheet %v, %v", setup, last, r.Setup.State, s != nil, err)
			}
			if s != nil {
				signed++
			}
		}
		if err := again.Close(); err != nil {
			t.Fatal(err)
		}
	}
	t.Logf("%d signed set-ups, each with its sheet", signed)
}

// A plan is on with all its valves and with what it took off the shelf, or not at all.
func TestKilledWhileAPlanIsPutOn(t *testing.T) {
	ctx := context.Background()
	b := newBook(t)
	keepRecord(t, b, small("1"))
	keep(t, b, "shim", "", record.Put("", stockShim("SH-30", 30)))
	const counted = 100_000
	if err := moved(b, "counted", "", []record.Move{record.MoveShims("SH-30", counted)}); err != nil {
		t.Fatal(err)
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	dice := rand.New(rand.NewPCG(6, 9))
	plans := 0
	for range fewer(max(3, *rounds/4), 2) {
		last := killed(t, dice.IntN(40), "plan", b.Path())
		again := reopened(t, b.Path())
		r, err := again.Record(ctx, "S-1")
		if err != nil {
			t.Fatal(err)
		}
		plans = len(r.Setup.Readings) / planEdits
		left, _ := count(t, again, "SH-30")
		if len(r.Setup.Readings)%planEdits != 0 || plans < last || left != counted-plans {
			t.Fatalf("%d edits and %d shims gone, %d plans acknowledged", len(r.Setup.Readings), counted-left, last)
		}
		if err := again.Close(); err != nil {
			t.Fatal(err)
		}
	}
	t.Logf("%d plans, none by halves", plans)
}

// A book of an early form that was being brought to today's opens again and means what it meant, wherever that was broken off.
func TestKilledWhileMigrating(t *testing.T) {
	ctx := context.Background()
	dice := rand.New(rand.NewPCG(5, 9))
	broken := 0
	for range fewer(max(3, *rounds/4), 2) {
		path := form(t, 1)
		if killed(t, dice.IntN(120), "migrate", path) == 0 {
			broken++
		}
		b := reopened(t, path)
		r, err := b.Record(ctx, "S-1")
		if err != nil || len(r.Gauges) != 3 || len(r.ReadingsAt(in1, record.BaseHeight, 0)) != 2 {
			t.Errorf("%+v, %v", r, err)
		}
		if err := b.Close(); err != nil {
			t.Fatal(err)
		}
		// What was copied before a step is a book.
		copies, err := filepath.Glob(filepath.Join(filepath.Dir(path), "* before *.keeperbook"))
		if err != nil || len(copies) == 0 {
			t.Fatal(copies, err)
		}
		for _, c := range copies {
			if info, err := os.Stat(c); err != nil || info.Size() == 0 {
				t.Errorf("%s: %v", c, err)
			}
			if _, err := checkHeader(c, os.O_RDONLY, steps().newest()); err != nil {
				t.Errorf("%s: %v", c, err)
			}
		}
	}
	t.Logf("broken off %d times", broken)
}
