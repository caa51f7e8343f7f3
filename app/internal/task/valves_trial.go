package task

import (
	"slices"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
)

// trialOf returns a copy of a record that can be put into without changing the one it is a copy of.
func trialOf(rec *record.Record) record.Record {
	trial := *rec
	trial.Setup.Readings = slices.Clone(rec.Setup.Readings)
	trial.Setup.Valves = slices.Clone(rec.Setup.Valves)
	return trial
}

// Try works a valve out as if a cell had been kept, so that it can be drawn while somebody types. What
// the cell would replace is replaced. It keeps nothing, and errors are those of [Bench.Take].
func (b *Bench) Try(c Cell) (evaluate.Valve, error) {
	how := First
	if c.Under == "" && b.Filled(c) {
		how = Instead
	}
	nouns, err := b.nouns(b.rec, c, how)
	if err != nil {
		return evaluate.Valve{}, err
	}
	trial := trialOf(b.rec)
	for _, n := range nouns {
		trial.Put(n)
	}
	// Only this valve is worked out: the others do not depend on it, but for what they borrow from it.
	trial.Head.Order = []record.Position{c.At}
	return evaluate.Evaluate(&trial).Valves[0], nil
}
