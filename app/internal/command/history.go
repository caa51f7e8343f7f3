package command

import (
	"context"
	"fmt"

	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/store"
)

// pastChange is one change of a set-up, as -json prints it.
type pastChange struct {
	When   record.Stamp `json:"when"`
	By     string       `json:"by"`
	What   string       `json:"what"`
	Before string       `json:"before,omitempty"`
	After  string       `json:"after,omitempty"`
}

// history prints what became of a set-up, the newest first.
func history(ctx context.Context, env Env, args []string, o *options) error {
	return reading(ctx, args[0], func(book *store.Book) error {
		setup, err := task.Find(ctx, book, args[1], o.setup)
		if err != nil {
			return err
		}
		h, err := task.HistoryOf(ctx, book, setup)
		if err != nil {
			return err
		}
		if !o.json {
			_, err = fmt.Fprint(env.Out, h.Text())
			return err
		}
		return printJSON(env, pastOf(h))
	})
}

func pastOf(h task.History) []pastChange {
	all := make([]pastChange, len(h.Rows))
	for i, r := range h.Rows {
		c := r.Cells(h.Words)
		all[i] = pastChange{r.When, r.Who, c[2], c[3], c[4]}
	}
	return all
}
