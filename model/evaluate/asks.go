package evaluate

import (
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// asks are the questions that nobody answered yet and that decide about a spring, what decides most first.
func (t *trial) asks(v *Valve) []say.Line {
	var all []say.Line
	role := say.New("role." + string(t.pack.Role))
	ask := func(open bool, key string, args ...any) {
		if open {
			all = append(all, say.New("choose.ask."+key, args...))
		}
	}
	needs, pack := &t.b.setup.Needs, &t.pack
	_, least := leastOf(*pack, 1)
	ask(!v.Lift.Known, "lift", role)
	ask(v.Lift.Known && v.Lift.Mark == Estimate, "lift-measured", role, v.Lift.Value)
	ask(!v.Base.Known, "base", role)
	ask(!least, "least", role)
	ask(noBand(pack.SeatLoad), "seat-load", role)
	ask(noBand(pack.OpenLoad), "open-load", role)
	ask(needs.Use == "", "use")
	ask(needs.RunLength == "", "run-length")
	ask(needs.Held == "", "held")
	ask(needs.Reached == "", "reached")
	ask(needs.OverRev == "", "over-rev")
	ask(needs.Lifter == "", "lifter")
	ask(needs.Lifter != "" && needs.LifterMost == nil, "lifter-most")
	ask(needs.CamMost == nil && needs.CamSays == "", "cam")
	ask(needs.Boost == nil, "boost")
	ask(needs.Oil == "", "oil")
	f := t.b.fit(t.at)
	ask(f.retainer == nil, "retainer", role)
	ask(f.locks == nil, "locks", role)
	ask(f.seal == nil, "seal", role)
	for _, size := range []struct {
		of  *unit.Quantity
		key string
	}{{needs.Pocket, "pocket"}, {needs.Boss, "boss"}, {needs.Centres, "centres"}} {
		ask(size.of == nil, size.key)
	}
	return all
}

func noBand(b *record.Band) bool {
	return b == nil || b.Least == nil && b.Most == nil && b.Target == nil
}
