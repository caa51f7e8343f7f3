package task

import (
	"strings"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// ReadBind reads a bind height as the scale says it. Nothing typed is no reading.
func (b *Bench) ReadBind(text string) (*unit.Quantity, error) {
	if strings.TrimSpace(text) == "" {
		return nil, nil
	}
	return readOne(record.ColumnOf(record.BindReading, b.rec.Setup.Units), text)
}

// SignBind returns a bind height with who read it and when, where it was measured here.
func (b *Bench) SignBind(bind record.Bind) *record.Bind {
	bind.By, bind.At = "", ""
	if bind.Source == record.Measured {
		bind.By, bind.At = b.desk.Who, b.desk.now()
	}
	return &bind
}

// ReadCut reads how far a seat was cut.
func (b *Bench) ReadCut(text string) (unit.Quantity, error) {
	e, err := unit.Parse(record.ShimColumn(b.rec.Setup.Units), text)
	return e.Quantity, err
}

// SeatCut is a cut of a seat, made now, as it is to be kept.
func (b *Bench) SeatCut(at record.Position, text string) (record.SeatWork, error) {
	depth, err := b.ReadCut(text)
	return record.SeatWork{ID: NewID(), At: at, Depth: depth, By: b.desk.Who, When: b.desk.now()}, err
}

// Outgrown reports whether what was accepted is worse by now, and open again.
func (b *Bench) Outgrown(d record.Deviation) bool {
	f, ok := b.ev.FindingOf(d)
	return ok && !f.Covered(d, evaluate.Words(b.rec.Setup.Units))
}

// Accepting is a finding accepted now, as it is to be kept. Without a reason nothing is accepted.
func (b *Bench) Accepting(at record.Position, finding, reason string) (record.Deviation, error) {
	reason = strings.TrimSpace(reason)
	if reason == "" {
		return record.Deviation{}, say.Fail(say.Invalid, "task.reason")
	}
	return record.Deviation{
		ID: NewID(), At: at, Finding: finding, Reason: reason, By: b.desk.Who, When: b.desk.now(),
		Found: b.ev.Found(at, finding, b.rec.Setup.Units),
	}, nil
}
