package record

import "keeperbook/model/unit"

// DefaultRules are common practice with no published source, from memory; a shop sets its own with
// [ShopRules]. The millimetre figures are the inch figures as a metric shop rounds them, and so are the
// newtons. Fits have none: the trade has no figure for them that is common.
func DefaultRules(length unit.Symbol) Rules {
	r := Rules{
		Decision: Guarded, Agree: in("0.003"), SealLeast: in("0.050"), RetainerLeast: in("0.050"),
		SetHeights: in("0.005"), RatedOver: in("0.800"),
		Sizes:       []unit.Quantity{in("0.010"), in("0.015"), in("0.020"), in("0.030"), in("0.045"), in("0.060")},
		AssumedLoad: &AssumedLoad{S: lbf("1.0"), Step: lbf("1")},
		SeatLoads:   &Within{Load: lbf("5"), Percent: "3"},
		LockOffsets: []unit.Quantity{in("-0.050"), in("0.050")},
		Bosses:      []unit.Quantity{in("0.500"), in("0.565"), in("0.630")},
	}
	tolerance := in("0.002")
	if length == unit.Mm {
		r = Rules{
			Decision: Guarded, Agree: mm("0.08"), SealLeast: mm("1.27"), RetainerLeast: mm("1.27"),
			SetHeights: mm("0.13"), RatedOver: mm("20.32"),
			Sizes:       []unit.Quantity{mm("0.25"), mm("0.50"), mm("1.00")},
			AssumedLoad: &AssumedLoad{S: newtons("4"), Step: newtons("5")},
			SeatLoads:   &Within{Load: newtons("22"), Percent: "3"},
			LockOffsets: []unit.Quantity{mm("-1.27"), mm("1.27")},
			Bosses:      []unit.Quantity{mm("12.70"), mm("14.35"), mm("16.00")},
		}
		tolerance = mm("0.05")
	}
	r.ShimTolerance = &tolerance
	r.LoadLost = &Lost{Watch: "5", Replace: "10"}
	r.LockAngles = []string{"7", "8", "10"}
	for _, a := range assumed {
		if length == unit.Mm {
			r.Assumed = append(r.Assumed, Assumed{a.kind, mm(a.mm.s), mm(a.mm.step)})
		} else {
			r.Assumed = append(r.Assumed, Assumed{a.kind, in(a.in.s), in(a.in.step)})
		}
	}
	return r
}

// assumed is how well the kinds of gauges are taken to read until a shop has found out: figures of our
// own for an ordinary gauge of the kind in ordinary hands, as those of AssumedLoad are, in inches and in millimetres.
var assumed = []struct {
	kind   GaugeKind
	in, mm struct{ s, step string }
}{
	{HeightGauge, scatter{"0.0010", "0.001"}, scatter{"0.025", "0.02"}},
	{Caliper, scatter{"0.0010", "0.0005"}, scatter{"0.025", "0.01"}},
	{Micrometer, scatter{"0.0002", "0.0001"}, scatter{"0.005", "0.002"}},
	{DialIndicator, scatter{"0.0010", "0.001"}, scatter{"0.025", "0.01"}},
	{DepthGauge, scatter{"0.0010", "0.001"}, scatter{"0.025", "0.02"}},
	{SpringTester, scatter{"0.0020", "0.001"}, scatter{"0.05", "0.02"}}, // its height scale
	{Fixture, scatter{"0.0015", "0.001"}, scatter{"0.04", "0.02"}},
	{FeelerGauge, scatter{"0.0005", "0.001"}, scatter{"0.013", "0.02"}}, // the step is that from leaf to leaf
}

type scatter = struct{ s, step string }

func in(read string) unit.Quantity { return must(read, unit.In) }
func mm(read string) unit.Quantity { return must(read, unit.Mm) }

func lbf(read string) unit.Quantity     { return must(read, unit.Lbf) }
func newtons(read string) unit.Quantity { return must(read, unit.N) }

func must(read string, s unit.Symbol) unit.Quantity {
	q, err := unit.Of(read, s)
	if err != nil {
		panic("record: a default rule is no quantity: " + read)
	}
	return q
}
