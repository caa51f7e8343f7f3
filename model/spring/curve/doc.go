// Package curve draws the load of a spring over its height from points of a spring tester, and says
// how far a load taken from it can be trusted. Pure functions.
//
// Points are corrected heights and loads, taken on the compressing stroke after the spring was pressed
// two or three times. Between them runs a monotone cubic (Fritsch and Carlson's, with the slopes of
// F. N. Fritsch and J. Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300), so that a rate which rises
// towards solid is kept and no load lies outside its neighbours. gonum's implementation gives the
// published values and SciPy's, end slopes included, and is used as it is.
//
// Outside the points a load is marked as beyond them. It follows the secant of the last two, not the
// cubic's end slope, which scatters nearly twice as much; for at most [Beyond], never past the bind
// height nor below nought; after that there is none. Loads near solid are underestimates: turns close
// one after the other, and the last points do not know it.
//
// A [Curve] is over the height of the outermost coil. Coils tested alone are added up at their own
// heights ([Together]); a spring tested as one carries the steps that it stood on ([Assembly]), and is
// carried over to other steps by its inner coils' own curves ([Spring.On]).
package curve
