package command

import (
	"context"
	"fmt"
	"strings"
	"time"

	"keeperbook/app/internal/task"
	"keeperbook/model/say"
	"keeperbook/store"
)

// copyLine is a copy of a book, as -json prints it.
type copyLine struct {
	File     string `json:"file"`
	Taken    string `json:"taken"`
	Sound    bool   `json:"sound"`
	Heads    int    `json:"heads"`
	Setups   int    `json:"setups"`
	Readings int    `json:"readings"`
	Last     string `json:"last,omitempty"` // when the last of it was kept
}

// copiesCommand lists the copies that lie beside a book, the newest first.
func copiesCommand(ctx context.Context, env Env, args []string, o *options) error {
	all, err := task.Copies(ctx, args[0], "")
	if err != nil {
		return err
	}
	if len(all) == 0 { // of a book that was deleted the copies are listed all the same; without any it may be a wrong name
		if err := isBook(ctx, args[0]); err != nil {
			return err
		}
	}
	lines := make([]copyLine, len(all))
	for i, c := range all {
		lines[i] = copyLine{c.Path, c.At.Format(time.RFC3339), c.Bad.Zero(), c.Heads, c.Setups, c.Readings, string(c.Last)}
	}
	if o.json {
		return printJSON(env, lines)
	}
	for i, c := range all {
		fmt.Fprintln(env.Out, strings.Join([]string{c.Path, lines[i].Taken, say.English().Line(c.Holds())}, "\t"))
	}
	return nil
}

// isBook fails where there is no book, in the words of whatever opens one.
func isBook(ctx context.Context, path string) error {
	book, err := store.OpenCopy(ctx, path)
	if err != nil {
		return err
	}
	return book.Close()
}

// restore puts a copy in the place of a book.
func restore(ctx context.Context, env Env, args []string, _ *options) error {
	before, err := task.Restore(ctx, args[0], args[1], env.Clock())
	if err != nil {
		return err
	}
	line := say.New("copies.restored-none")
	if before != "" {
		line = say.New("copies.restored", before)
	}
	fmt.Fprintln(env.Out, say.English().Line(line))
	return nil
}

// salvage makes a new book of what is left of a damaged one.
func salvage(ctx context.Context, env Env, args []string, _ *options) error {
	to, s, err := task.Salvage(ctx, args[0], "", args[1], env.Clock)
	if err != nil {
		return err
	}
	for _, l := range task.SalvagedLines(to, s) {
		fmt.Fprintln(env.Out, say.English().Line(l))
	}
	return nil
}
