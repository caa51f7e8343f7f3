package unit

import (
	"math/big"
	"strings"
)

// Style is how quantities are shown. Showing never writes: it only chooses a unit.
type Style struct {
	Length Symbol // In or Mm
	Load   Symbol // Lbf, N or Kgf
	Comma  bool   // a decimal comma instead of a point
}

// The two styles of a bench.
var (
	Inches      = Style{Length: In, Load: Lbf}
	Millimetres = Style{Length: Mm, Load: N}
)

// places of a shown length: always at least the first, at most the second.
func (s Style) places() (least, most int) {
	if s.Length == Mm {
		return 2, 3
	}
	return 3, 4
}

// LengthIn returns the length in the unit of the style, rounded half to even to four decimals of an
// inch or three of a millimetre, in the way of the trade: .030, 1.842, −.004, 46.79.
func (s Style) LengthIn(l Length) string {
	least, most := s.places()
	return s.decimal(big.NewRat(int64(l), int64(s.one())), least, most, s.Length != Mm)
}

// Against returns two lengths as LengthIn does, with as many more decimals as it takes to show
// which is the larger. Equal lengths come out equal.
func (s Style) Against(a, b Length) (string, string) {
	x, y := big.NewRat(int64(a), int64(s.one())), big.NewRat(int64(b), int64(s.one()))
	least, most := s.places()
	for ; most < 10; most++ {
		p, q := s.decimal(x, least, most, s.Length != Mm), s.decimal(y, least, most, s.Length != Mm)
		if (p == q) == (a == b) {
			return p, q
		}
	}
	return s.decimal(x, least, most, s.Length != Mm), s.decimal(y, least, most, s.Length != Mm)
}

// surely prints a length and its ±.
func (s Style) surely(v Sure) (this, u string) {
	least, most := s.places()
	for places := s.upPlaces(v.U); places <= wholePlaces; places++ {
		x, spread := s.cut(v.This, max(places, most), false), s.cut(v.U, places, true)
		if says(x, spread, v.Limit) == says(v.This, v.U, v.Limit) && (x < v.Limit) == (v.This < v.Limit) {
			return s.length(x, least, max(places, most)), s.length(spread, least, places)
		}
	}
	// They differ by less than that. Rounded the same way they differ as they do.
	return s.lifted(v.This), s.lifted(v.U)
}

// wholePlaces are the decimals of an inch that are whole numbers of tenths of a nanometre.
const wholePlaces = 6

// lifted prints a length rounded up at the tenth decimal, which tells apart any two lengths.
func (s Style) lifted(l Length) string {
	const places = 10
	scale := new(big.Int).Exp(big.NewInt(10), big.NewInt(places), nil)
	n, rest := new(big.Int).DivMod(new(big.Int).Mul(big.NewInt(int64(l)), scale), big.NewInt(int64(s.one())), new(big.Int))
	if rest.Sign() > 0 {
		n.Add(n, big.NewInt(1))
	}
	return s.decimal(new(big.Rat).SetFrac(n, scale), places, places, s.Length != Mm)
}

// upPlaces is how many decimals a length that is rounded up is printed with: two digits that count, and
// no more than other lengths have.
func (s Style) upPlaces(l Length) int {
	least, most := s.places()
	for places := least; places < most; places++ {
		if s.cut(l, places, true) >= 10*s.step(places) {
			return places
		}
	}
	return most
}

// step is one in a decimal place of the style's unit.
func (s Style) step(places int) Length {
	step := s.one()
	for range places {
		step /= 10
	}
	return step
}

// says is what a number with its ± says of a limit and of nought.
func says(x, u, limit Length) [3]bool { return [3]bool{x-u >= limit, x+u >= limit, x-u > 0} }

// cut rounds to a number of decimals of the style's unit, at most [wholePlaces]: half to even, or up.
func (s Style) cut(l Length, places int, up bool) Length {
	step := s.step(places)
	n := l / step
	switch rest := l - n*step; {
	case up && rest > 0:
		n++
	case !up && (2*rest > step || 2*rest == step && n%2 != 0):
		n++
	case !up && (-2*rest > step || -2*rest == step && n%2 != 0):
		n--
	}
	return n * step
}

// length prints a length that was rounded already.
func (s Style) length(l Length, least, most int) string {
	return s.decimal(big.NewRat(int64(l), int64(s.one())), least, most, s.Length != Mm)
}

func (s Style) one() Length {
	if s.Length == Mm {
		return MM
	}
	return Inch
}

// QuantityIn returns a reading as it was read where its unit is the style's, and converted as
// LengthIn and LoadIn convert where it is another. Other dimensions are shown as read, with unit.
func (s Style) QuantityIn(q Quantity) string {
	switch q.Unit {
	case s.Length, s.Load:
		return s.mark(trim(minus(q.Read), q.Unit == In))
	case In, Mm:
		return s.LengthIn(Length(q.Value))
	case Lbf, N, Kgf:
		return s.LoadIn(Load(q.Value))
	case "":
		return ""
	}
	return s.mark(minus(q.Read)) + " " + string(q.Unit)
}

