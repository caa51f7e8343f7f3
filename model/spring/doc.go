// Package spring is the arithmetic of a spring's load: pure functions, no record and no clock.
//
//	tester reading ── Tester.Correct ──→ corrected point ──┐
//	                                                       ├─ curve: load, rate, height of a load, how sure
//	tester height ── measure.Corrected ─→ corrected height ┘
//	wire, diameter, turns, G ──────────── wire:  the same from geometry, and stress, surge, fatigue
//
// Here stands what needs neither: the calibration of a tester, the friction of a damper, and how far the
// loads of a set lie apart. Loads are in [keeperbook/model/unit.Load], millinewtons. What pressure takes off
// a seat load is measure.BoostLoss; what an uncorrected lid adds to it is curve.Curve.Bias, or
// measure.Bias where only a rate is known.
package spring
