package unit_test

import (
	"testing"

	"keeperbook/model/say"
	"keeperbook/model/unit"
)

var (
	inches      = unit.Inches
	millimetres = unit.Millimetres
	decimal     = unit.Style{Length: unit.Mm, Load: unit.Kgf, Comma: true}
)

func TestLengthIn(t *testing.T) {
	tests := []struct {
		style  unit.Style
		length unit.Length
		want   string
	}{
		{inches, 30 * unit.Thou, ".030"},
		{inches, 1842 * unit.Thou, "1.842"},
		{inches, 18425 * unit.Thou / 10, "1.8425"},
		{inches, -4 * unit.Thou, "−.004"},
		{inches, -1842 * unit.Thou, "−1.842"},
		{inches, 0, ".000"},
		{inches, 2 * unit.Inch, "2.000"},
		{inches, 12_500 * unit.Thou, "12.500"},
		{inches, 12_700, ".000"}, // 0.00005 in: half to even
		{inches, 12_701, ".0001"},
		{inches, -12_700, ".000"}, // no minus before nothing
		{inches, 38_100, ".0002"}, // 0.00015 in
		{inches, 63_500, ".0002"}, // 0.00025 in
		{inches, -38_100, "−.0002"},
		{millimetres, 4679 * unit.MM / 100, "46.79"},
		{millimetres, unit.MM / 2, "0.50"},
		{millimetres, -unit.MM / 2, "−0.50"},
		{millimetres, 467_868_000, "46.787"}, // 1.842 in is 46.7868 mm
		{millimetres, 0, "0.00"},
		{decimal, 467_868_000, "46,787"},
		{decimal, -unit.MM / 2, "−0,50"},
		{unit.Style{Length: unit.In, Comma: true}, 30 * unit.Thou, ",030"},
		{unit.Style{}, 30 * unit.Thou, ".030"},
	}
	for _, tt := range tests {
		if got := tt.style.LengthIn(tt.length); got != tt.want {
			t.Errorf("%d in %s: got %s, want %s", tt.length, tt.style.Length, got, tt.want)
		}
	}
}

func TestAgainst(t *testing.T) {
	tests := []struct {
		style       unit.Style
		a, b        unit.Length
		left, right string
	}{
		{inches, 31 * unit.Thou, 50 * unit.Thou, ".031", ".050"},
		{inches, 60 * unit.Thou, 60 * unit.Thou, ".060", ".060"},
		{inches, 15_234_920, 60 * unit.Thou, ".05998", ".060"},
		{inches, 60*unit.Thou - 1, 60 * unit.Thou, ".059999996", ".060"}, // a tenth of a nanometre
		{inches, -4 * unit.Thou, 0, "−.004", ".000"},
		{millimetres, unit.MM - 1, unit.MM, "0.9999999", "1.00"},
		{decimal, unit.MM - 1, unit.MM, "0,9999999", "1,00"},
		{inches, 12_700, 12_700, ".000", ".000"},
	}
	for _, tt := range tests {
		if left, right := tt.style.Against(tt.a, tt.b); left != tt.left || right != tt.right {
			t.Errorf("%d against %d: got %s and %s, want %s and %s", tt.a, tt.b, left, right, tt.left, tt.right)
		}
	}
}

func TestLoadIn(t *testing.T) {
	tests := []struct {
		style unit.Style
		load  unit.Load
		want  string
	}{
		{inches, 582_717, "131.0"}, // 131 lbf
		{inches, 2_224, "0.5"},
		{inches, -2_224, "−0.5"},
		{inches, 0, "0.0"},
		{millimetres, 582_717, "582.7"},
		{millimetres, 582_750, "582.8"}, // half to even
		{millimetres, 582_850, "582.8"},
		{decimal, 980_665, "100,0"},
		{unit.Style{}, 582_717, "131.0"},
	}
	for _, tt := range tests {
		if got := tt.style.LoadIn(tt.load); got != tt.want {
			t.Errorf("%d mN in %s: got %s, want %s", tt.load, tt.style.Load, got, tt.want)
		}
	}
}

