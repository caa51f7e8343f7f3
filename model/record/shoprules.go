package record

import (
	"cmp"
	"maps"
	"slices"

	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// ShopRules are what the shop set for itself in the place of common practice, for set-ups that are
// shown in one unit of length. What it did not set is absent, so that common practice holds for it,
// also for what a later version rules besides.
//
// They belong to the book and are in no Record: a set-up has a copy of its own.
type ShopRules struct {
	Length   unit.Symbol               `json:"length"` // in or mm
	Decision Decision                  `json:"decision,omitempty"`
	Lengths  map[RuleKey]unit.Quantity `json:"lengths,omitempty"` // the rules that are one length each
	Sizes    []unit.Quantity           `json:"sizes,omitempty"`   // of shims, in order of thickness

	Loads  map[RuleKey]unit.Quantity   `json:"loads,omitempty"`
	Shares map[RuleKey]string          `json:"shares,omitempty"` // in percent, decimals
	Angles []string                    `json:"angles,omitempty"` // of locks, degrees, decimals
	Lists  map[RuleKey][]unit.Quantity `json:"lists,omitempty"`  // of lengths
}

// Rules returns what a set-up begins with: the shop's own rules, and common practice for the rest.
func (s ShopRules) Rules() Rules {
	r := DefaultRules(s.Length)
	if s.Decision != "" {
		r.Decision = s.Decision
	}
	for key, own := range s.Lengths {
		if q := r.at(key); q != nil && !key.Optional() {
			*q = own
		}
	}
	s.more(&r)
	if len(s.Sizes) > 0 {
		r.Sizes = slices.Clone(s.Sizes)
	}
	return r
}

// LashMoved is how far a lash may move before its spring is watched; nil where the shop did not say.
func (s ShopRules) LashMoved() *unit.Quantity {
	if q, ok := s.Lengths[RuleLash]; ok {
		return &q
	}
	return nil
}

// Own reports whether the shop set a rule itself.
func (s ShopRules) Own(key RuleKey) bool {
	_, length := s.Lengths[key]
	_, load := s.Loads[key]
	_, share := s.Shares[key]
	_, list := s.Lists[key]
	return length || load || share || list || key == RuleAngles && len(s.Angles) > 0
}

// With returns the rules with one of them set by the shop. It refuses what cannot be meant
// (say.Invalid).
func (s ShopRules) With(key RuleKey, q unit.Quantity) (ShopRules, error) {
	if over, under := key.bounds(); q.Length() <= over || q.Length() >= under {
		return s, say.Fail(say.Invalid, "shop.rule-range", q.Typed, s.shows(q.Length()), s.shows(over), s.shows(under))
	}
	next := s
	if next.Lengths = maps.Clone(s.Lengths); next.Lengths == nil {
		next.Lengths = map[RuleKey]unit.Quantity{}
	}
	next.Lengths[key] = q
	return next.checked(s)
}

// Without returns the rules with one of them given back to common practice.
func (s ShopRules) Without(key RuleKey) ShopRules {
	s.Lengths, s.Loads, s.Shares, s.Lists = without(s.Lengths, key), without(s.Loads, key), without(s.Shares, key), without(s.Lists, key)
	if key == RuleAngles {
		s.Angles = nil
	}
	return s
}

// without is a map without a key; nil where nothing is left.
func without[V any](all map[RuleKey]V, key RuleKey) map[RuleKey]V {
	all = maps.Clone(all)
	if delete(all, key); len(all) == 0 {
		return nil
	}
	return all
}

// thinnest shim that is taken. Common practice, no published source: no spring shim is sold as thin.
const thinnest = 2 * unit.Thou

// WithSize returns the rules with one more size of shim that the shop buys. It refuses a size that is
// there already and one that no shim has (say.Invalid).
func (s ShopRules) WithSize(q unit.Quantity) (ShopRules, error) {
	sizes := s.Rules().Sizes
	switch {
	case q.Length() < thinnest:
		return s, say.Fail(say.Invalid, "shop.size-thin", q.Typed, s.shows(q.Length()), s.shows(thinnest))
	case slices.ContainsFunc(sizes, func(o unit.Quantity) bool { return o.Value == q.Value }):
		return s, say.Fail(say.Invalid, "shop.size-twice", s.shows(q.Length()))
	}
	s.Sizes = append(sizes, q)
	slices.SortFunc(s.Sizes, func(a, b unit.Quantity) int { return cmp.Compare(a.Value, b.Value) })
	return s, nil
}

// WithoutSize returns the rules without a size. It refuses to take the last one away (say.Invalid):
// an empty list would be taken for common practice.
func (s ShopRules) WithoutSize(of unit.Length) (ShopRules, error) {
	sizes := slices.DeleteFunc(s.Rules().Sizes, func(o unit.Quantity) bool { return o.Length() == of })
	if len(sizes) == 0 {
		return s, say.Fail(say.Invalid, "shop.size-last", s.shows(of))
	}
	s.Sizes = sizes
	return s, nil
}

// shows writes a length in the unit that the rules are for.
func (s ShopRules) shows(l unit.Length) string {
	return unit.Style{Length: s.Length}.LengthIn(l) + " " + string(s.Length)
}
