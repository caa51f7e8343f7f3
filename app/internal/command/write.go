package command

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"keeperbook/app/internal/task"
	"keeperbook/assets"
	"keeperbook/model/say"
)

// demo writes the demonstration book and its sheets.
func demo(ctx context.Context, env Env, args []string, _ *options) error {
	paths, err := task.Demo(ctx, args[0], assets.Demo(), env.Clock)
	for _, p := range paths {
		fmt.Fprintln(env.Out, p)
	}
	return err
}

// take takes records and tables of readings into a book. Files that cannot be taken in do not keep the
// others out; each says what is wrong with it. Stopped, it says how many are in the book.
func take(ctx context.Context, env Env, args []string, _ *options) error {
	return working(ctx, env, args[0], func(d *task.Desk) error {
		failed := 0
		for i, path := range args[1:] {
			lines, err := d.TakeFile(ofMany(ctx, i, len(args)-1), path)
			if errors.Is(err, context.Canceled) {
				return say.Fail(say.Invalid, "command.stopped-files", i-failed, len(args)-1)
			}
			if err == nil {
				for _, line := range lines {
					fmt.Fprintln(env.Out, path+": "+say.English().Line(line))
				}
				continue
			}
			failed++
			for _, s := range strings.Split(sentence(err), "\n") {
				fmt.Fprintln(env.Err, path+": "+s)
			}
		}
		if failed > 0 {
			return say.Fail(say.Invalid, "command.not-taken", failed, len(args)-1)
		}
		return nil
	})
}

// ofMany has the work on one of several files say which of them it is.
func ofMany(ctx context.Context, i, of int) context.Context {
	if of == 1 {
		return ctx
	}
	return say.Telling(ctx, func(l say.Line) { say.Tell(ctx, "work.file", i+1, of, l) })
}
