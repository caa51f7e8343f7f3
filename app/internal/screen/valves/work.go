package valves

import (
	"keeperbook/app/internal/task"
	"keeperbook/model/evaluate"
	"keeperbook/model/say"
)

// strike takes away what is in the cursor's cell: the last reading, the shims, or an entry that is not
// saved. A reason is asked for where other readings of the same thing remain.
func (p *Presenter) strike() {
	if i := p.unsavedAt(p.cursor); i >= 0 {
		u := p.unsaved[i]
		p.ask(Question{
			About:   AboutUnsaved,
			Line:    say.New("valves.unsaved", p.bench.Record().Head.Label(u.cell.At), u.cell.Text),
			Choices: []say.Line{say.New("valves.unsaved.drop"), say.New("valves.unsaved.keep")},
			act: func(choice int) {
				if choice == 0 {
					p.unsaved = append(p.unsaved[:i:i], p.unsaved[i+1:]...)
					p.loosen()
				}
			},
		})
		return
	}
	if !p.types() {
		p.refuse(p.notHere())
		return
	}
	if err := p.settled(); err != nil {
		p.tellError(err)
		return
	}
	l := p.lay()
	c := p.entry(p.cursor, "")
	label, name := l.rows[p.cursor.Row].Label, l.columns[p.cursor.Column].name
	all := p.bench.Counting(c)
	switch {
	case !p.bench.Filled(c):
		p.out.Tell(say.New("valves.strike.nothing", label, name))
	case len(all) > 1:
		p.askReason(c, say.New("valves.strike", label, name, all[len(all)-1].Quantity, len(all)-1))
	default:
		p.struck(c, "")
	}
}

// askReason asks why one of several readings is struck. Usual reasons are there to be picked, so that no
// text has to be typed; whatever is picked stands in the record in words.
func (p *Presenter) askReason(c task.Cell, line say.Line) {
	reasons := []say.Line{
		say.New("valves.reason.misread"), say.New("valves.reason.slipped"), say.New("valves.reason.other-valve"),
	}
	p.ask(Question{
		About: AboutStrike, Line: line, Words: true,
		Choices: append(reasons, say.New("valves.strike.keep")),
		act: func(choice int) {
			if choice < len(reasons) {
				p.struck(c, p.bench.Words().Line(reasons[choice]))
			}
		},
		words: func(text string) { p.struck(c, text) },
	})
}

func (p *Presenter) struck(c task.Cell, reason string) {
	if err := p.bench.StrikeLast(p.ctx, c, reason); err != nil {
		p.tellError(err)
		return
	}
	p.crossed = crossing{}
	p.changed()
	p.out.Tell(say.New("valves.struck", p.bench.Record().Head.Label(c.At)))
}

// Share says that what the cursor's column holds was taken once for the role, on the cursor's valve.
func (p *Presenter) Share() {
	defer p.out.Changed()
	l := p.lay()
	c := l.columns[p.cursor.Column]
	here := p.entry(p.cursor, "")
	switch {
	case p.busy() || p.edit != nil:
		p.refuse(say.New("valves.place-later"))
	case c.kind == "" || !evaluate.Shareable(c.kind):
		p.refuse(say.New("valves.share.not", c.name))
	case len(p.bench.Counting(here)) == 0:
		p.refuse(say.New("valves.share.empty", l.rows[p.cursor.Row].Label, c.name))
	default:
		if err := p.settled(); err != nil {
			p.tellError(err)
			return
		}
		p.did(p.bench.Share(p.ctx, c.kind, here.At),
			say.New("valves.share", c.name, say.New("role."+string(here.At.Role)), l.rows[p.cursor.Row].Label))
	}
}

// CutSeat records that the seat of the selected valve was cut by a depth, typed like any thickness. The
// error is the one that refused the depth or did not keep it; the field it was typed in keeps its text.
func (p *Presenter) CutSeat(text string) error {
	defer p.out.Changed()
	if err := p.settled(); err != nil {
		return err
	}
	work, err := p.bench.CutSeat(p.ctx, p.Selected(), text)
	if err != nil {
		return err
	}
	p.did(nil, say.New("valves.seat", p.bench.Record().Head.Label(work.At), work.Depth))
	return nil
}

// Accept keeps that somebody accepted a finding of the selected valve, with the reason.
func (p *Presenter) Accept(finding, reason string) error {
	defer p.out.Changed()
	if err := p.settled(); err != nil {
		return err
	}
	at := p.Selected()
	if err := p.bench.Accept(p.ctx, at, finding, reason); err != nil {
		return err
	}
	p.did(nil, say.New("valves.accepted", p.bench.Record().Head.Label(at)))
	return nil
}

func (p *Presenter) did(err error, line say.Line) {
	if err != nil {
		p.tellError(err)
		return
	}
	p.crossed = crossing{}
	p.changed()
	p.out.Tell(line)
	p.out.Accepted()
}

// Working returns the lines of how a valve's numbers came about, each once, as a machinist would write
// them, with what the trade does where the spring stands too low.
func (p *Presenter) Working(v evaluate.Valve) []string {
	figures := []evaluate.Figure{v.Base, v.Shims, v.Installed, v.Check, v.Lift}
	for _, c := range v.Coils {
		figures = append(figures, c.Bind)
	}
	for _, c := range v.Coils {
		figures = append(figures, c.Margin)
	}
	figures = append(figures, v.Least, v.UpTo, v.Seal, v.SealOpen, v.Room, v.RoomOpen, v.Target, v.ShimNeeded, v.LashShim)
	words, seen := p.bench.Words(), map[string]bool{}
	var lines []string
	add := func(all []say.Line) {
		for _, l := range all {
			if text := words.Line(l); text != "" && !seen[text] {
				seen[text] = true
				lines = append(lines, text)
			}
		}
	}
	for _, f := range figures {
		add(f.Working())
	}
	for _, l := range []evaluate.Load{v.SeatMeasured, v.SeatComputed, v.OpenLoad} {
		add(l.Working())
	}
	add(v.Remedies)
	return lines
}
