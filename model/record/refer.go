package record

import "slices"

// Referring calls visit with every part and gauge that a noun names, and returns a copy of the noun with what visit made of
// the names. A name that is empty is none.
func Referring(n Noun, visit func(kind ItemKind, key *string)) Noun {
	w := referrer(visit)
	switch n := n.(type) {
	case Package:
		w.key(SpringItem, &n.Spring)
		w.fitted(&n.Retainer, &n.Locks, &n.Locator, &n.Seal, &n.Valve)
		return n
	case Valve:
		w.key(PieceItem, &n.Spring)
		w.fitted(&n.Retainer, &n.Locks, &n.Locator, &n.Seal, &n.Valve)
		n.Stack = w.shims(n.Stack)
		return n
	case Reading:
		w.key(GaugeItem, &n.Gauge)
		w.key(GaugeItem, &n.Heights)
		w.key(PieceItem, &n.Piece)
		n.Correction = w.taken(n.Correction)
		if n.Over != nil {
			over := *n.Over
			w.fitted(&over.Retainer, &over.Locks, &over.Locator, nil, &over.Valve)
			over.Stack = w.shims(over.Stack)
			n.Over = &over
		}
		return n
	case SpringPiece:
		w.key(SpringItem, &n.Spring)
		n.Binds = slices.Clone(n.Binds)
		for i := range n.Binds {
			n.Binds[i].Bind = *w.bind(&n.Binds[i].Bind)
		}
		n.Loads = slices.Clone(n.Loads)
		for i := range n.Loads {
			l := &n.Loads[i]
			l.Loads = *w.loads(&l.Loads)
			w.fitted(&l.Retainer, nil, &l.Locator, nil, nil)
		}
		return n
	case Spring:
		n.Coils = slices.Clone(n.Coils)
		for i := range n.Coils {
			n.Coils[i].Bind, n.Coils[i].Loads = w.bind(n.Coils[i].Bind), w.loads(n.Coils[i].Loads)
		}
		if n.Assembly != nil {
			a := *n.Assembly
			a.Bind, a.Loads = w.bind(a.Bind), w.loads(a.Loads)
			w.fitted(&a.Retainer, nil, &a.Locator, nil, nil)
			n.Assembly = &a
		}
		return n
	case Retainer:
		w.key(GaugeItem, &n.Gauge)
		return n
	case Locator:
		w.key(GaugeItem, &n.Gauge)
		return n
	case Stock:
		w.key(n.Of, &n.ID)
		return n
	case Tagged:
		w.key(n.Of, &n.Type)
		return n
	case StockShim:
		w.key(GaugeItem, &n.Gauge)
		return n
	case Study:
		w.key(GaugeItem, &n.Gauge)
		return n
	case Gauge:
		// The study that it names may be in another shop's book and is not looked for.
		n.Setting = w.taken(n.Setting)
		return n
	}
	return n
}

// referrer visits names.
type referrer func(kind ItemKind, key *string)

func (w referrer) key(kind ItemKind, key *string) {
	if key != nil && *key != "" {
		w(kind, key)
	}
}

func (w referrer) fitted(retainer, locks, locator, seal, valve *string) {
	w.key(RetainerItem, retainer)
	w.key(LocksItem, locks)
	w.key(LocatorItem, locator)
	w.key(SealItem, seal)
	w.key(ValvePartItem, valve)
}

func (w referrer) bind(b *Bind) *Bind {
	if b == nil {
		return nil
	}
	c := *b
	w.key(GaugeItem, &c.Gauge)
	c.Correction = w.taken(c.Correction)
	return &c
}

// loads visits what the loads of a spring were taken with.
func (w referrer) loads(l *Loads) *Loads {
	if l == nil {
		return nil
	}
	c := *l
	w.key(GaugeItem, &c.Gauge)
	w.key(GaugeItem, &c.Heights)
	c.Correction = w.taken(c.Correction)
	return &c
}

// taken visits the gauges that the parts of a stack were measured with, shims those of shims.
func (w referrer) taken(all []Taken) []Taken {
	all = slices.Clone(all)
	for i := range all {
		w.key(GaugeItem, &all[i].Gauge)
	}
	return all
}

func (w referrer) shims(all []Shim) []Shim {
	all = slices.Clone(all)
	for i := range all {
		w.key(GaugeItem, &all[i].Gauge)
	}
	return all
}

// Named returns a copy of a noun with another key.
func Named(n Noun, key string) Noun {
	switch n := n.(type) {
	case Spring:
		n.ID = key
		return n
	case SpringPiece:
		n.Tag = key
		return n
	case Retainer:
		n.ID = key
		return n
	case Locks:
		n.ID = key
		return n
	case Locator:
		n.ID = key
		return n
	case Seal:
		n.ID = key
		return n
	case ValvePart:
		n.ID = key
		return n
	case Gauge:
		n.ID = key
		return n
	}
	return n
}
