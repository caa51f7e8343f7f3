package exchange

import (
	"strconv"
	"strings"

	"keeperbook/model/record"
)

// WriteSprings returns single springs as a table that [ReadSprings] reads, in their order. Heights and loads
// are written raw with the correction they were taken under, never corrected, and always with their unit.
//
// What the table has no column for is left out: what measured the parts of a correction. A spring of which
// nothing was read has no line.
func WriteSprings(pieces []record.SpringPiece) []byte {
	var b strings.Builder
	b.WriteString(strings.Join(springs.columns, ",") + lineEnd)
	for _, p := range pieces {
		entry := springEntry(p)
		line := func(what SpringWhat, t SpringTest, point SpringPoint) {
			coil := ""
			if t.Coil > 0 {
				coil = strconv.Itoa(t.Coil)
			}
			writeLine(&b, []string{
				entry.Tag, entry.Spring, entry.Batch, string(entry.Condition), string(what), coil, point.Height, point.Load, point.Back,
				t.Correction.String(), t.Gauge, t.HeightGauge, t.Retainer, t.Locator, string(t.Source), t.By, string(t.When),
				entry.Note,
			})
		}
		if entry.Free != nil {
			line(FreeOfSpring, SpringTest{}, *entry.Free)
		}
		for _, t := range entry.Binds {
			line(BindOfSpring, t, t.Points[0])
		}
		for _, t := range entry.Loads {
			for _, point := range t.Points {
				line(LoadOfSpring, t, point)
			}
		}
	}
	return []byte(b.String())
}

// springEntry returns what a table says of a spring, without the lines on which it says it.
func springEntry(p record.SpringPiece) SpringEntry {
	e := SpringEntry{Tag: p.Tag, Spring: p.Spring, Batch: p.Batch, Condition: p.Condition, Note: p.Note}
	if p.Free != nil {
		e.Free = &SpringPoint{Height: p.Free.Plain()}
	}
	for _, b := range p.Binds {
		e.Binds = append(e.Binds, SpringTest{
			Coil: b.Coil, Correction: through(b.Bind.Correction), Gauge: b.Bind.Gauge, Source: b.Bind.Source, By: b.Bind.By,
			When: b.Bind.At, Points: []SpringPoint{{Height: b.Bind.Reading.Plain()}},
		})
	}
	for _, l := range p.Loads {
		t := SpringTest{
			Coil: l.Coil, Correction: through(l.Loads.Correction), Gauge: l.Loads.Gauge, HeightGauge: l.Loads.Heights,
			Retainer: l.Retainer, Locator: l.Locator, Source: l.Loads.Source, By: l.Loads.By, When: l.Loads.At,
		}
		for _, p := range l.Loads.Points {
			point := SpringPoint{Height: p.Height.Plain(), Load: p.Load.Plain()}
			if p.Back != nil {
				point.Back = p.Back.Plain()
			}
			t.Points = append(t.Points, point)
		}
		e.Loads = append(e.Loads, t)
	}
	return e
}

// through is what the table says of a correction, which it never leaves out.
func through(all []record.Taken) Correction {
	if len(all) == 0 {
		return Correction{Said: AtTheSpring}
	}
	return listed(all)
}
