package unit

import "strings"

// Beside is a length that is printed next to another one, with as many decimals as it takes to show
// which is the larger: a margin of 0.05998 in beside a limit of 0.060 in must not read .060.
type Beside struct{ This, Other Length }

// Sure is a length with the U that is printed behind it as ±, and a least length that it is held against.
// Both are printed with as many decimals as it takes for the printed numbers to say the same as the exact
// ones: whether This − U reaches the limit, whether This + U does, and whether This − U is above nought.
type Sure struct{ This, U, Limit Length }

// Spread is the U of a [Sure], printed to match it.
type Spread Sure

// Up is a length that is printed rounded up: what is kept back must not look less than it is.
type Up Length

// Fine is a length that is small beside what is usually printed. It has one more decimal than that.
type Fine Length

// BesideLoad is a load that is printed next to another one, with as many decimals as it takes to show which
// is the larger.
type BesideLoad struct{ This, Other Load }

// UpLoad is a load that is printed rounded up, as an uncertainty is.
type UpLoad Load

// FineLoad is a load that is small beside what is usually printed. It has one more decimal than that.
type FineLoad Load

// String returns the reading as it was read, with its unit: "1.842 in". It is what a sentence shows
// that knows no style, such as a refusal.
func (q Quantity) String() string {
	return trim(minus(q.Read), q.Unit == In) + " " + string(q.Unit)
}

// Plain returns the reading with its unit and a point, so that every column reads the same value again, also one that takes
// points for marks of thousands: of three digits behind the point a nought falls away, or one is added.
func (q Quantity) Plain() string {
	text := q.Read
	if at := strings.IndexByte(text, '.'); at > 0 && at < 4 && len(text)-at == 4 && text[0] != '0' && q.Unit.Dimension() != OfLength {
		if short := strings.TrimSuffix(text, "0"); short != text {
			text = short
		} else {
			text += "0"
		}
	}
	return text + " " + string(q.Unit)
}
