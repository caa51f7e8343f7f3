package evaluate

import "keeperbook/model/say"

// PlannedCell is a cell of the table of a plan: what will be, and what was or where it comes from.
type PlannedCell struct{ Is, Was, From string }

// Text is the cell in one line: "1.806 → 1.816", "DR-10, from the shelf".
func (c PlannedCell) Text() string {
	switch {
	case c.Was != "":
		return c.Was + " → " + c.Is
	case c.From != "":
		return c.Is + ", " + c.From
	}
	return c.Is
}

// Cells are those of a valve: valve, spring, shims, and height, margin, seat load and verdict as they were and as they
// will be; what stays is said once.
func (r *PlannedValve) Cells(p say.Printer) []PlannedCell {
	spring := PlannedCell{Is: r.Spring}
	if !r.From.Zero() {
		spring.From = p.Line(r.From)
	}
	return []PlannedCell{
		{Is: r.Label}, spring, {Is: p.Line(r.shimsLine())}, turned(r.Before.Height.text(p), r.After.Height.text(p)),
		turned(r.Before.Margin.text(p), r.After.Margin.text(p)), turned(r.Before.Seat.Text(p), r.After.Seat.Text(p)),
		turned(r.Before.Open.Text(p), r.After.Open.Text(p)), turned(p.Line(r.Before.Word), p.Line(r.After.Word)),
	}
}

func (f Figure) text(p say.Printer) string {
	if !f.Known {
		return ""
	}
	return p.Line(say.New("expr.one", f.Value))
}

func turned(was, is string) PlannedCell {
	if was == is {
		was = ""
	}
	return PlannedCell{Is: is, Was: was}
}

// shimsLine is the stack of a valve, the thickest first.
func (r *PlannedValve) shimsLine() say.Line {
	if len(r.Shims) == 0 {
		return say.New("plan.pick.no-shim")
	}
	var parts []say.Line
	for _, s := range r.Shims {
		parts = append(parts, say.New("expr.one", s.Thickness))
	}
	return say.New("plan.pick.over", parts)
}

// Lines say how far heights and seat loads of a role lie apart, before and after. Loads name their unit.
func (s PlannedSpread) Lines(load string) (lines []say.Line) {
	role := roleName(s.Role)
	if s.Head != "" {
		role = say.New("plan.of-head", role, s.Head)
	}
	if s.HasHeights {
		line := say.New("plan.spread.heights-now", role, s.HeightsAfter)
		if s.HadHeights {
			line = say.New("plan.spread.heights", role, s.HeightsBefore, s.HeightsAfter)
		}
		lines = append(lines, line)
	}
	if s.HasLoads {
		line := say.New("plan.spread.loads-now", role, s.LoadsAfter, load)
		if s.HadLoads {
			line = say.New("plan.spread.loads", role, s.LoadsBefore, s.LoadsAfter, load)
		}
		lines = append(lines, line)
	}
	return lines
}
