// Package wire works out a spring from its geometry, for where there is no tester: rate, stress, solid
// height, mass, surge, fatigue. Pure functions; round wire only. Ovate wire has other factors, and a
// spring of it is known by its points alone.
//
// Lengths are [keeperbook/model/unit.Length], loads and rates their own kinds; stresses and moduli are in
// pascals, masses in kilograms, frequencies in hertz. D is the mean diameter of a coil, d that of its
// wire, C = D/d its index, Na the turns that give way, Nt all of them.
//
// The modulus G is asked for and never assumed: handbooks differ by 2 to 5 % and the rate follows it in
// proportion. [Moduli] lists what they print. A solid height from geometry is an [Estimate], a kind of its
// own, so that it is never taken for a bind height that somebody measured.
//
// Sources, named beside each formula: Shigley is R. G. Budynas and J. K. Nisbett, Shigley's Mechanical
// Engineering Design, 9th edition, chapter 10; EN 13906-1 the European standard for round wire compression
// springs; Wahl is A. M. Wahl, Mechanical Springs.
package wire
