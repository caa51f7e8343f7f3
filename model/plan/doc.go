// Package plan chooses, for a whole head or for several, which spring goes on which valve over which
// shims. Pure functions on whole numbers: a caller works out what every place would come to (a [Fit])
// and gets a [Plan] back. Nothing here reads a file or a clock.
//
// Every valve gets one spring and a stack of shims under the locator, at most so many and so thick,
// from what is in stock; every spring is used once. Every margin and load is kept, with the guard of
// that valve, spring and number of shims. Of the plans that do, [Solve] finds the one with, in strict
// order,
//
//  1. the least worst deviation d = ⌈|F − target|/q⌉ of a seat load from its target, in steps q,
//  2. the least sum of deviations,
//  3. the fewest shims,
//  4. the fewest springs moved from where they are.
//
// A role without a target counts with the spread R = ⌈(max F − min F)/q⌉ of its valves in place of
// their deviations. In [Heights] all this is about installed heights.
//
// # How
//
// One objective after the other is one cost: ((d·W₁) + shims)·W₂ + moves, in int64, with W₁ and W₂ one
// more than all that follows can come to. The first objective is found before, by bisection: columns
// (a valve, a spring and a stack) that are off by more are left out, and either the rest holds a plan
// or it does not. What couples the columns is the stock. It is priced: with a price λ ≥ 0 for each size
// of shim, the cheapest assignment of springs to valves at cost + λ · use, less λ · stock, is no dearer
// than any plan (Geoffrion, Math. Programming Study 2 (1974) 82). The prices that bound best come from
// cutting planes (Kelley, J. SIAM 8 (1960) 703), a linear program of as many dimensions as there are
// sizes. Where the bound falls short, a branch and bound splits by "this valve takes at most a shims of
// size t", and without targets first by where the least and the greatest load of a role lie.
//
// # Why the search is our own
//
// Gonum, which the program uses for arithmetic elsewhere, has a simplex method, but no assignment, no
// matching and nothing for whole numbers. Its simplex starts anew every time and gives no duals, which
// are what is wanted here; on a master of three sizes and forty cuts it takes 0.2 ms, forty times as
// long as the one in internal/search, and longer than the assignment that it is to serve. Solvers of
// general integer programs come with a C compiler or as a program beside this one; CBC takes some fifty
// times as long for the first objective alone of 32 valves and 40 springs. Tests hold the search against
// it.
//
// # What is proved
//
// Prices are rounded to whole numbers and bounds worked out exactly, so floating point decides how
// soon a search ends and never what it says. The tree of bounds is kept: prices and duals of every case.
// internal/proof, which shares no code with the search, goes through it and adds up, and the plan itself
// is worked out again from the problem; only then is it [Proven]. A search that comes to its node limit
// or is cancelled says how far it came: the best plan so far, and for each objective a bound. Without
// targets that may happen, as nothing is promised about such a search.
//
// Where nothing fits, which is proved in the same way, [Reason] says which limits of which valves, and
// which stocks, cannot be kept together, and what would free it.
package plan
