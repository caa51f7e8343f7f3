//go:build cgo && linux

package main

import (
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
	w.enter("1,842", "1.838") // the cursor is where the lesson begins
	w.until("both heights", func() bool {
		return w.valve(record.Intake).Base.Value == 1842*unit.Thou && w.valve(record.Exhaust).Base.Value == 1838*unit.Thou
	})
	w.key("F3")
	w.enter(",075", ".110")
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
	w.key("Escape") // puts away what the lesson says at its end
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
	w.slowly("2/1/2030")      // the day of the next check
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
