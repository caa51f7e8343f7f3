package store

import (
	"context"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

var flips = flag.Int("flips", 60, "how many books with one flipped bit are examined")

// One flipped bit anywhere in the pages of a book. What Examine does not find must change no record and no
// answer to a search; everything is read back to show it.
func TestOneFlippedBit(t *testing.T) {
	ctx := context.Background()
	b := newBook(t)
	for n := range 12 {
		id := fmt.Sprint(n)
		r := small(id)
		keepRecord(t, b, r)
		for _, p := range r.Head.Positions() {
			for i := range 20 {
				one := height(p, 1800+i)
				one.N = i + 1
				keep(t, b, fmt.Sprint(n, p, i), r.Setup.ID, record.Put(r.Setup.ID, one))
			}
		}
	}
	want := allRecords(t, b)
	packed := filepath.Join(t.TempDir(), "packed.keeperbook") // a copy has few pages half empty
	if err := b.Copy(ctx, packed); err != nil {
		t.Fatal(err)
	}
	whole, err := os.ReadFile(packed)
	if err != nil {
		t.Fatal(err)
	}
	dice := rand.New(rand.NewPCG(3, 5))
	path := filepath.Join(t.TempDir(), "rotten.keeperbook")
	found, silent := 0, 0
	for i := range *flips {
		rotten := append([]byte(nil), whole...)
		// Evenly over the file, the header left out: it is looked at when opening. A copy fills the space
		// that holds nothing with zero bytes, so the next byte that is none is taken.
		at := headerLength + (len(whole)-headerLength)*i / *flips + dice.IntN((len(whole)-headerLength) / *flips)
		for rotten[at] == 0 {
			at = headerLength + (at+1-headerLength)%(len(whole)-headerLength)
		}
		rotten[at] ^= 1 << dice.IntN(8)
		if err := os.WriteFile(path, rotten, 0o644); err != nil {
			t.Fatal(err)
		}
		report, err := Examine(ctx, path)
		if err != nil {
			t.Fatal(err)
		}
		if after, err := os.ReadFile(path); err != nil || string(after) != string(rotten) {
			t.Fatalf("examining wrote in the book: %v", err)
		}
		if !report.Sound() {
			found++
			continue
		}
		r, err := OpenReadOnly(ctx, path, options())
		if err != nil {
			t.Fatal(err)
		}
		if fmt.Sprint(allRecords(t, r)) != fmt.Sprint(want) {
			silent++
			t.Errorf("byte %d: a record changed and nothing was found", at)
		}
		if err := r.Close(); err != nil {
			t.Fatal(err)
		}
	}
	t.Logf("%d of %d flipped bits were found; %d changed a record unseen", found, *flips, silent)
	// The others lie where neither record nor answer is made from: what matters is that none is silent.
	if found*10 < *flips*9 {
		t.Errorf("only %d of %d were found", found, *flips)
	}
}

func allRecords(t *testing.T, b *Book) []string {
	t.Helper()
	var all []string
	for n := range 12 {
		r, err := b.Record(context.Background(), fmt.Sprint("S-", n))
		if err != nil {
			t.Fatal(err)
		}
		for _, noun := range append(nouns([]record.Head{r.Head}), listed(&r.Setup)...) {
			body, err := encode(noun)
			if err != nil {
				t.Fatal(err)
			}
			all = append(all, string(body))
		}
	}
	for _, text := range []string{"", "orla", "single", "head 1"} {
		all = append(all, fmt.Sprint(tags(t, b, text)))
	}
	return all
}

// tampered changes a book behind the program's back and returns the looks that fail.
func tampered(t *testing.T, statements ...string) []string {
	t.Helper()
	path := closedBook(t)
	if err := lockPerFile(); err != nil {
		t.Fatal(err)
	}
	raw(t, path, statements...)
	report, err := Examine(context.Background(), path)
	if err != nil {
		t.Fatal(err)
	}
	var failed []string
	for _, r := range report.Results {
		if !r.OK {
			failed = append(failed, r.Name)
			t.Log(say.English().Line(r.Line))
		}
	}
	return failed
}

func TestExamineNamesWhatIsWrong(t *testing.T) {
	const open = `DROP TRIGGER event_stays; `
	for _, c := range []struct {
		name, statement, look string
	}{
		{"a value", `UPDATE reading SET value = value + 1 WHERE kind = 'check'`, CheckState},
		{"a body", `UPDATE part SET body = replace(body, 'blue', 'red!')`, CheckState},
		{"a column", `UPDATE head SET tag = 'Bank B'`, CheckState},
		{"the order of heads", `UPDATE head SET newest = '2030'`, CheckState},
		{"a row gone", `DELETE FROM setup_item WHERE kind = 'deviation'`, CheckState},
		{"an event's person", open + `UPDATE event SET by = 'nobody' WHERE seq = 3`, CheckHistory},
		{"an event's body", open + `UPDATE event SET after = replace(after, '1842', '1843') WHERE after LIKE '%1842%'`, CheckHistory},
		{"an event gone", `DROP TRIGGER event_remains; DELETE FROM event WHERE seq = 4`, CheckHistory},
		{"the first event gone", `DROP TRIGGER event_remains; DELETE FROM event WHERE seq = 1`, CheckHistory},
		{"a parent gone", `PRAGMA foreign_keys = off; DELETE FROM engine`, CheckReferences},
		{"a part gone", `DELETE FROM part WHERE id = 'RT-3'`, CheckOrphans},
		{"a valve gone", `UPDATE head SET body = replace(body, '["1","3"]', '["1"]'), body = json_remove(body, '$.order', '$.cylinders[1]')`, CheckOrphans},
		{"a head not in the index", `DELETE FROM search WHERE rowid = 1`, CheckSearch},
		{"other words in the index", `DELETE FROM search WHERE rowid = 1; INSERT INTO search (rowid, owner) VALUES (1, 'Bank A')`, CheckSearch},
		{"the checkpoint", open + `UPDATE event SET after = replace(after, '0', '1') WHERE seq = 1`, CheckState},
	} {
		t.Run(c.name, func(t *testing.T) {
			failed := tampered(t, c.statement)
			for _, f := range failed {
				if f == c.look {
					return
				}
			}
			t.Errorf("%s is not among what failed: %v", c.look, failed)
		})
	}
}

// A book cut short opens for nobody, and examining it says so in a sentence.
func TestTruncatedBook(t *testing.T) {
	path := closedBook(t)
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for _, part := range []int{2, 3, 10} {
		writeFile(t, path, string(text[:len(text)/part/4096*4096]))
		untouched(t, filepath.Dir(path), func() {
			_, err = Open(context.Background(), path, options())
			refused(t, err, say.Damaged, path, "newest good copy")
			report, err := Examine(context.Background(), path)
			if err != nil || report.Sound() {
				t.Errorf("%+v %v", report, err)
			}
		})
	}
}

// Damage that the look behind somebody's back finds is told at the next save, and nothing more is written.
func TestDamageFoundWhileWorking(t *testing.T) {
	ctx := context.Background()
	b, err := Open(ctx, closedBook(t), options())
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	b.checkBehind()
	b.checking.Wait()
	keep(t, b, "still whole", "S-1", record.Put("S-1", height(in1, 1700)))

	root := 0 // of the table of set-up items
	if _, err := one(ctx, b.desk, `SELECT rootpage FROM sqlite_schema WHERE name = 'setup_item'`, nil, &root); err != nil {
		t.Fatal(err)
	}
	f, err := os.OpenFile(b.Path(), os.O_RDWR, 0)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := f.WriteAt([]byte("broken"), int64(root-1)*4096); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	b.checkBehind()
	b.checking.Wait()
	for n := range 2 {
		_, err := b.Keep(ctx, entry(n+1))
		refused(t, err, say.Damaged, "newest good copy")
	}
}
