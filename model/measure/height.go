// Package measure is the arithmetic of the bench: pure functions on exact lengths.
//
// Symbols, as they are written on the sheet: Hb base height (installed height with the locator in
// place and no shim), t a shim, H installed height, Hc check height, L net lift, S bind height (solid),
// e lid, f locator floor, s jaw faces, r and q the steps of retainer and locator under a coil, c the
// least margin. Coils are counted from the outermost; its own steps are nought.
package measure

import "keeperbook/model/unit"

// Corrected takes off a reading what stood in the stack beside the spring and was not zeroed out:
// S = R − e − f − s − r − q, each only where it was there.
func Corrected(reading unit.Length, parts ...unit.Length) unit.Length {
	for _, p := range parts {
		reading -= p
	}
	return reading
}

// BaseByDifference is the base height where no gauge fits, as in a bucket bore:
// (datum to seat) − (datum to retainer top) − lid − locator floor. The floor is nought where the
// locator was in place when the seat was measured.
func BaseByDifference(datumToSeat, datumToTop, lid, floor unit.Length) unit.Length {
	return datumToSeat - datumToTop - lid - floor
}

// CoilHeight is Hj = Hb − Σ(shims under the coil) − rj − qj.
func CoilHeight(base, shimsUnderCoil, retainerStep, locatorStep unit.Length) unit.Length {
	return base - shimsUnderCoil - retainerStep - locatorStep
}

// CoilHeightFromCheck is the same from a height measured over the outer coil after assembly. Shims
// under the outer coil only are in that height and not under an inner coil, so they come back to it;
// for the outer coil give nought.
func CoilHeightFromCheck(check, shimsUnderOuterOnly, retainerStep, locatorStep unit.Length) unit.Length {
	return check + shimsUnderOuterOnly - retainerStep - locatorStep
}

// Margin is what is left before the coil is solid: Mj = Hj − L − Sj.
func Margin(height, lift, bind unit.Length) unit.Length { return height - lift - bind }

// LiftLimit is the most lift that leaves a least clearance after guard, the uncertainty of all but
// the lift: room − least − guard. For a coil the room is Hj − Sj; for seal and retainer it is the gap
// with the valve closed.
func LiftLimit(room, least, guard unit.Length) unit.Length { return room - least - guard }

// GapOpen is a gap between retainer and seal, or retainer and head, at full lift. Shims lift a seal
// that is one piece with the locator; for any other give nought.
func GapOpen(closed, shimsUnderSeal, lift unit.Length) unit.Length {
	return closed - shimsUnderSeal - lift
}

// Agrees reports whether a check height stands within the rule of the computed one. A difference
// equal to the rule agrees.
func Agrees(check, computed, rule unit.Length) bool {
	d := check - computed
	return -rule <= d && d <= rule
}

// Move is what was done to a valve after it was measured: its seat cut, so that it sinks into the
// head, and its locks or retainer changed for one that sets the retainer higher (negative: lower).
type Move struct {
	Seat, Offset unit.Length
}

// Base moves a base height: it grows by both.
func (m Move) Base(height unit.Length) unit.Length { return height + m.Seat + m.Offset }

// Gap moves a gap between the retainer and something below it, closed: it grows by both.
func (m Move) Gap(gap unit.Length) unit.Length { return gap + m.Seat + m.Offset }

// Tip moves the height of the stem's tip over the spring seat: it grows by the cut alone.
func (m Move) Tip(height unit.Length) unit.Length { return height + m.Seat }

// Lash moves the lash at the valve: the cut takes it away.
func (m Move) Lash(lash unit.Length) unit.Length { return lash - m.Seat }

// LashShim is the lash shim that brings a bucket's lash to target: old shim + lash measured − target.
func LashShim(old, lash, target unit.Length) unit.Length { return old + lash - target }
