package record

import (
	"maps"
	"math/big"
	"slices"
	"strings"

	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// The rules that are one load each, one share of something in percent, or a list.
const (
	RuleSeatLoads   RuleKey = "seat-loads"   // seat loads of a role lie within ± of their mean
	RuleLoadScatter RuleKey = "load-scatter" // assumed of the load scale of a tester without a study
	RuleLoadStep    RuleKey = "load-step"    // and of its step
	RuleSeatShare   RuleKey = "seat-share"   // the same as RuleSeatLoads, as a share of the mean
	RuleLostWatch   RuleKey = "lost-watch"   // loss of seat load from which a spring is watched
	RuleLostReplace RuleKey = "lost-replace" // and from which it is replaced
	RuleAngles      RuleKey = "angles"       // of locks, as met
	RuleOffsets     RuleKey = "offsets"      // of locks, as sold
	RuleBosses      RuleKey = "bosses"       // diameters of guide bosses, as met
)

// LoadRules, ShareRules and ListRules list these keys in the order they are said.
func LoadRules() []RuleKey { return []RuleKey{RuleSeatLoads, RuleLoadScatter, RuleLoadStep} }

// ShareRules are described at [LoadRules].
func ShareRules() []RuleKey { return []RuleKey{RuleSeatShare, RuleLostWatch, RuleLostReplace} }

// ListRules are described at [LoadRules].
func ListRules() []RuleKey { return []RuleKey{RuleAngles, RuleOffsets, RuleBosses} }

const fitOf = "fit "

// Side is one end of what a clearance may be.
type Side string

// The sides of a clearance.
const (
	LeastRoom Side = "least"
	MostRoom  Side = "most"
)

// FitNames lists the clearances in bench order from the casting up, by the names of [Fits].
func FitNames() []string {
	return []string{"boss", "pocket", "cup", "locator", "retainer", "coils", "seal", "neighbour"}
}

// FitRule names one side of a clearance. There is no such rule until a shop sets it, for common practice has no figure.
func FitRule(name string, side Side) RuleKey { return RuleKey(fitOf + name + " " + string(side)) }

// Optional reports whether a rule may be absent.
func (key RuleKey) Optional() bool { return strings.HasPrefix(string(key), fitOf) || key == RuleLash }

// fit returns where a side of a clearance stands, and makes its place where it is to be set.
func (r *Rules) fit(key RuleKey, set bool) **unit.Quantity {
	name, side, _ := strings.Cut(strings.TrimPrefix(string(key), fitOf), " ")
	if r.Fits == nil {
		if !set {
			return nil
		}
		r.Fits = &Fits{}
	}
	at := map[string]**Clearance{
		"boss": &r.Fits.Boss, "pocket": &r.Fits.Pocket, "cup": &r.Fits.Cup, "locator": &r.Fits.Locator,
		"retainer": &r.Fits.Retainer, "coils": &r.Fits.Coils, "seal": &r.Fits.Seal, "neighbour": &r.Fits.Neighbour,
	}[name]
	if at == nil {
		return nil
	}
	if *at == nil {
		if !set {
			return nil
		}
		*at = &Clearance{}
	}
	switch Side(side) {
	case LeastRoom:
		return &(*at).Least
	case MostRoom:
		return &(*at).Most
	}
	return nil
}

// Share returns a rule in percent, "" where there is no such rule.
func (r Rules) Share(key RuleKey) string {
	if s := r.share(key); s != nil {
		return *s
	}
	return ""
}

func (r *Rules) share(key RuleKey) *string {
	switch {
	case key == RuleSeatShare && r.SeatLoads != nil:
		return &r.SeatLoads.Percent
	case key == RuleLostWatch && r.LoadLost != nil:
		return &r.LoadLost.Watch
	case key == RuleLostReplace && r.LoadLost != nil:
		return &r.LoadLost.Replace
	}
	return nil
}

// List returns a rule that is a list of lengths; of the angles of locks there is [Rules.LockAngles].
func (r Rules) List(key RuleKey) []unit.Quantity {
	switch key {
	case RuleOffsets:
		return r.LockOffsets
	case RuleBosses:
		return r.Bosses
	}
	return nil
}

// more puts what the shop set of these rules in the place of common practice.
func (s ShopRules) more(r *Rules) {
	for key, own := range s.Lengths {
		if strings.HasPrefix(string(key), fitOf) {
			if q := r.fit(key, true); q != nil {
				*q = &own
			}
		}
	}
	for key, own := range s.Loads {
		if q := r.at(key); q != nil {
			*q = own
		}
	}
	for key, own := range s.Shares {
		if text := r.share(key); text != nil {
			*text = own
		}
	}
	if len(s.Angles) > 0 {
		r.LockAngles = slices.Clone(s.Angles)
	}
	if own := s.Lists[RuleOffsets]; len(own) > 0 {
		r.LockOffsets = slices.Clone(own)
	}
	if own := s.Lists[RuleBosses]; len(own) > 0 {
		r.Bosses = slices.Clone(own)
	}
}

// most of a load that these rules take. Common practice, no published source: seat loads that may lie 250 lbf apart
// say nothing, and neither does a tester that scatters by as much.
const (
	mostApart   unit.Load = 1_000_000 // mN
	mostScatter unit.Load = 100_000   // mN
)

// WithLoad returns the rules with one that is a load set by the shop. It refuses what cannot be meant (say.Invalid).
func (s ShopRules) WithLoad(key RuleKey, q unit.Quantity) (ShopRules, error) {
	most := mostScatter
	if key == RuleSeatLoads {
		most = mostApart
	}
	if l := unit.Load(q.Value); l <= 0 || l > most {
		return s, say.Fail(say.Invalid, "shop.rule-load", q.Typed, unit.Style{Load: s.Load()}.LoadIn(most)+" "+string(s.Load()))
	}
	next := s
	if next.Loads = maps.Clone(s.Loads); next.Loads == nil {
		next.Loads = map[RuleKey]unit.Quantity{}
	}
	next.Loads[key] = q
	return next.checked(s)
}

// WithShare returns the rules with one that is a share in percent set by the shop.
func (s ShopRules) WithShare(key RuleKey, percent string) (ShopRules, error) {
	next := s
	if next.Shares = maps.Clone(s.Shares); next.Shares == nil {
		next.Shares = map[RuleKey]string{}
	}
	next.Shares[key] = percent
	return next.checked(s)
}

// flattest and steepest angle of locks that is taken, in degrees. Common practice, no published source: the trade's
// tapers are of 7 to 10 degrees, one of less than a degree never lets go, and one of more than 45 holds nothing.
const flattest, steepest = 1, 45

// WithAngles returns the rules with the angles of locks that the shop meets, in degrees. It refuses what cannot be
// meant (say.Invalid).
func (s ShopRules) WithAngles(angles []string) (ShopRules, error) {
	for _, a := range angles {
		x := number(a)
		if positive(a) && (x.Cmp(big.NewRat(flattest, 1)) < 0 || x.Cmp(big.NewRat(steepest, 1)) > 0) {
			return s, say.Fail(say.Invalid, "shop.rule-angle", a, flattest, steepest)
		}
	}
	next := s
	next.Angles = slices.Clone(angles)
	return next.checked(s)
}

// longest is more than any offset of locks, and any guide boss, has. Common practice, no published source.
const (
	longestOffset = 250 * unit.Thou
	widestBoss    = 1500 * unit.Thou
)

// WithList returns the rules with a list of lengths set by the shop.
func (s ShopRules) WithList(key RuleKey, all []unit.Quantity) (ShopRules, error) {
	most := widestBoss
	if key == RuleOffsets {
		most = longestOffset
	}
	for _, q := range all {
		if l := q.Length(); l == 0 || l > most || l < -most {
			return s, say.Fail(say.Invalid, "shop.rule-list", q.Typed, s.shows(l), s.shows(most))
		}
	}
	next := s
	if next.Lists = maps.Clone(s.Lists); next.Lists == nil {
		next.Lists = map[RuleKey][]unit.Quantity{}
	}
	next.Lists[key] = slices.Clone(all)
	return next.checked(s)
}

// checked returns the rules, or those before where no record could have them.
func (s ShopRules) checked(before ShopRules) (ShopRules, error) {
	if err := doubtRules(s.Rules()); err != nil {
		return before, err
	}
	return s, nil
}

// Load is the unit that loads of these rules are shown in.
func (s ShopRules) Load() unit.Symbol {
	if s.Length == unit.Mm {
		return unit.N
	}
	return unit.Lbf
}
