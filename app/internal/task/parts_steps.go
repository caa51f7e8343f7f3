package task

import (
	"strings"

	"keeperbook/model/evaluate"
	"keeperbook/model/unit"
)

// StepsTyped writes steps as they are typed: each from the land before it, .095+.060, where a record has
// them from the outer land.
func (b *Bench) StepsTyped(steps []unit.Quantity) string {
	style := evaluate.StyleOf(b.rec.Setup.Units)
	parts := make([]string, len(steps))
	var before unit.Length
	for i, q := range steps {
		parts[i] = style.LengthIn(q.Length() - before)
		if i == 0 {
			parts[i] = style.QuantityIn(q)
		}
		parts[i] = onePiece(style.Length, parts[i])
		before = q.Length()
	}
	return strings.Join(parts, "+")
}