// Show prints lengths, loads, rates and quantities for a say.Printer.
func (s Style) Show(v any) (string, bool) {
	switch v := v.(type) {
	case Length:
		return s.LengthIn(v), true
	case Beside:
		this, _ := s.Against(v.This, v.Other)
		return this, true
	case Sure:
		this, _ := s.surely(v)
		return this, true
	case Spread:
		_, u := s.surely(Sure(v))
		return u, true
	case Up:
		places := s.upPlaces(Length(v))
		least, _ := s.places()
		return s.length(s.cut(Length(v), places, true), least, places), true
	case Fine:
		_, most := s.places()
		return s.length(s.cut(Length(v), most+1, false), most+1, most+1), true
	case Load:
		return s.LoadIn(v), true
	case BesideLoad:
		return s.loadAgainst(v.This, v.Other), true
	case UpLoad:
		return s.loadUp(Load(v)), true
	case FineLoad:
		return s.decimal(s.loads(Load(v)), 2, 2, false), true
	case Rate:
		return s.RateIn(v), true
	case Quantity:
		return s.QuantityIn(v), true
	case Symbol:
		return string(v), true
	}
	return "", false
}

// LoadIn returns the load in the unit of the style with one decimal, rounded half to even.
func (s Style) LoadIn(l Load) string { return s.in(int64(l), s.load()) }

// loads is a load in the unit of the style.
func (s Style) loads(l Load) *big.Rat {
	return new(big.Rat).Quo(big.NewRat(int64(l), 1), perUnit[s.load()])
}

// loadAgainst prints a load with one decimal, or with as many more as it takes to tell it from another.
func (s Style) loadAgainst(a, b Load) string {
	x, y := s.loads(a), s.loads(b)
	for places := 1; places < 6; places++ {
		p := s.decimal(x, places, places, false)
		if (p == s.decimal(y, places, places, false)) == (a == b) {
			return p
		}
	}
	return s.decimal(x, 6, 6, false)
}

// loadUp prints a load with one decimal, rounded up.
func (s Style) loadUp(l Load) string {
	tenths := new(big.Rat).Mul(s.loads(l), big.NewRat(10, 1))
	n, rest := new(big.Int).DivMod(tenths.Num(), tenths.Denom(), new(big.Int))
	if rest.Sign() > 0 {
		n.Add(n, big.NewInt(1))
	}
	return s.decimal(new(big.Rat).SetFrac(n, big.NewInt(10)), 1, 1, false)
}

// RateIn returns the rate with one decimal and its unit: pounds an inch where loads are in pounds,
// else newtons a millimetre.
func (s Style) RateIn(r Rate) string {
	u := NPerMm
	if s.load() == Lbf {
		u = LbfPerIn
	}
	return s.in(int64(r), u) + " " + string(u)
}

// in returns a value in a unit with one decimal.
func (s Style) in(v int64, u Symbol) string {
	return s.decimal(new(big.Rat).Quo(big.NewRat(v, 1), perUnit[u]), 1, 1, false)
}

// load returns the unit of loads; pounds where the style does not say.
func (s Style) load() Symbol {
	if s.Load.Dimension() == OfLoad {
		return s.Load
	}
	return Lbf
}

// decimal prints x with at most most decimals, rounded half to even, and drops trailing zeros down
// to least of them; bare also drops the nought before the point.
func (s Style) decimal(x *big.Rat, least, most int, bare bool) string {
	scale := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(most)), nil)
	n := roundEven(new(big.Rat).Mul(x, new(big.Rat).SetInt(scale)))
	text := new(big.Rat).SetFrac(n, scale).FloatString(most)
	for drop := most - least; drop > 0 && strings.HasSuffix(text, "0"); drop-- {
		text = text[:len(text)-1]
	}
	return s.mark(trim(minus(text), bare))
}

// minus writes the minus sign of the typesetters, so that it is as wide as a plus.
func minus(text string) string {
	if rest, ok := strings.CutPrefix(text, "-"); ok {
		return "−" + rest
	}
	return text
}

// trim drops the nought before the point, as inch sizes are written: .030 and −.004.
func trim(text string, inch bool) string {
	if !inch {
		return text
	}
	sign := ""
	if rest, ok := strings.CutPrefix(text, "−"); ok {
		sign, text = "−", rest
	}
	if rest, ok := strings.CutPrefix(text, "0."); ok {
		text = "." + rest
	}
	return sign + text
}

func (s Style) mark(text string) string {
	if s.Comma {
		return strings.Replace(text, ".", ",", 1)
	}
	return text
}
