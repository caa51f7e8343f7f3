package exchange

import (
	"errors"
	"reflect"
	"strconv"
	"time"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// check looks at what a schema cannot say: that a record whose leaves are sound holds together.
func check(r *record.Record) error {
	for _, look := range []func(*record.Record) *say.Error{
		checkHead, checkKeys, checkPositions, checkReferences, checkDoubts,
	} {
		if err := look(r); err != nil {
			return err
		}
	}
	return nil
}

// checkLeaves looks at every moment, quantity and correction, wherever it stands.
func checkLeaves(r *record.Record) *say.Error {
	return visitor{stamp: checkStamp, date: checkDate, quantity: checkQuantity, taken: checkTaken}.walk(reflect.ValueOf(*r), place{"record"})
}

func checkStamp(at place, s record.Stamp) *say.Error {
	// Written again it must be the same text: there is one way to write a moment, and stamps compare as texts.
	t, err := time.Parse(time.RFC3339, string(s))
	if err != nil || string(s) != t.UTC().Format("2006-01-02T15:04:05Z") {
		return at.fail("exchange.stamp", short(string(s)))
	}
	return nil
}

func checkDate(at place, d record.Date) *say.Error {
	if _, err := time.Parse(time.DateOnly, string(d)); err != nil {
		return at.fail("exchange.date", short(string(d)))
	}
	return nil
}

// checkQuantity holds the whole number against the decimal it was read as: sheets print the one and
// limits compare the other, so a file in which they differ says two things at once.
func checkQuantity(at place, q unit.Quantity) *say.Error {
	value, err := unit.Value(q.Read, q.Unit)
	if err != nil {
		return append(at, "read").fail("exchange.decimal", short(q.Read))
	}
	if value != q.Value {
		return append(at, "value").fail("exchange.value",
			strconv.FormatInt(q.Value, 10), q.Read+" "+string(q.Unit), strconv.FormatInt(value, 10))
	}
	return nil
}

// checkTaken refuses a part that stands twice in a correction: it would be taken off twice.
func checkTaken(at place, all []record.Taken) *say.Error {
	seen := map[record.PartOfStack]bool{}
	for _, t := range all {
		if seen[t.Part] {
			return at.fail("exchange.twice", string(t.Part))
		}
		seen[t.Part] = true
	}
	return nil
}

// checkHead looks at the layout beyond its numbers, which the schema limits. Two cylinders of one label
// would share their readings, and an order that leaves a valve out would leave it off the sheet.
func checkHead(r *record.Record) *say.Error {
	at := place{"record", "head"}
	if err := unique(append(at, "cylinders"), r.Head.Cylinders, func(c string) string { return c }); err != nil {
		return err
	}
	// Without its order the head gives every valve of its layout.
	plain := r.Head
	plain.Order = nil
	all := plain.Positions()
	if len(r.Head.Order) == 0 {
		return nil
	}
	at = append(at, "order")
	if len(r.Head.Order) != len(all) {
		return at.fail("exchange.order", len(r.Head.Order), len(all))
	}
	has := set(all, record.Position.String)
	for i, p := range r.Head.Order {
		if !has[p.String()] {
			return append(at, strconv.Itoa(i)).fail("exchange.no-position", label(p))
		}
	}
	return unique(at, r.Head.Order, record.Position.String)
}

// checkKeys refuses two nouns of one kind with the same key. Which one a reference means, and which one
// a book keeps, would be chance.
func checkKeys(r *record.Record) *say.Error {
	parts, setup := place{"record", "parts"}, place{"record", "setup"}
	for _, err := range []*say.Error{
		uniqueNouns(parts.step("springs"), r.Parts.Springs),
		uniqueNouns(parts.step("pieces"), r.Parts.Pieces),
		uniqueNouns(parts.step("retainers"), r.Parts.Retainers),
		uniqueNouns(parts.step("locks"), r.Parts.Locks),
		uniqueNouns(parts.step("locators"), r.Parts.Locators),
		uniqueNouns(parts.step("seals"), r.Parts.Seals),
		uniqueNouns(parts.step("valves"), r.Parts.Valves),
		uniqueNouns(place{"record", "gauges"}, r.Gauges),
		uniqueNouns(setup.step("packages"), r.Setup.Packages),
		uniqueNouns(setup.step("valves"), r.Setup.Valves),
		uniqueNouns(setup.step("readings"), r.Setup.Readings),
		uniqueNouns(setup.step("shared"), r.Setup.Shared),
		uniqueNouns(setup.step("seatWork"), r.Setup.SeatWork),
		uniqueNouns(setup.step("deviations"), r.Setup.Deviations),
		uniqueNouns(setup.step("checks"), r.Setup.Checks),
	} {
		if err != nil {
			return err
		}
	}
	for i, p := range r.Parts.Pieces {
		at := parts.step("pieces", strconv.Itoa(i))
		if err := uniqueCoils(at.step("binds"), p.Binds, func(b record.PieceBind) int { return b.Coil }); err != nil {
			return err
		}
		if err := uniqueCoils(at.step("loads"), p.Loads, func(l record.PieceLoads) int { return l.Coil }); err != nil {
			return err
		}
	}
	for i, p := range r.Parts.Retainers {
		if err := uniqueRegisters(parts.step("retainers", strconv.Itoa(i)), p.Registers); err != nil {
			return err
		}
	}
	for i, p := range r.Parts.Locators {
		if err := uniqueRegisters(parts.step("locators", strconv.Itoa(i)), p.Registers); err != nil {
			return err
		}
	}
	for i, p := range r.Setup.Packages {
		at := setup.step("packages", strconv.Itoa(i), "least")
		if err := uniqueCoils(at, p.Least, func(l record.Least) int { return l.Coil }); err != nil {
			return err
		}
	}
	return nil
}

func uniqueRegisters(at place, all []record.Register) *say.Error {
	return uniqueCoils(at.step("registers"), all, func(g record.Register) int { return g.Coil })
}

// uniqueCoils refuses a list in which a coil stands twice, or all coils of a spring as one.
func uniqueCoils[T any](at place, all []T, coil func(T) int) *say.Error {
	return once(at, all, coil, func(coil int) any {
		if coil == 0 {
			return say.New("exchange.as-one")
		}
		return say.New("exchange.coil", coil)
	})
}

// checkPositions refuses valves that the head does not have: a reading must not land on another valve
// than the one it was taken from, nor on none.
func checkPositions(r *record.Record) *say.Error {
	has := set(r.Head.Positions(), record.Position.String)
	at := place{"record", "setup"}
	look := func(list string, i int, key string, p record.Position) *say.Error {
		if !has[p.String()] {
			return at.step(list, strconv.Itoa(i), key).fail("exchange.no-position", label(p))
		}
		return nil
	}
	for i, v := range r.Setup.Valves {
		if err := look("valves", i, "at", v.At); err != nil {
			return err
		}
	}
	for i, v := range r.Setup.Readings {
		if err := look("readings", i, "at", v.At); err != nil {
			return err
		}
	}
	for i, v := range r.Setup.Shared {
		if err := look("shared", i, "from", v.From); err != nil {
			return err
		}
		if v.From.Role != v.Role {
			return at.step("shared", strconv.Itoa(i), "from").fail("exchange.other-role", label(v.From), string(v.Role))
		}
	}
	for i, v := range r.Setup.SeatWork {
		if err := look("seatWork", i, "at", v.At); err != nil {
			return err
		}
	}
	for i, v := range r.Setup.Deviations {
		// A finding of the head as a whole has no valve.
		if v.At == (record.Position{}) {
			continue
		}
		if err := look("deviations", i, "at", v.At); err != nil {
			return err
		}
	}
	return nil
}

// checkDoubts refuses what a book would refuse. Nothing is held against the calendar: a document is read
// the same on every day.
func checkDoubts(r *record.Record) *say.Error {
	parts, setup := place{"record", "parts"}, place{"record", "setup"}
	for _, err := range []*say.Error{
		doubts(place{"record", "gauges"}, r.Gauges),
		doubts(parts.step("springs"), r.Parts.Springs),
		doubts(parts.step("pieces"), r.Parts.Pieces),
		doubts(parts.step("retainers"), r.Parts.Retainers),
		doubts(parts.step("locks"), r.Parts.Locks),
		doubts(parts.step("locators"), r.Parts.Locators),
		doubts(parts.step("seals"), r.Parts.Seals),
		doubts(setup.step("packages"), r.Setup.Packages),
		doubts(setup.step("readings"), r.Setup.Readings),
		doubt(setup, r.Setup),
	} {
		if err != nil {
			return err
		}
	}
	return nil
}

// needsField is what a doubt about the needs of a set-up is about.
const needsField = "needs"

func doubts[N record.Noun](at place, all []N) *say.Error {
	for i, n := range all {
		if err := doubt(at.step(strconv.Itoa(i)), n); err != nil {
			return err
		}
	}
	return nil
}

func doubt(at place, n record.Noun) *say.Error {
	var fault *say.Error
	if !errors.As(record.Doubt(n, ""), &fault) {
		return nil
	}
	below := at
	if fault.Field != "" {
		below = at.step(fault.Field)
		// The fields of a set-up's doubt are rules, but for its needs.
		if _, ok := n.(record.Setup); ok && fault.Field != needsField {
			below = at.step("rules", fault.Field)
		}
	}
	return below.fail("exchange.doubt", fault.Line)
}

// checkFigures refuses a table whose rows do not fit its columns.
func checkFigures(f record.Figures) error {
	for i, row := range f.Rows {
		if len(row.Cells) != len(f.Columns) {
			return place{"figures", "rows", strconv.Itoa(i)}.fail("exchange.cells", len(row.Cells), len(f.Columns))
		}
	}
	return nil
}

// step returns the place further down, in memory of its own.
func (p place) step(more ...string) place {
	return append(append(place{}, p...), more...)
}

func uniqueNouns[N record.Noun](at place, all []N) *say.Error {
	return unique(at, all, func(n N) string { return n.Key() })
}

func unique[T any](at place, all []T, key func(T) string) *say.Error {
	return once(at, all, key, func(key string) any { return short(key) })
}

// once refuses a list in which a key stands twice. Name says the key in a sentence.
func once[T any, K comparable](at place, all []T, key func(T) K, name func(K) any) *say.Error {
	seen := make(map[K]bool, len(all))
	for i, v := range all {
		k := key(v)
		if seen[k] {
			return at.step(strconv.Itoa(i)).fail("exchange.twice", name(k))
		}
		seen[k] = true
	}
	return nil
}

func set[T any](all []T, key func(T) string) map[string]bool {
	has := make(map[string]bool, len(all))
	for _, v := range all {
		has[key(v)] = true
	}
	return has
}

// label names a valve whatever head it is of.
func label(p record.Position) string {
	return short(p.Cylinder) + " " + string(p.Role) + " " + strconv.Itoa(p.N)
}
