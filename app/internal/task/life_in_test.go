package task_test

import (
	"context"
	"errors"
	"testing"

	"keeperbook/app/internal/task"
)

const checksHeader = "head,day,service,valve,load,seen,tester\n"

// A line with a fault is the only one that is blamed for it, and its valve is called as the bench calls it.
func TestChecksTableRefused(t *testing.T) {
	ctx := context.Background()
	desk := &task.Desk{Book: demonstration(t), Who: "test", Clock: clock}
	for _, c := range []struct{ name, lines, want string }{
		{
			"nothing and something", "1 in,128,nothing + rust,\nDR-1L,2026-05-17,in-use,1 ex,128,,\nDR-1L,2026-05-17,in-use,3 in,128,,",
			"line 2: At 1 in nothing was seen and something too; leave out one of them.",
		},
		{
			"no load", "1 ex,0,,\nDR-1L,2026-05-17,in-use,1 in,128,,",
			"line 2: The load at 1 ex is not above nought; look at the tester and enter it again.",
		},
		{
			"one valve twice", "1 in,128,,\nDR-1L,2026-05-17,in-use,1 in,127,,\nDR-1L,2026-05-17,in-use,1 ex,128,,",
			"line 3: The valve 1 in stands twice in one check; make one line of it.",
		},
		{"no such valve", "2 ex,128,,", "line 2: The head DR-1L has no valve 2 ex; look at the valve."},
		{"no second valve", "1 ex 2,128,,", "line 2: The head DR-1L has no valve 1 ex 2; look at the valve."},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := desk.ChecksIn(ctx, []byte(checksHeader+"DR-1L,2026-05-17,in-use,"+c.lines+"\n"))
			var refused *task.Refused
			if !errors.As(err, &refused) || refused.Error() != c.want {
				t.Errorf("said is\n%v, want\n%s", err, c.want)
			}
		})
	}
}
