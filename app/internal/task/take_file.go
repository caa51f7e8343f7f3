package task

import (
	"context"
	"path/filepath"
	"strings"

	"keeperbook/app/internal/files"
	"keeperbook/model/exchange"
	"keeperbook/model/say"
	"keeperbook/pdf/seal"
)

// ending of a file's name, in small letters.
func ending(path string) string { return strings.ToLower(filepath.Ext(path)) }

// takeRecord takes in a file that carries a set-up.
func takeRecord(ctx context.Context, path string, most int64, in func(context.Context, []byte) (TakenIn, error)) ([]say.Line, error) {
	data, err := files.Read(path, most)
	if err != nil {
		return nil, err
	}
	taken, err := in(ctx, data)
	return taken.Lines(), err
}

// TakeFile takes in one file, by its ending, and says what came in.
func (d *Desk) TakeFile(ctx context.Context, path string) ([]say.Line, error) {
	switch ending(path) {
	case ".json":
		return takeRecord(ctx, path, exchange.MaxDocument, d.TakeIn)
	case ".pdf":
		return takeRecord(ctx, path, seal.MostBytes, d.TakeInSheet)
	case ".csv", ".tsv", ".txt":
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
