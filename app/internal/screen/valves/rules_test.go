package valves_test

import (
	"slices"
	"testing"

	"keeperbook/app/internal/kit/table"
	"keeperbook/app/internal/screen/valves"
	"keeperbook/model/record"
)

// Each path by the order in which it fills a column of a head whose order is its own.
func TestPaths(t *testing.T) {
	head := headOf("1", "2", "3")
	tests := map[valves.Path]struct {
		start string
		want  []string
	}{
		valves.ThisColumn: {"1 ex", []string{"2 in", "2 ex", "3 in", "3 ex"}},
		valves.RoleFirst:  {"1 in", []string{"2 in", "3 in", "1 ex", "2 ex", "3 ex"}},
		valves.Firing:     {"1 in", []string{"1 ex", "3 in", "3 ex", "2 in", "2 ex"}},
		valves.OwnOrder:   {"2 ex", []string{"3 in", "3 ex", "1 in", "1 ex", "2 in"}},
	}
	for path, c := range tests {
		r := newRig(t, head)
		engine := r.bench.Record().Engine
		if slices.Contains(r.Paths(), valves.Firing) {
			t.Error("firing order offered although nobody knows it")
		}
		engine.Firing = []string{"1", "3", "2"}
		r.must(r.bench.Keep(r.ctx, engine))
		r.SetPath(path)
		if r.Path() != path || !slices.Contains(r.Paths(), path) {
			t.Errorf("path %d is not taken", path)
		}
		r.on(c.start, "lift")
		var got []string
		for range c.want {
			r.types(".600⏎")
			s := r.State()
			got = append(got, s.Rows[s.Cursor.Row].Label)
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s goes %v, want %v", r.out.words.Line(path.Line()), got, c.want)
		}
		r.types(".600⏎")
		r.wantHere(c.want[len(c.want)-1], "lift")
		r.wantTold("end of the path")
	}
}

func TestPathPassesFilled(t *testing.T) {
	r := newRig(t, four())
	r.on("1 ex", "base")
	r.types("1842⏎")
	r.on("1 in", "base")
	r.types("1842⏎")
	r.wantHere("3 in", "base")
	r.types("1840⏎1841⏎")
	r.wantHere("3 ex", "base")
	r.wantTold("nothing is left on it")
	r.on("3 in", "seal")
	r.types(".700⏎.700⏎")
	r.wantTold("2 are still empty before it")
	// An estimate and a bind of the spring type want a reading; what was taken once for a role does not.
	r.coils("outer")
	card := record.Card{Lobe: in(t, "0.400"), Ratio: "1.5", Lash: in(t, "0.010"), At: record.Hot}
	r.must(r.bench.Keep(r.ctx,
		record.Spring{ID: "s", Name: "s", Coils: []record.Coil{{Name: "outer", Bind: &record.Bind{Reading: in(t, "1.100"), Source: record.Supplied}}}},
		record.Package{Role: record.Exhaust, Spring: "s", Card: &card}))
	r.Refresh()
	r.on("1 in", "lift")
	r.types(".600⏎")
	r.wantHere("1 ex", "lift")
	r.wantCell("1 ex", "lift", ".590e")
	r.on("1 in", "lift")
	r.Share()
	r.wantTold("is taken from 1 in")
	r.wantCell("3 in", "lift", ".600b")
	r.on("1 ex", "lift")
	r.types(".601⏎")
	r.wantHere("3 ex", "lift")
	r.on("1 in", "bind-1")
	r.wantCell("1 ex", "bind-1", "1.100")
	r.types("1.114⏎")
	r.wantHere("1 ex", "bind-1")
}

func TestNextMissing(t *testing.T) {
	r := newRig(t, four())
	r.coils("outer", "inner")
	r.on("3 in", "base")
	r.types("1842⏎")
	for _, want := range [][2]string{
		{"1 in", "shims"}, {"1 ex", "shims"}, {"3 in", "shims"}, {"3 ex", "shims"}, {"1 in", "bind-1"},
	} {
		r.press(table.NextMissing)
		r.wantHere(want[0], want[1])
	}
	r.on("3 ex", "bind-2")
	r.press(table.NextMissing)
	r.wantHere("1 in", "base")
	if got := r.out.words.Line(r.Next()); got != "Next: 1 in, base height" {
		t.Errorf("next is %q", got)
	}
	r.on("1 in", "verdict")
	if got := r.out.words.Line(r.Next()); got != "Next: 1 in, base height" {
		t.Errorf("next from a column that is worked out is %q", got)
	}
	r.on("1 in", "lift")
	if got := r.out.words.Line(r.Next()); got != "Next: 1 in, lift on checking springs" {
		t.Errorf("next on an empty cell is %q", got)
	}
	if r.Open() != 4 {
		t.Errorf("%d open", r.Open())
	}
}

