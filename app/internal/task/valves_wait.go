package task

import (
	"keeperbook/model/evaluate"
	"keeperbook/model/record"
)

// Stood is what stood on a valve at the moment at which a reading was taken.
type Stood struct {
	over   record.Over
	spring string
}

// Stood returns what stands on a valve now, with the shims among the cells that wait to be kept. A reading that has to wait
// keeps it, since what is fitted may have changed by the time at which the book takes the reading.
func (b *Bench) Stood(at record.Position, waiting []Cell) *Stood {
	trial := trialOf(b.rec)
	for _, c := range waiting {
		if c.Under == "" {
			continue
		}
		if made, err := b.nouns(&trial, c, First); err == nil {
			for _, n := range made {
				trial.Put(n)
			}
		}
	}
	return &Stood{over: evaluate.OverNow(&trial, at), spring: trial.ValveAt(at).Spring}
}

// on makes a reading one that was taken over what stood there.
func (s *Stood) on(r record.Reading) record.Reading {
	r.Over = evaluate.Trim(r.Kind, s.over)
	if r.Kind == record.BindReading || r.Kind.IsLoad() {
		r.Piece = s.spring
	}
	return r
}
