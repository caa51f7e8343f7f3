//go:build cgo && linux

package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"keeperbook/app/internal/task"
	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/unit"
	"keeperbook/store"
)

// way is one run of the program on the way from the first lesson to a day of use.
type way struct {
	*hand
	book  string // of the first lesson
	other string // the one that takes it in
}

// From the first start to a day of use in one run of the program, in Spanish and by keys, with a hand-drawn signature: the first
// lesson, a plan, the signed sheet, another book that takes it in and checks it, and a day and a check there.
func TestThePathInSpanish(t *testing.T) {
	onceARun(t)
	d := newDesktop(t)
	d.locale = "es_ES.UTF-8"
	p := d.start()
	p.listen()
	w := &way{hand: &hand{program: p, eye: d.look()}, book: filepath.Join(d.home, "data", "keeperbook", "first-head.keeperbook")}
	w.eye.calm()
	steps := []struct {
		name string
		do   func(*testing.T)
	}{
		{"first lesson", w.learn}, {"plan", w.plan}, {"in Spanish", w.reads}, {"signature", w.signs}, {"another book", w.hands}, {"a day of use", w.lives},
	}
	for _, s := range steps {
		if !t.Run(s.name, func(t *testing.T) {
			d.t, w.eye.t = t, t
			s.do(t)
		}) {
			break // the next step stands on this one
		}
	}
	d.t, w.eye.t = t, t
	p.stop()
}

// first works the head of the lesson out from a book; nil where it is not there yet.
func first(book string) *task.Worked { return workedOut(book, task.FirstSetup) }

// valve is one of the two of the lesson's head.
func (w *way) valve(role record.Role) evaluate.Valve {
	v, _ := valveIn(w.book, task.FirstSetup, record.Position{Cylinder: "1", Role: role, N: 1})
	return v
}

// learn does what the lesson says, step by step.
func (w *way) learn(t *testing.T) {
	w.key("f")
	w.until("the head of the lesson", func() bool { return first(w.book) != nil })
	w.eye.calm()
	w.enter("1.842", "1.838") // the cursor is where the lesson begins
	w.until("both heights", func() bool {
		return w.valve(record.Intake).Base.Value == 1842*unit.Thou && w.valve(record.Exhaust).Base.Value == 1838*unit.Thou
	})
	w.key("F3")
	w.enter(".075", ".110")
	w.on("Tab", "Tab", "Up") // over the check height to the lift
	w.enter(".560", ".560")
	w.until("a valve that is short", func() bool {
		return w.valve(record.Intake).Verdict == evaluate.Within && w.valve(record.Exhaust).Verdict == evaluate.Short
	})
	w.on("shift+Tab", "shift+Tab")
	w.put(".075")
	w.key("Right", "Return") // instead of what is there
	w.until("the valve mended", func() bool { return w.valve(record.Exhaust).Verdict == evaluate.Within })
	w.eye.calm()
	w.click(1105, 54) // puts away what the lesson says at its end
}

// on goes on by keys that need no looking in between.
func (w *way) on(keys ...string) {
	w.t.Helper()
	w.press(keys...)
	w.eye.calm()
}

// enter types readings down a column.
func (w *way) enter(texts ...string) {
	w.t.Helper()
	for _, text := range texts {
		w.write(text)
		w.press("Return")
		time.Sleep(10 * time.Millisecond)
	}
	w.eye.calm()
}

// stacks are the shims under both valves.
func (w *way) stacks() string {
	worked, all := first(w.book), ""
	if worked == nil {
		return "" // the program is writing
	}
	for _, v := range worked.Record.Setup.Valves {
		for _, s := range v.Stack {
			all += v.At.String() + " " + s.Thickness.Read + " "
		}
	}
	return all
}

