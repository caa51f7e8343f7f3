// Package wear tells from checks over time how a spring loses load, when it will have lost what a shop allows, and which
// spring of a set falls out of it. Pure functions on numbers: loads in any one unit, wear in valve cycles, which are half the
// turns of the crank. Nothing here reads a file or a clock.
//
// # The trend
//
// Loads are fitted, F = a + b g(N), with the baseline as one of the points and every point weighted with 1/u². Dividing by the
// baseline first would make its error one that all points share, and the intervals too short. Where points scatter by more
// than their u explain (χ²/ν > 1), the covariance is widened by that ratio and Student's t takes the place of the normal
// quantile.
//
// g is N, or ln(1 + N/N₀): a spring that sets loses fast at first and then ever less. Both are fitted. The one whose χ² is
// less by more than 4 is taken; where they are nearer, nobody can tell them apart, and an interval holds both.
//
// # The crossing
//
// A share c of the load at the baseline is lost where a + b g = (1 − c) a, which is a ratio of two numbers that are both
// uncertain. Its interval is E. C. Fieller's (J. R. Statist. Soc. B 16 (1954) 175; from memory): every g at which c a + b g is
// not distinguishable from nought.
package wear
