package task

import (
	"slices"
	"strings"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// ReadSize reads a length of a part. Nothing typed is no length.
func (b *Bench) ReadSize(kind unit.Kind, text string) (*unit.Quantity, error) {
	if strings.TrimSpace(text) == "" {
		return nil, nil
	}
	c := record.ShimColumn(b.rec.Setup.Units)
	c.Kind = kind
	return readOne(c, text)
}

// ReadRate reads the rate of a spring, in pounds an inch where loads are in pounds, else in newtons a
// millimetre. Nothing typed is no rate.
func (b *Bench) ReadRate(text string) (*unit.Quantity, error) {
	if strings.TrimSpace(text) == "" {
		return nil, nil
	}
	return readOne(record.PlainColumn(b.RateUnit()), text)
}

// RateUnit is the unit of a rate that has none behind it.
func (b *Bench) RateUnit() unit.Symbol {
	if b.rec.Setup.Units.Load == unit.Lbf {
		return unit.LbfPerIn
	}
	return unit.NPerMm
}

func readOne(c unit.Column, text string) (*unit.Quantity, error) {
	e, err := unit.Parse(c, text)
	if err != nil {
		return nil, err
	}
	return &e.Quantity, nil
}

// ReadSteps reads the steps of a retainer, or of a locator, where a minus is a recess. Nothing typed,
// and the word none, is no step.
func (b *Bench) ReadSteps(kind unit.Kind, text string) ([]unit.Quantity, error) {
	if strings.TrimSpace(text) == "" {
		return nil, nil
	}
	c := record.ShimColumn(b.rec.Setup.Units)
	c.Kind = kind
	return unit.ParseSteps(c, text)
}

// StackParts are what a reading may go through, in the order they are asked for; the last is what the
// gauge shows at nought.
func StackParts() []record.PartOfStack {
	return record.PartsOfStack
}

// Through returns a setting in which one part of the stack is this thick; nothing typed takes it out. A
// part stays as zeroed as it was, and a new one is not zeroed.
func (b *Bench) Through(setting []record.Taken, part record.PartOfStack, text string) ([]record.Taken, error) {
	kind := unit.Plain
	if part.Signed() {
		kind = unit.Signed
	}
	amount, err := b.ReadSize(kind, text)
	if err != nil {
		return nil, err
	}
	next := slices.Clone(setting)
	at := slices.IndexFunc(next, func(t record.Taken) bool { return t.Part == part })
	switch {
	case amount == nil && at >= 0:
		next = slices.Delete(next, at, at+1)
	case amount == nil:
	case at >= 0:
		next[at].Amount = *amount
	default:
		next = append(next, record.Taken{Part: part, Amount: *amount, Zero: record.NotZeroed})
	}
	if len(next) == 0 {
		return nil, nil
	}
	return next, nil
}

// SetZero returns a setting in which the gauge was zeroed on a part, or was not.
func SetZero(setting []record.Taken, part record.PartOfStack, zero record.Zeroing) ([]record.Taken, error) {
	next := slices.Clone(setting)
	at := slices.IndexFunc(next, func(t record.Taken) bool { return t.Part == part })
	if at < 0 {
		return nil, say.Fail(say.Invalid, "parts.zero-of-nothing", say.New("stack."+string(part)))
	}
	next[at].Zero = zero
	return next, nil
}

// ReadLeast returns a package in which a coil has this least margin; nothing typed takes it out.
func (b *Bench) ReadLeast(p record.Package, coil int, text string) (record.Package, error) {
	margin, err := b.ReadSize(unit.Plain, text)
	if err != nil {
		return p, err
	}
	p.Least = slices.Clone(p.Least)
	at := slices.IndexFunc(p.Least, func(l record.Least) bool { return l.Coil == coil })
	switch {
	case margin == nil && at >= 0:
		p.Least = slices.Delete(p.Least, at, at+1)
	case margin == nil:
	case at >= 0:
		p.Least[at].Margin = *margin
	default:
		p.Least = append(p.Least, record.Least{Coil: coil, Margin: *margin})
		slices.SortFunc(p.Least, func(a, b record.Least) int { return a.Coil - b.Coil })
	}
	if len(p.Least) == 0 {
		p.Least = nil
	}
	return p, nil
}

// LeastFrom returns a package in which a coil's least margin comes from somewhere. A margin has to be
// there first.
func LeastFrom(p record.Package, coil int, from string) (record.Package, error) {
	p.Least = slices.Clone(p.Least)
	at := slices.IndexFunc(p.Least, func(l record.Least) bool { return l.Coil == coil })
	switch {
	case at >= 0:
		p.Least[at].From = strings.TrimSpace(from)
	case strings.TrimSpace(from) != "":
		return p, say.Fail(say.Invalid, "parts.least-first")
	}
	return p, nil
}

// LeastOf returns the least margin of a coil; false where none was chosen.
func LeastOf(p record.Package, coil int) (record.Least, bool) {
	at := slices.IndexFunc(p.Least, func(l record.Least) bool { return l.Coil == coil })
	if at < 0 {
		return record.Least{}, false
	}
	return p.Least[at], true
}