func TestFilledCell(t *testing.T) {
	tests := map[string]struct {
		answer string
		want   string
		kept   int
		here   string
	}{
		"replaced": {"replace", "1.836", 2, "1 ex"},
		"repeated": {"keep both, as a repeat", "1.839", 2, "1 ex"},
		"dropped":  {"drop the new one", "1.842", 1, "1 in"},
	}
	for name, c := range tests {
		t.Run(name, func(t *testing.T) {
			r := newRig(t, four())
			r.on("1 in", "base")
			r.types("1842⏎")
			r.on("1 in", "base")
			r.types("1836⏎")
			q := r.Asked()
			if q == nil || q.About != valves.AboutFilled || len(r.out.asked) != 1 {
				t.Fatal("nothing was asked")
			}
			if got := r.out.words.Line(q.Line); got != "1 in, base height: was 1.842 in, now 1.836 in." {
				t.Errorf("asked %q", got)
			}
			if e := r.State().Edit; e == nil || e.Text != "1836" {
				t.Error("the text is gone while asked")
			}
			r.answer(c.answer)
			r.wantCell("1 in", "base", c.want)
			r.wantHere(c.here, "base")
			if got := len(r.again().Setup.Readings); got != c.kept {
				t.Errorf("%d readings are kept, want %d", got, c.kept)
			}
		})
	}
	t.Run("a star repeats unasked", func(t *testing.T) {
		r := newRig(t, four())
		r.on("1 in", "base")
		r.types("1842⏎")
		r.on("1 in", "base")
		r.types("1.836*⏎")
		r.wantCell("1 in", "base", "1.839")
	})
	t.Run("shims are replaced or stay", func(t *testing.T) {
		r := newRig(t, four())
		r.on("1 in", "shims")
		r.types("30⏎")
		r.on("1 in", "shims")
		r.types("15⏎")
		if q := r.Asked(); q == nil || len(q.Choices) != 2 {
			t.Fatalf("asked %+v", q)
		}
		r.answer("replace")
		r.wantCell("1 in", "shims", ".015")
	})
}

// Arrows pick an answer and Enter takes the picked one; a burst never answers.
func TestAnswersByKeys(t *testing.T) {
	r := newRig(t, four())
	r.on("1 in", "base")
	r.types("1842⏎")
	r.on("1 in", "base")
	r.types("1836⏎")
	r.press(table.Enter)
	if r.Asked() == nil {
		t.Fatal("Enter alone answered")
	}
	r.press(table.Right)
	if r.Asked().Picked != 0 {
		t.Errorf("picked %d", r.Asked().Picked)
	}
	r.types("1.851⏎")
	if r.Asked() == nil || !slices.Equal(r.trayTexts(), []string{"1.851"}) {
		t.Fatalf("a burst answered; the tray holds %q", r.trayTexts())
	}
	r.press(table.Left, table.Left, table.Enter)
	r.wantCell("1 in", "base", "1.839")
	r.on("1 in", "base")
	r.types("1836⏎")
	r.press(table.Escape)
	r.wantCell("1 in", "base", "1.839")
	if r.Asked() != nil || r.State().Edit != nil {
		t.Error("Escape did not drop the new reading")
	}
}

func TestStrike(t *testing.T) {
	r := newRig(t, four())
	r.on("1 in", "base")
	r.types("1842⏎")
	r.on("1 in", "base")
	r.press(table.Delete)
	r.wantCell("1 in", "base", "")
	if r.Asked() != nil {
		t.Error("a reason was asked for although nothing else remains")
	}
	r.types("1842⏎")
	r.on("1 in", "base")
	r.types("1850*⏎")
	r.on("1 in", "base")
	r.press(table.Delete)
	if q := r.Asked(); q == nil || q.About != valves.AboutStrike || !q.Words {
		t.Fatalf("asked %+v", q)
	}
	r.answer("the gauge slipped")
	r.wantCell("1 in", "base", "1.842")
	r.types("1852*⏎")
	r.on("1 in", "base")
	r.press(table.Delete)
	r.AnswerWords("dropped the head")
	var reasons []string
	for _, reading := range r.again().Setup.Readings {
		if reading.Struck != nil {
			reasons = append(reasons, reading.Struck.Reason)
		}
	}
	if !slices.Equal(reasons, []string{"", "the gauge slipped", "dropped the head"}) {
		t.Errorf("reasons %q", reasons)
	}
	r.on("1 in", "shims")
	r.types("none⏎")
	r.on("1 in", "shims")
	r.press(table.Delete)
	r.wantCell("1 in", "shims", "")
	r.press(table.Delete)
	r.wantTold("nothing to strike")
	r.on("1 in", "calc")
	r.press(table.Delete)
	r.wantTold("takes no entry")
}