// plan has a plan made of shims alone, lets its pick list out, puts it on, takes it back and puts it on again.
func (w *way) plan(t *testing.T) {
	before := w.stacks()
	w.key("alt+5", "shift+Tab", "shift+Tab", "Right", "Return", "Return") // to shims alone, and back to the button
	w.key("Return")                                                       // makes the plan
	w.eye.calm()
	w.key("Tab", "Return", "Return") // exports the pick list, under the name that is proposed
	form := filepath.Join(filepath.Dir(w.book), "FIRST-as-built-plan.pdf")
	w.until("the pick list", func() bool { _, err := os.Stat(form); return err == nil })
	w.eye.calm()
	w.key("shift+Tab", "Return") // back to the plan, which is put on
	w.until("other shims under the springs", func() bool { s := w.stacks(); return s != "" && s != before })
	planned := w.stacks()
	w.key("ctrl+z")
	w.until("the shims as they were", func() bool { return w.stacks() == before })
	w.key("ctrl+y")
	w.until("the plan put on again", func() bool { return w.stacks() == planned })
	for _, role := range []record.Role{record.Intake, record.Exhaust} {
		if v := w.valve(role); v.Verdict != evaluate.Within {
			t.Errorf("%s is %s with the plan", v.Label, v.Verdict)
		}
	}
	w.eye.calm()
}

// reads looks at what the window says of it all, by the history on the clipboard.
func (w *way) reads(t *testing.T) {
	w.key("ctrl+h", "Tab", "Return") // to the button that copies it
	var said string
	w.until("the history on the clipboard", func() bool { said = w.clipboard(); return strings.Contains(said, "\t") })
	for _, words := range []string{"rehecho: 1 in, piezas y suplementos", "deshecho: 1 ex, piezas y suplementos", "1 in, altura base", "1 ex, alzada con resortes de prueba"} {
		if !strings.Contains(said, words) {
			t.Errorf("the window does not say %q; it says\n%s", words, said)
		}
	}
	w.eye.calm()
	w.click(82, 50) // back to the head
}

// secret opens the key of the signer.
const secret = "grinding paste"

// signs makes a signer, draws the signature by hand, signs the sheet of the lesson's head with it and lets the sheet out.
func (w *way) signs(t *testing.T) {
	w.key("ctrl+p")
	w.click(515, 120) // to the page of signers
	w.key("Tab", "Return")
	for _, text := range []string{"J. Peverel", "head porter", "", secret, secret} {
		w.slowly(text)
	}
	signers := filepath.Join(w.home, "config", "keeperbook", "signers")
	w.until("the signer's files", func() bool { return count(signers, "*.p12") == 1 && count(signers, "*.json") == 1 })
	w.eye.calm()
	w.on("Tab", "Tab", "Tab", "Tab", "Tab", "Tab", "Tab", "Tab")
	w.key("Return")
	w.draw([][2]int{{560, 660}, {600, 610}, {640, 670}, {690, 600}, {760, 668}, {900, 640}}, [][2]int{{540, 680}, {1000, 672}})
	w.key("Tab", "Return") // keeps it
	w.slowly(secret)
	w.until("the drawn signature", func() bool { return count(signers, "*.hand") == 1 })
	w.eye.calm()

	w.click(82, 50) // back to the head
	w.key("alt+6", "s")
	w.key("Return")
	w.slowly(secret)
	w.until("a closed set-up", func() bool {
		worked := first(w.book)
		return worked != nil && worked.Record.Setup.State == record.Closed
	})
	w.eye.calm()
	w.key("p", "Return")
	w.until("the signed sheet", func() bool { _, err := os.Stat(w.sheet()); return err == nil })
	v, err := task.Verify(w.signed(t))
	if err != nil || !v.Whole || v.Pages != task.PagesAgree || v.Signatures[0].Name != "J. Peverel" || v.Signatures[0].Reason != "head porter" {
		t.Fatalf("%v, %+v", err, v)
	}
	if ink := v.Signatures[0].Ink; len(ink) != 2 || len(ink[0]) < 4 || len(ink[1]) < 2 {
		t.Errorf("drawn was %v", ink)
	}
}

// sheet is where the signed sheet goes.
func (w *way) sheet() string { return filepath.Join(filepath.Dir(w.book), "FIRST-as-built.pdf") }

