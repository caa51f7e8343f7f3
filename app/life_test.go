//go:build cgo && linux

package main

import (
	"context"
	"strings"
	"testing"
	"time"

	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/store"
)

// A day is logged and a check entered by keys alone, and what falls due of them is in the book.
func TestLifeInTheWindow(t *testing.T) {
	onceARun(t)
	ctx := context.Background()
	d := newDesktop(t)
	d.locale = "es_ES.UTF-8"
	book, p, h := d.onDemonstration(t)
	h.put("DR-1L")
	h.key("alt+7")
	h.eye.calm()
	h.puts("6 passes, 9.5 s, mean 6800, top 7800")
	h.pause()
	h.key("Return")
	lived := func() (l store.Life) {
		b, err := store.OpenReadOnly(ctx, book, store.Options{})
		if err != nil {
			return l
		}
		defer b.Close()
		l, _ = b.Life(ctx, "head-launch-left")
		return l
	}
	p.until("the day in the book", func() bool { return len(lived().Runs) == 1 })
	h.eye.calm()
	h.key("Tab", "Tab", "Return") // over the runs to the check
	h.eye.calm()
	h.puts("131, polish")
	h.pause()
	h.key("Return")
	h.puts("129")
	h.pause()
	h.key("Return", "Return", "Return", "Return", "Return", "Return", "Return") // to the day of the next check
	h.puts("2030-01-02")
	h.pause()
	h.key("Return", "Return", "Return") // to the button, and keeps it
	p.until("the check in the book", func() bool { return len(lived().Checks) == 1 })
	p.stop()
	l := lived()
	if r := l.Runs[0]; r.Count != "6" || r.Kind != record.Passes || r.Mean != "6800" {
		t.Errorf("%+v", r)
	}
	if c := l.Checks[0]; len(c.Valves) != 2 || c.Valves[0].Seen[0] != record.Polish || c.Valves[1].Load.Read != "129" || c.NextDay != "2030-01-02" {
		t.Errorf("%+v", c)
	}
	b, err := store.OpenReadOnly(ctx, book, store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	all, err := task.Dues(ctx, b, record.Date(time.Now().Format(time.DateOnly)))
	if err != nil {
		t.Fatal(err)
	}
	for _, due := range all {
		if strings.HasPrefix(due.Text, "DR-1L, ") && strings.Contains(due.Text, "watch the spring: polish") {
			return
		}
	}
	t.Errorf("nothing falls due of the check: %+v", all)
}
