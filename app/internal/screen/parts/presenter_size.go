package parts

import (
	"fmt"
	"slices"
	"strconv"

	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// mostRegisters is how many coils a retainer or a locator is asked the register of.
const mostRegisters = 3

// registers are the diameters that centre the coils from within, the outermost first. A coil without one has no
// register there.
func (p *Presenter) registers(have []record.Register, set func([]record.Register) record.Noun) []spec {
	all := make([]spec, mostRegisters)
	for i := range all {
		coil, size := i+1, (*unit.Quantity)(nil)
		at := slices.IndexFunc(have, func(r record.Register) bool { return r.Coil == coil })
		if at >= 0 {
			size = &have[at].Diameter
		}
		all[i] = p.length(fmt.Sprintf("register %d", coil), "parts.register."+strconv.Itoa(coil), unit.Plain, size, func(q *unit.Quantity) record.Noun {
			next := slices.DeleteFunc(slices.Clone(have), func(r record.Register) bool { return r.Coil == coil })
			if q != nil {
				next = append(next, record.Register{Coil: coil, Diameter: *q})
				slices.SortFunc(next, func(a, b record.Register) int { return a.Coil - b.Coil })
			}
			if len(next) == 0 {
				next = nil
			}
			return set(next)
		})
		if i > 0 {
			all[i] = beside(all[i])
		}
	}
	return all
}

// groove is how locks and stem meet.
func (p *Presenter) groove(have record.Groove, set func(record.Groove) record.Noun) spec {
	return p.choice("groove", "parts.groove", string(have), []Option{
		{Label: p.bench.Say("needs.unsaid")}, {Value: string(record.SingleGroove), Label: p.bench.Say("groove.single")},
		{Value: string(record.MultiGroove), Label: p.bench.Say("groove.multi")},
	}, func(t string) record.Noun { return set(record.Groove(t)) })
}
