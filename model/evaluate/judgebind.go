package evaluate

import (
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// judgeBind holds the margin of every coil against its least margin, and names the coil that is worst off.
func (b *bench) judgeBind(v *Valve, f *fitted) {
	if v.Governing < 0 {
		return
	}
	if !v.Margin.Known {
		b.judgeClosed(v)
		return
	}
	c, h := b.worstCoil(v)
	m, least, coil := c.Margin, c.Least.Value, coilName(c.Name)
	this, other := h.printed(m, least), unit.Beside{This: least, Other: m.Value}
	plain, beyond := unit.Beside{This: m.Value, Other: least}, least-m.Value
	line := func(key string) say.Line { return say.New(key, v.Label, coil, this, other) }
	switch {
	case h.verdict == Binds:
		key := "finding.bind.binds"
		if m.Value > 0 {
			key = "finding.bind.may"
		}
		v.add(Finding{Key: "bind", Verdict: Binds, Line: say.New(key, v.Label, coil, this), Short: say.New("short.bind.binds", this, coil)}.by(beyond))
	case h.verdict == Short:
		v.add(Finding{Key: "bind", Verdict: Short, Line: line("finding.bind.short"), Short: say.New("short.bind", plain, other, coil)}.by(beyond))
	case !v.liftMeasured():
		v.judgeUpTo("bind", v.bindLimit, v.bindBy)
	case h.why == estimated:
		v.add(Finding{Key: "bind", Verdict: Unproven, Line: h.ending(line("finding.bind.unproven"), m, least),
			Short: say.New("short.bind.unproven", plain, other, coil)}.by(beyond))
	case h.verdict == Unproven:
		v.add(Finding{Key: "bind", Verdict: Unproven, Line: h.ending(line("finding.bind.unproven"), m, least),
			Short: say.New("short.bind.within", this, other, coil)}.by(beyond))
	default:
		v.add(Finding{Key: "bind", Verdict: Within, Line: line("finding.bind.within"), Short: say.New("short.bind.within", this, other, coil)})
	}
	b.judgeMost(v, f)
}

// judgeClosed says of a valve without a lift whether there is any room for one.
func (b *bench) judgeClosed(v *Valve) {
	worst := &v.Coils[v.Governing]
	for i := range v.Coils {
		if c := &v.Coils[i]; c.room.Known && c.room.Value <= 0 && worst.room.Value > 0 {
			worst = c
		}
	}
	coil, room := coilName(worst.Name), worst.room.Value
	switch {
	case room <= 0:
		v.add(Finding{Key: "bind", Verdict: Binds, Line: say.New("finding.bind.solid-closed", v.Label, coil),
			Short: say.New("short.bind.solid-closed", coil)}.by(worst.Least.Value - room))
	case room < worst.Least.Value:
		v.add(Finding{Key: "bind", Verdict: Short,
			Line:  say.New("finding.bind.no-lift", v.Label, coil, room, worst.Least.Value),
			Short: say.New("short.bind", room, worst.Least.Value, coil)}.by(worst.Least.Value - room))
	default:
		v.judgeUpTo("bind", v.bindLimit, v.bindBy)
	}
}

// worstCoil holds every coil against its least margin and returns the one that is worst off, the governing
// one of equals.
func (b *bench) worstCoil(v *Valve) (*Coil, held) {
	worst := &v.Coils[v.Governing]
	h := b.holdCoil(worst)
	for i := range v.Coils {
		c := &v.Coils[i]
		if i == v.Governing || !c.Slack.Known {
			continue
		}
		one := b.holdCoil(c)
		nearer := one.verdict == Unproven && c.Slack.Value-one.guard.W < worst.Slack.Value-h.guard.W
		if one.verdict < h.verdict || one.verdict == h.verdict && nearer {
			worst, h = c, one
		}
	}
	return worst, h
}

func (b *bench) holdCoil(c *Coil) held {
	h := b.hold(c.Margin, c.Least.Value)
	if b.binds(c.Margin, h.guard) {
		h.verdict = Binds
	}
	return h
}

// judgeMost notes that the governing coil keeps more than was asked for, and that nothing can be between
// least and most where they are nearer to each other than what is kept back at both.
func (b *bench) judgeMost(v *Valve, f *fitted) {
	most := f.pack.Most
	if most == nil {
		return
	}
	m, coil, top := v.Margin, coilName(v.Coils[v.Governing].Name), most.Length()
	if m.Value > top {
		this := unit.Beside{This: m.Value, Other: top}
		v.add(Finding{Key: "most", Verdict: Over, Note: true,
			Line:  say.New("finding.most", v.Label, coil, this, unit.Beside{This: top, Other: m.Value}),
			Short: say.New("short.most", this)})
	}
	g := b.guardOf(m)
	if least := v.Least.Value; g.W > 0 && g.Narrow(least, top) {
		v.add(Finding{Key: "window", Verdict: Unproven, Note: true,
			Line:  say.New("finding.window", v.Label, coil, least, top, unit.Up(2*g.W), m.Decides()),
			Short: say.New("short.window", least, top)})
	}
}
