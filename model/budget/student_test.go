package budget_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"keeperbook/model/budget"
	"keeperbook/model/internal/checkfile"
	"keeperbook/model/unit"
)

func TestStudent(t *testing.T) {
	checkfile.Each(t, "testdata/check/student.txt", func(t *testing.T, r checkfile.Row) {
		near(t, "t", budget.Student(number(r, "p"), number(r, "nu")), number(r, "t"), number(r, "tolerance"))
	})
	// The table prints two decimals.
	checkfile.Each(t, "testdata/check/student-gum.txt", func(t *testing.T, r checkfile.Row) {
		near(t, "95 %", budget.Student(0.975, number(r, "nu")), number(r, "t95"), .0051)
		near(t, "99 %", budget.Student(0.995, number(r, "nu")), number(r, "t99"), .0051)
	})
	near(t, "ν infinite", budget.Student(0.975, math.Inf(1)), 1.959963984540054, 1e-14) // of erf⁻¹; SciPy 1.10.1 too
	for _, nu := range []float64{0, -1, math.NaN()} {
		if x, p := budget.Student(0.975, nu), budget.Below(1, nu); !math.IsNaN(x) || !math.IsNaN(p) {
			t.Errorf("ν %g: t %g, p %g", nu, x, p)
		}
		if g := guard(t, budget.Of(1, nu), budget.Guarded); g.AtLeast(unit.Limit, 0) == budget.Within {
			t.Errorf("ν %g: within", nu)
		}
	}
	t.Run("the distribution gives the probability back", rapid.MakeCheck(func(t *rapid.T) {
		p := rapid.Float64Range(0.5, 0.9995).Draw(t, "p")
		nu := math.Exp(rapid.Float64Range(0, math.Log(1e9)).Draw(t, "log ν"))
		x := budget.Student(p, nu)
		if got := budget.Below(x, nu); math.Abs(got-p) > 1e-9 {
			t.Fatalf("ν %g: t %g is above %g, not %g", nu, x, got, p)
		}
		if lower := budget.Student(1-p, nu); math.Abs(lower+x) > 1e-7*math.Abs(x)+1e-9 {
			t.Fatalf("ν %g: %g below and %g above are not alike", nu, lower, x)
		}
	}))
}
