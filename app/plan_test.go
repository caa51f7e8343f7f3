//go:build cgo && linux

package main

import (
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"

	"keeperbook/app/internal/task"
	"keeperbook/assets"
)

// A plan of springs is made beside the window, its pick list written, put on the head, and taken back. This is for short runs,
// which are those under -race; in the others the way through the program has a plan of its own.
func TestPlanInTheWindow(t *testing.T) {
	if !testing.Short() {
		t.Skip("TestThePathInSpanish makes a plan too")
	}
	d := newDesktop(t)
	book, err := task.DemoBook(context.Background(), d.home, assets.Demo(), time.Now)
	if err != nil {
		t.Fatal(err)
	}
	const setup = "setup-launch-built"
	p := d.start(book)
	p.listen()
	h := &hand{program: p, eye: d.look()}
	h.eye.calm()

	springs := func() string {
		w := workedOut(book, setup)
		if w == nil {
			return ""
		}
		all := ""
		for _, v := range w.Record.Setup.Valves {
			all += v.Spring + " "
		}
		return all
	}
	before := springs()
	h.put("DR-1L")
	h.key("alt+5")
	h.key("Return") // makes the plan
	h.eye.calm()
	h.key("Tab", "Return", "Return") // exports the pick list, under the name that is proposed
	form := filepath.Join(filepath.Dir(book), "DR-1L-as-built-plan.pdf")
	p.until("the pick list", func() bool { _, err := os.Stat(form); return err == nil })
	h.eye.calm()
	h.key("shift+Tab", "Return") // back to the plan, which is put on
	p.until("other springs on the valves", func() bool { s := springs(); return s != "" && s != before })
	h.key("ctrl+z")
	p.until("the springs as they were", func() bool { return springs() == before })
	p.stop()
}