// signed is the signed sheet.
func (w *way) signed(t *testing.T) []byte {
	t.Helper()
	file, err := os.ReadFile(w.sheet())
	if err != nil {
		t.Fatal(err)
	}
	return file
}

// slowly types a text and Enter as somebody does who thinks in between: what ends at once was a gauge.
func (w *way) slowly(text string) {
	w.t.Helper()
	if text != "" {
		w.puts(text)
	}
	time.Sleep(150 * time.Millisecond)
	w.key("Return")
}

// hands has another shop's book look at the sheet, take the record in and trust whoever signed.
func (w *way) hands(t *testing.T) {
	ctx := context.Background()
	w.other = filepath.Join(w.home, "other.keeperbook")
	theirs, err := task.MakeBook(ctx, w.other, "test", time.Now)
	if err != nil {
		t.Fatal(err)
	}
	if err := theirs.Close(); err != nil {
		t.Fatal(err)
	}
	w.key("ctrl+o", "ctrl+a")
	w.put(w.other)
	w.check(w.sheet())
	w.key("Tab", "Return") // takes it in
	w.until("the record in the other book", func() bool { return first(w.other) != nil })
	w.eye.calm()
	w.key("Return") // trusts whoever signed
	w.slowly("")    // the name that is proposed
	w.slowly("by telephone")
	w.until("the trust in the other book", func() bool { return trusts(w.other) == 1 })
	w.eye.calm()

	file := w.signed(t)
	theirs, err = task.ReadBook(ctx, w.other, "test", time.Now)
	if err != nil {
		t.Fatal(err)
	}
	defer theirs.Close()
	kept, err := theirs.Verify(ctx, file)
	if err != nil || kept.Book.Here != task.HereSame || kept.Book.Trusts[0] == nil || kept.Book.Trusts[0].How != "by telephone" {
		t.Errorf("%v, %+v", err, kept.Book)
	}
	same, err := task.Sheet(ctx, theirs.Book, task.FirstSetup, task.A4)
	if err != nil || !bytes.Equal(same, file) {
		t.Errorf("the other book has another sheet: %v", err)
	}
}

// lives logs a day and a check of the head in the book that took it in.
func (w *way) lives(t *testing.T) {
	ctx := context.Background()
	w.key("ctrl+f")
	w.put("FIRST")
	w.key("alt+7")
	w.slowly("6 passes, 9.5 s, mean 6800, top 7800")
	lived := func() (l store.Life) {
		b, err := store.OpenReadOnly(ctx, w.other, store.Options{})
		if err != nil {
			return l
		}
		defer b.Close()
		l, _ = b.Life(ctx, "head-first")
		return l
	}
	w.until("the day in the book", func() bool { return len(lived().Runs) == 1 })
	w.eye.calm()
	w.on("Tab", "Tab") // over the runs
	w.key("Return")    // to a check
	w.slowly("131, polish")
	w.slowly("129")
	w.slowly("2030-01-02")    // the day of the next check
	w.key("Return", "Return") // to the button, and keeps it
	w.until("the check in the book", func() bool { return len(lived().Checks) == 1 })
	l := lived()
	if r := l.Runs[0]; r.Count != "6" || r.Kind != record.Passes || r.Mean != "6800" {
		t.Errorf("%+v", r)
	}
	if c := l.Checks[0]; len(c.Valves) != 2 || c.Valves[0].Seen[0] != record.Polish || c.Valves[1].Load.Read != "129" || c.NextDay != "2030-01-02" {
		t.Errorf("%+v", c)
	}
	b, err := store.OpenReadOnly(ctx, w.other, store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	all, err := task.Dues(ctx, b, record.Date(time.Now().Format(time.DateOnly)))
	if err != nil {
		t.Fatal(err)
	}
	for _, due := range all {
		if strings.HasPrefix(due.Text, "FIRST, ") && strings.Contains(due.Text, "watch the spring: polish") {
			return
		}
	}
	t.Errorf("nothing falls due of the check: %+v", all)
}
