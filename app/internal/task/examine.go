package task

import (
	"context"
	"fmt"
	"strings"

	"keeperbook/model/say"
	"keeperbook/store"
)

// checkSheets is the name of the look at what was signed, besides those of [store.Examine].
const checkSheets = "sheets"

// Examine looks through a book as [store.Examine] does, and then through its signed sheets: whether each is whole by its own
// signatures, and shows the record that the book says was signed.
func Examine(ctx context.Context, path string) (store.Report, error) {
	report, err := store.Examine(ctx, path)
	if err != nil || !report.Results[0].OK {
		return report, err // what does not hang together cannot be looked into
	}
	book, err := store.OpenReadOnly(ctx, path, store.Options{})
	if err != nil {
		return report, err
	}
	defer book.Close()
	wrong, n, err := sheetsOf(ctx, book)
	switch {
	case err != nil:
		return report, err
	case len(wrong) > 0:
		report.Results = append(report.Results, store.Result{Name: checkSheets, Line: say.New("examine.sheets-bad", strings.Join(wrong, ", "))})
	default:
		report.Results = append(report.Results, store.Result{Name: checkSheets, OK: true, Line: say.New("examine.sheets", n)})
	}
	return report, nil
}

// sheetsOf looks at every signed sheet of a book, and names the set-ups of those that are not what they should be.
func sheetsOf(ctx context.Context, book *store.Book) (wrong []string, n int, err error) {
	heads, err := book.Heads(ctx, store.Filter{})
	if err != nil {
		return nil, 0, err
	}
	for i, h := range heads {
		say.Tell(ctx, "work.sheets", i+1, len(heads))
		if err := ctx.Err(); err != nil {
			return nil, n, err
		}
		setups, err := book.Setups(ctx, h.Head)
		if err != nil {
			return nil, n, err
		}
		for _, s := range setups {
			k, err := keptOf(ctx, book, s.ID)
			switch {
			case say.CodeOf(err) == say.Internal:
				return nil, n, err
			case err == nil && k == nil:
				continue
			}
			n++
			if err != nil || !k.report.Whole() || k.read.Fingerprint != k.Record {
				wrong = append(wrong, fmt.Sprintf("%s (%s)", h.Tag, s.ID))
			}
		}
	}
	return wrong, n, nil
}
