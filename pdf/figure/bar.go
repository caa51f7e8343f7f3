package figure

import (
	"keeperbook/model/evaluate"

	"gonum.org/v1/plot/vg"
)

// Bar is the window bar of one valve: the limit as a post, the margin as a mark.
type Bar struct {
	margin, least float64 // in least margins: least is 1 where there is a limit
	proven        bool
}

// NewBar prepares the bar of a valve; false where its margin or its least margin is not known.
func NewBar(v evaluate.Valve) (Bar, bool) {
	return Bar{}, false
}

// Draw draws the bar into the rectangle from the canvas's origin to size.
func (b Bar) Draw(c vg.Canvas, size vg.Point, look Look) {}
