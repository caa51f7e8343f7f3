package figure

import (
	"keeperbook/model/evaluate"
	"keeperbook/model/say"

	"gonum.org/v1/plot/vg"
)

// Section is one valve's spring stack cut through its axis, closed and at full lift side by side.
type Section struct {
	valve evaluate.Valve
	parts Parts
	words say.Printer
}

// NewSection prepares the drawing of a valve with the parts that stand in its stack. Words shows lengths.
func NewSection(v evaluate.Valve, parts Parts, words say.Printer) Section {
	return Section{v, parts, words}
}

// Draw draws the section into the rectangle from the canvas's origin to size.
func (s Section) Draw(c vg.Canvas, size vg.Point, look Look) {}
