package task

import (
	"context"
	"slices"
	"strings"
	"unicode"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/store"
)

// History is what became of a set-up, the newest first, and the end of the history of its book.
type History struct {
	End   *record.History
	Rows  []HistoryRow
	Words say.Printer // in the units of the set-up
}

// HistoryRow is one thing that changed: when, through whom, what, and what stood there before and after. An action with
// several changes has a row for each.
type HistoryRow struct {
	When          record.Stamp
	Who           string
	What          say.Line
	Before, After say.Line // zero where nothing stood there
}

// HistoryOf returns what became of a set-up.
func HistoryOf(ctx context.Context, book *store.Book, setup string) (History, error) {
	rec, _, err := recordOf(ctx, book, setup)
	if err != nil {
		return History{}, err
	}
	return historyOf(ctx, book, &rec.Head, rec.Setup.ID, evaluate.Spoken(rec.Setup.Units))
}

// Past returns what reads what became of the open set-up. That may run beside other work, as it does not look at the bench.
func (b *Bench) Past() func(context.Context) (History, error) {
	book, head, setup, words := b.desk.Book, b.rec.Head, b.rec.Setup.ID, b.Words()
	return func(ctx context.Context) (History, error) { return historyOf(ctx, book, &head, setup, words) }
}

func historyOf(ctx context.Context, book *store.Book, head *record.Head, setup string, words say.Printer) (History, error) {
	end, err := book.History(ctx)
	if err != nil {
		return History{}, err
	}
	happened, err := book.Happenings(ctx, setup)
	if err != nil {
		return History{}, err
	}
	h := History{End: end, Words: words}
	for _, one := range happened {
		for _, ch := range one.Changes {
			row := rowOf(head, ch)
			row.When, row.Who = one.At, one.By
			if one.How != store.HowKept {
				row.What = say.New("history."+string(one.How), row.What)
			}
			h.Rows = append(h.Rows, row)
		}
	}
	return h, nil
}

// rowOf says what one change is about, with what stood there.
func rowOf(head *record.Head, ch store.Change) HistoryRow {
	noun := ch.After
	if noun == nil {
		noun = ch.Before
	}
	row := HistoryRow{What: aboutOf(head, noun), Before: standing(ch.Before), After: standing(ch.After)}
	if ch.Before != nil && ch.After != nil && row.Before.Zero() && row.After.Zero() {
		row.After = say.New("history.fields", fieldLines(ch.Fields))
	}
	return row
}

// aboutOf names what a change is about.
func aboutOf(head *record.Head, noun record.Noun) say.Line {
	switch n := noun.(type) {
	case record.Reading:
		if n.Coil > 0 {
			return say.New("history.reading-coil", head.Label(n.At), evaluate.KindName(n.Kind), n.Coil)
		}
		return say.New("history.reading", head.Label(n.At), evaluate.KindName(n.Kind))
	case record.Valve:
		return say.New("history.valve", head.Label(n.At))
	case record.SeatWork:
		return say.New("history.seat", head.Label(n.At))
	case record.Deviation:
		return say.New("history.accepted", head.Label(n.At), findingLine(n.Finding))
	case record.Shared:
		return say.New("history.shared", evaluate.KindName(n.Kind), say.New("role."+string(n.Role)))
	case record.Package:
		return say.New("history.package", say.New("role."+string(n.Role)))
	case record.Check:
		return say.New("history.check", n.What)
	case record.Signed:
		return say.New("history.signed", n.N)
	}
	return say.New("history.setup")
}

// standing is what stands in a noun; zero where that is more than a few words.
func standing(noun record.Noun) say.Line {
	switch n := noun.(type) {
	case record.Reading:
		if n.Struck != nil {
			return say.New("history.struck", n.Quantity)
		}
		return say.New("expr.one", n.Quantity)
	case record.Valve:
		if len(n.Stack) == 0 {
			if n.NoShim == "" {
				return say.Line{}
			}
			return say.New("history.no-shim")
		}
		var shims []say.Line
		if n.NoShim != "" {
			shims = append(shims, say.New("stack.none"))
		}
		for _, s := range n.Stack {
			key := "expr.one"
			if s.Under == record.UnderOuter {
				key = "stack.outer-short"
			}
			shims = append(shims, say.New(key, s.Thickness))
		}
		return say.New("history.shims", shims)
	case record.SeatWork:
		return say.New("expr.one", n.Depth)
	case record.Deviation:
		return say.New("expr.one", n.Reason)
	case record.Shared:
		return say.New("history.from", n.From.String())
	case record.Check:
		return say.New("history.done-" + string(n.Done))
	case record.Signed:
		if n.Role != "" {
			return say.New("sign.by-as", n.Name, n.Role, n.When.Day())
		}
		return say.New("sign.by", n.Name, n.When.Day())
	case record.Setup:
		if n.State == record.Closed {
			return say.New("history.closed")
		}
	}
	return say.Line{}
}

// fieldLines name the fields of a noun of a set-up. One that has no name here stands as a record calls it.
func fieldLines(fields []string) []say.Line {
	fields = slices.Sorted(slices.Values(fields))
	lines := make([]say.Line, len(fields))
	for i, f := range fields {
		var b strings.Builder // seatLoad is seat-load
		for _, r := range f {
			if unicode.IsUpper(r) {
				b.WriteByte('-')
			}
			b.WriteRune(unicode.ToLower(r))
		}
		lines[i] = knownLine("history.field."+b.String(), f)
	}
	return lines
}

// findingLine names what a finding is of, of whatever parts that do not fit.
func findingLine(finding string) say.Line {
	key := finding
	if strings.HasPrefix(key, "fit-") {
		key = "fit"
	}
	return knownLine("history.finding."+key, finding)
}

// knownLine is the sentence of a key that is put together from what a book holds, and that itself where the catalogue has none.
func knownLine(key, held string) say.Line {
	if _, known := say.English().Words[key]; known {
		return say.New(key)
	}
	return say.New("expr.one", held)
}

// Text is a history as a table: a line a row, cells between tabs, the newest first.
func (h History) Text() string {
	var b strings.Builder
	for _, r := range h.Rows {
		for i, cell := range r.Cells(h.Words) {
			if i > 0 {
				b.WriteByte('\t')
			}
			b.WriteString(strings.Join(strings.Fields(cell), " "))
		}
		b.WriteByte('\n')
	}
	return b.String()
}

// Cells are when, who, what, before and after in words.
func (r HistoryRow) Cells(words say.Printer) []string {
	when := strings.TrimSuffix(strings.Replace(string(r.When), "T", " ", 1), "Z")
	cells := []string{words.Day(say.Day(when)), r.Who, words.Line(r.What), "", ""}
	for i, l := range []say.Line{r.Before, r.After} {
		if !l.Zero() {
			cells[3+i] = words.Line(l)
		}
	}
	return cells
}
