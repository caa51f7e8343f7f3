package evaluate

import (
	"keeperbook/model/budget"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// StyleOf returns how the quantities of a set-up are shown in the chosen language.
func StyleOf(u record.Units) unit.Style { return styled(say.Chosen(), u) }

func styled(p say.Printer, u record.Units) unit.Style {
	return unit.Style{Length: u.Length, Load: u.Load, Comma: p.Comma()}
}

// Words returns the English printer in the units of a set-up.
func Words(u record.Units) say.Printer { return in(say.English(), u) }

// Spoken returns the printer of the chosen language in the units of a set-up.
func Spoken(u record.Units) say.Printer { return in(say.Chosen(), u) }

// WordsIn returns the printer of a language in the units of a set-up, the English one where there is none of this tag.
func WordsIn(tag string, u record.Units) say.Printer {
	p, _ := say.Of(tag)
	return in(p, u)
}

func in(p say.Printer, u record.Units) say.Printer {
	p.Show = styled(p, u).Show
	return p
}

// column is one column of the table: its key, whether it stays although it is empty, what its
// numbers are of, and what it shows of a valve.
type column struct {
	key    string
	always bool
	of     unit.Dimension // of its numbers; "" where it shows words
	cell   func(p say.Printer, v *Valve) string
}

// columns in bench order.
var columns = []column{
	{"verdict", true, "", func(p say.Printer, v *Valve) string { return p.Line(v.Word()) }},
	{"base", true, unit.OfLength, figure(func(v *Valve) Figure { return v.Base })},
	{"seal", false, unit.OfLength, figure(func(v *Valve) Figure { return v.Seal })},
	{"room", false, unit.OfLength, figure(func(v *Valve) Figure { return v.Room })},
	{"shims", true, unit.OfLength, func(p say.Printer, v *Valve) string {
		if !v.StackSaid && len(v.Stack) == 0 {
			return ""
		}
		return p.Line(stackShort(v))
	}},
	{"calc", true, unit.OfLength, figure(func(v *Valve) Figure { return v.Installed })},
	{"check", true, unit.OfLength, figure(func(v *Valve) Figure { return v.Check })},
	{"lift", true, unit.OfLength, figure(func(v *Valve) Figure { return v.Lift })},
	{"coil", false, "", func(p say.Printer, v *Valve) string {
		if v.Governing < 0 || len(v.Coils) < 2 {
			return ""
		}
		return p.Line(CoilShort(v.Coils[v.Governing].Name))
	}},
	{"open", true, unit.OfLength, figure(func(v *Valve) Figure { return v.Open })},
	{"bind", true, unit.OfLength, figure(func(v *Valve) Figure { return v.Bind })},
	{"margin", true, unit.OfLength, func(p say.Printer, v *Valve) string {
		if !v.Margin.Known {
			return ""
		}
		return marked(p, v.Margin, v.printed())
	}},
	{"u", false, unit.OfLength, func(p say.Printer, v *Valve) string { return p.Line(v.SpreadLine()) }},
	{"least", true, unit.OfLength, figure(func(v *Valve) Figure { return v.Least })},
	{"up-to", true, unit.OfLength, figure(func(v *Valve) Figure { return v.UpTo })},
	{"seal-open", false, unit.OfLength, figure(func(v *Valve) Figure { return v.SealOpen })},
	{"room-open", false, unit.OfLength, figure(func(v *Valve) Figure { return v.RoomOpen })},
	{"tip", false, unit.OfLength, figure(func(v *Valve) Figure { return v.Tip })},
	{"lash-found", false, unit.OfLength, figure(func(v *Valve) Figure { return v.LashFound })},
	{"lash-shim", false, unit.OfLength, figure(func(v *Valve) Figure { return v.LashShim })},
	{"lash-left", false, unit.OfLength, figure(func(v *Valve) Figure { return v.LashLeft })},
	// Loads stand last, so that a sheet too narrow for all keeps them together under the heights.
	{"seat-load", false, unit.OfLoad, load(func(v *Valve) Load { return v.SeatLoad })},
	{"open-load", false, unit.OfLoad, load(func(v *Valve) Load { return v.OpenLoad })},
}

// Word is what stands in a valve's verdict cell: "within", "short", "up to .623".
func (v *Valve) Word() say.Line {
	if v.Verdict == WithinUpTo {
		return say.New("verdict.up-to.lift", v.UpTo.Value)
	}
	return v.Verdict.Line()
}

func figure(of func(*Valve) Figure) func(say.Printer, *Valve) string {
	return func(p say.Printer, v *Valve) string {
		f := of(v)
		if !f.Known {
			return ""
		}
		return marked(p, f, f.Value)
	}
}

func load(of func(*Valve) Load) func(say.Printer, *Valve) string {
	return func(p say.Printer, v *Valve) string { return of(v).Text(p) }
}

// marked prints a value with the letter of its mark: e estimate, b borrowed from another valve,
// p predicted; and ! where something under it changed since. The letters stand explained below the table.
func marked(p say.Printer, f Figure, value any) string {
	text := p.Line(say.New("expr.one", value))
	if f.Mark != "" && f.Mark != Computed {
		text += p.Line(say.New("mark." + string(f.Mark)))
	}
	if f.Stale {
		text += p.Line(say.New("mark.stale"))
	}
	return text
}

// printed is the margin as the table has it: beside its least margin, and where ±U decides, beside that.
func (v *Valve) printed() any {
	if u, ok := v.Margin.U(); ok && v.rule == budget.Guarded {
		return unit.Sure{This: v.Margin.Value, U: u, Limit: v.Least.Value}
	}
	return unit.Beside{This: v.Margin.Value, Other: v.Least.Value}
}

// SpreadLine is the expanded uncertainty of the margin as the table has it, behind a ±; the zero Line where
// it cannot be told.
func (v *Valve) SpreadLine() say.Line {
	u, ok := v.Margin.U()
	switch {
	case !ok:
		return say.Line{}
	case v.rule == budget.Guarded:
		return say.New("expr.spread", unit.Spread{This: v.Margin.Value, U: u, Limit: v.Least.Value})
	}
	return say.New("expr.spread", unit.Up(u))
}

// stackShort writes a stack for a narrow cell: ".030+.015", "none".
func stackShort(v *Valve) say.Line {
	line := say.Line{}
	if v.StackSaid && !(record.Valve{Stack: v.Stack}).Lies(record.UnderLocator) {
		line = say.New("stack.none")
	}
	for _, s := range v.Stack {
		one := say.New("expr.one", s.Thickness)
		if s.Under == record.UnderOuter {
			one = say.New("stack.outer-short", s.Thickness)
		}
		if line.Zero() {
			line = one
			continue
		}
		line = say.New("stack.and", line, one)
	}
	return line
}

// Figures returns the numbers of an evaluation as they are printed. Columns that no valve fills are
// left out, but for those that every head is expected to have.
func (ev *Evaluation) Figures(p say.Printer, u record.Units) record.Figures {
	fig := record.Figures{Summary: p.Line(ev.Summary)}
	if ev.Next != nil {
		fig.Next = p.Line(ev.NextLine())
	}
	for i := range ev.Valves {
		fig.Rows = append(fig.Rows, record.Row{Valve: ev.Valves[i].Label, Cells: []string{}})
	}
	for _, c := range columns {
		cells, filled := make([]string, len(ev.Valves)), c.always
		for i := range ev.Valves {
			cells[i] = c.cell(p, &ev.Valves[i])
			filled = filled || cells[i] != ""
		}
		if !filled {
			continue
		}
		col := record.Column{Key: c.key, Title: p.Line(say.New("column." + c.key))}
		switch c.of {
		case unit.OfLength:
			col.Unit = string(u.Length)
		case unit.OfLoad:
			col.Unit = string(u.Load)
		}
		fig.Columns = append(fig.Columns, col)
		for i := range cells {
			fig.Rows[i].Cells = append(fig.Rows[i].Cells, cells[i])
		}
	}
	for _, f := range ev.Listed() {
		if f.Verdict != Within {
			fig.Notes = append(fig.Notes, p.Line(f.Line))
		}
	}
	for _, f := range ev.Findings {
		fig.Notes = append(fig.Notes, p.Line(f.Line))
	}
	for _, l := range ev.Notes {
		fig.Notes = append(fig.Notes, p.Line(l))
	}
	return fig
}

// NextLine says what comes next: "4 ex, base height".
func (ev *Evaluation) NextLine() say.Line {
	if ev.Next == nil {
		return say.Line{}
	}
	for i := range ev.Valves {
		if ev.Valves[i].At == ev.Next.At {
			return say.New("next", ev.Valves[i].Label, ev.Next.Line())
		}
	}
	return say.Line{}
}
