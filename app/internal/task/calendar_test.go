package task_test

import (
	"bytes"
	"context"
	"testing"

	ics "github.com/arran4/golang-ical"

	"keeperbook/app/internal/task"
)

// RFC 5545, 3.6.1: an event has UID and DTSTAMP, and a UID is its own. What has no day and is not due is left out, and the same
// thing keeps its UID from one day to the next.
func TestCalendar(t *testing.T) {
	book := demonstration(t)
	known := map[string]bool{}
	for n, day := range []string{"2026-06-01", "2026-06-02"} {
		all, err := task.Dues(context.Background(), book, "2026-06-01")
		if err != nil {
			t.Fatal(err)
		}
		c, err := ics.ParseCalendar(bytes.NewReader(task.Calendar(all, clock().AddDate(0, 0, n))))
		if err != nil {
			t.Fatal(err)
		}
		want := 0
		for _, d := range all {
			if d.Over || d.Day != "" {
				want++
			}
		}
		seen := map[string]bool{}
		for _, e := range c.Events() {
			if e.Id() == "" || seen[e.Id()] || e.GetProperty(ics.ComponentPropertyDtstamp) == nil || e.GetProperty(ics.ComponentPropertySummary) == nil {
				t.Errorf("%s: event %q", day, e.Id())
			}
			seen[e.Id()] = true
			if n > 0 && !known[e.Id()] {
				t.Errorf("%s: %q is another one than the day before", day, e.Id())
			}
		}
		if known = seen; len(seen) != want || want == 0 {
			t.Errorf("%d events, want %d", len(seen), want)
		}
	}
}
