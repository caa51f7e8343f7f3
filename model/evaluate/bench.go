package evaluate

import (
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// bench is a record laid out for looking things up.
type bench struct {
	rec      *record.Record
	head     *record.Head
	setup    *record.Setup
	valves   map[record.Position]record.Valve
	packages map[record.Role]record.Package
	readings map[place][]*record.Reading // unstruck, in order of N
	shared   map[sharedKey]record.Position
	seat     map[record.Position]unit.Length // seat work done, summed
	over     map[record.Position]record.Over
	springs  map[string]*record.Spring
	pieces   map[string]*record.SpringPiece
	retainer map[string]*record.Retainer
	locks    map[string]*record.Locks
	locators map[string]*record.Locator
	seals    map[string]*record.Seal
	parts    map[string]*record.ValvePart
	gauges   map[string]*record.Gauge
	doubt    ledger
	trying   bool            // springs are tried on it, and nobody asks where the doubt in a number comes from
	tried    map[place]taken // what readings say while nothing but springs and shims change
}

type place struct {
	at   record.Position
	kind record.Kind
	coil int
}

type sharedKey struct {
	kind record.Kind
	role record.Role
}

// layOut builds the lookups of a record. It keeps pointers into the record and never writes to it.
func layOut(rec *record.Record) *bench {
	b := &bench{
		rec: rec, head: &rec.Head, setup: &rec.Setup,
		valves:   make(map[record.Position]record.Valve, len(rec.Setup.Valves)),
		packages: map[record.Role]record.Package{},
		readings: make(map[place][]*record.Reading, len(rec.Setup.Readings)),
		shared:   map[sharedKey]record.Position{},
		seat:     map[record.Position]unit.Length{},
		over:     make(map[record.Position]record.Over, len(rec.Setup.Valves)),
		springs:  index(rec.Parts.Springs),
		pieces:   index(rec.Parts.Pieces),
		retainer: index(rec.Parts.Retainers),
		locks:    index(rec.Parts.Locks),
		locators: index(rec.Parts.Locators),
		seals:    index(rec.Parts.Seals),
		parts:    index(rec.Parts.Valves),
		gauges:   index(rec.Gauges),
		doubt:    newLedger(&rec.Setup),
	}
	for _, v := range rec.Setup.Valves {
		b.valves[v.At] = v
	}
	for _, p := range rec.Setup.Packages {
		b.packages[p.Role] = p
	}
	for i := range rec.Setup.Readings {
		if r := &rec.Setup.Readings[i]; r.Struck == nil {
			at := place{r.At, r.Kind, r.Coil}
			b.readings[at] = append(b.readings[at], r)
		}
	}
	for _, s := range rec.Setup.Shared {
		b.shared[sharedKey{s.Kind, s.Role}] = s.From
	}
	for _, w := range rec.Setup.SeatWork {
		b.seat[w.At] += w.Depth.Length()
	}
	return b
}

func index[T record.Noun](all []T) map[string]*T {
	m := make(map[string]*T, len(all))
	for i := range all {
		m[all[i].Key()] = &all[i]
	}
	return m
}

// fitted is what one position carries: the package of its role, with what differs on this valve.
type fitted struct {
	record.Valve
	pack     record.Package
	piece    *record.SpringPiece
	spring   *record.Spring
	retainer *record.Retainer
	locks    *record.Locks
	locator  *record.Locator
	seal     *record.Seal
	valve    *record.ValvePart
	over     record.Over // what a reading taken now would be measured over
	shims    []shimInput // of the stack, in its order
}

func (b *bench) fit(at record.Position) *fitted {
	f := &fitted{Valve: b.valves[at], pack: b.packages[at.Role]}
	f.At = at
	f.piece = b.pieces[f.Spring]
	spring := f.pack.Spring
	if f.piece != nil {
		spring = f.piece.Spring
	}
	f.spring = b.springs[spring]
	f.over = b.overNow(at)
	f.retainer = b.retainer[f.over.Retainer]
	f.locks = b.locks[f.over.Locks]
	f.locator = b.locators[f.over.Locator]
	f.valve = b.parts[f.over.Valve]
	f.seal = b.seals[first(f.Seal, f.pack.Seal)]
	f.shims = b.shimInputs(f.Stack)
	return f
}

// overNow is [OverNow] from the lookups.
func (b *bench) overNow(at record.Position) record.Over {
	if over, ok := b.over[at]; ok {
		return over
	}
	var offset unit.Length
	v, p := b.valves[at], b.packages[at.Role]
	if l := b.locks[first(v.Locks, p.Locks)]; l != nil && l.Offset != nil {
		offset = l.Offset.Length()
	}
	over := overOf(v, p, offset, b.seat[at])
	b.over[at] = over
	return over
}

// stepOf returns the step of coil j (from 1) at an end, nought for the outermost; false where a part
// is named and does not say the step of this coil.
func stepOf(steps []unit.Quantity, j int) (unit.Length, bool) {
	switch {
	case j <= 1:
		return 0, true
	case j-2 < len(steps):
		return steps[j-2].Length(), true
	}
	return 0, false
}

func first(texts ...string) string {
	for _, t := range texts {
		if t != "" {
			return t
		}
	}
	return ""
}