func TestRateIn(t *testing.T) {
	r := unit.Rate(value(t, "420", unit.LbfPerIn))
	for _, tt := range []struct {
		style unit.Style
		want  string
	}{{inches, "420.0 lbf/in"}, {millimetres, "73.6 N/mm"}, {decimal, "73,6 N/mm"}} {
		if got := tt.style.RateIn(r); got != tt.want {
			t.Errorf("got %s, want %s", got, tt.want)
		}
	}
}

func TestQuantityIn(t *testing.T) {
	tests := []struct {
		style unit.Style
		read  string
		unit  unit.Symbol
		want  string
	}{
		{inches, "1.8420", unit.In, "1.8420"}, // as it was read, trailing zero and all
		{inches, "0.030", unit.In, ".030"},
		{inches, "-0.050", unit.In, "−.050"},
		{inches, "46.79", unit.Mm, "1.8421"}, // 1.842126 in
		{millimetres, "46.79", unit.Mm, "46.79"},
		{millimetres, "0.5", unit.Mm, "0.5"},
		{millimetres, "1.842", unit.In, "46.787"},
		{decimal, "46.79", unit.Mm, "46,79"},
		{inches, "131", unit.Lbf, "131"},
		{inches, "583", unit.N, "131.1"},
		{millimetres, "131", unit.Lbf, "582.7"},
		{inches, "420", unit.LbfPerIn, "420 lbf/in"},
		{decimal, "1.03", unit.Bar, "1,03 bar"},
	}
	for _, tt := range tests {
		q, err := unit.Of(tt.read, tt.unit)
		if err != nil {
			t.Fatal(err)
		}
		if got := tt.style.QuantityIn(q); got != tt.want {
			t.Errorf("%s %s: got %s, want %s", tt.read, tt.unit, got, tt.want)
		}
	}
	if got := inches.QuantityIn(unit.Quantity{}); got != "" {
		t.Errorf("no reading shows as %q", got)
	}
}

func TestShow(t *testing.T) {
	q, _ := unit.Of("1.8420", unit.In)
	for _, tt := range []struct {
		v    any
		want string
	}{
		{30 * unit.Thou, ".030"},
		{unit.Load(582_717), "131.0"},
		{unit.Rate(value(t, "420", unit.LbfPerIn)), "420.0 lbf/in"},
		{q, "1.8420"},
		{unit.In, "in"},
		{unit.Beside{This: 15_234_920, Other: 60 * unit.Thou}, ".05998"},
		{unit.Up(790_400), ".0032"},         // .003112 in
		{unit.Up(10*unit.Thou + 1), ".011"}, // two digits that count are enough
		{unit.Up(0), ".000"},
		{unit.Fine(36_662), ".00014"}, // a step of .0005 in over √12
		{unit.Sure{This: 629 * unit.Thou / 10, U: 790_400, Limit: 60 * unit.Thou}, ".0629"},
		{unit.Spread{This: 629 * unit.Thou / 10, U: 790_400, Limit: 60 * unit.Thou}, ".0032"},
		// .06312 − .00312 reaches .060, and .0631 − .0032 would not.
		{unit.Sure{This: 6312 * unit.Thou / 100, U: 312 * unit.Thou / 100, Limit: 60 * unit.Thou}, ".06312"},
		{unit.Spread{This: 6312 * unit.Thou / 100, U: 312 * unit.Thou / 100, Limit: 60 * unit.Thou}, ".00312"},
	} {
		if got, ok := inches.Show(tt.v); !ok || got != tt.want {
			t.Errorf("%#v: got %q, %v, want %q", tt.v, got, ok, tt.want)
		}
	}
	if got, ok := inches.Show(1.5); ok {
		t.Errorf("a float was shown as %q", got)
	}
	line := say.New("no.such.key", 30*unit.Thou)
	if got := say.In(inches.Show).Line(line); got != "no.such.key .030" {
		t.Errorf("got %q", got)
	}
}
