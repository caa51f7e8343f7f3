// Package assign finds whom to give what: the cheapest assignment of columns to rows, and whether
// there is one at all. Whole numbers only, so that what it proves is exact.
package assign
