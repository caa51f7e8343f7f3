package evaluate_test

import (
	"errors"
	"fmt"
	"math/rand"
	"reflect"
	"slices"
	"strings"
	"testing"

	"keeperbook/model/evaluate"
	"keeperbook/model/plan"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// planned is a head of so many cylinders with tagged springs of one type, more of them than valves, all measured one by
// one. All figures are drawn about those of a racing head: base 1.82 in, lift .61, bind 1.06, 420 lbf/in.
func planned(t testing.TB, seed int64, cylinders, springs int) (*record.Record, []record.SpringPiece) {
	t.Helper()
	r := rand.New(rand.NewSource(seed))
	about := func(thou, width float64) string { return fmt.Sprintf("%.4f", (thou+width*(2*r.Float64()-1))/1000) }
	rec := &record.Record{
		Head:  record.Head{ID: "head", Engine: "engine", Tag: "T-2", Intakes: 1, Exhausts: 1},
		Setup: record.Setup{ID: "setup", Head: "head", Kind: record.AsBuilt, Units: record.Units{Length: unit.In, Load: unit.Lbf}, Rules: record.DefaultRules(unit.In)},
	}
	rec.Setup.Rules.Decision = record.Plain
	rec.Parts.Springs = []record.Spring{{ID: "type", Name: "single 7", Coils: []record.Coil{{Name: "outer"}}}}
	for n := range cylinders {
		rec.Head.Cylinders = append(rec.Head.Cylinders, fmt.Sprint(n+1))
	}
	for i, role := range []record.Role{record.Intake, record.Exhaust} {
		seat := band(t, "", "")
		seat.Target = ptr(lbf(t, []string{"238", "236"}[i]))
		rec.Put(record.Package{Role: role, Spring: "type", Least: []record.Least{{Coil: 1, Margin: in(t, "0.060")}}, SeatLoad: seat})
	}
	for _, at := range rec.Head.Positions() {
		rec.Put(record.Valve{At: at, NoShim: "none"})
		add(t, rec, at, record.BaseHeight, 0, about(1820, 12))
		add(t, rec, at, record.LiftChecking, 0, about(610, 3))
	}
	var pieces []record.SpringPiece
	for j := range springs {
		free, rate := 2330+8*(2*r.Float64()-1), 420+6*(2*r.Float64()-1)
		at := func(height float64) string { return fmt.Sprintf("%.1f", rate*(free-height)/1000) }
		b := bind(t, about(1060, 4))
		pieces = append(pieces, record.SpringPiece{
			Tag: fmt.Sprintf("S%d", j+1), Spring: "type", Binds: []record.PieceBind{{Coil: 1, Bind: *b}},
			Loads: []record.PieceLoads{{Coil: 1, Loads: *bareTest(t, "1.850", at(1850), "1.500", at(1500), "1.150", at(1150))}},
		})
	}
	for i, at := range rec.Head.Positions() {
		rec.Put(pieces[i])
		v := record.Valve{At: at, NoShim: "none", Spring: pieces[i].Tag}
		rec.Put(v)
	}
	return rec, pieces
}

func shelfOf(t testing.TB, counts ...int) []evaluate.ShelfShim {
	var all []evaluate.ShelfShim
	for i, n := range counts {
		all = append(all, evaluate.ShelfShim{
			StockShim: record.StockShim{ID: fmt.Sprint("shim-", i), Thickness: in(t, []string{"0.015", "0.030", "0.060"}[i]), Under: record.UnderLocator},
			Count:     n, Counted: true,
		})
	}
	return all
}

func solve(t testing.TB, rec *record.Record, from evaluate.PlanFor) *evaluate.Planned {
	t.Helper()
	p, err := evaluate.NewPlanning(rec, from)
	if err != nil {
		t.Fatal(err)
	}
	made, err := p.Solve(plan.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return made
}

// oracle tries every spring over every stack of the shelf on every valve, works each out as a record of its own, and
// returns the best that any choice among them comes to: worst deviation, their sum, shims, springs moved.
func oracle(t *testing.T, rec *record.Record, pieces []record.SpringPiece, shelf []evaluate.ShelfShim, most, step int64) ([4]int64, bool) {
	type way struct {
		spring, shims int
		use           [3]int
		off           int64
	}
	var stacks [][3]int
	for a := 0; a <= int(most); a++ {
		for b := 0; a+b <= int(most); b++ {
			for c := 0; a+b+c <= int(most); c++ {
				stacks = append(stacks, [3]int{a, b, c})
			}
		}
	}
	ways := make([][]way, len(rec.Head.Positions()))
	for i, at := range rec.Head.Positions() {
		target := unit.Load(rec.PackageOf(at.Role).SeatLoad.Target.Value)
		for j, piece := range pieces {
			for _, use := range stacks {
				one := *rec
				one.Setup.Valves, one.Parts.Pieces = nil, []record.SpringPiece{piece}
				v := record.Valve{At: at, Spring: piece.Tag, NoShim: "none"}
				for k, n := range use {
					for range n {
						v.Stack, v.NoShim = append(v.Stack, shelf[k].Shim()), ""
					}
				}
				one.Put(v)
				one.Head.Order = []record.Position{at}
				w := evaluate.Evaluate(&one).Valves[0]
				if w.Margin.Value < w.Least.Value || !w.SeatLoad.Known {
					continue
				}
				d := w.SeatLoad.Value - target
				if d < 0 {
					d = -d
				}
				ways[i] = append(ways[i], way{j, len(v.Stack), use, (int64(d) + step - 1) / step})
			}
		}
	}
	best, found := [4]int64{}, false
	used, left := make([]bool, len(pieces)), [3]int{shelf[0].Count, shelf[1].Count, shelf[2].Count}
	var try func(i int, so [4]int64)
	try = func(i int, so [4]int64) {
		if found && so[0] > best[0] {
			return
		}
		if i == len(ways) {
			if !found || slices.Compare(so[:], best[:]) < 0 {
				best, found = so, true
			}
			return
		}
		for _, w := range ways[i] {
			if used[w.spring] || w.use[0] > left[0] || w.use[1] > left[1] || w.use[2] > left[2] {
				continue
			}
			used[w.spring] = true
			next := [4]int64{max(so[0], w.off), so[1] + w.off, so[2] + int64(w.shims), so[3]}
			if w.spring != i {
				next[3]++
			}
			for k := range left {
				left[k] -= w.use[k]
			}
			try(i+1, next)
			for k := range left {
				left[k] += w.use[k]
			}
			used[w.spring] = false
		}
	}
	try(0, [4]int64{})
	return best, found
}

// The plan of a record is the best that any choice of springs and shims comes to, by trying all of them.
func TestPlanningAgainstTryingEverything(t *testing.T) {
	for seed := int64(1); seed <= 6; seed++ {
		rec, pieces := planned(t, seed, 2, 5)
		shelf := shelfOf(t, 3, 2, 1)
		made := solve(t, rec, evaluate.PlanFor{Springs: pieces, Shelf: shelf, Most: plan.Most{Shims: 2, Total: 120 * unit.Thou}})
		want, found := oracle(t, rec, pieces, shelf, 2, int64(plan.LoadStep))
		got := [4]int64{made.Worst.Value, made.Sum.Value, made.Shims.Value, made.Plan.Moves.Value}
		if !found || made.Outcome != plan.Proven || got != want {
			t.Errorf("seed %d: %v, found %t; want %v", seed, got, found, want)
		}
	}
}

// What the plan says of a valve is what its record comes to once the plan is on it, and every margin is kept, with the
// guard of the decision rule.
func TestPlanningKeepsWhatItSays(t *testing.T) {
	for _, rule := range []record.Decision{record.Plain, record.Guarded, record.Guarded95} {
		rec, pieces := planned(t, 11, 4, 11)
		rec.Setup.Rules.Decision = rule
		for _, role := range []record.Role{record.Intake, record.Exhaust} {
			p := rec.PackageOf(role)
			p.SeatLoad.Least, p.SeatLoad.Most, p.OpenLoad = ptr(lbf(t, "210")), ptr(lbf(t, "260")), band(t, "450", "530")
			rec.Put(p)
		}
		made := solve(t, rec, evaluate.PlanFor{Springs: pieces, Shelf: shelfOf(t, 8, 8, 4)})
		if made.Outcome != plan.Proven || len(made.Rows) != 8 {
			t.Fatalf("%s: outcome %d, %d rows: %v", rule, made.Outcome, len(made.Rows), made.Reason)
		}
		after := *rec
		after.Setup.Valves, after.Parts.Pieces = slices.Clone(rec.Setup.Valves), pieces
		for _, e := range made.Edits {
			after.Put(e.Valve)
		}
		for i, v := range evaluate.Evaluate(&after).Valves {
			row := made.Plan.Rows[i]
			if v.Margin.Value != row.Fit.Margin || v.SeatLoad.Value != row.Fit.Seat || v.OpenLoad.Value != row.Fit.Open || v.Height.Value != row.Height {
				t.Errorf("%s %s: margin %v, seat %v, open %v; planned %v, %v, %v", rule, v.Label, v.Margin.Value, v.SeatLoad.Value, v.OpenLoad.Value,
					row.Fit.Margin, row.Fit.Seat, row.Fit.Open)
			}
			if v.Verdict != evaluate.Within || made.Rows[i].After.Verdict != evaluate.Within || made.Rows[i].After.Margin.Value != row.Fit.Margin {
				t.Errorf("%s %s: %v, planned as %v: %+v", rule, v.Label, v.Verdict, made.Rows[i].After.Verdict, v.Findings)
			}
		}
		for _, s := range made.Spreads {
			if !s.HasLoads || s.LoadsAfter >= s.LoadsBefore {
				t.Errorf("%s: loads of the %s lay %v apart and lie %v", rule, s.Role, s.LoadsBefore, s.LoadsAfter)
			}
		}
		again := solve(t, rec, evaluate.PlanFor{Springs: pieces, Shelf: shelfOf(t, 8, 8, 4)})
		if !reflect.DeepEqual(again.Edits, made.Edits) || !reflect.DeepEqual(again.Moves, made.Moves) {
			t.Errorf("%s: the second time another plan", rule)
		}
	}
}

// Shims that lie in the head are used before those of the shelf, and the moves of the shelf add up to what the stacks
// take more than lay there.
func TestPlanningMovesTheShelf(t *testing.T) {
	rec, pieces := planned(t, 5, 2, 4)
	shelf := shelfOf(t, 5, 5, 5)
	before := map[unit.Length]int{}
	for i, at := range rec.Head.Positions() {
		v := record.Valve{At: at, Spring: pieces[i].Tag, Stack: []record.Shim{shelf[i%3].Shim()}}
		before[v.Stack[0].Thickness.Length()]++
		rec.Put(v)
	}
	made := solve(t, rec, evaluate.PlanFor{Mode: plan.Shims, Shelf: shelf})
	after := map[unit.Length]int{}
	for i, r := range made.Rows {
		if r.Spring != pieces[i].Tag || !r.From.Zero() {
			t.Errorf("%s has spring %s now", r.Label, r.Spring)
		}
		for _, s := range r.Shims {
			after[s.Thickness.Length()]++
		}
	}
	moved := map[string]int{}
	for _, m := range made.Moves {
		if m.By == 0 {
			t.Error("a move of nought")
		}
		moved[m.ID] = m.By
	}
	for _, s := range shelf {
		thick := s.Thick().Length()
		if moved[s.ID] != before[thick]-after[thick] {
			t.Errorf("of %v the shelf moves by %d; there were %d in the head and are %d", thick, moved[s.ID], before[thick], after[thick])
		}
	}
	// Made once, there is nothing left to do.
	for _, e := range made.Edits {
		rec.Put(e.Valve)
	}
	next := solve(t, rec, evaluate.PlanFor{Mode: plan.Shims, Shelf: shelf})
	if len(next.Edits) > 0 || len(next.Moves) > 0 {
		t.Errorf("the second time %d edits and moves %v", len(next.Edits), next.Moves)
	}
}

// One common height takes no loads, and lies closer together than before.
func TestPlanningForOneHeight(t *testing.T) {
	rec, _ := planned(t, 21, 4, 8)
	for i := range rec.Parts.Pieces {
		rec.Parts.Pieces[i].Loads = nil
	}
	made := solve(t, rec, evaluate.PlanFor{Mode: plan.Heights})
	for _, s := range made.Spreads {
		if !s.HadHeights || !s.HasHeights || s.HeightsAfter > s.HeightsBefore {
			t.Errorf("heights of the %s lay %v apart and lie %v", s.Role, s.HeightsBefore, s.HeightsAfter)
		}
	}
	if len(made.Notes) != 1 || made.Notes[0].Key != "plan.note.shelf" {
		t.Errorf("it takes for granted %v", made.Notes)
	}
}

// A head of which something is missing is refused with what to do, and one on which nothing fits says why.
func TestPlanningRefuses(t *testing.T) {
	at := record.Position{Cylinder: "1", Role: record.Intake, N: 1}
	for _, c := range []struct {
		name, key string
		change    func(r *record.Record, from *evaluate.PlanFor)
	}{
		{"no base height", "plan.base", func(r *record.Record, _ *evaluate.PlanFor) { drop(r, at, record.BaseHeight) }},
		{"no lift", "plan.lift", func(r *record.Record, _ *evaluate.PlanFor) { drop(r, at, record.LiftChecking) }},
		{"no least margin", "plan.least", func(r *record.Record, _ *evaluate.PlanFor) {
			p := r.PackageOf(record.Intake)
			p.Least = nil
			r.Put(p)
		}},
		{"no springs", "plan.no-springs", func(r *record.Record, from *evaluate.PlanFor) {
			from.Springs, r.Parts.Pieces = nil, nil
			for _, v := range r.Setup.Valves {
				v.Spring = ""
				r.Put(v)
			}
		}},
		{"springs without loads", "plan.loads", func(r *record.Record, from *evaluate.PlanFor) {
			from.Springs = slices.Clone(from.Springs)
			for i := range from.Springs {
				from.Springs[i].Loads = nil
			}
			for i := range r.Parts.Pieces {
				r.Parts.Pieces[i].Loads = nil
			}
		}},
		{"springs without binds", "plan.binds", func(r *record.Record, from *evaluate.PlanFor) {
			from.Springs = slices.Clone(from.Springs)
			for i := range from.Springs {
				from.Springs[i].Binds = nil
			}
			for i := range r.Parts.Pieces {
				r.Parts.Pieces[i].Binds = nil
			}
		}},
		{"a count below nought", "plan.shim-count", func(_ *record.Record, from *evaluate.PlanFor) { from.Shelf[0].Count = -2 }},
		{"a band upside down", "plan.seat-band", func(r *record.Record, _ *evaluate.PlanFor) {
			p := r.PackageOf(record.Intake)
			p.SeatLoad.Least, p.SeatLoad.Most = ptr(lbf(t, "250")), ptr(lbf(t, "240"))
			r.Put(p)
		}},
		{"no shims", "plan.no-shims", func(r *record.Record, from *evaluate.PlanFor) {
			from.Shelf = nil
			r.Setup.Rules.Sizes = nil
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			rec, pieces := planned(t, 3, 2, 5)
			from := evaluate.PlanFor{Springs: pieces, Shelf: shelfOf(t, 3, 2, 1)}
			c.change(rec, &from)
			p, err := evaluate.NewPlanning(rec, from)
			if err == nil {
				_, err = p.Solve(plan.Options{})
			}
			var e *say.Error
			if !errors.As(err, &e) || e.Line.Key != c.key || e.Code != say.Invalid {
				t.Errorf("%v, want %s", err, c.key)
			}
		})
	}
	t.Run("nothing fits", func(t *testing.T) {
		rec, pieces := planned(t, 3, 2, 5)
		p := rec.PackageOf(record.Exhaust)
		p.Least[0].Margin = in(t, "0.180")
		rec.Put(p)
		made := solve(t, rec, evaluate.PlanFor{Springs: pieces, Shelf: shelfOf(t, 3, 2, 1)})
		var lines []string
		if made.Reason != nil {
			for _, l := range append(made.Reason.Lines, made.Reason.Free...) {
				lines = append(lines, evaluate.Words(rec.Setup.Units).Line(l))
			}
		}
		if said := strings.Join(lines, "\n"); made.Outcome != plan.Nothing || !strings.Contains(said, "is to keep .180 to bind; it keeps .") || !strings.Contains(said, "Locks of +.050") {
			t.Errorf("outcome %d: %s", made.Outcome, said)
		}
	})
}

// A plan for 16 valves of 20 springs and for 32 of 40, from the record to the pick list.
func BenchmarkPlanning(b *testing.B) {
	for _, n := range []struct{ cylinders, springs int }{{8, 20}, {16, 40}} {
		rec, pieces := planned(b, 7, n.cylinders, n.springs)
		b.Run(fmt.Sprintf("%dx%d", 2*n.cylinders, n.springs), func(b *testing.B) {
			for b.Loop() {
				if made := solve(b, rec, evaluate.PlanFor{Springs: pieces, Shelf: shelfOf(b, 8, 8, 4)}); made.Outcome != plan.Proven {
					b.Fatal(made.Outcome)
				}
			}
		})
	}
}

// Two heads that share springs and shims come to what one head of all their valves does.
func TestPlanningForTwoHeads(t *testing.T) {
	one, pieces := planned(t, 9, 2, 6)
	part := func(cylinder, tag string) *record.Record {
		r := *one
		r.Head.ID, r.Head.Tag, r.Head.Cylinders = "head-"+tag, tag, []string{cylinder}
		r.Setup.ID = "setup-" + tag
		r.Setup.Readings = slices.DeleteFunc(slices.Clone(one.Setup.Readings), func(o record.Reading) bool { return o.At.Cylinder != cylinder })
		r.Setup.Valves = slices.DeleteFunc(slices.Clone(one.Setup.Valves), func(o record.Valve) bool { return o.At.Cylinder != cylinder })
		return &r
	}
	left, right := part("1", "L"), part("2", "R")
	shelf := shelfOf(t, 3, 2, 1)
	want := solve(t, one, evaluate.PlanFor{Springs: pieces, Shelf: shelf})
	got := solve(t, left, evaluate.PlanFor{Springs: pieces, Shelf: shelf, Others: []*record.Record{right}})
	if got.Outcome != plan.Proven || got.Worst != want.Worst || got.Sum != want.Sum || got.Shims != want.Shims || got.Plan.Moves != want.Plan.Moves {
		t.Errorf("together %+v %+v %+v %+v, as one head %+v %+v %+v %+v", got.Worst, got.Sum, got.Shims, got.Plan.Moves, want.Worst, want.Sum, want.Shims, want.Plan.Moves)
	}
	if len(got.Rows) != 4 || got.Rows[0].Label != "L 1 in" || got.Rows[2].Label != "R 2 in" || len(got.Spreads) != 4 || got.Spreads[2].Head != "R" {
		t.Errorf("rows %v, spreads %v", got.Rows, got.Spreads)
	}
	// Each head's own edits make of it what is said.
	for _, rec := range []*record.Record{left, right} {
		after := *rec
		after.Setup.Valves, after.Parts.Pieces = slices.Clone(rec.Setup.Valves), pieces
		for _, e := range got.Edits {
			if e.Setup == rec.Setup.ID {
				after.Put(e.Valve)
			}
		}
		for _, v := range evaluate.Evaluate(&after).Valves {
			at := slices.IndexFunc(got.Rows, func(r evaluate.PlannedValve) bool { return r.Label == rec.Head.Tag+" "+v.Label })
			if got.Rows[at].After.Seat.Value != v.SeatLoad.Value || v.Verdict != evaluate.Within {
				t.Errorf("%s %s: %v, said to be %v; %v", rec.Head.Tag, v.Label, v.SeatLoad.Value, got.Rows[at].After.Seat.Value, v.Verdict)
			}
		}
	}
	// Without targets the loads of a role come together over both.
	for _, r := range []*record.Record{left, right, one} {
		for i := range r.Setup.Packages {
			r.Setup.Packages[i].SeatLoad = nil
		}
	}
	free := solve(t, left, evaluate.PlanFor{Springs: pieces, Shelf: shelf, Others: []*record.Record{right}})
	whole := solve(t, one, evaluate.PlanFor{Springs: pieces, Shelf: shelf})
	if free.Worst != whole.Worst || free.Sum != whole.Sum {
		t.Errorf("without targets %+v %+v, as one head %+v %+v", free.Worst, free.Sum, whole.Worst, whole.Sum)
	}
}

// A bind that was read on a valve counts for the spring that stays on it, and for no other one.
func TestPlanningTakesBindsReadOnValves(t *testing.T) {
	rec, pieces := planned(t, 11, 2, 6)
	want := solve(t, rec, evaluate.PlanFor{Mode: plan.Shims, Shelf: shelfOf(t, 8, 8, 4)})
	for i, at := range rec.Head.Positions() {
		rec.Put(record.Reading{
			At: at, Coil: 1, Kind: record.BindReading, N: 1, Quantity: pieces[i].Binds[0].Bind.Reading, Piece: pieces[i].Tag, Method: record.Typed,
		})
	}
	for i := range rec.Parts.Pieces {
		rec.Parts.Pieces[i].Binds = nil
	}
	got := solve(t, rec, evaluate.PlanFor{Mode: plan.Shims, Shelf: shelfOf(t, 8, 8, 4)})
	if got.Outcome != plan.Proven || got.Sum != want.Sum || !reflect.DeepEqual(got.Edits, want.Edits) {
		t.Errorf("%d %+v %+v; from the springs themselves %d %+v %+v", got.Outcome, got.Sum, got.Edits, want.Outcome, want.Sum, want.Edits)
	}
	for _, r := range got.Rows {
		if !r.After.Margin.Known {
			t.Errorf("%s has no margin afterwards", r.Label)
		}
	}
	// Nobody knows where these springs are solid on another valve.
	both := solve(t, rec, evaluate.PlanFor{Springs: rec.Parts.Pieces, Shelf: shelfOf(t, 8, 8, 4)})
	if both.Outcome != plan.Proven || both.Plan.Moves.Value != 0 {
		t.Errorf("%d, %d springs moved", both.Outcome, both.Plan.Moves.Value)
	}
}

// The guard is that of the shims that are known least: never less than what is kept back once the plan is on.
func TestPlanningGuardsForTheWorstShim(t *testing.T) {
	rec, pieces := planned(t, 11, 2, 6)
	rec.Setup.Rules.Decision = record.Guarded
	gauge := func(id, u string) {
		rec.Put(record.Gauge{ID: id, Name: id, Kind: record.Micrometer, Step: ptr(in(t, "0.0001")),
			Calibration: &record.Calibration{U: in(t, u), K: "2"}, Repeat: &record.Repeat{S: in(t, "0.0001"), Freedom: "19"}})
	}
	gauge("fine", "0.0001")
	gauge("coarse", "0.0060")
	shelf := shelfOf(t, 8, 8, 4)
	for i, by := range []string{"fine", "coarse", "fine"} {
		shelf[i].Measured, shelf[i].Gauge = ptr(shelf[i].Thickness), by
	}
	made := solve(t, rec, evaluate.PlanFor{Springs: pieces, Shelf: shelf})
	coarse := false
	for i, row := range made.Plan.Rows {
		u, ok := made.Rows[i].After.Margin.U()
		if !ok || row.Fit.Guard < u {
			t.Errorf("%s keeps %v back and is known to %v, %t", made.Rows[i].Label, row.Fit.Guard, u, ok)
		}
		coarse = coarse || slices.ContainsFunc(made.Rows[i].Shims, func(s record.Shim) bool { return s.Gauge == "coarse" })
	}
	if !coarse {
		t.Error("no shim of the coarse gauge is in the plan, so nothing was tried")
	}
}

// Shims for under the outer coil only come out and go back to their own kind.
func TestPlanningTakesOuterShimsOut(t *testing.T) {
	rec, pieces := planned(t, 5, 2, 4)
	outer := evaluate.ShelfShim{Count: 2, Counted: true,
		StockShim: record.StockShim{ID: "outer", Thickness: in(t, "0.020"), Under: record.UnderOuter}}
	for i, at := range rec.Head.Positions()[:2] {
		rec.Put(record.Valve{At: at, Spring: pieces[i].Tag, Stack: []record.Shim{outer.Shim()}})
	}
	made := solve(t, rec, evaluate.PlanFor{Mode: plan.Shims, Shelf: append(shelfOf(t, 5, 5, 5), outer)})
	if !slices.Contains(made.Moves, record.MoveShims("outer", 2)) {
		t.Errorf("moves %v", made.Moves)
	}
}

// Where nobody can tell how sure a margin is, the reason says so in words and in no number that means nothing.
func TestPlanningSaysWhatIsUnsure(t *testing.T) {
	rec, pieces := planned(t, 11, 2, 6)
	rec.Setup.Rules.Decision, rec.Setup.Rules.Assumed = record.Guarded, nil
	made := solve(t, rec, evaluate.PlanFor{Springs: pieces, Shelf: shelfOf(t, 8, 8, 4)})
	if made.Outcome != plan.Nothing {
		t.Fatalf("outcome %d", made.Outcome)
	}
	var said []string
	for _, l := range made.Reason.Lines {
		said = append(said, evaluate.Words(rec.Setup.Units).Line(l))
	}
	if all := strings.Join(said, "\n"); !strings.Contains(all, "by how much it may be off cannot be told") || strings.Contains(all, "guard of") {
		t.Error(all)
	}
}

// A seal that rises with the shims keeps its room, and the plan says how thick they may be for it. One that is too near
// without any is named, and stops nothing.
func TestPlanningKeepsClearOfTheSeal(t *testing.T) {
	rec, _ := planned(t, 11, 2, 6)
	rec.Setup.Rules.SealLeast = in(t, "0.050")
	rec.Parts.Seals = []record.Seal{{ID: "seal", Name: "one-piece", Sits: record.OnLocator}}
	for _, role := range []record.Role{record.Intake, record.Exhaust} {
		p := rec.PackageOf(role)
		p.Seal = "seal"
		rec.Put(p)
	}
	for i, at := range rec.Head.Positions() {
		add(t, rec, at, record.SealGap, 0, []string{"0.690", "0.690", "0.600", "0.900"}[i])
	}
	free := solve(t, rec, evaluate.PlanFor{Mode: plan.Shims, Shelf: shelfOf(t, 8, 8, 4)})
	for _, r := range free.Rows {
		sum := unit.Length(0)
		for _, s := range r.Shims {
			sum += s.Thickness.Length()
		}
		// .690 less a lift of .607 at least and .050 leaves .033 at most.
		if r.At.Cylinder == "1" && sum > 33*unit.Thou {
			t.Errorf("%s stands on %v", r.Label, sum)
		}
	}
	said := evaluate.Words(rec.Setup.Units)
	var notes []string
	for _, n := range free.Notes {
		notes = append(notes, said.Line(n))
	}
	if all := strings.Join(notes, "\n"); !strings.Contains(all, "sets how thick they may be: 1 in .0") || !strings.Contains(all, "can mend: 2 in.") {
		t.Error(all)
	}
}
