//go:build cgo && linux

package main

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
	"unicode"

	"keeperbook/app/internal/task"
	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// fewKeys is the most keys, beyond the digits of what was measured, from the first start to the first verdict.
const fewKeys = 40

// hand presses keys as a person does: it looks whether the window has taken one in before the next.
type hand struct {
	*program
	eye  *eye
	keys int // pressed so far, digits and what stands in numbers left out
}

// key presses keys, and after each waits until the window shows that it came.
func (h *hand) key(keys ...string) {
	h.t.Helper()
	for _, k := range keys {
		before := h.eye.see(all)
		h.press(k)
		h.keys++
		if _, ok := h.eye.changed(all, before); !ok {
			h.shot(filepath.Join(os.TempDir(), "keeperbook-waited.png"))
			h.t.Fatalf("the window does not answer to %s", k)
		}
		h.eye.calm()
	}
}

// put types a text and then Enter.
func (h *hand) put(text string) {
	h.t.Helper()
	h.puts(text)
	h.key("Return")
}

// puts types a text.
func (h *hand) puts(text string) {
	h.t.Helper()
	before := h.eye.see(all)
	h.write(text)
	for _, r := range text {
		if !unicode.IsDigit(r) && !strings.ContainsRune(".+", r) {
			h.keys++
		}
	}
	h.eye.changed(all, before)
	h.eye.calm()
}

// measured is what the hand types for the valve of a row: a head of six cylinders whose heights, stacks, lifts
// and binds all differ, so that none can be taken for another. Invented.
func measured(row int) (base, shims, lift, bind string) {
	stacks := []string{"30", "15", "30+15", "0", "15+15", "60"}
	return fmt.Sprint(1838 + row), stacks[row%len(stacks)], fmt.Sprint(612 - row), fmt.Sprint(1058 + row/2)
}

