package evaluate_test

import (
	"testing"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// Least squares leave residuals that add up to nought, and for a straight line also times their weights (the normal
// equations; NIST/SEMATECH e-Handbook of Statistical Methods, 4.4.3.1). The weights and what was shown are invented.
func TestResidualsAddUpToNought(t *testing.T) {
	w := &record.Weights{Degree: 1}
	for i, shown := range []string{"50.4", "100.9", "151.0", "201.7", "252.1"} {
		w.Points = append(w.Points, record.Weighing{Applied: lbf(t, []string{"50", "100", "150", "200", "250"}[i]), Shown: lbf(t, shown)})
	}
	g, ok := evaluate.WeightGraphOf(w, record.Units{Length: unit.In, Load: unit.Lbf})
	if !ok || len(g.All) != 5 || g.Bent {
		t.Fatalf("%v, %+v", ok, g)
	}
	var sum, times float64
	for _, r := range g.All {
		sum += float64(r.Left)
		times += float64(r.Left) * float64(r.Applied) / float64(g.All[4].Applied)
		if r.U <= 0 {
			t.Errorf("at %v no ±", r.Applied)
		}
	}
	if most := 5.0; sum > most || sum < -most || times > most || times < -most { // each is rounded to a millinewton
		t.Errorf("they add up to %v mN, times their weights to %v", sum, times)
	}
	if _, ok := evaluate.WeightGraphOf(&record.Weights{Points: w.Points[:1]}, g.Units); ok {
		t.Error("one weight makes a curve")
	}
	if _, ok := evaluate.WeightGraphOf(nil, g.Units); ok {
		t.Error("no weights make a curve")
	}
}
