package curve_test

import (
	"testing"

	"keeperbook/model/budget"
	"keeperbook/model/spring/curve"
	"keeperbook/model/unit"
)

// triple is a spring of three coils, each of six points.
func triple(b *testing.B) *curve.Curve {
	b.Helper()
	points := sure(progressive, 3000, 20_000)
	coil := func(less unit.Length) curve.Coil { return curve.Coil{Curve: newCurve(b, solid, points...), Less: less} }
	return must(curve.Together(coil(0), coil(30*unit.Thou), coil(60*unit.Thou)))
}

// BenchmarkHead is the load of 64 valves with three coils each, at the seat and open.
func BenchmarkHead(b *testing.B) {
	c := triple(b)
	b.ReportAllocs()
	for b.Loop() {
		for v := range unit.Length(64) {
			if _, err := c.At(1850*unit.Thou + v*1000); err != nil {
				b.Fatal(err)
			}
			if _, err := c.At(1250*unit.Thou + v*1000); err != nil {
				b.Fatal(err)
			}
		}
	}
}

// BenchmarkHeadSure is how sure those loads are.
func BenchmarkHeadSure(b *testing.B) {
	c := triple(b)
	height := budget.Sum{{C: 1, X: known(60_000)}}
	b.ReportAllocs()
	for b.Loop() {
		for v := range unit.Length(64) {
			s, err := c.Terms(1850*unit.Thou+v*1000, height)
			if err != nil {
				b.Fatal(err)
			}
			if _, err := s.Budget(); err != nil {
				b.Fatal(err)
			}
		}
	}
}

// BenchmarkTypes is 5,000 types of springs at one height, their curves at hand.
func BenchmarkTypes(b *testing.B) {
	all := make([]*curve.Curve, 5000)
	for i := range all {
		all[i] = newCurve(b, solid, progressive...)
	}
	b.ReportAllocs()
	for b.Loop() {
		for _, c := range all {
			if _, err := c.At(1777 * unit.Thou); err != nil {
				b.Fatal(err)
			}
		}
	}
}

// BenchmarkNew draws one curve from its points.
func BenchmarkNew(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := curve.New(progressive, solid); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkHeight(b *testing.B) {
	c := triple(b)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := c.Height(pounds(900)); err != nil {
			b.Fatal(err)
		}
	}
}
