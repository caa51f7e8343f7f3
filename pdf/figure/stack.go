package figure

import (
	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// stack is the geometry of a valve's spring stack: heights in points at full size, counted from the
// pocket's floor. Widths are not measured on a bench; they are a sign, in wires of the outer coil.
type stack struct {
	under []float64 // shims under the locator, from the floor up
	outer []float64 // shims under the outer coil only, from the locator up
	floor float64   // locator under the outer coil
	lid   float64
	land  float64 // locator's outer land
	seat  float64 // what the outer coil stands on
	top   float64 // retainer's outer land, valve closed
	hub   float64 // retainer's lowest point under its outer land
	coils []coil
	seal  float64 // seal's top
	lift  float64

	hasFloor, hasLid, hasSeal, hasLift bool
	steps, rises                       []float64 // of retainer and locator, for coil 2, 3, …
}

// coil is one coil of the stack.
type coil struct {
	name   string
	bottom float64
	height float64 // valve closed
	bind   float64
	margin float64
	least  float64
	drawn  bool // height and bind are known
	wires  int
}

// wire is the thickness of the coil's wire in the drawing: its bind height over its wires, so that the
// drawn coil is solid exactly at its bind height.
func (c coil) wire() float64 { return c.bind / float64(c.wires) }

// wires of the coils from the outermost; the wires inside are thinner.
var wires = [...]int{7, 9, 10, 12}

// points returns a length at full size in points.
func points(l unit.Length) float64 { return float64(l) / float64(unit.Inch) * 72 }

// newStack returns the stack of a valve; false where no height is known and nothing can be drawn.
func newStack(v evaluate.Valve, p Parts) (stack, bool) {
	var s stack
	if !v.Height.Known || v.Height.Value <= 0 {
		return s, false
	}
	for _, shim := range v.Stack {
		t := points(shim.Thickness.Length())
		if shim.Under == record.UnderOuter {
			s.outer = append(s.outer, t)
		} else {
			s.under = append(s.under, t)
		}
	}
	if p.Floor != nil {
		s.floor, s.hasFloor = points(*p.Floor), true
	}
	if p.Lid != nil {
		s.lid, s.hasLid = points(*p.Lid), true
	}
	s.land = sum(s.under) + s.floor
	s.seat = s.land + sum(s.outer)
	s.top = s.seat + points(v.Height.Value)
	for _, l := range p.RetainerSteps {
		s.steps = append(s.steps, points(l))
		s.hub = max(s.hub, points(l))
	}
	for _, l := range p.LocatorSteps {
		s.rises = append(s.rises, points(l))
	}
	s.addCoils(v)
	if s.hasLift = v.Lift.Known; s.hasLift {
		s.lift = points(v.Lift.Value)
	}
	s.placeSeal(v, p)
	return s, true
}

func (s *stack) addCoils(v evaluate.Valve) {
	for i, c := range v.Coils {
		k := coil{name: c.Name, bottom: s.seat, wires: wires[min(i, len(wires)-1)]}
		if i > 0 {
			k.bottom = s.land + step(s.rises, i)
		}
		k.drawn = c.Height.Known && c.Bind.Known && c.Bind.Value > 0
		k.height, k.bind = points(c.Height.Value), points(c.Bind.Value)
		k.margin, k.least = points(c.Margin.Value), points(c.Least.Value)
		s.coils = append(s.coils, k)
	}
}

// placeSeal finds the seal's top under the retainer's lowest point. The gap that counts is the open one
// with the lift put back, since it has the shims under a one-piece seal taken off already.
func (s *stack) placeSeal(v evaluate.Valve, p Parts) {
	gap := v.Seal
	if !gap.Known {
		return
	}
	closed := points(gap.Value)
	if p.SealOn == record.OnLocator {
		closed -= sum(s.under) + sum(s.outer)
	}
	if v.SealOpen.Known && v.Lift.Known {
		closed = points(v.SealOpen.Value + v.Lift.Value)
	}
	s.seal, s.hasSeal = s.top-s.hub-closed, true
}

// step returns the step of coil i counted from nought; an inner coil without one has the land of the
// outer coil.
func step(steps []float64, i int) float64 {
	if i == 0 || i > len(steps) {
		return 0
	}
	return steps[i-1]
}

func sum(all []float64) float64 {
	total := 0.0
	for _, x := range all {
		total += x
	}
	return total
}
