package unit

// Beside is a length that is printed next to another one, with as many decimals as it takes to show
// which is the larger: a margin of 0.05998 in beside a limit of 0.060 in must not read .060.
type Beside struct{ This, Other Length }

// String returns the reading as it was read, with its unit: "1.842 in". It is what a sentence shows
// that knows no style, such as a refusal.
func (q Quantity) String() string {
	return trim(minus(q.Read), q.Unit == In) + " " + string(q.Unit)
}
