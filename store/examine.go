package store

import (
	"context"
	"database/sql"
	"fmt"
	"os"
	"strings"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// The names of what Examine looks at.
const (
	CheckFile       = "file"       // is it a book, and do its pages hang together
	CheckSchema     = "schema"     // was it made by a version this program knows
	CheckReferences = "references" // does every row have what it belongs to
	CheckHistory    = "history"    // is every event as it was written, and none missing
	CheckState      = "state"      // is the state what the history comes to
	CheckStock      = "stock"      // are the counts what the moves come to
	CheckSigned     = "signed"     // is every sheet as it was signed
	CheckOrphans    = "orphans"    // is everything there that a set-up names
	CheckSearch     = "search"     // is every head found by its words
)

// Result is what one look found.
type Result struct {
	Name string
	OK   bool
	Line say.Line // one sentence
}

// Report is what Examine found.
type Report struct{ Results []Result }

// Sound reports whether nothing wrong was found.
func (r Report) Sound() bool {
	for _, one := range r.Results {
		if !one.OK {
			return false
		}
	}
	return true
}

func (r *Report) add(name string, trouble *say.Line, fine say.Line) {
	if trouble != nil {
		r.Results = append(r.Results, Result{name, false, *trouble})
		return
	}
	r.Results = append(r.Results, Result{name, true, fine})
}

// Examine looks through a book that may be damaged, as far as it can be read, and never writes in it.
// It holds the book's lock meanwhile, if nobody has it open.
// It returns an error only where the file cannot be read as a book at all.
func Examine(ctx context.Context, path string) (Report, error) {
	b, err := openStill(ctx, path, steps().newest())
	if say.CodeOf(err) == say.Damaged {
		line := sentence(err, path)
		return Report{[]Result{{CheckFile, false, line}}}, nil
	}
	if err != nil {
		return Report{}, err
	}
	defer b.Close()
	return b.Examine(ctx)
}

// Examine looks through the book as it is at this moment. A look that cannot be finished, since the
// file is damaged, is a result like any other; an error means that the request was given up.
func (b *Book) Examine(ctx context.Context) (Report, error) {
	var r Report
	looks := []struct {
		name string
		look func(ctx context.Context, src source) (*say.Line, say.Line, error)
	}{
		{CheckFile, b.lookAtFile},
		{CheckSchema, b.lookAtSchema},
		{CheckReferences, lookAtReferences},
		{CheckHistory, lookAtHistory},
		{CheckState, lookAtState},
		{CheckStock, lookAtStock},
		{CheckSigned, lookAtSigned},
		{CheckOrphans, lookAtOrphans},
		{CheckSearch, lookAtSearch},
	}
	for i, l := range looks {
		say.Tell(ctx, "work.look", i+1, len(looks), l.name)
		var trouble *say.Line
		var fine say.Line
		err := b.read(ctx, func(src source) (err error) {
			trouble, fine, err = l.look(ctx, src)
			return err
		})
		if ctx.Err() != nil {
			return r, ctx.Err()
		}
		if err != nil {
			line := say.New("store.unreadable", l.name, sentence(err, b.path))
			trouble = &line
		}
		r.add(l.name, trouble, fine)
	}
	return r, nil
}

// sentence returns what an error says.
func sentence(err error, path string) say.Line {
	if told, ok := fault(err, path).(*say.Error); ok {
		if told.Code == say.Internal && told.Err != nil {
			return say.New("store.cause", told.Err.Error())
		}
		return told.Line
	}
	return say.New("store.cause", err.Error())
}

// lines counts and names: the first few of many.
type lines struct {
	count int
	first []string
}

func (l *lines) add(text string) {
	const most = 5
	if l.count++; l.count <= most {
		l.first = append(l.first, text)
	}
}

func (l *lines) trouble(key string) *say.Line {
	if l.count == 0 {
		return nil
	}
	line := say.New(key, l.count, strings.Join(l.first, "; "))
	return &line
}

func (b *Book) lookAtFile(ctx context.Context, src source) (*say.Line, say.Line, error) {
	var found lines
	err := each(ctx, src, `PRAGMA integrity_check(20)`, nil, func(rows *sql.Rows) error {
		var text string
		err := rows.Scan(&text)
		if text != "ok" {
			found.add(text)
		}
		return err
	})
	size := int64(0)
	if info, err := os.Stat(b.path); err == nil {
		size = info.Size()
	}
	return found.trouble("store.file-bad"), say.New("store.file-fine", int(size/1024)), err
}

func (b *Book) lookAtSchema(ctx context.Context, src source) (*say.Line, say.Line, error) {
	newest := steps().newest()
	version, err := schemaVersion(ctx, src)
	if err != nil {
		return nil, say.Line{}, err
	}
	var application int
	if _, err := one(ctx, src, `PRAGMA application_id`, nil, &application); err != nil {
		return nil, say.Line{}, err
	}
	if version != newest || application != applicationID {
		line := say.New("store.schema-bad", version, newest)
		return &line, say.Line{}, nil
	}
	return nil, say.New("store.schema-fine", version), nil
}

func lookAtReferences(ctx context.Context, src source) (*say.Line, say.Line, error) {
	var found lines
	err := each(ctx, src, `SELECT "table", "parent" FROM pragma_foreign_key_check`, nil, func(rows *sql.Rows) error {
		var table, parent string
		err := rows.Scan(&table, &parent)
		found.add(table + " → " + parent)
		return err
	})
	return found.trouble("store.references-bad"), say.New("store.references-fine"), err
}

// lookAtOrphans looks for parts that are named and not there, and for entries of valves that the
// head does not have.
func lookAtOrphans(ctx context.Context, src source) (*say.Line, say.Line, error) {
	var found lines
	refs := references{}
	positions := map[string]map[record.Position]bool{}
	err := everyItem(ctx, src, func(item record.Item, body []byte, _ bool) error {
		n, err := decode(item.Kind, bodyVersion, body)
		if err != nil {
			return err
		}
		refs.of(n)
		p, on := positionOf(n)
		if !on {
			return nil
		}
		if positions[item.Setup] == nil {
			if positions[item.Setup], err = positionsOf(ctx, src, item.Setup); err != nil {
				return err
			}
		}
		if !positions[item.Setup][p] {
			found.add(fmt.Sprintf("%s %s", item.Setup, item.Key))
		}
		return nil
	})
	if err != nil {
		return nil, say.Line{}, err
	}
	for ref := range refs {
		body, err := get(ctx, src, ref)
		if err != nil {
			return nil, say.Line{}, err
		}
		if body == nil {
			found.add(fmt.Sprintf("%s %s", ref.Kind, ref.Key))
		}
	}
	return found.trouble("store.orphans-bad"), say.New("store.orphans-fine"), nil
}

// positionOf returns the valve that an item is of.
func positionOf(n record.Noun) (record.Position, bool) {
	switch n := n.(type) {
	case record.Valve:
		return n.At, true
	case record.Reading:
		return n.At, true
	case record.SeatWork:
		return n.At, true
	case record.Shared:
		return n.From, true
	}
	return record.Position{}, false
}

func positionsOf(ctx context.Context, src source, setup string) (map[record.Position]bool, error) {
	all := map[record.Position]bool{}
	err := each(ctx, src, `SELECT head.version, head.body FROM head JOIN setup ON setup.head = head.id WHERE setup.id = ?`,
		[]any{setup}, func(rows *sql.Rows) error {
			h, _, err := scanNoun[record.Head](rows)
			for _, p := range h.Positions() {
				all[p] = true
			}
			return err
		})
	return all, err
}
