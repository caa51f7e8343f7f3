package task_test

import (
	"context"
	"errors"
	"slices"
	"testing"

	"keeperbook/app/internal/task"
	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// tableBench is a set-up of four valves with one reading in each of two columns.
func tableBench(t *testing.T) *task.Bench {
	t.Helper()
	ctx, d := context.Background(), emptyDesk(t)
	setup, err := d.Begin(ctx, newHead)
	if err != nil {
		t.Fatal(err)
	}
	b, err := d.OpenBench(ctx, setup)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func baseOf(at record.Position, text string) task.Cell {
	return task.Cell{Entry: task.Entry{At: at, Kind: record.BaseHeight, Text: text}}
}

func shimsOf(at record.Position, text string) task.Cell {
	return task.Cell{Entry: task.Entry{At: at, Text: text}, Under: record.UnderLocator}
}

var (
	in1 = record.Position{Cylinder: "1", Role: record.Intake, N: 1}
	ex1 = record.Position{Cylinder: "1", Role: record.Exhaust, N: 1}
	in3 = record.Position{Cylinder: "3", Role: record.Intake, N: 1}
)

// What +2 counts from: the cell's own last reading, else the middle one of its role.
func TestNominal(t *testing.T) {
	b, ctx := tableBench(t), context.Background()
	if _, err := b.Understand(baseOf(in3, "+2")); say.CodeOf(err) != say.Invalid {
		t.Errorf("+2 counts from nothing: %v", err)
	}
	for _, c := range []task.Cell{baseOf(in1, "1842"), baseOf(ex1, "1900")} {
		if err := b.Take(ctx, c, task.First); err != nil {
			t.Fatal(err)
		}
	}
	for _, c := range []struct {
		cell task.Cell
		want string
	}{
		{baseOf(in3, "+2"), "1.844 in"}, {baseOf(in3, "-3"), "1.839 in"}, {baseOf(ex1, "+1"), "1.901 in"},
		{task.Cell{Entry: baseOf(in3, `"`).Entry, Above: &ex1}, "1.900 in"}, {shimsOf(in1, "2x15"), ".015+.015 in"},
		{shimsOf(in1, "none"), "none"},
	} {
		if got, err := b.Understand(c.cell); err != nil || got != c.want {
			t.Errorf("%s reads as %q, %v; want %q", c.cell.Text, got, err, c.want)
		}
	}
	if err := b.Take(ctx, baseOf(in1, "1850"), task.Again); err != nil {
		t.Fatal(err)
	}
	if got, err := b.Understand(baseOf(in1, "+1")); err != nil || got != "1.851 in" {
		t.Errorf("+1 on a cell read twice is %q, %v", got, err)
	}
}

func TestTakeAndStrike(t *testing.T) {
	b, ctx := tableBench(t), context.Background()
	for _, step := range []struct {
		cell task.Cell
		how  task.Taking
		want int
	}{{baseOf(in1, "1842"), task.First, 1}, {baseOf(in1, "1844"), task.Again, 2}, {baseOf(in1, "+1"), task.Instead, 1}} {
		if err := b.Take(ctx, step.cell, step.how); err != nil {
			t.Fatal(err)
		}
		if got := len(b.Counting(step.cell)); got != step.want || !b.Filled(step.cell) {
			t.Errorf("after %s %d readings count, want %d", step.cell.Text, got, step.want)
		}
	}
	if q := b.Counting(baseOf(in1, ""))[0].Quantity; q.Read != "1.845" || q.Typed != "+1" {
		t.Errorf("kept %+v", q)
	}
	if err := b.Take(ctx, baseOf(in1, "1842"), task.First); say.CodeOf(err) != say.Conflict {
		t.Errorf("a filled place took another reading: %v", err)
	}
	if err := b.StrikeLast(ctx, baseOf(in1, ""), "misread"); err != nil || b.Filled(baseOf(in1, "")) {
		t.Errorf("not struck: %v", err)
	}
	for range 2 { // the second time there is nothing to strike
		if err := b.StrikeLast(ctx, baseOf(in1, ""), ""); err != nil {
			t.Error(err)
		}
	}
	if err := b.Take(ctx, shimsOf(in1, "none"), task.First); err != nil || !b.Filled(shimsOf(in1, "")) {
		t.Errorf("no shims said: %v", err)
	}
	if got := b.Raw(shimsOf(in1, "")); got != "none" {
		t.Errorf("written as %q", got)
	}
	if err := b.StrikeLast(ctx, shimsOf(in1, ""), ""); err != nil || b.Filled(shimsOf(in1, "")) {
		t.Errorf("still said: %v", err)
	}
}

// A reading that the bench does not know of, as somebody kept it past it, is not written over.
func TestNothingIsWrittenOver(t *testing.T) {
	ctx, d := context.Background(), emptyDesk(t)
	setup, err := d.Begin(ctx, newHead)
	if err != nil {
		t.Fatal(err)
	}
	var benches [2]*task.Bench
	for i := range benches {
		if benches[i], err = d.OpenBench(ctx, setup); err != nil {
			t.Fatal(err)
		}
	}
	if err := benches[0].Take(ctx, baseOf(in1, "1842"), task.First); err != nil {
		t.Fatal(err)
	}
	if err := benches[1].Take(ctx, baseOf(in1, "1700"), task.First); say.CodeOf(err) != say.Conflict {
		t.Errorf("it was: %v", err)
	}
	again, err := d.OpenBench(ctx, setup)
	if err != nil {
		t.Fatal(err)
	}
	if all := again.Counting(baseOf(in1, "")); len(all) != 1 || all[0].Quantity.Read != "1.842" {
		t.Errorf("the book has %+v", all)
	}
}

// A cell that is copied means the same wherever it is typed again: it reads as it was, or is asked about; in the language that it
// was copied in it reads.
func TestCopiedMeansTheSame(t *testing.T) {
	if testing.Short() {
		t.Skip("once a run is enough: one goroutine does one thing after the other")
	}
	defer say.Speak("en")
	languages := []string{"en", "de", "es"}
	for _, units := range []record.Units{{Length: unit.In, Load: unit.Lbf}, {Length: unit.Mm, Load: unit.N}} {
		for _, c := range []struct {
			cell task.Cell
			text string
		}{
			{loadOf("131.250"), "131.250 lbf"}, {loadOf("131.125"), "131.125 lbf"}, {loadOf("12.500"), "12.500 lbf"}, {loadOf("0.125"), "0.125 N"},
			{loadOf("1250"), "1250 N"}, {loadOf("583.375"), "583.375 N"},
			{shimsOf(in1, "0.5"), "0.5 mm"}, {shimsOf(in1, "1.5"), "1.5 mm"}, {shimsOf(in1, "1.1"), "1.1 mm+2.25 mm"}, {shimsOf(in1, ".060"), "2x.060 in+.3 in"},
			{baseOf(in1, "46.79"), "46.790 mm"}, {baseOf(in1, "1.842"), "1.842 in"},
		} {
			say.Speak("en")
			b := emptyBench(t, units)
			was := c.cell
			was.Text = c.text
			switch err := b.Take(context.Background(), was, task.First); {
			case unit.Choices(err) != nil:
				continue // these units ask about it
			case err != nil:
				t.Fatal(c.text, err)
			}
			for _, from := range languages {
				say.Speak(from)
				copied := b.Raw(was)
				for _, to := range languages {
					say.Speak(to)
					var got, want []int64
					var err error
					if was.Under != "" {
						var all []unit.Quantity
						all, _, err = unit.ParseStack(record.ShimColumn(units), copied)
						for _, q := range all {
							got = append(got, q.Value)
						}
						for _, s := range b.Record().ValveAt(was.At).Stack {
							want = append(want, s.Thickness.Value)
						}
					} else {
						var e unit.Entry
						e, err = unit.Parse(record.ColumnOf(was.Kind, units), copied)
						got, want = []int64{e.Quantity.Value}, []int64{b.Counting(was)[0].Quantity.Value}
					}
					if err == nil && !slices.Equal(got, want) || err != nil && from == to {
						t.Errorf("%s in %v, copied in %s as %q, reads %v in %s, %v; want %v", c.text, units, from, copied, got, to, err, want)
					}
				}
			}
		}
	}
}

func loadOf(text string) task.Cell {
	return task.Cell{Entry: task.Entry{At: in1, Kind: record.SeatLoad, Text: text}}
}

func TestTryKeepsNothing(t *testing.T) {
	b, ctx := tableBench(t), context.Background()
	if err := b.Take(ctx, baseOf(in1, "1842"), task.First); err != nil {
		t.Fatal(err)
	}
	before := len(b.Record().Setup.Readings)
	v, err := b.Try(baseOf(in1, "1850"))
	if err != nil || unit.Inches.LengthIn(v.Base.Value) != "1.850" || v.Label != "1 in" {
		t.Errorf("tried %+v, %v", v.Base, err)
	}
	if v, err = b.Try(shimsOf(in1, "30")); err != nil || unit.Inches.LengthIn(v.Installed.Value) != "1.812" {
		t.Errorf("tried %+v, %v", v.Installed, err)
	}
	if _, err = b.Try(baseOf(in1, "x")); err == nil {
		t.Error("tried what is no number")
	}
	if now := b.Evaluation().Valves[0]; len(b.Record().Setup.Readings) != before || now.StackSaid || unit.Inches.LengthIn(now.Base.Value) != "1.842" {
		t.Error("something was kept")
	}
}

func TestTakeBlock(t *testing.T) {
	b, ctx := tableBench(t), context.Background()
	faults, err := b.TakeBlock(ctx, []task.Cell{baseOf(in1, "1842"), baseOf(ex1, "x"), baseOf(in1, "1843")})
	if err != nil || len(faults) != 2 || faults[0].Index != 1 || faults[1].Index != 2 {
		t.Errorf("faults %v, %v", faults, err)
	}
	if len(b.Record().Setup.Readings) != 0 {
		t.Error("part of a block was kept")
	}
	faults, err = b.TakeBlock(ctx, []task.Cell{
		baseOf(in1, "1842"), baseOf(in1, "1844*"), {Entry: baseOf(ex1, `"`).Entry, Above: &in1}, shimsOf(in1, "30"),
	})
	if err != nil || len(faults) != 0 {
		t.Fatalf("faults %v, %v", faults, err)
	}
	if got := b.Raw(baseOf(in1, "")); got != "1.842; 1.844*" {
		t.Errorf("written as %q", got)
	}
	if got := b.Raw(baseOf(ex1, "")); got != "1.844" {
		t.Errorf("repeated from the block itself as %q", got)
	}
	if _, err := b.Undo(ctx); err != nil || len(b.Record().Setup.Readings) != 0 {
		t.Errorf("one undo does not take the block back: %v", err)
	}
}

func TestSplit(t *testing.T) {
	rows := task.SplitBlock("1\t2\r\n\t3\n\n\n")
	if len(rows) != 2 || len(rows[0]) != 2 || rows[1][0] != "" || rows[1][1] != "3" || task.SplitBlock("\n") != nil {
		t.Errorf("split into %q", rows)
	}
	if cells := task.SplitCell(" 1.155 [lid .095]; 1.157* ;"); len(cells) != 2 || cells[1] != "1.157*" {
		t.Errorf("split into %q", cells)
	}
	for text, want := range map[string]struct {
		reading, word string
		said          bool
	}{
		"1.155 [lid .095]": {"1.155", "lid .095", true}, "1.155": {"1.155", "", false}, "1.155 []": {"1.155", "", true}, "1.1]": {"1.1]", "", false},
	} {
		if reading, word, said := task.CutCorrection(text); reading != want.reading || word != want.word || said != want.said {
			t.Errorf("%q is %q, %q, %v", text, reading, word, said)
		}
	}
}

// The word of a correction reads back as what it was written from.
func TestCorrectionWord(t *testing.T) {
	b := tableBench(t)
	lid, err := unit.Of("0.095", unit.In)
	if err != nil {
		t.Fatal(err)
	}
	under, err := unit.Of("-0.001", unit.In)
	if err != nil {
		t.Fatal(err)
	}
	setting := []record.Taken{
		{Part: record.Lid, Amount: lid, Zero: record.NotZeroed}, {Part: record.RetainerStep, Amount: lid, Zero: record.Zeroed},
		{Part: record.ZeroOffset, Amount: under, Zero: record.NotZeroed},
	}
	for _, taken := range [][]record.Taken{nil, setting} {
		back, err := b.Correction(task.CorrectionWord(taken), nil, record.BindReading)
		if err != nil || len(back) != len(taken) {
			t.Fatalf("%v reads back as %v, %v", taken, back, err)
		}
		for i := range back {
			if back[i].Part != taken[i].Part || back[i].Zero != taken[i].Zero || back[i].Amount.Value != taken[i].Amount.Value {
				t.Errorf("%+v reads back as %+v", taken[i], back[i])
			}
		}
	}
	// As set, a bind goes through all of it and a lift through nothing but the zero offset.
	for kind, want := range map[record.Kind]int{record.BindReading: 3, record.LiftChecking: 1} {
		if back, err := b.Correction("as-set", &record.Gauge{Setting: setting}, kind); err != nil || len(back) != want {
			t.Errorf("the gauge's setting reads as %v for %s, %v", back, kind, err)
		}
	}
	for _, word := range []string{"as-set", "lid", "lid .095 + lid .095", "", "nonsense"} {
		if _, err := b.Correction(word, nil, record.BindReading); say.CodeOf(err) != say.Invalid {
			t.Errorf("%q was taken: %v", word, err)
		}
	}
	if line := task.Told(errors.New("words")); line.Args[0] != "words" {
		t.Errorf("told %v", line)
	}
}

// A check height that is entered with the shims under it in one block holds.
func TestBlockOver(t *testing.T) {
	b, ctx := tableBench(t), context.Background()
	check := task.Cell{Entry: task.Entry{At: in1, Kind: record.CheckHeight, Text: "1.812"}}
	if faults, err := b.TakeBlock(ctx, []task.Cell{baseOf(in1, "1842"), shimsOf(in1, "30"), check}); err != nil || len(faults) > 0 {
		t.Fatal(faults, err)
	}
	if v := b.Evaluation().Valves[0]; v.Check.Stale || v.Verdict == evaluate.Stale {
		t.Error("the check height counts as taken before the shims")
	}
}
