package task

import (
	"context"
	"path/filepath"
	"slices"

	"keeperbook/app/internal/files"
	"keeperbook/model/evaluate"
	"keeperbook/model/exchange"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// TableIn is a table of readings that is about to be taken in, and looked at before: one of the program's own columns, or one
// that somebody keeps in a spreadsheet, whose columns are said.
type TableIn struct {
	desk   *Desk
	head   string // identifier of the head that a table of somebody's own is of
	name   string
	own    bool // it has the program's own columns
	table  exchange.AnyTable
	uses   []exchange.Use
	length unit.Symbol
	rows   []exchange.Row
	wrong  []exchange.RowError
}

// OpenTable reads a table of readings. One of somebody's own is of the head of bench, and is refused (say.NotFound) where none is
// open.
func (d *Desk) OpenTable(ctx context.Context, path string, bench *Bench) (*TableIn, error) {
	data, err := files.Read(path, exchange.MaxTable)
	if err != nil {
		return nil, err
	}
	t := &TableIn{desk: d, name: filepath.Base(path)}
	if exchange.OfReadings(data) {
		t.own = true
		sheet, wrong := exchange.ReadCSV(data)
		t.rows, t.wrong = sheet.Rows, wrong
		return t, t.look(ctx)
	}
	if bench == nil {
		return nil, say.Fail(say.NotFound, "table.no-head", t.name)
	}
	t.head, t.length = bench.rec.Head.ID, bench.rec.Setup.Units.Length
	var wrong *exchange.RowError
	if t.table, wrong = exchange.ReadAny(data); wrong != nil {
		return nil, wrong.Err
	}
	t.uses = t.table.Guess()
	return t, t.again(ctx)
}

// TableColumn is one column of a table of somebody's own.
type TableColumn struct {
	Head, Sample string
	Use          exchange.Use
}

// Columns are those of a table of somebody's own, with the first cell of each that holds something; none of the program's own.
func (t *TableIn) Columns() []TableColumn {
	all := make([]TableColumn, len(t.uses))
	for i, use := range t.uses {
		all[i] = TableColumn{Head: t.table.Heads[i], Use: use}
		if at := slices.IndexFunc(t.table.Lines, func(l exchange.AnyLine) bool { return l.Cells[i] != "" }); at >= 0 {
			all[i].Sample = t.table.Lines[at].Cells[i]
		}
	}
	return all
}

// UseName is what a column is, in words.
func UseName(u exchange.Use) say.Line {
	switch u {
	case exchange.LeftOut:
		return say.New("table.left-out")
	case exchange.OfValve, exchange.OfBind1, exchange.OfBind2, exchange.OfShims, exchange.OfOuter:
		return say.New("table.of." + string(u))
	}
	return say.New("kind." + string(u))
}

// Use returns the table with another use of a column. No two columns are the same: what another one was is left out then.
func (t *TableIn) Use(ctx context.Context, column int, use exchange.Use) (*TableIn, error) {
	other := *t
	other.uses = slices.Clone(t.uses)
	for i := range other.uses {
		if i == column || use != exchange.LeftOut && other.uses[i] == use {
			other.uses[i] = exchange.LeftOut
		}
	}
	other.uses[column] = use
	return &other, other.again(ctx)
}

// Length is the unit of numbers that have none.
func (t *TableIn) Length() unit.Symbol { return t.length }

// In returns the table with another one.
func (t *TableIn) In(ctx context.Context, u unit.Symbol) (*TableIn, error) {
	other := *t
	other.length = u
	return &other, other.again(ctx)
}

func (t *TableIn) again(ctx context.Context) error {
	t.rows, t.wrong = t.table.Rows(t.uses, t.length, t.head)
	return t.look(ctx)
}

// look tries the rows that can be read.
func (t *TableIn) look(ctx context.Context) error {
	wrong, err := t.desk.TryRows(ctx, t.rows)
	if err != nil {
		return err
	}
	t.wrong = append(t.wrong, wrong...)
	slices.SortStableFunc(t.wrong, func(a, b exchange.RowError) int { return a.Line - b.Line })
	return nil
}

// Name is that of the file.
func (t *TableIn) Name() string { return t.name }

// Wrong are the lines that do not fit, with the reason of each.
func (t *TableIn) Wrong() []exchange.RowError { return t.wrong }

// Right is how many readings and stacks go in: those of lines of which nothing is wrong.
func (t *TableIn) Right() int { return len(t.right()) }

func (t *TableIn) right() []exchange.Row {
	bad := map[int]bool{}
	for _, w := range t.wrong {
		bad[w.Line] = true
	}
	return slices.DeleteFunc(slices.Clone(t.rows), func(r exchange.Row) bool { return bad[r.Line] })
}

// Keep keeps them, one action a head, and says how many there were. Lines that do not fit stay out.
func (t *TableIn) Keep(ctx context.Context) (int, error) { return t.desk.RowsIn(ctx, t.right()) }

// Words is the printer in the units of the table.
func (t *TableIn) Words() say.Printer {
	if t.length == unit.Mm {
		return evaluate.Spoken(record.Units{Length: unit.Mm, Load: unit.N})
	}
	return evaluate.Spoken(record.Units{Length: unit.In, Load: unit.Lbf})
}

// FileKind is what a file that is taken in is, by its ending and its first line.
type FileKind string

// Files that are taken in.
const (
	SheetFile  FileKind = "sheet"    // a signed sheet
	RecordFile FileKind = "record"   // a record as it was exported
	ReadFile   FileKind = "readings" // a table of readings, which is looked at before
	OtherTable FileKind = "table"    // of springs, runs or checks
)

// KindOf looks at a file; another one is refused (say.Invalid).
func KindOf(path string) (FileKind, error) {
	switch ending(path) {
	case ".pdf":
		return SheetFile, nil
	case ".json":
		return RecordFile, nil
	case ".csv", ".tsv", ".txt":
		data, err := files.Read(path, exchange.MaxTable)
		if err != nil {
			return "", err
		}
		if exchange.OfSprings(data) || exchange.OfRuns(data) || exchange.OfChecks(data) {
			return OtherTable, nil
		}
		return ReadFile, nil
	}
	return "", say.Fail(say.Invalid, "command.ending", filepath.Base(path))
}
