package store

import (
	"context"
	"fmt"
	"path/filepath"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

func stockShim(id string, thou int64) record.StockShim {
	return record.StockShim{ID: id, Thickness: inch(fmt.Sprintf(".%03d", thou), thou*int64(unit.Thou)), Under: record.UnderLocator}
}

// moved keeps moves of the stock, with edits of a set-up beside them.
func moved(b *Book, token, setup string, moves []record.Move, edits ...record.Edit) error {
	_, err := b.Keep(context.Background(), record.Action{Token: token, Setup: setup, By: "Tamsin", At: noon, Edits: edits, Moves: moves})
	return err
}

func count(t testing.TB, b *Book, id string) (int, bool) {
	t.Helper()
	all, err := b.Shims(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	at := slices.IndexFunc(all, func(s ShimStock) bool { return s.ID == id })
	if at < 0 {
		return 0, false
	}
	return all[at].Count, all[at].Counted
}

// Shims and springs go on a head in one action with what comes off the shelf, and one undo takes back both,
// whatever another head took meanwhile.
func TestStockGoesWithTheSetup(t *testing.T) {
	ctx := context.Background()
	b := newBook(t)
	keepRecord(t, b, small("1"))
	keepRecord(t, b, small("2"))
	keep(t, b, "shim", "", record.Put("", stockShim("SH-30", 30)), record.Put("", record.Spring{ID: "SP", Name: "nest", Coils: []record.Coil{{Name: "outer"}}}),
		record.Put("", record.SpringPiece{Tag: "bag 1", Spring: "SP"}), record.Put("", record.SpringPiece{Tag: "bag 2", Spring: "SP"}))
	if _, counted := count(t, b, "SH-30"); counted {
		t.Error("it was counted before somebody did")
	}
	refused(t, moved(b, "too early", "", []record.Move{record.MoveShims("SH-30", -1)}), say.Conflict, ".030 in were never counted")
	if err := moved(b, "counted", "", []record.Move{record.MoveShims("SH-30", 5)}); err != nil {
		t.Fatal(err)
	}
	fitted := record.Valve{At: in1, Stack: []record.Shim{stockShim("SH-30", 30).Shim()}, Spring: "bag 1"}
	for range 2 { // asked again it is kept once
		if err := moved(b, "put on", "S-1", []record.Move{record.MoveShims("SH-30", -3)}, record.Put("S-1", fitted)); err != nil {
			t.Fatal(err)
		}
	}
	if n, _ := count(t, b, "SH-30"); n != 2 {
		t.Errorf("%d are left", n)
	}
	tags := func(head string) (all []string) {
		pieces, err := b.SpringsFor(ctx, head)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range pieces {
			all = append(all, p.Tag)
		}
		return all
	}
	if own, other := tags("H-1"), tags("H-2"); !slices.Equal(own, []string{"bag 1", "bag 2"}) || !slices.Equal(other, []string{"bag 2"}) {
		t.Errorf("on hand for its own head %q, for another %q", own, other)
	}
	// What cannot be taken leaves the set-up alone too.
	refused(t, moved(b, "too many", "S-2", []record.Move{record.MoveShims("SH-30", -3)}, record.Put("S-2", fitted)), say.Conflict,
		"2 shims of .030 in are on the shelf, and 3 would be taken")
	if r, err := b.Record(ctx, "S-2"); err != nil || len(r.Setup.Valves) != 0 {
		t.Errorf("the valves became %+v, %v", r.Setup.Valves, err)
	}
	if err := moved(b, "other head", "S-2", []record.Move{record.MoveShims("SH-30", -2)}); err != nil {
		t.Fatal(err)
	}
	step, err := b.Undo(ctx, "S-1", "Tamsin", noon, "off again")
	if err != nil || len(step.Changes) != 2 {
		t.Fatalf("%+v %v", step, err)
	}
	if n, _ := count(t, b, "SH-30"); n != 3 || len(tags("H-2")) != 2 {
		t.Errorf("%d are back, and on hand are %q", n, tags("H-2"))
	}
	if err := moved(b, "lost", "", []record.Move{record.MoveShims("SH-30", -1)}); err != nil {
		t.Fatal(err)
	}
	// Done again it would take three of two.
	_, err = b.Redo(ctx, "S-1", "Tamsin", noon, "on again")
	refused(t, err, say.Conflict, "2 shims of .030 in")
	if r, err := b.Record(ctx, "S-1"); err != nil || len(r.Setup.Valves) != 0 {
		t.Errorf("half of it was done again: %+v, %v", r.Setup.Valves, err)
	}
	sound(t, b)
}

func TestScrappedSpringsAreNotOnHand(t *testing.T) {
	b := newBook(t)
	keep(t, b, "springs", "", record.Put("", record.Spring{ID: "SP", Name: "nest", Coils: []record.Coil{{Name: "outer"}}}),
		record.Put("", record.SpringPiece{Tag: "bag 1", Spring: "SP"}))
	scrap := []record.Move{record.MoveSpring("bag 1", -1)}
	if err := moved(b, "scrap", "", scrap); err != nil {
		t.Fatal(err)
	}
	if on, err := b.SpringsFor(context.Background(), ""); err != nil || len(on) != 0 {
		t.Errorf("%+v, %v", on, err)
	}
	refused(t, moved(b, "again", "", scrap), say.Conflict, "was scrapped")
	if err := moved(b, "back", "", []record.Move{record.MoveSpring("bag 1", 1)}); err != nil {
		t.Fatal(err)
	}
	refused(t, moved(b, "twice", "", []record.Move{record.MoveSpring("bag 1", 1)}), say.Conflict, "there already")
	refused(t, moved(b, "no such", "", []record.Move{record.MoveSpring("bag 9", -1)}), say.NotFound, "bag 9")
	keep(t, b, "gone", "", record.Remove("", record.SpringPiece{Tag: "bag 1"}))
	sound(t, b)
}

// A count is never put, and what a kind of shim takes with it is its count.
func TestCountsAreMoves(t *testing.T) {
	b := newBook(t)
	keep(t, b, "shim", "", record.Put("", stockShim("SH-30", 30)))
	put := record.Put("", record.Stock{Of: record.StockShimItem, ID: "SH-30", Count: 9})
	if _, err := b.Keep(context.Background(), record.Action{Token: "put", At: noon, Edits: []record.Edit{put}}); err == nil {
		t.Error("a count was put")
	}
	if err := moved(b, "counted", "", []record.Move{record.MoveShims("SH-30", 5)}); err != nil {
		t.Fatal(err)
	}
	keep(t, b, "gone", "", record.Remove("", stockShim("SH-30", 30)))
	keep(t, b, "there again", "", record.Put("", stockShim("SH-30", 30)))
	if n, counted := count(t, b, "SH-30"); counted {
		t.Errorf("it has the count %d of before", n)
	}
	sound(t, b)
}

// A count that no move led to is named by Examine.
func TestExamineNamesAForeignCount(t *testing.T) {
	ctx := context.Background()
	b := newBook(t)
	keep(t, b, "shim", "", record.Put("", stockShim("SH-30", 30)))
	if err := moved(b, "counted", "", []record.Move{record.MoveShims("SH-30", 5)}); err != nil {
		t.Fatal(err)
	}
	if err := b.desk.exec(ctx, `UPDATE stock SET count = 6, body = replace(body, '"count":5', '"count":6')`); err != nil {
		t.Fatal(err)
	}
	report, err := b.Examine(ctx)
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range report.Results {
		if r.Name == CheckStock && r.OK {
			t.Error("6 where 5 were counted was not named")
		}
	}
	if err := b.desk.exec(ctx, `UPDATE stock SET count = -1`); err == nil {
		t.Error("the table took a count below nought")
	}
}

// Whatever is taken, given back, undone and done again, by two heads from one shelf, the count is the sum
// of the moves that hold, and never below nought.
func TestCountsAreTheSumOfTheMoves(t *testing.T) {
	ctx := context.Background()
	folder, games := t.TempDir(), 0
	rapid.Check(t, func(rt *rapid.T) {
		games++
		b, err := Create(ctx, filepath.Join(folder, fmt.Sprint(games, ".keeperbook")), options())
		if err != nil {
			rt.Fatal(err)
		}
		defer b.Close()
		for _, id := range []string{"1", "2"} {
			if _, err := b.Keep(ctx, record.Action{Token: "begin " + id, At: noon, Edits: editsOf(small(id))}); err != nil {
				rt.Fatal(err)
			}
		}
		if _, err := b.Keep(ctx, record.Action{Token: "shim", At: noon, Edits: []record.Edit{record.Put("", stockShim("SH-30", 30))}}); err != nil {
			rt.Fatal(err)
		}
		if err := moved(b, "counted", "", []record.Move{record.MoveShims("SH-30", 0)}); err != nil {
			rt.Fatal(err)
		}
		sum, tokens := 0, 0
		done, undone := map[string][]int{}, map[string][]int{}
		token := func() string { tokens++; return fmt.Sprint("token ", tokens) }
		setup := func(rt *rapid.T) string { return rapid.SampledFrom([]string{"S-1", "S-2"}).Draw(rt, "setup") }
		// turn takes the last of one list back and puts it on the other.
		turn := func(rt *rapid.T, from, to map[string][]int, s string, sign int, do func() error) {
			n := len(from[s])
			err := do()
			if n == 0 {
				if say.CodeOf(err) != say.NotFound {
					rt.Fatal(err)
				}
				return
			}
			by := from[s][n-1]
			if sum+sign*by < 0 {
				if say.CodeOf(err) != say.Conflict {
					rt.Fatalf("%d of %d: %v", sign*by, sum, err)
				}
				return
			}
			if err != nil {
				rt.Fatal(err)
			}
			sum, from[s], to[s] = sum+sign*by, from[s][:n-1], append(to[s], by)
		}
		rt.Repeat(map[string]func(*rapid.T){
			"move": func(rt *rapid.T) {
				s, by := setup(rt), rapid.IntRange(-4, 6).Draw(rt, "by")
				err := moved(b, token(), s, []record.Move{record.MoveShims("SH-30", by)})
				switch {
				case sum+by < 0:
					if say.CodeOf(err) != say.Conflict {
						rt.Fatalf("%d of %d: %v", by, sum, err)
					}
				case err != nil:
					rt.Fatal(err)
				case by != 0:
					sum, done[s], undone[s] = sum+by, append(done[s], by), nil
				}
			},
			"undo": func(rt *rapid.T) {
				s := setup(rt)
				turn(rt, done, undone, s, -1, func() error { _, err := b.Undo(ctx, s, "Tamsin", noon, token()); return err })
			},
			"redo": func(rt *rapid.T) {
				s := setup(rt)
				turn(rt, undone, done, s, 1, func() error { _, err := b.Redo(ctx, s, "Tamsin", noon, token()); return err })
			},
			"": func(rt *rapid.T) {
				all, err := b.Shims(ctx)
				if err != nil || all[0].Count != sum {
					rt.Fatalf("%+v, %v; the moves come to %d", all, err, sum)
				}
			},
		})
		report, err := b.Examine(ctx)
		if err != nil || !report.Sound() {
			rt.Fatalf("%+v %v", report, err)
		}
	})
}
