package task_test

import (
	"context"
	"fmt"
	"io/fs"
	"math"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"keeperbook/app/internal/task"
	"keeperbook/assets"
	"keeperbook/model/record"
	"keeperbook/model/unit"
	"keeperbook/store"
)

// BenchmarkLife is a shop of 200 heads of eight valves with ten years of weekly runs and monthly checks: what falls due in the
// book, whose limit is 200 ms, and the life of one head, whose limit is 100 ms.
func BenchmarkLife(b *testing.B) {
	ctx := context.Background()
	const heads, weeks, begun = 200, 520, 2015
	now := func() time.Time { return time.Date(begun+11, 6, 1, 12, 0, 0, 0, time.UTC) }
	book, err := store.Create(ctx, filepath.Join(b.TempDir(), "years.keeperbook"), store.Options{Clock: func() record.Stamp { return task.StampOf(now()) }})
	if err != nil {
		b.Fatal(err)
	}
	defer book.Close()
	d := &task.Desk{Book: book, Who: "M. Ashlock", Clock: now}
	file := func(name string, i int) []byte {
		text, err := fs.ReadFile(assets.Demo(), name)
		if err != nil {
			b.Fatal(err)
		}
		return []byte(strings.NewReplacer(
			"head-launch-left", fmt.Sprint("head-", i), "setup-launch-built", fmt.Sprint("setup-", i), "DR-1L", fmt.Sprint("DR-", i),
			"2026-05-11T", fmt.Sprint(begun, "-01-01T"), `"replaces": "setup-launch-found",`, "",
		).Replace(string(text)))
	}
	for i := range heads {
		taken, err := d.TakeIn(ctx, file("launch-built.json", i))
		if err != nil {
			b.Fatal(err)
		}
		if _, err := d.ReadIn(ctx, file("launch-built.csv", i)); err != nil {
			b.Fatal(err)
		}
		rec, err := book.Record(ctx, taken.Setup)
		if err != nil {
			b.Fatal(err)
		}
		var edits []record.Edit
		first := time.Date(begun, 1, 5, 0, 0, 0, 0, time.UTC)
		for w := range weeks {
			day := record.Date(first.AddDate(0, 0, 7*w).Format(time.DateOnly))
			edits = append(edits, record.Put("", record.Run{
				ID: fmt.Sprint("run-", i, "-", w), Head: rec.Head.ID, Day: day, Kind: record.Passes, Count: "6", Seconds: "9.5", Mean: "6800", By: "M. Ashlock",
			}))
			if w%4 != 0 {
				continue
			}
			c := record.SpringCheck{
				ID: fmt.Sprint("check-", i, "-", w), Head: rec.Head.ID, Setup: rec.Setup.ID, Day: day, Service: record.CheckedLater,
				Gauge: "gauge-tester-7", By: "M. Ashlock",
			}
			if w == 0 {
				c.Service = record.CheckedRunIn
			}
			for n, at := range rec.Head.Positions() {
				load, err := unit.Of(fmt.Sprintf("%.1f", 130-float64(n)-.02*float64(w)-2*math.Log1p(float64(w))), unit.Lbf)
				if err != nil {
					b.Fatal(err)
				}
				c.Valves = append(c.Valves, record.CheckedValve{At: at, Load: &load})
			}
			edits = append(edits, record.Put("", c))
		}
		if _, err := book.Keep(ctx, record.Action{Token: fmt.Sprint(i), By: "M. Ashlock", At: task.StampOf(now()), Edits: edits}); err != nil {
			b.Fatal(err)
		}
	}
	due := func(b *testing.B) {
		if all, err := task.Dues(ctx, book, "2026-06-01"); err != nil || len(all) < heads {
			b.Fatal(len(all), err)
		}
	}
	n := 0
	put := func(b *testing.B, nouns func(n int) record.Noun) {
		b.StopTimer()
		defer b.StartTimer()
		n++
		if _, err := book.Keep(ctx, record.Action{Token: fmt.Sprint("n", n), By: "M. Ashlock", At: task.StampOf(now()), Edits: []record.Edit{record.Put("", nouns(n))}}); err != nil {
			b.Fatal(err)
		}
	}
	// After a gauge changed every head is worked out anew.
	b.Run("due-anew", func(b *testing.B) {
		for b.Loop() {
			put(b, func(n int) record.Noun {
				return record.Gauge{ID: "gauge-other", Name: fmt.Sprint("height gauge ", n), Kind: record.HeightGauge}
			})
			due(b)
		}
	})
	// After a day was logged one head is.
	b.Run("due", func(b *testing.B) {
		for b.Loop() {
			put(b, func(n int) record.Noun {
				return record.Run{ID: fmt.Sprint("later-", n), Head: "head-7", Day: "2026-05-30", Kind: record.Passes, Count: fmt.Sprint(n), By: "M. Ashlock"}
			})
			due(b)
		}
	})
	b.Run("life", func(b *testing.B) {
		for b.Loop() {
			if h, err := task.LifeOf(ctx, book, "setup-7"); err != nil || h.Valves[0].Trend == nil {
				b.Fatal(err)
			}
		}
	})
}
