//go:build cgo && linux

package main

import (
	"context"
	"path/filepath"
	"testing"
	"time"

	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// What a tester said of a spring is typed on the shop's page, pair by pair; a test that cannot be is refused and
// stays to be corrected. By the keyboard alone.
func TestTesterInTheWindow(t *testing.T) {
	onceARun(t)
	d := newDesktop(t)
	book := filepath.Join(d.home, "springs.keeperbook")
	bigHead(t, book, "64-1")
	p := d.start(book)
	p.listen()
	h := &hand{program: p, eye: d.look()}
	h.eye.calm()

	h.key("ctrl+p", "Return") // the shop's springs, a new type
	h.put("single 9")
	h.key("Return", "Return", "Return", "Return", "Return", "Return") // name, coils, rate, lift, note, name of the coil
	h.put("1.062")                                                    // bind
	h.key("Return", "Return")                                         // read on, source
	h.put("1.907 131; 1.707 120")                                     // it cannot fall: refused
	h.eye.calm()
	if c := coilsIn(book); len(c) != 1 || c[0].Bind == nil || c[0].Loads != nil {
		t.Fatalf("in the book: %+v", c)
	}
	h.key("ctrl+a")
	h.put("1.907 131; 1.707 214/205; 1.307 388")
	var l *record.Loads
	p.until("the test in the book", func() bool {
		if c := coilsIn(book); len(c) == 1 {
			l = c[0].Loads
		}
		return l != nil
	})
	if len(l.Points) != 3 || l.Points[0].Height.Length() != 1907*unit.Thou || l.Points[1].Back == nil || l.Points[2].Load.Read != "388" {
		t.Errorf("typed into the window and in the book: %+v", l.Points)
	}
}

// coilsIn are the coils of the one spring type in the book beside the running program.
func coilsIn(book string) []record.Coil {
	ctx := context.Background()
	desk, err := task.ReadBook(ctx, book, "test", time.Now)
	if err != nil {
		return nil
	}
	defer desk.Close()
	parts, err := desk.Book.Parts(ctx)
	if err != nil || len(parts.Springs) != 1 {
		return nil
	}
	return parts.Springs[0].Coils
}
