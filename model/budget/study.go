package budget

import (
	"math"

	"gonum.org/v1/gonum/stat"

	"keeperbook/model/say"
)

// Study is what readings of one and the same thing tell of a gauge and of the people who use it.
type Study struct {
	N       int // readings of all
	People  int
	Pool    Pool // repeatability: the scatter of one reading by one person
	Between Pool // s_o: what people differ by beyond that; nothing for one person

	// Outlying is the reading that a test calls an outlier, nil for none. It counts all the same: only
	// a person may strike it, with a reason.
	Outlying *Outlying
}

// Outlying is a reading that lies further from its person's mean than Grubbs' test allows.
type Outlying struct {
	Person, Reading int // counted from nought
	G, Limit        float64
}

// doubtful is how often Grubbs' test calls a reading outlying in a whole study of nothing but chance.
const doubtful = 0.01

// StudyOf works out a study: the readings of one thing by one person or more, a slice for each. At least
// one of them must have read twice.
//
// It is an analysis of variance: s² = MS_within, and s_o² = max(0, (MS_between − MS_within)/r), where r is how often each person read
// (of unequal numbers the usual mean, (N − Σr²/N)/(people − 1)). The degrees of freedom of s_o² are
// Satterthwaite's, less than one for two people: two can differ a lot or a little by chance.
func StudyOf[T Whole](people ...[]T) (Study, error) {
	s := Study{}
	var means, counts []float64
	var first T
	within, squares := Scatter{}, 0.0
	for _, readings := range people {
		if len(readings) == 0 {
			continue
		}
		own := ScatterOf(readings...)
		within.Squares, within.Nu = within.Squares+own.Squares, within.Nu+own.Nu
		n := float64(len(readings))
		// Means count from the first reading of all, so that they keep their digits.
		if means == nil {
			first = readings[0]
		}
		mean := 0.0
		for _, r := range readings {
			mean += float64(r-first) / n
		}
		means, counts = append(means, mean), append(counts, n)
		s.N, squares = s.N+len(readings), squares+n*n
	}
	s.People = len(means)
	if within.Nu == 0 {
		return Study{}, say.Fail(say.Invalid, "budget.study")
	}
	s.Pool = Pool{}.Join(within)
	if s.People > 1 {
		nu := float64(s.People - 1)
		between, residual := stat.MomentAbout(2, means, stat.Mean(means, counts), counts), s.Pool.S*s.Pool.S
		r := (float64(s.N) - squares/float64(s.N)) / nu
		s.Between = component(between*float64(s.N)/nu, nu, residual, within.Nu, r)
	}
	s.Outlying = outlying(people)
	return s, nil
}

// component is the part of a mean square that a lower one does not explain, (a − b)/r, with Satterthwaite's
// degrees of freedom; nought where there is none.
func component(a, nuA, b, nuB, r float64) Pool {
	v := (a - b) / r
	if v <= 0 {
		return Pool{S: 0, Nu: nuA}
	}
	return Pool{S: math.Sqrt(v), Nu: v * v / (a/r*(a/r)/nuA + b/r*(b/r)/nuB)}
}

// outlying returns the reading that exceeds the limit of Grubbs' test by most; the few cases that
// chance is allowed are divided among the people.
func outlying[T Whole](people [][]T) (found *Outlying) {
	for i, readings := range people {
		own := ScatterOf(readings...)
		if len(readings) < 3 || own.Squares == 0 {
			continue
		}
		limit := Grubbs(len(readings), doubtful/float64(len(people)))
		x := make([]float64, len(readings))
		for j, r := range readings {
			x[j] = float64(r - readings[0])
		}
		mean, s := stat.Mean(x, nil), math.Sqrt(own.Squares/own.Nu)
		for j := range x {
			g := math.Abs(x[j]-mean) / s
			if g > limit && (found == nil || g/limit > found.G/found.Limit) {
				found = &Outlying{Person: i, Reading: j, G: g, Limit: limit}
			}
		}
	}
	return found
}

// Grubbs returns how many standard deviations the reading farthest from the mean of n may be off, to
// either side, before chance alone has a probability of alpha: (n − 1)/√n · √(t²/(n − 2 + t²)), with t the
// quantile 1 − α/2n of Student's t (F. E. Grubbs, Technometrics 11 (1969) 1, from memory). n is three or more.
func Grubbs(n int, alpha float64) float64 {
	m := float64(n)
	t := Student(1-alpha/(2*m), m-2)
	return (m - 1) / math.Sqrt(m) * math.Sqrt(t*t/(m-2+t*t))
}
