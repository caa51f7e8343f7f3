package task

import (
	"context"
	"reflect"
	"slices"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
	"keeperbook/store"
)

// Bench is one open set-up: its record in memory, which follows the book and never runs ahead of it,
// and everything worked out of it. It belongs to one goroutine.
type Bench struct {
	desk  *Desk
	rec   *record.Record
	ev    evaluate.Evaluation
	kept  *kept                        // as it was signed; nil where nobody did
	usual map[record.Kind]record.Gauge // what readings were taken on before; nil until somebody asked

	language string   // that pages are printed in; "" for the one of the window
	notice   say.Line // what came of the last thing that was kept beside it
}

// OpenBench loads a set-up.
func (d *Desk) OpenBench(ctx context.Context, setup string) (*Bench, error) {
	b := &Bench{desk: d}
	return b, b.load(ctx, setup)
}

func (b *Bench) load(ctx context.Context, setup string) error {
	rec, kept, err := recordOf(ctx, b.desk.Book, setup)
	if err != nil {
		return err
	}
	b.rec, b.ev, b.kept = rec, evaluate.Evaluate(rec), kept
	return nil
}

// Record returns the record as the book has it. Nobody else writes to it.
func (b *Bench) Record() *record.Record { return b.rec }

// Evaluation returns what the record comes to.
func (b *Bench) Evaluation() *evaluate.Evaluation { return &b.ev }

// Figures returns the numbers of the evaluation as an exported record has them.
func (b *Bench) Figures() record.Figures {
	return b.ev.Figures(evaluate.Words(b.rec.Setup.Units), b.rec.Setup.Units)
}

// Printed returns the same numbers as the sheet prints them, in its language, and the printer of that.
func (b *Bench) Printed() (record.Figures, say.Printer) {
	w, words := b.worked().in(b.printedIn())
	return w.Figures, words
}

// Words returns the printer in the units of the set-up.
func (b *Bench) Words() say.Printer { return evaluate.Spoken(b.rec.Setup.Units) }

// Keep puts nouns of the set-up, or the parts and gauges it refers to, into the book as one action that
// one undo takes back, and into the record once the book has them. On an error nothing changed; the
// same nouns may be kept again.
func (b *Bench) Keep(ctx context.Context, nouns ...record.Noun) error {
	nouns = b.withOutdated(nouns)
	edits := make([]record.Edit, len(nouns))
	for i, n := range nouns {
		edits[i] = record.Put(b.scope(n), n)
		if r, ok := n.(record.Reading); ok {
			edits[i].Fresh = !b.has(r)
		}
	}
	if err := b.act(ctx, edits); err != nil {
		b.notice = say.Line{} // nothing came of it
		return err
	}
	named := true
	for _, n := range nouns {
		named = named && b.names(n)
		b.rec.Put(n)
	}
	// Read anew it has the parts that are named now, and those no more that were. The book has the entry already: where it cannot
	// be read just now, nothing is lost.
	if !named && b.load(ctx, b.rec.Setup.ID) == nil {
		return nil
	}
	b.ev = evaluate.Evaluate(b.rec)
	return nil
}

// names reports whether a noun leaves the parts and gauges of the record as they are: it names none that is not there, and takes
// the place of none that named another.
func (b *Bench) names(n record.Noun) bool {
	switch n := n.(type) {
	case record.Setup, record.Shared, record.SeatWork, record.Deviation, record.Check:
		return true
	case record.Reading:
		return b.holds(n)
	case record.Valve:
		was := b.rec.ValveAt(n.At)
		same := func(a, b record.Shim) bool { return a.Gauge == b.Gauge }
		if !slices.EqualFunc(was.Stack, n.Stack, same) {
			return false
		}
		was.Stack, was.NoShim, was.Note = n.Stack, n.NoShim, n.Note
		return reflect.DeepEqual(was, n)
	}
	return false
}

// holds reports whether everything that a reading names is in the record.
func (b *Bench) holds(r record.Reading) bool {
	all := true
	record.Referring(r, func(kind record.ItemKind, key *string) {
		p := &b.rec.Parts
		switch kind {
		case record.GaugeItem:
			all = all && in(b.rec.Gauges, *key)
		case record.PieceItem:
			all = all && in(p.Pieces, *key)
		case record.RetainerItem:
			all = all && in(p.Retainers, *key)
		case record.LocksItem:
			all = all && in(p.Locks, *key)
		case record.LocatorItem:
			all = all && in(p.Locators, *key)
		case record.ValvePartItem:
			all = all && in(p.Valves, *key)
		}
	})
	return all
}

func in[T record.Noun](list []T, key string) bool {
	return slices.ContainsFunc(list, func(n T) bool { return n.Key() == key })
}

// has reports whether the bench knows of a reading: one that it does not know of must not be written over.
func (b *Bench) has(r record.Reading) bool {
	return slices.ContainsFunc(b.rec.ReadingsAt(r.At, r.Kind, r.Coil), func(there record.Reading) bool { return there.N == r.N })
}

// Remove takes nouns of the set-up away, as one action.
func (b *Bench) Remove(ctx context.Context, nouns ...record.Noun) error {
	edits := make([]record.Edit, len(nouns))
	for i, n := range nouns {
		edits[i] = record.Remove(b.scope(n), n)
	}
	if err := b.act(ctx, edits); err != nil {
		return err
	}
	return b.load(ctx, b.rec.Setup.ID)
}

