package exchange

import (
	"reflect"
	"strconv"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// referrer checks that what a noun names is in the record, and keeps the first that is not.
type referrer struct {
	has map[record.ItemKind]map[string]bool
	err *say.Error
}

// want notes a reference that leads nowhere. An empty key refers to nothing.
func (f *referrer) want(kind record.ItemKind, key string, at place, more ...string) {
	if f.err == nil && key != "" && !f.has[kind][key] {
		f.err = at.step(more...).fail("exchange.not-there", short(key), say.New("exchange.item."+string(kind)))
	}
}

// checkReferences refuses a record that names a part, a gauge or a person that it does not hold.
func checkReferences(r *record.Record) *say.Error {
	f := &referrer{has: map[record.ItemKind]map[string]bool{
		record.EngineItem:    {r.Engine.ID: true},
		record.HeadItem:      {r.Head.ID: true},
		record.SpringItem:    keys(r.Parts.Springs),
		record.PieceItem:     keys(r.Parts.Pieces),
		record.RetainerItem:  keys(r.Parts.Retainers),
		record.LocksItem:     keys(r.Parts.Locks),
		record.LocatorItem:   keys(r.Parts.Locators),
		record.SealItem:      keys(r.Parts.Seals),
		record.ValvePartItem: keys(r.Parts.Valves),
		record.GaugeItem:     keys(r.Gauges),
	}}
	if r.Owner != nil {
		f.has[record.OwnerItem] = map[string]bool{r.Owner.ID: true}
	}
	// A set-up may name the one it replaces, which is a record of its own and not looked for here.
	f.want(record.OwnerItem, r.Engine.Owner, place{"record", "engine", "owner"})
	f.want(record.EngineItem, r.Head.Engine, place{"record", "head", "engine"})
	f.want(record.HeadItem, r.Setup.Head, place{"record", "setup", "head"})
	f.parts(r.Parts)
	f.setup(r.Setup)
	f.corrections(r)
	// A gauge may name the study it was tried in, which stays in the book of the shop that made it.
	return f.err
}

// corrections looks for the gauges that the parts of a stack were measured with, in every setting and
// every copy of one.
func (f *referrer) corrections(r *record.Record) {
	visitor{taken: func(at place, all []record.Taken) *say.Error {
		for i, t := range all {
			f.want(record.GaugeItem, t.Gauge, at, strconv.Itoa(i), "gauge")
		}
		return f.err
	}}.walk(reflect.ValueOf(*r), place{"record"})
}

func (f *referrer) parts(parts record.Parts) {
	for i, s := range parts.Springs {
		at := place{"record", "parts", "springs", strconv.Itoa(i)}
		for j, c := range s.Coils {
			coil := at.step("coils", strconv.Itoa(j))
			if c.Bind != nil {
				f.want(record.GaugeItem, c.Bind.Gauge, coil, "bind", "gauge")
			}
			f.loads(coil, c.Loads)
		}
		if a := s.Assembly; a != nil {
			if a.Bind != nil {
				f.want(record.GaugeItem, a.Bind.Gauge, at, "assembly", "bind", "gauge")
			}
			f.loads(at.step("assembly"), a.Loads)
			f.want(record.RetainerItem, a.Retainer, at, "assembly", "retainer")
			f.want(record.LocatorItem, a.Locator, at, "assembly", "locator")
		}
	}
	for i, p := range parts.Pieces {
		at := place{"record", "parts", "pieces", strconv.Itoa(i)}
		f.want(record.SpringItem, p.Spring, at, "spring")
		for j, b := range p.Binds {
			f.want(record.GaugeItem, b.Bind.Gauge, at, "binds", strconv.Itoa(j), "bind", "gauge")
		}
		for j, l := range p.Loads {
			test := at.step("loads", strconv.Itoa(j))
			f.loads(test, &l.Loads)
			f.want(record.RetainerItem, l.Retainer, test, "retainer")
			f.want(record.LocatorItem, l.Locator, test, "locator")
		}
	}
	for i, p := range parts.Retainers {
		f.want(record.GaugeItem, p.Gauge, place{"record", "parts", "retainers", strconv.Itoa(i)}, "gauge")
	}
	for i, p := range parts.Locators {
		f.want(record.GaugeItem, p.Gauge, place{"record", "parts", "locators", strconv.Itoa(i)}, "gauge")
	}
}

// loads looks for what the loads of a spring were taken with.
func (f *referrer) loads(at place, l *record.Loads) {
	if l != nil {
		f.want(record.GaugeItem, l.Gauge, at, "loads", "gauge")
		f.want(record.GaugeItem, l.Heights, at, "loads", "heights")
	}
}

func (f *referrer) setup(setup record.Setup) {
	for i, p := range setup.Packages {
		at := place{"record", "setup", "packages", strconv.Itoa(i)}
		f.want(record.SpringItem, p.Spring, at, "spring")
		f.fitted(at, p.Retainer, p.Locks, p.Locator, p.Seal, p.Valve)
	}
	for i, v := range setup.Valves {
		at := place{"record", "setup", "valves", strconv.Itoa(i)}
		// A package names the type of spring, a valve the single spring by the tag on its bag.
		f.want(record.PieceItem, v.Spring, at, "spring")
		f.fitted(at, v.Retainer, v.Locks, v.Locator, v.Seal, v.Valve)
		f.shims(at, v.Stack)
	}
	for i, v := range setup.Readings {
		at := place{"record", "setup", "readings", strconv.Itoa(i)}
		f.want(record.GaugeItem, v.Gauge, at, "gauge")
		f.want(record.GaugeItem, v.Heights, at, "heights")
		f.want(record.PieceItem, v.Piece, at, "piece")
		if o := v.Over; o != nil {
			f.fitted(at.step("over"), o.Retainer, o.Locks, o.Locator, "", o.Valve)
			f.shims(at.step("over"), o.Stack)
		}
	}
}

// shims looks for the gauges that the shims of a stack were measured with.
func (f *referrer) shims(at place, stack []record.Shim) {
	for i, s := range stack {
		f.want(record.GaugeItem, s.Gauge, at, "stack", strconv.Itoa(i), "gauge")
	}
}

// fitted looks for the parts that a role, a valve or a reading names in the same words.
func (f *referrer) fitted(at place, retainer, locks, locator, seal, valve string) {
	f.want(record.RetainerItem, retainer, at, "retainer")
	f.want(record.LocksItem, locks, at, "locks")
	f.want(record.LocatorItem, locator, at, "locator")
	f.want(record.SealItem, seal, at, "seal")
	f.want(record.ValvePartItem, valve, at, "valve")
}

func keys[N record.Noun](all []N) map[string]bool {
	return set(all, func(n N) string { return n.Key() })
}
