package store

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

var damages = flag.Int("damages", 24, "how many damaged books are salvaged")

// busy is a book with many entries, and a copy of it from before the last of them.
func busy(t *testing.T, entries int) (book, copied string, want *record.Record, events int) {
	t.Helper()
	ctx := context.Background()
	b := newBook(t)
	r := rich()
	keepRecord(t, b, r)
	run, check := aLife(r)
	keep(t, b, "life", "", record.Put("", run), record.Put("", check))
	copied = filepath.Join(t.TempDir(), "copy.keeperbook")
	for i := range entries {
		if i == entries/2 {
			if err := b.Copy(ctx, copied); err != nil {
				t.Fatal(err)
			}
		}
		keep(t, b, fmt.Sprint("entry ", i), r.Setup.ID, record.Put(r.Setup.ID, height(in1, 1700+i%90)))
	}
	if _, err := b.Undo(ctx, r.Setup.ID, "Tamsin", noon, "back"); err != nil {
		t.Fatal(err)
	}
	want, err := b.Record(ctx, r.Setup.ID)
	if err != nil {
		t.Fatal(err)
	}
	seq, err := b.Seq(ctx)
	if err != nil {
		t.Fatal(err)
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Path(), copied, want, int(seq)
}

// saved opens what was salvaged and returns its set-up.
func saved(t *testing.T, path string) (*Book, *record.Record) {
	t.Helper()
	b, err := Open(context.Background(), path, options())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { b.Close() })
	sound(t, b)
	r, err := b.Record(context.Background(), "S-1")
	if err != nil {
		t.Fatal(err)
	}
	return b, r
}

// Out of a whole file everything comes, event for event where a copy stands before them.
func TestSalvageOfAWholeBook(t *testing.T) {
	ctx := context.Background()
	book, copied, want, events := busy(t, 40)
	out := filepath.Join(t.TempDir(), "saved.keeperbook")
	s, err := Salvage(ctx, book, copied, out, options())
	if err != nil {
		t.Fatal(err)
	}
	if s.Found != events || s.Had+s.Taken != events || s.Taken == 0 || s.Retold+s.Lost+s.Left != 0 {
		t.Errorf("%+v of %d events", s, events)
	}
	b, r := saved(t, out)
	if d := cmp.Diff(want, r); d != "" {
		t.Error(d)
	}
	was, err := OpenReadOnly(ctx, book, options())
	if err != nil {
		t.Fatal(err)
	}
	defer was.Close()
	if a, z := endHash(t, was), endHash(t, b); a != z {
		t.Errorf("the history ends with %x, and did with %x", z, a)
	}
	// Without a copy the history is told anew, and comes to the same.
	alone := filepath.Join(t.TempDir(), "alone.keeperbook")
	if s, err = Salvage(ctx, book, "", alone, options()); err != nil {
		t.Fatal(err)
	}
	if s.Taken != 0 || s.Retold != events-1 || s.Lost+s.Left != 0 { // but for the first, which is of an empty book
		t.Errorf("%+v of %d events", s, events)
	}
	if _, r := saved(t, alone); cmp.Diff(want, r) != "" {
		t.Error(cmp.Diff(want, r))
	}
	if _, err := Salvage(ctx, book, copied, out, options()); say.CodeOf(err) != say.Conflict {
		t.Errorf("over a file that is there: %v", err)
	}
	nothing := filepath.Join(t.TempDir(), "nothing")
	writeFile(t, nothing, "nothing at all")
	if _, err := Salvage(ctx, nothing, "", filepath.Join(t.TempDir(), "x.keeperbook"), options()); say.CodeOf(err) != say.NotFound {
		t.Errorf("%v", err)
	}
}