func (b *Bench) act(ctx context.Context, edits []record.Edit) error {
	if name, when := b.Signed(); name != "" {
		return say.Fail(say.ReadOnly, "sign.already", name, when.Day())
	}
	if err := doubt(edits); err != nil {
		return err
	}
	if err := b.elsewhere(ctx, edits); err != nil {
		return err
	}
	_, err := b.desk.Book.Keep(ctx, record.Action{
		Token: NewID(), Setup: b.rec.Setup.ID, By: b.desk.Who, At: b.desk.now(), Edits: edits,
	})
	return err
}

// scope is the set-up that a noun belongs to, "" where it belongs to the book.
func (b *Bench) scope(n record.Noun) string {
	switch n.ItemKind() {
	case record.SetupItem, record.PackageItem, record.ValveItem, record.ReadingItem, record.SharedItem,
		record.SeatWorkItem, record.DeviationItem, record.CheckItem:
		return b.rec.Setup.ID
	}
	return ""
}

// PeekUndo and PeekRedo say what would be taken back or done again, so that a person can be asked
// before a day or another person is crossed; nil where there is nothing.
func (b *Bench) PeekUndo(ctx context.Context) (*store.Step, error) {
	return b.desk.Book.PeekUndo(ctx, b.rec.Setup.ID)
}

// PeekRedo is the other way.
func (b *Bench) PeekRedo(ctx context.Context) (*store.Step, error) {
	return b.desk.Book.PeekRedo(ctx, b.rec.Setup.ID)
}

// Undo takes the last action back and says what it was.
func (b *Bench) Undo(ctx context.Context) (*store.Step, error) {
	return b.turn(ctx, b.PeekUndo, b.desk.Book.Undo)
}

// Redo does again what was taken back last.
func (b *Bench) Redo(ctx context.Context) (*store.Step, error) {
	return b.turn(ctx, b.PeekRedo, b.desk.Book.Redo)
}

// turn takes a step back or does it again, but for one that puts a spring on a valve which stands on another head by now.
func (b *Bench) turn(
	ctx context.Context, peek func(context.Context) (*store.Step, error),
	turn func(context.Context, string, string, record.Stamp, string) (*store.Step, error),
) (*store.Step, error) {
	step, err := peek(ctx)
	if err != nil {
		return nil, err
	}
	if step != nil {
		edits := make([]record.Edit, len(step.Changes))
		for i, ch := range step.Changes {
			edits[i] = record.Edit{Item: ch.Item, Noun: ch.After}
		}
		if err := b.elsewhere(ctx, edits); err != nil {
			return nil, err
		}
	}
	step, err = turn(ctx, b.rec.Setup.ID, b.desk.Who, b.desk.now(), NewID())
	if err != nil {
		return nil, err
	}
	return step, b.load(ctx, b.rec.Setup.ID)
}

// struck returns the readings that count at a place as they are once they were struck.
func (b *Bench) struck(at record.Position, kind record.Kind, coil int, by string, when record.Stamp) []record.Noun {
	var nouns []record.Noun
	for _, r := range b.rec.ReadingsAt(at, kind, coil) {
		if r.Struck == nil {
			r.Struck = &record.Strike{By: by, When: when}
			nouns = append(nouns, r)
		}
	}
	return nouns
}

// signed fills in who and when where the entry does not say.
func (b *Bench) signed(e Entry) Entry {
	if e.By == "" {
		e.By = b.desk.Who
	}
	if e.When == "" {
		e.When = b.desk.now()
	}
	if e.Method == "" {
		e.Method = record.Typed
	}
	return e
}

// Share says that a kind of reading was taken once for a role, on one valve of it. Errors are those of the book, and Invalid
// for a kind that is of one valve or one spring alone.
func (b *Bench) Share(ctx context.Context, kind record.Kind, from record.Position) error {
	if !evaluate.Shareable(kind) {
		return say.Fail(say.Invalid, "valves.share.not", evaluate.KindName(kind))
	}
	return b.Keep(ctx, record.Shared{Kind: kind, Role: from.Role, From: from})
}

// CutSeat records that a seat was cut by a depth, which is typed like any thickness.
func (b *Bench) CutSeat(ctx context.Context, at record.Position, text string) (record.SeatWork, error) {
	depth, err := unit.Parse(record.ShimColumn(b.rec.Setup.Units), text)
	if err != nil {
		return record.SeatWork{}, err
	}
	w := record.SeatWork{ID: NewID(), At: at, Depth: depth.Quantity, By: b.desk.Who, When: b.desk.now()}
	return w, b.Keep(ctx, w)
}

// Accept keeps that somebody accepted a finding, with the reason. It changes no verdict.
func (b *Bench) Accept(ctx context.Context, at record.Position, finding, reason string) error {
	if reason == "" {
		return say.Fail(say.Invalid, "task.reason")
	}
	return b.Keep(ctx, record.Deviation{
		ID: NewID(), At: at, Finding: finding, Reason: reason, By: b.desk.Who, When: b.desk.now(),
		Found: b.ev.Found(at, finding, b.rec.Setup.Units),
	})
}
