package record

import "keeperbook/model/unit"

// DefaultRules are common practice with no published source, from memory; a shop sets its own. The
// millimetre figures are the inch figures as a metric shop rounds them.
func DefaultRules(length unit.Symbol) Rules {
	if length == unit.Mm {
		return Rules{
			Decision: Plain, Agree: mm("0.08"), SealLeast: mm("1.27"), RetainerLeast: mm("1.27"),
			SetHeights: mm("0.13"), RatedOver: mm("20.32"),
			Sizes: []unit.Quantity{mm("0.25"), mm("0.50"), mm("1.00")},
		}
	}
	return Rules{
		Decision: Plain, Agree: in("0.003"), SealLeast: in("0.050"), RetainerLeast: in("0.050"),
		SetHeights: in("0.005"), RatedOver: in("0.800"),
		Sizes: []unit.Quantity{in("0.010"), in("0.015"), in("0.020"), in("0.030"), in("0.045"), in("0.060")},
	}
}

func in(read string) unit.Quantity { return must(read, unit.In) }
func mm(read string) unit.Quantity { return must(read, unit.Mm) }

func must(read string, s unit.Symbol) unit.Quantity {
	q, err := unit.Of(read, s)
	if err != nil {
		panic("record: a default rule is no quantity: " + read)
	}
	return q
}
