package shop

import (
	"context"
	"errors"
	"strings"

	"keeperbook/app/internal/task"
	"keeperbook/model/say"
)

// Paste takes a table of single springs in, whole or not at all, and says how many there were. It may run beside other work; the
// page is to be loaded afterwards.
func (p *Presenter) Paste(ctx context.Context, table string) (say.Line, error) {
	if strings.TrimSpace(table) == "" {
		return say.Line{}, say.Fail(say.Invalid, "springs.clipboard")
	}
	n, err := p.counter.SpringsIn(ctx, []byte(table))
	var refused *task.Refused
	switch {
	case errors.As(err, &refused):
		return say.Line{}, refused.Short()
	case err != nil:
		return say.Line{}, err
	}
	return say.New("springs.pasted", n), nil
}