func TestSeatAndAccept(t *testing.T) {
	r := newRig(t, four())
	r.on("1 ex", "base")
	r.types("1842⏎")
	r.on("1 ex", "base")
	if err := r.CutSeat("x"); err == nil {
		t.Error("a depth that is no number was taken")
	}
	r.must(r.CutSeat("6"))
	r.wantCell("1 ex", "base", "1.848p!")
	if err := r.Accept("stale", ""); err == nil {
		t.Error("accepted without a reason")
	}
	r.must(r.Accept("stale", "measured again tomorrow"))
	if got := r.again().Setup; len(got.SeatWork) != 1 || len(got.Deviations) != 1 || got.Deviations[0].At != r.Selected() {
		t.Errorf("kept %+v %+v", got.SeatWork, got.Deviations)
	}
	r.on("1 ex", "bind-1")
	r.Share()
	r.wantTold("cannot be carried")
	r.on("1 ex", "check")
	r.types("1790⏎")
	r.on("1 ex", "check")
	r.Share()
	r.wantTold("check height cannot be carried to a role")
	r.on("1 in", "lift")
	r.Share()
	r.wantTold("nothing was read here")
}

func TestUndo(t *testing.T) {
	r := newRig(t, four())
	r.on("1 in", "base")
	r.types("1842⏎")
	r.on("1 in", "base")
	r.types("1836⏎")
	r.answer("replace")
	r.on("3 ex", "tip")
	r.must(r.CutSeat("6"))
	steps := []struct {
		key   table.Key
		label string
		col   string
		told  string
	}{
		{table.Undo, "3 ex", "base", "Taken back: seat of 3 ex cut by .006."},
		{table.Undo, "1 in", "base", "Taken back: 1 in, base height: was 1.836, is 1.842."},
		{table.Undo, "1 in", "base", "Taken back: 1 in, base height: was 1.842, is empty."},
		{table.Redo, "1 in", "base", "Done again: 1 in, base height: was empty, is 1.842."},
		{table.Redo, "1 in", "base", "Done again: 1 in, base height: was 1.842, is 1.836."},
	}
	for _, s := range steps {
		r.press(s.key)
		r.wantHere(s.label, s.col)
		if r.out.last() != s.told {
			t.Errorf("told %q, want %q", r.out.last(), s.told)
		}
	}
	r.press(table.Redo, table.Redo)
	r.wantTold("nothing to do again")
	r.on("1 in", "shims")
	r.types("30⏎")
	r.on("3 ex", "base")
	r.press(table.Undo)
	r.wantHere("1 in", "shims")
	r.wantTold("1 in, shims: was .030, is empty")
}

// A step of another day or person is asked about once, and then as far as that day and person go.
func TestUndoCrosses(t *testing.T) {
	r := newRig(t, four())
	r.on("1 in", "base")
	r.types("1842⏎1843⏎")
	r.time.passes(24 * 60 * 60 * 1e9)
	r.press(table.Undo)
	q := r.Asked()
	if q == nil || q.About != valves.AboutUndo {
		t.Fatal("a day was crossed unasked")
	}
	if got := r.out.words.Line(q.Line); got != "The next step is by M. Ashlock, of 2026-06-01: 1 ex, base height 1.843." {
		t.Errorf("asked %q", got)
	}
	r.answer("leave it")
	r.wantCell("1 ex", "base", "1.843")
	r.press(table.Undo)
	r.answer("take it back")
	r.press(table.Undo)
	if r.Asked() != nil {
		t.Error("asked again within the same day")
	}
	r.wantCell("1 in", "base", "")
	r.press(table.Undo)
	r.wantTold("nothing to take back")
	// Somebody else sits down.
	r.on("1 in", "base")
	r.types("1842⏎")
	r.desk.Who = "J. Reed"
	r.press(table.Undo)
	if r.Asked() == nil {
		t.Fatal("a person was crossed unasked")
	}
	r.press(table.Escape)
	r.wantCell("1 in", "base", "1.842")
}
