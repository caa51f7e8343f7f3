// Package budget says how sure a number is: the uncertainty of a length that is worked out from
// readings, and what may be decided on it. Pure functions, after JCGM 100:2008 (the GUM).
//
// A length is written on its inputs, M = Σ cᵢ xᵢ. An [Input] is one reading (or what stands in for
// one) and a [Sum] names it with its sensitivity; an input that enters twice has its sensitivities
// added up first, so that a lid which is in two readings of one margin cancels. Identity is the
// pointer: readings on one [Gauge] share its certificate, readings under one [Pool] share its scatter.
//
//	u² = Σ_q V_q + Σ c² a²/12 + Σ_g [(Σ_{c>0} c)² + (Σ_{c<0} c)²] [(U/k)² + s_o²] + Σ c² T²/3 + Σ c² u_i²
//	V_q = s_q² Σ c²/n
//	ν = u⁴ / Σ_q V_q²/ν_q
//
// a is the step that a gauge shows, U and k its certificate's, s_o what people differ by, T a
// rectangular tolerance, q runs over the estimates of scatter, g over the gauges. Equal signs on one
// gauge add fully. Opposite signs get no credit: one figure on a certificate does not say that the
// error at one height equals the error at another. Steps, certificates and tolerances have infinite
// degrees of freedom; ν is not cut down to a whole number.
//
// Every number counts in the unit of its quantity: tenths of a nanometre for lengths (as
// [keeperbook/model/unit.Length]), millinewtons for loads, and sensitivities carry what lies between.
package budget
