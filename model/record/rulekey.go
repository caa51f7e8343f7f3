package record

import (
	"slices"
	"strings"

	"keeperbook/model/unit"
)

// RuleKey names a rule.
type RuleKey string

// The rules that are one length each.
const (
	RuleAgree    RuleKey = "agree"
	RuleSeal     RuleKey = "seal"
	RuleRetainer RuleKey = "retainer"
	RuleSet      RuleKey = "set"
	RuleRated    RuleKey = "rated"
	RuleShim     RuleKey = "shim" // tolerance of a shim that nobody measured

	// RuleLash is how far a lash may move before its spring is watched. Common practice has no figure; it is in no set-up, as
	// springs in service are judged by what the shop asks for now.
	RuleLash RuleKey = "lash-moved"
)

// RuleKeys lists them in the order they are said. What is assumed of gauges comes besides, as
// [ScatterOf] and [StepOf] name it.
func RuleKeys() []RuleKey {
	return []RuleKey{RuleAgree, RuleSeal, RuleRetainer, RuleSet, RuleRated, RuleShim}
}

const scatterOf, stepOf = "scatter ", "step "

// ScatterOf names the standard deviation that is assumed of one reading on a kind of gauge.
func ScatterOf(kind GaugeKind) RuleKey { return scatterOf + RuleKey(kind) }

// StepOf names the step that is assumed of a kind of gauge.
func StepOf(kind GaugeKind) RuleKey { return stepOf + RuleKey(kind) }

// Of returns one of the rules, the zero Quantity where there is no such rule.
func (r Rules) Of(key RuleKey) unit.Quantity {
	if q := r.at(key); q != nil {
		return *q
	}
	return unit.Quantity{}
}

func (r *Rules) at(key RuleKey) *unit.Quantity {
	switch key {
	case RuleAgree:
		return &r.Agree
	case RuleSeal:
		return &r.SealLeast
	case RuleRetainer:
		return &r.RetainerLeast
	case RuleSet:
		return &r.SetHeights
	case RuleRated:
		return &r.RatedOver
	case RuleShim:
		return r.ShimTolerance
	}
	switch {
	case key == RuleSeatLoads && r.SeatLoads != nil:
		return &r.SeatLoads.Load
	case key == RuleLoadScatter && r.AssumedLoad != nil:
		return &r.AssumedLoad.S
	case key == RuleLoadStep && r.AssumedLoad != nil:
		return &r.AssumedLoad.Step
	case key.Optional():
		if q := r.fit(key, false); q != nil {
			return *q
		}
		return nil
	}
	if kind, ok := strings.CutPrefix(string(key), scatterOf); ok {
		if a := r.assumed(GaugeKind(kind)); a != nil {
			return &a.S
		}
	}
	if kind, ok := strings.CutPrefix(string(key), stepOf); ok {
		if a := r.assumed(GaugeKind(kind)); a != nil {
			return &a.Step
		}
	}
	return nil
}

func (r *Rules) assumed(kind GaugeKind) *Assumed {
	at := slices.IndexFunc(r.Assumed, func(a Assumed) bool { return a.Kind == kind })
	if at < 0 {
		return nil
	}
	return &r.Assumed[at]
}

// bounds of a rule, both of them excluded. Common practice, no published source: heights that agree
// within a tenth of an inch say nothing, clearances of half an inch leave no lift, no valve lifts two
// inches, and a gauge that scatters by hundredths measures nothing here. What lies beyond was typed in
// another unit.
func (key RuleKey) bounds() (over, under unit.Length) {
	switch key {
	case RuleAgree, RuleSet, RuleLash:
		return 0, 100 * unit.Thou
	case RuleSeal, RuleRetainer:
		return 0, 500 * unit.Thou
	case RuleRated:
		return 100 * unit.Thou, 2000 * unit.Thou
	}
	if key.Optional() {
		return 0, 500 * unit.Thou
	}
	return 0, 20 * unit.Thou
}
