// Package pdf prints a set-up on paper: the sheet that goes with a head, and the blank form for the bench.
//
// The sheet computes nothing. It prints the texts of record.Figures, the sentences of an evaluation and
// what the record says, and draws with package figure on a vg.Canvas of its own, so that text stays text.
//
// Everything is built in memory and written once. Every letter goes through one place, nine points is
// the smallest it takes, and signs that the letters lack are replaced visibly before they get there.
package pdf
