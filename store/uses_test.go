package store

import (
	"context"
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keeperbook/model/record"
)

// UsedIn agrees with the records themselves: a set-up uses what its record holds, and no more.
func TestUsedInIsWhatRecordsHold(t *testing.T) {
	ctx := context.Background()
	b := newBook(t)
	keepRecord(t, b, rich())
	other := small("2")
	other.Setup.Packages = []record.Package{{Role: record.Intake, Spring: "SP-2", Retainer: "RT-2"}}
	other.Setup.Note = "RT-1" // a note that says just what an identifier says is no use
	other.Setup.Checks = []record.Check{{ID: "C-9", What: "SP-1", Done: record.DoneHere}}
	keepRecord(t, b, other)
	keepRecord(t, b, small("3"))
	// One identifier for things of two kinds.
	keep(t, b, "twins", "", record.Put("", record.Seal{ID: "RT-2", Name: "twin", Sits: record.OnGuide}))

	parts, err := b.Parts(ctx)
	if err != nil {
		t.Fatal(err)
	}
	gauges, err := b.Gauges(ctx)
	if err != nil {
		t.Fatal(err)
	}
	held := map[string]map[record.Item]bool{}
	for _, setup := range []string{"S-1", "S-2", "S-3"} {
		r, err := b.Record(ctx, setup)
		if err != nil {
			t.Fatal(err)
		}
		held[setup] = map[record.Item]bool{}
		for _, n := range shopThings(r.Parts, r.Gauges) {
			held[setup][record.ItemOf("", n)] = true
		}
	}
	used := 0
	for _, n := range shopThings(parts, gauges) {
		item := record.ItemOf("", n)
		uses, err := b.UsedIn(ctx, item)
		if err != nil {
			t.Fatal(err)
		}
		got := map[string]bool{}
		for _, u := range uses {
			got[u.Setup] = true
			used++
		}
		for setup, holds := range held {
			if got[setup] != holds[item] {
				t.Errorf("%v in %s: used %t, held %t", item, setup, got[setup], holds[item])
			}
		}
	}
	if used < 15 {
		t.Errorf("%d uses only: is the record as rich as it was?", used)
	}
	// The register's newest comes first. In S-1 the type is there as that of a tagged spring.
	want := []Use{
		{Head: "head 2", Setup: "S-2", Kind: record.AsBuilt, Begun: noon},
		{Head: "Bank A", Setup: "S-1", Kind: record.AsBuilt, Begun: noon},
	}
	got, err := b.UsedIn(ctx, record.Item{Kind: record.SpringItem, Key: "SP-2"})
	if d := cmp.Diff(want, got); d != "" || err != nil {
		t.Error(d, err)
	}
}

// shopThings lists parts and gauges as nouns.
func shopThings(p record.Parts, gauges []record.Gauge) []record.Noun {
	var all []record.Noun
	all = append(all, nouns(p.Springs)...)
	all = append(all, nouns(p.Pieces)...)
	all = append(all, nouns(p.Retainers)...)
	all = append(all, nouns(p.Locks)...)
	all = append(all, nouns(p.Locators)...)
	all = append(all, nouns(p.Seals)...)
	all = append(all, nouns(p.Valves)...)
	return append(all, nouns(gauges)...)
}

// BenchmarkUsedIn asks for a part that is in one set-up of 10,000, and for one that is in all of them.
func BenchmarkUsedIn(b *testing.B) {
	ctx := context.Background()
	book := manyHeads(b, 10_000)
	keep(b, book, "parts", "", record.Put("", record.Spring{ID: "SP-rare"}), record.Put("", record.Spring{ID: "SP-usual"}))
	var edits []record.Edit
	for n := range 10_000 {
		p := record.Package{Role: record.Intake, Spring: "SP-usual", Retainer: "RT-1", Locks: "LK-1", Locator: "LC-1"}
		if n == 7 {
			p.Spring = "SP-rare"
		}
		setup := fmt.Sprintf("S-%05d", n)
		edits = append(edits, record.Put(setup, p), record.Put(setup, record.Valve{At: in1, Stack: []record.Shim{{Thickness: inch(".030", 7_620_000), Under: record.UnderLocator}}}))
	}
	keep(b, book, "packages", "", edits...)
	for key, want := range map[string]int{"SP-rare": 1, "SP-usual": 9_999} {
		b.Run(key, func(b *testing.B) {
			for b.Loop() {
				uses, err := book.UsedIn(ctx, record.Item{Kind: record.SpringItem, Key: key})
				if err != nil || len(uses) != want {
					b.Fatal(len(uses), err)
				}
			}
		})
	}
}
