package store

import (
	"context"
	"fmt"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// BenchmarkKeep takes turns: one entry through Keep, the same statements bare, and the two that
// write bare, each through to disk. It reports the medians and how many times the bare ones Keep takes.
func BenchmarkKeep(b *testing.B) {
	ctx := context.Background()
	book, same, writes := newBook(b), newBareBook(b), newBareBook(b)
	keepRecord(b, book, small("1"))
	var took, sameTook, writesTook []time.Duration
	for n := 1; b.Loop(); n++ {
		start := time.Now()
		if _, err := book.Keep(ctx, entry(n)); err != nil {
			b.Fatal(err)
		}
		kept := time.Now()
		same.entry(b, n, true)
		bare := time.Now()
		writes.entry(b, n, false)
		took, sameTook = append(took, kept.Sub(start)), append(sameTook, bare.Sub(kept))
		writesTook = append(writesTook, time.Since(bare))
	}
	keeps, bares, least := median(took), median(sameTook), median(writesTook)
	b.ReportMetric(0, "ns/op") // of all three together, which says nothing
	b.ReportMetric(micros(keeps), "µs/keep")
	b.ReportMetric(micros(bares), "µs/bare")
	b.ReportMetric(micros(least), "µs/writes-alone")
	b.ReportMetric(float64(keeps)/float64(bares), "ratio")
	b.ReportMetric(float64(keeps)/float64(least), "ratio-to-writes")
}

func median(d []time.Duration) time.Duration {
	slices.Sort(d)
	return d[len(d)/2]
}

func micros(d time.Duration) float64 { return float64(d.Nanoseconds()) / 1000 }

// bareBook is a book that is written by prepared statements with nothing around them.
type bareBook struct {
	*desk
	body, sum string
}

func newBareBook(b *testing.B) bareBook {
	book := newBook(b)
	keepRecord(b, book, small("1"))
	body, err := encode(entry(100).Edits[0].Noun)
	if err != nil {
		b.Fatal(err)
	}
	return bareBook{book.desk, string(body), string(make([]byte, 32))}
}

// entry runs what Keep runs for one reading; the questions only where asked is true.
func (d bareBook) entry(b *testing.B, n int, asked bool) {
	ctx := context.Background()
	do := func(err error) {
		if err != nil {
			b.Fatal(err)
		}
	}
	ask := func(statement string, args ...any) {
		rows, err := d.query(ctx, statement, args...)
		do(err)
		rows.Next()
		do(rows.Close())
	}
	token := fmt.Sprint("entry ", n)
	do(d.exec(ctx, "BEGIN IMMEDIATE"))
	if asked {
		ask(lastEvent)
		ask(byToken, token)
		ask(`SELECT state FROM setup WHERE id = ?`, "S-1")
		ask(oneReading, "S-1", "1/in/1", 0, "base", n)
	}
	do(d.exec(ctx, putReading, "S-1", "1/in/1", 0, "base", n, "1842", "1842", "in", int64(unit.Thou)*1842,
		"", "typed", "Tamsin", string(noon), bodyVersion, nil))
	do(d.exec(ctx, insertEvent, n+1000, n+1000, token, "S-1", "Tamsin", string(noon), "keep", nil,
		"reading", "S-1", fmt.Sprint("1/in/1/0/base/", n), "", nil, d.body, bodyVersion, []byte(d.sum), []byte(d.sum)))
	do(d.exec(ctx, "COMMIT"))
}

// manyHeads makes a book with this many heads of 16 valves, a dozen readings each, and 640 on every
// hundredth.
func manyHeads(b *testing.B, heads int) *Book {
	ctx := context.Background()
	book := newBook(b)
	var edits []record.Edit
	for n := range heads {
		r := small(fmt.Sprintf("%05d", n))
		r.Head.Cylinders = []string{"1", "2", "3", "4"}
		r.Head.Intakes, r.Head.Exhausts = 2, 2
		r.Head.Casting, r.Engine.Note = fmt.Sprint("CX ", n*7), fmt.Sprint("brought in ", n%365)
		most := 12
		if n%100 == 0 {
			most = 640
		}
		positions := r.Head.Positions()
		for i := range most {
			one := height(positions[i%len(positions)], 1800+i%50)
			one.Kind, one.N = record.Kinds[i/16%len(record.Kinds)], i/16/len(record.Kinds)+1
			r.Setup.Readings = append(r.Setup.Readings, one)
		}
		edits = append(edits, editsOf(r)...)
		if n%100 == 99 || n == heads-1 {
			a := record.Action{Token: fmt.Sprint("batch ", n), By: "Tamsin", At: noon, Edits: edits}
			if _, err := book.Keep(ctx, a); err != nil {
				b.Fatal(err)
			}
			edits = nil
		}
	}
	return book
}

// BenchmarkOpenHead opens heads of 640 readings in a book with 10,000 heads: finds the head by its name,
// lists its set-ups and assembles the record of the newest; and beside it lists and searches the register,
// and opens the book anew.
func BenchmarkOpenHead(b *testing.B) {
	ctx := context.Background()
	book := manyHeads(b, 10_000)
	b.Run("head", func(b *testing.B) {
		for n := 0; b.Loop(); n++ {
			h, err := book.FindHead(ctx, fmt.Sprintf("head %05d", n*100%10_000))
			if err != nil {
				b.Fatal(err)
			}
			setups, err := book.Setups(ctx, h.ID)
			if err != nil {
				b.Fatal(err)
			}
			r, err := book.Record(ctx, setups[len(setups)-1].ID)
			if err != nil || len(r.Setup.Readings) != 640 {
				b.Fatal(err)
			}
		}
	})
	b.Run("newest-50", func(b *testing.B) { benchHeads(ctx, b, book, Filter{Limit: 50}, 50) })
	b.Run("search-word", func(b *testing.B) { benchHeads(ctx, b, book, Filter{Text: "brought 100", Limit: 50}, 44) })
	b.Run("search-letter", func(b *testing.B) { benchHeads(ctx, b, book, Filter{Text: "o", Limit: 50}, 50) })
	b.Run("reopened", func(b *testing.B) {
		path := filepath.Join(b.TempDir(), "copy.keeperbook")
		if err := book.Copy(ctx, path); err != nil {
			b.Fatal(err)
		}
		for b.Loop() {
			again, err := OpenReadOnly(ctx, path, options())
			if err != nil {
				b.Fatal(err)
			}
			if _, err := again.Record(ctx, "S-05000"); err != nil {
				b.Fatal(err)
			}
			if err := again.Close(); err != nil {
				b.Fatal(err)
			}
		}
	})
}

func benchHeads(ctx context.Context, b *testing.B, book *Book, f Filter, want int) {
	for b.Loop() {
		lines, err := book.Heads(ctx, f)
		if err != nil || len(lines) != want {
			b.Fatal(len(lines), err)
		}
	}
}
