package evaluate

import (
	"math/big"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/spring"
	"keeperbook/model/unit"
)

// seatSpread notes a role whose seat loads lie further from their mean than the shop's rule: by a load or by a
// share of the mean, whichever is the greater.
func (b *bench) seatSpread(ev *Evaluation, role record.Role) {
	rule := b.setup.Rules.SeatLoads
	if rule == nil {
		return
	}
	var loads []unit.Load
	var at []int
	for i := range ev.Valves {
		if v := &ev.Valves[i]; v.Role == role && v.SeatLoad.Known {
			loads, at = append(loads, v.SeatLoad.Value), append(at, i)
		}
	}
	if len(loads) < 2 {
		return
	}
	s, err := spring.SpreadOf(loads)
	if err != nil {
		return
	}
	within := max(unit.Load(rule.Load.Value), shareOf(s.Mean, rule.Percent))
	off := s.Off[s.Worst]
	if off <= within && -off <= within {
		return
	}
	v, how := &ev.Valves[at[s.Worst]], "finding.seat-spread.over"
	if off < 0 {
		off, how = -off, "finding.seat-spread.under"
	}
	ev.Findings = append(ev.Findings, Finding{Key: "seat-spread", Verdict: Over, Note: true,
		Line:  say.New(how, roleName(role), v.Label, v.SeatLoad.Value, off, s.Mean, within, b.loadUnit()),
		Short: say.New("short.seat-spread", s.Range, b.loadUnit())})
}

// shareOf is so many percent of a load, rounded down; nought where the text is no number.
func shareOf(l unit.Load, percent string) unit.Load {
	p, ok := new(big.Rat).SetString(percent)
	if !ok {
		return 0
	}
	p.Mul(p, big.NewRat(int64(l), 100))
	return unit.Load(new(big.Int).Div(p.Num(), p.Denom()).Int64())
}

// openWaits notes once for a role that its open loads rest on an estimated lift, where something is asked of them.
func (b *bench) openWaits(ev *Evaluation, role record.Role) {
	band := b.packages[role].OpenLoad
	if band == nil && b.setup.Needs.LifterMost == nil && b.setup.Needs.CamMost == nil {
		return
	}
	for i := range ev.Valves {
		if v := &ev.Valves[i]; v.Role == role && v.OpenLoad.Known && v.Lift.Mark == Estimate {
			ev.Notes = append(ev.Notes, say.New("note.open-load", roleName(role)))
			return
		}
	}
}