// From nothing to a sheet by the keyboard alone: a new book, a head with twelve valves, a spring, and every
// height, stack, lift and bind typed as they are measured. What the window shows is what the sheet says and
// what the book is worked out to.
func TestFirstUse(t *testing.T) {
	onceARun(t)
	d := newDesktop(t)
	p := d.start()
	p.listen()
	h := &hand{program: p, eye: d.look()}
	h.eye.calm()

	h.key("n")
	h.key("Return")
	book := filepath.Join(d.home, "heads.keeperbook")
	p.until("a new book", func() bool { _, err := os.Stat(book); return err == nil })
	h.eye.calm()
	h.key("ctrl+n")
	h.put("21")
	h.put("6")
	for range 8 {
		h.key("Return")
	}
	var setup string
	p.until("the new head in the book", func() bool { setup = newest(book); return setup != "" })
	h.eye.calm()
	h.key("Return") // the first question leads to the parts
	h.key("Return") // where the first spring is named
	h.put("A")
	h.key("Tab") // its bind is measured valve by valve
	h.put("60")  // least margin
	h.key("Return", "Down", "Return")
	h.key("Tab")
	h.put("60") // and on to the valves

	at := func(row int) record.Position {
		role := record.Intake
		if row%2 == 1 {
			role = record.Exhaust
		}
		return record.Position{Cylinder: fmt.Sprint(row/2 + 1), Role: role, N: 1}
	}
	base, shims, lift, bind := measured(0)
	for _, cell := range []string{base, "", shims, "", lift} { // seal and check height are passed over
		if cell != "" {
			h.puts(cell)
		}
		h.key("Tab")
	}
	h.put(bind)
	p.until("the first verdict", func() bool {
		v, ok := valveIn(book, setup, at(0))
		return ok && v.Verdict == evaluate.Within
	})
	t.Logf("%d keys and no click from the first start to the first verdict, digits left out", h.keys)
	if h.keys >= fewKeys {
		t.Errorf("%d keys to the first verdict, and fewer than %d were promised", h.keys, fewKeys)
	}

	// The rest as it comes off the gauges, a column at a time: down the binds first, where the keyboard is, then
	// with F3 to the top of the next that is missing. A lift is not asked for, as a shop that has the head
	// alone cannot measure it: the keyboard is taken there.
	for i, column := range []int{3, 0, 1, 2} {
		switch i {
		case 1, 2:
			h.key("F3")
		case 3:
			h.key("Tab", "Tab", "Up", "Up", "Up", "Up", "Up", "Up", "Up", "Up", "Up", "Up")
		}
		for row := 1; row < 12; row++ {
			base, shims, lift, bind := measured(row)
			p.write([]string{base, shims, lift, bind}[column])
			p.press("Return")
			time.Sleep(10 * time.Millisecond)
		}
		h.eye.calm()
	}
	p.until("all twelve valves in the book", func() bool {
		for row := range 12 {
			if v, ok := valveIn(book, setup, at(row)); !ok || !v.Margin.Known {
				return false
			}
		}
		return true
	})
	for row := range 12 {
		v, _ := valveIn(book, setup, at(row))
		base, _, lift, bind := measured(row)
		for what, pair := range map[string][2]string{"base": {base, thou(v.Base.Value)}, "lift": {lift, thou(v.Lift.Value)}, "bind": {bind, thou(v.Coils[0].Bind.Value)}} {
			if pair[0] != pair[1] {
				t.Errorf("%v: %s typed %s, in the book %s", at(row), what, pair[0], pair[1])
			}
		}
	}

	// The sheet, and what the window shows.
	h.key("alt+6")
	h.key("p")
	h.key("Return")
	sheet := filepath.Join(d.home, "21-as-found.pdf")
	p.until("the sheet", func() bool { _, err := os.Stat(sheet); return err == nil })
	h.eye.calm()
	p.press("c")
	var shown string
	p.until("the figures on the clipboard", func() bool { shown = p.clipboard(); return strings.Contains(shown, "\t") })
	text, err := exec.Command("pdftotext", "-layout", sheet, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	w := workedOut(book, setup)
	if w == nil {
		t.Fatal("the book does not open")
	}
	compare(t, shown, string(text), w.Figures)
	p.stop()
}

// workedOut works a set-up out from the book beside the running program; nil where it is not there yet.
func workedOut(book, setup string) *task.Worked {
	ctx := context.Background()
	desk, err := task.ReadBook(ctx, book, "test", time.Now)
	if err != nil {
		return nil
	}
	defer desk.Close()
	w, err := task.Work(ctx, desk.Book, setup)
	if err != nil {
		return nil
	}
	return &w
}

// valveIn works out one valve of a set-up.
func valveIn(book, setup string, at record.Position) (evaluate.Valve, bool) {
	w := workedOut(book, setup)
	if w == nil {
		return evaluate.Valve{}, false
	}
	for _, v := range w.Evaluation.Valves {
		if v.At == at {
			return v, true
		}
	}
	return evaluate.Valve{}, false
}

// newest is the set-up of the head that came in last; "" where the book has none.
func newest(book string) string {
	ctx := context.Background()
	desk, err := task.ReadBook(ctx, book, "test", time.Now)
	if err != nil {
		return ""
	}
	defer desk.Close()
	heads, err := desk.Heads(ctx, "")
	if err != nil || len(heads) == 0 {
		return ""
	}
	return heads[0].Setup
}

// thou writes a length as a person types it in an inch column, in thousandths.
func thou(l unit.Length) string { return fmt.Sprint(int64(l / unit.Thou)) }

// compare holds every line of figures that the window gave against the page, read by a reader that is not
// ours, and against the book worked out anew: every cell in its order on its valve's line.
func compare(t *testing.T, shown, page string, worked record.Figures) {
	t.Helper()
	lines := strings.Split(strings.TrimSpace(shown), "\n")[1:]
	if len(lines) != len(worked.Rows) {
		t.Fatalf("the window shows %d valves, the book has %d", len(lines), len(worked.Rows))
	}
	cells := 0
	for i, line := range lines {
		of := strings.Split(line, "\t")
		if want := append([]string{worked.Rows[i].Valve}, worked.Rows[i].Cells...); strings.Join(of, "|") != strings.Join(want, "|") {
			t.Errorf("the window shows\n%q, the book is worked out to\n%q", of, want)
		}
		var printed string
		for _, l := range strings.Split(page, "\n") {
			if strings.HasPrefix(strings.TrimSpace(l), of[0]+" ") {
				printed = l
				break
			}
		}
		rest := printed
		for _, cell := range of {
			at := strings.Index(rest, cell)
			if at < 0 {
				t.Errorf("%s: %q of the window is not in its place on the page: %q", of[0], cell, printed)
				continue
			}
			rest = rest[at+len(cell):]
			if cell != "" {
				cells++
			}
		}
	}
	t.Logf("%d cells of %d valves are the same in the window, on the page and in the book", cells, len(lines))
}

// clipboard is what the window put there last.
func (d *desktop) clipboard() string {
	cmd := exec.Command("xclip", "-selection", "clipboard", "-o")
	cmd.Env = append(os.Environ(), "DISPLAY="+d.display)
	out, _ := cmd.Output() // fails while there is nothing
	return string(out)
}
