package budget_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"keeperbook/model/budget"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

func wantKey(t *testing.T, err error, key string) {
	t.Helper()
	var e *say.Error
	if !errors.As(err, &e) || e.Line.Key != key || e.Code != say.Invalid {
		t.Fatalf("got %v, want %s", err, key)
	}
	if strings.Contains(e.Error(), "{") || !strings.HasSuffix(e.Error(), ".") {
		t.Errorf("not a sentence: %s", e.Error())
	}
}

func TestRefused(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for name, c := range map[string]struct {
		change func(*budget.Term)
		key    string
	}{
		"a step of nought":         {func(t *budget.Term) { t.X.Gauge.Step = 0 }, "budget.step"},
		"a step below nought":      {func(t *budget.Term) { t.X.Gauge.Step = -1 }, "budget.step"},
		"a step that is no number": {func(t *budget.Term) { t.X.Gauge.Step = nan }, "budget.step"},
		"a step without end":       {func(t *budget.Term) { t.X.Gauge.Step = inf }, "budget.step"},
		"U below nought":           {func(t *budget.Term) { t.X.Gauge.Certificate.U = -1 }, "budget.certificate"},
		"U without end":            {func(t *budget.Term) { t.X.Gauge.Certificate.U = inf }, "budget.certificate"},
		"k of nought":              {func(t *budget.Term) { t.X.Gauge.Certificate.K = 0 }, "budget.factor"},
		"k below nought":           {func(t *budget.Term) { t.X.Gauge.Certificate.K = -2 }, "budget.factor"},
		"k that is no number":      {func(t *budget.Term) { t.X.Gauge.Certificate.K = nan }, "budget.factor"},
		"people below nought":      {func(t *budget.Term) { t.X.Gauge.People = budget.Pool{S: -1, Nu: 2} }, "budget.scatter"},
		"people without ν":         {func(t *budget.Term) { t.X.Gauge.People = budget.Pool{S: 1} }, "budget.degrees"},
		"s below nought":           {func(t *budget.Term) { t.X.Pool.S = -1 }, "budget.scatter"},
		"s without end":            {func(t *budget.Term) { t.X.Pool.S = inf }, "budget.scatter"},
		"ν of nought":              {func(t *budget.Term) { t.X.Pool.Nu = 0 }, "budget.degrees"},
		"ν below nought":           {func(t *budget.Term) { t.X.Pool.Nu = -3 }, "budget.degrees"},
		"ν that is no number":      {func(t *budget.Term) { t.X.Pool.Nu = nan }, "budget.degrees"},
		"an empty pool":            {func(t *budget.Term) { *t.X.Pool = budget.Pool{} }, "budget.degrees"},
		"the mean of none":         {func(t *budget.Term) { t.X.N = 0 }, "budget.repeats"},
		"squares below nought":     {func(t *budget.Term) { t.X.Own = budget.Scatter{Squares: -1, Nu: 1} }, "budget.scatter"},
		"own without ν":            {func(t *budget.Term) { t.X.Own = budget.Scatter{Squares: 1} }, "budget.degrees"},
		"a lot below nought":       {func(t *budget.Term) { t.X.Lot = budget.Lot{S: -1, Nu: 3, N: 4} }, "budget.scatter"},
		"a lot without ν":          {func(t *budget.Term) { t.X.Lot = budget.Lot{S: 1, N: 4} }, "budget.degrees"},
		"a lot of none":            {func(t *budget.Term) { t.X.Lot = budget.Lot{S: 1, Nu: 3} }, "budget.lot"},
		"a tolerance below nought": {func(t *budget.Term) { t.X.Tolerance = -1 }, "budget.scatter"},
		"an estimate below nought": {func(t *budget.Term) { t.X.Estimate = budget.Estimate{U: -1, Nu: 3} }, "budget.scatter"},
		"an estimate without ν":    {func(t *budget.Term) { t.X.Estimate = budget.Estimate{U: 1} }, "budget.degrees"},
		"one reading, no pool":     {func(t *budget.Term) { t.X.Pool = nil }, "budget.unknown"},
		"nothing known":            {func(t *budget.Term) { *t.X = budget.Input{} }, "budget.unknown"},
		"counting without end":     {func(t *budget.Term) { t.C = inf }, "budget.sensitivity"},
		"counting no number":       {func(t *budget.Term) { t.C = nan }, "budget.sensitivity"},
		"more than a number holds": {func(t *budget.Term) { t.C = 1e200 }, "budget.large"},
	} {
		t.Run(name, func(t *testing.T) {
			b := newBench()
			term := budget.Term{C: 1, X: &budget.Input{Name: say.New("nobody.wrote"), Gauge: b.gauges["C"], Pool: b.pools["C"], N: 1}}
			if _, err := (budget.Sum{term}).Budget(); err != nil {
				t.Fatalf("refused before the change: %v", err)
			}
			c.change(&term)
			got, err := budget.Sum{term}.Budget()
			wantKey(t, err, c.key)
			if got != (budget.Budget{}) {
				t.Errorf("a figure in spite of it: %+v", got)
			}
			if c.key == "budget.large" {
				return // rows are parts, and each of them is still a number
			}
			_, err = budget.Sum{term}.Rows()
			wantKey(t, err, c.key)
		})
	}
	t.Run("a rule that nobody knows", func(t *testing.T) {
		_, err := budget.GuardOf[unit.Length](budget.Of(1, 9), "by-eye")
		wantKey(t, err, "budget.rule")
	})
}