func endHash(t *testing.T, b *Book) (sum [32]byte) {
	t.Helper()
	err := b.read(context.Background(), func(src source) error {
		end, err := endOfChain(context.Background(), src)
		sum = end.hash
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return sum
}

// What was kept and is still in the log beside the book is found there.
func TestSalvageReadsTheLog(t *testing.T) {
	b := newBook(t)
	keepRecord(t, b, rich())
	keep(t, b, "last", "", record.Put("", record.Owner{ID: "O-77", Name: "the last"}))
	folder := t.TempDir()
	for _, tail := range []string{"", "-wal"} {
		data, err := os.ReadFile(b.Path() + tail)
		if err != nil {
			t.Fatal(err)
		}
		writeFile(t, filepath.Join(folder, "torn.keeperbook"+tail), string(data))
	}
	p, err := readPages(context.Background(), filepath.Join(folder, "torn.keeperbook"))
	if err != nil {
		t.Fatal(err)
	}
	events, _, _ := provenIn(context.Background(), p)
	seq, err := b.Seq(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	if len(events) != int(seq) || events[len(events)-1].item.Key != "O-77" {
		t.Errorf("%d events of %d", len(events), seq)
	}
}

// Pages that are damaged take only what stood on them: of the events at least 95 of 100 come back, and with a copy the new book
// is sound and has everything that proved itself. A file that was cut off gives what is left of it.
func TestSalvageOfDamagedPages(t *testing.T) {
	ctx := context.Background()
	book, copied, _, events := busy(t, 300)
	// Room that nothing stands in has nothing to lose: the book is written anew without any.
	was, err := OpenReadOnly(ctx, book, options())
	if err != nil {
		t.Fatal(err)
	}
	tight := filepath.Join(t.TempDir(), "tight.keeperbook")
	if err := errors.Join(was.Copy(ctx, tight), was.Close()); err != nil {
		t.Fatal(err)
	}
	whole, err := os.ReadFile(tight)
	if err != nil {
		t.Fatal(err)
	}
	dice := rand.New(rand.NewPCG(11, 5))
	found, of, least := 0, 0, 1.0
	tried, detected := map[string]int{}, map[string]int{}
	for i := range fewer(*damages, 4) {
		rotten := append([]byte(nil), whole...)
		kind := []string{"bit", "sector", "page", "cut"}[i%4]
		at := dice.IntN(len(rotten)/4096) * 4096
		switch kind {
		case "bit":
			rotten[at+dice.IntN(4096)] ^= 1 << dice.IntN(8)
		case "sector":
			at += 512 * dice.IntN(8)
			for j := range 512 {
				rotten[at+j] = byte(dice.Uint32())
			}
		case "page":
			clear(rotten[at : at+4096])
		case "cut":
			rotten = rotten[:len(rotten)-4096*(1+dice.IntN(len(rotten)/4096/2))]
		}
		path := filepath.Join(t.TempDir(), "rotten.keeperbook")
		writeFile(t, path, string(rotten))
		// A book that is no book any more, or cannot be read, is found out too.
		tried[kind]++
		if report, err := Examine(ctx, path); err != nil || !report.Sound() {
			detected[kind]++
		}
		p, err := readPages(ctx, path)
		if err != nil {
			t.Fatal(err)
		}
		got, _, _ := provenIn(ctx, p)
		if kind != "cut" {
			found, of = found+len(got), of+events
			least = min(least, float64(len(got))/float64(events))
		}
		out := filepath.Join(t.TempDir(), "saved.keeperbook")
		s, err := Salvage(ctx, path, copied, out, options())
		if err != nil {
			t.Fatalf("%s at %d: %v", kind, at, err)
		}
		if s.Found != len(got) || s.Had+s.Taken+s.Retold+s.Left < s.Found-1 {
			t.Errorf("%s at %d: %+v", kind, at, s)
		}
		saved(t, out)
	}
	t.Logf("%d of %d events proved themselves, of the worst book %.1f %%; examine found %v of %v", found, of, 100*least, detected, tried)
	// Single bits are counted in a book that is full of something (TestOneFlippedBit); much of this one is room for more.
	for _, kind := range []string{"page", "cut"} {
		if detected[kind] < tried[kind] {
			t.Errorf("examine found %d of %d damages of the kind %s", detected[kind], tried[kind], kind)
		}
	}
	if found*100 < of*95 {
		t.Errorf("%d of %d events", found, of)
	}
}

// Whatever stands in a file, reading its pages ends.
func FuzzPages(f *testing.F) {
	f.Add([]byte("SQLite format 3\x00"), 16)
	f.Add(append(make([]byte, 4096), 0x0d, 0, 0, 0, 2, 0x0f, 0xf0), 0)
	f.Fuzz(func(t *testing.T, data []byte, _ int) {
		path := filepath.Join(t.TempDir(), "x")
		page := make([]byte, (len(data)/4096+1)*4096)
		copy(page, data)
		if err := os.WriteFile(path, page, 0o600); err != nil {
			t.Fatal(err)
		}
		p, err := readPages(context.Background(), path)
		if err != nil {
			t.Fatal(err)
		}
		if events, _, _ := provenIn(context.Background(), p); len(events) > 0 {
			t.Errorf("%d events out of nothing", len(events))
		}
	})
}
