// Package evaluate turns a record into every number, its working and its verdict.
//
// Window, sheet, export and commands print the same [Evaluation]; none of them computes. What cannot
// be known is absent: a figure is Known or it is nothing. Numbers stay exact lengths until they are
// printed, and limits are compared as integers.
//
// The way through: readings are corrected and averaged (taken.go), heights follow from base height
// and shims or from a check height (height.go), each coil gets its bind (bind.go), the valve its lift
// (lift.go), each coil its margin (margin.go) and the gaps theirs (gap.go); then it is worked back to
// the shims needed (workback.go), and what was found is judged (judgebind.go, judge.go) and summed up
// for the head (head.go, figures.go).
//
// Beside its value every figure carries what it rests on (sure.go): readings, parts and shims with
// their sensitivities (inputs.go, shims.go, lots.go), each on its gauge (instrument.go), the same thing
// always as the same input. [keeperbook/model/budget] makes of that how sure the figure is, the rule of
// the set-up what is kept back from limits (hold.go), and parts.go the lines that say where it comes
// from. What was chosen, estimated or moved rests on nothing and proves nothing.
package evaluate
