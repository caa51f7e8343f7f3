package command

import (
	"context"
	"fmt"
	"path/filepath"
	"strings"

	"keeperbook/app/internal/files"
	"keeperbook/app/internal/task"
	"keeperbook/assets"
	"keeperbook/model/exchange"
	"keeperbook/model/say"
	"keeperbook/pdf/seal"
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
// others out; each says what is wrong with it.
func take(ctx context.Context, env Env, args []string, _ *options) error {
	return working(ctx, env, args[0], func(d *task.Desk) error {
		failed := 0
		for _, path := range args[1:] {
			lines, err := takeFile(ctx, d, path)
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

// takeRecord takes in a file that carries a set-up.
func takeRecord(ctx context.Context, path string, most int64, in func(context.Context, []byte) (task.TakenIn, error)) ([]say.Line, error) {
	data, err := files.Read(path, most)
	if err != nil {
		return nil, err
	}
	taken, err := in(ctx, data)
	return taken.Lines(), err
}

// takeFile takes in one file, by its ending.
func takeFile(ctx context.Context, d *task.Desk, path string) ([]say.Line, error) {
	switch strings.ToLower(filepath.Ext(path)) {
	case ".json":
		return takeRecord(ctx, path, exchange.MaxDocument, d.TakeIn)
	case ".pdf":
		return takeRecord(ctx, path, seal.MostBytes, d.TakeInSheet)
	case ".csv":
		data, err := files.Read(path, exchange.MaxTable)
		if err != nil {
			return nil, err
		}
		key, in := "command.rows", d.ReadIn
		switch {
		case exchange.OfSprings(data):
			key, in = "command.springs", d.SpringsIn
		case exchange.OfRuns(data):
			key, in = "command.runs", d.RunsIn
		case exchange.OfChecks(data):
			key, in = "command.checks", d.ChecksIn
		}
		kept, err := in(ctx, data)
		return []say.Line{say.New(key, kept)}, err
	}
	return nil, say.Fail(say.Invalid, "command.ending", filepath.Base(path))
}
