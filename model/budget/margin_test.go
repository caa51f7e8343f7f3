package budget_test

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"keeperbook/model/budget"
	"keeperbook/model/internal/checkfile"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

const inch = float64(unit.Inch)

// bench is four gauges of a small shop: step, U of the certificate with k = 2, pooled s and its ν.
type bench struct {
	gauges map[string]*budget.Gauge
	pools  map[string]*budget.Pool
}

func newBench() bench {
	b := bench{map[string]*budget.Gauge{}, map[string]*budget.Pool{}}
	add := func(name string, step, u, s, nu float64) {
		b.gauges[name] = &budget.Gauge{
			Name: say.New(name), Step: step * inch, Certificate: budget.Certificate{U: u * inch, K: 2},
		}
		b.pools[name] = &budget.Pool{S: s * inch, Nu: nu}
	}
	add("H", .0005, .0010, .0008, 24)  // height gauge
	add("M", .00005, .0002, .0001, 19) // micrometer
	add("D", .001, .0008, .0010, 18)   // dial indicator
	add("C", .0005, .0010, .0006, 24)  // caliper
	return b
}

// sum reads inputs such as "+1.7802 H 2, -.6080/.6150/.6130 D alone": sign, reading or repeats, gauge,
// number of readings; "alone" leaves the gauge's pool out, "own-gauge" gives the reading a gauge that
// nothing else is read on, and "lid" is one and the same reading wherever it stands.
func (b bench) sum(t *testing.T, text string) (budget.Sum, unit.Length) {
	t.Helper()
	var sum budget.Sum
	var m unit.Length
	lid := &budget.Input{Name: say.New("lid"), Gauge: b.gauges["C"], Pool: b.pools["C"], N: 1}
	for _, part := range strings.Split(text, ",") {
		part = strings.TrimSpace(part)
		words := strings.Fields(part[1:])
		sign := map[byte]unit.Length{'+': 1, '-': -1}[part[0]]
		var repeats []unit.Length
		for _, r := range strings.Split(words[0], "/") {
			if r[0] == '.' {
				r = "0" + r
			}
			v, err := unit.Value(r, unit.In)
			if err != nil {
				t.Fatal(err)
			}
			repeats = append(repeats, unit.Length(v))
		}
		m += sign * unit.Mean(repeats)
		x := &budget.Input{
			Name: say.New(words[1]), Gauge: b.gauges[words[1]], Pool: b.pools[words[1]], N: len(repeats), Own: budget.ScatterOf(repeats...),
		}
		switch last := words[len(words)-1]; last {
		case "lid":
			x = lid
		case "alone":
			x.Pool = nil
		case "own-gauge":
			g := *x.Gauge
			x.Gauge = &g
		default:
			if n, err := strconv.Atoi(last); err == nil {
				x.N = n
			}
		}
		sum = append(sum, budget.Term{C: float64(sign), X: x})
	}
	return sum, m
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: got %.12g, want %.12g", what, got, want)
	}
}

func number(r checkfile.Row, column string) float64 {
	x, _ := r.Rat(column).Float64()
	return x
}

// inches returns a cell in the unit of a length.
func inches(r checkfile.Row, column string) float64 { return number(r, column) * inch }

var words = map[budget.Word]string{
	budget.Within: "within", budget.Outside: "outside", budget.Unproven: "unproven", budget.Repeat: "repeat",
}

// both holds a margin against both limits; the worse of the two is what is said.
func both(t *testing.T, b budget.Budget, rule budget.Rule, m, least, most unit.Length) string {
	t.Helper()
	g, err := budget.GuardOf[unit.Length](b, rule)
	if err != nil {
		t.Fatal(err)
	}
	return words[min(g.AtLeast(m, least), g.AtMost(m, most))]
}

func TestMargin(t *testing.T) {
	checkfile.Each(t, "testdata/check/margin.txt", func(t *testing.T, r checkfile.Row) {
		sum, m := newBench().sum(t, r.Text("inputs"))
		b, err := sum.Budget()
		if err != nil {
			t.Fatal(err)
		}
		if want := r.Length("margin_in"); m != want {
			t.Fatalf("margin %d, want %d", m, want)
		}
		least, most := r.Length("least_in"), r.Length("most_in")
		near(t, "u", b.Std, inches(r, "u_in"), 1e-11*inch)
		near(t, "ν", b.Nu, number(r, "nu"), 1e-6)
		near(t, "U", b.Expanded, inches(r, "expanded_in"), 1e-11*inch)
		near(t, "t₀.₉₅ u", b.OneSided(), inches(r, "one_sided_in"), 1e-11*inch)
		near(t, "p", budget.Inside(b, m, least, most), number(r, "p_window"), 5e-9)
		normal := budget.Of(b.Std, math.Inf(1))
		near(t, "p normal", budget.Inside(normal, m, least, most), number(r, "p_normal"), 5e-9)
		if got := both(t, b, budget.Guarded, m, least, most); got != r.Text("guarded") {
			t.Errorf("guarded: %s", got)
		}
		if got := both(t, b, budget.Guarded95, m, least, most); got != r.Text("guarded_95") {
			t.Errorf("guarded-95: %s", got)
		}
		sameInRows(t, sum, b)
	})
}

// sameInRows adds the rows up again: they must come to the budget that was worked out without them.
func sameInRows(t *testing.T, sum budget.Sum, b budget.Budget) {
	t.Helper()
	rows, err := sum.Rows()
	if err != nil {
		t.Fatal(err)
	}
	v, share := 0.0, 0.0
	for _, row := range rows {
		v += row.Std * row.Std
		share += row.Share
	}
	near(t, "u from the rows", math.Sqrt(v), b.Std, 1e-12*b.Std)
	near(t, "the shares together", share, 1, 1e-12)
}

func TestRows(t *testing.T) {
	b := newBench()
	sum, _ := b.sum(t, "+1.9555 H 2, -.0950 lid, -.0302 M, -.6120 D 3, -1.1870 C, +.0950 lid")
	rows, err := sum.Rows()
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, r := range rows {
		name := map[bool]string{true: "gauge "}[r.X == nil]
		if r.X != nil {
			name = r.X.Name.Key
		} else {
			name += r.Gauge.Name.Key
		}
		got = append(got, name+" "+strconv.Itoa(int(r.Kind))+" "+strconv.FormatFloat(r.C, 'g', 4, 64))
	}
	want := []string{
		"H 1 1", "H 3 1", "lid 0 0", "M 1 -1", "M 3 -1", "D 1 -1", "D 3 -1", "C 1 -1", "C 3 -1",
		"gauge H 6 1", "gauge M 6 1", "gauge D 6 1", "gauge C 6 1",
	}
	if !slices.Equal(got, want) {
		t.Errorf("got  %q\nwant %q", got, want)
	}
	// The caliper's one reading, s = .0006 undivided, is the greatest part of this margin.
	if at := budget.Biggest(rows); rows[at].X == nil || rows[at].X.Name.Key != "C" || rows[at].Kind != budget.Repeats {
		t.Errorf("the biggest is row %d, %+v", at, rows[at])
	}
	if budget.Biggest(nil) != -1 {
		t.Error("of no rows one is the biggest")
	}
}
