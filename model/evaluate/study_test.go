package evaluate_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"keeperbook/model/evaluate"
	"keeperbook/model/internal/checkfile"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// study is a study in inches of readings typed by people in turn: "A 1.842".
func study(t *testing.T, readings ...string) *record.Study {
	t.Helper()
	s := &record.Study{ID: "study", Gauge: "gauge", What: "one valve", Unit: unit.In}
	for _, r := range readings {
		by, text, _ := strings.Cut(r, " ")
		text, reason, struck := strings.Cut(text, " struck ")
		q, err := unit.Of(text, unit.In)
		if err != nil {
			t.Fatal(err)
		}
		one := record.StudyReading{By: by, Quantity: q, When: "2026-06-01T12:00:00Z"}
		if struck {
			one.Struck = &record.Strike{Reason: reason}
		}
		s.Readings = append(s.Readings, one)
	}
	return s
}

// The ten days of JCGM 100:2008, H.5, as ten people who read five times each, a microvolt as a micrometre: 85 within
// with 40 degrees of freedom, 43 between, 97 on the whole.
func TestStudyAgainstTheGuide(t *testing.T) {
	const micro = unit.MM / 1000
	s := &record.Study{ID: "days", Unit: unit.Mm}
	checkfile.Each(t, "../budget/testdata/check/anova-days.txt", func(t *testing.T, r checkfile.Row) {
		mean, spread := decimal(t, r.Text("mean_uV")), decimal(t, r.Text("s_uV"))
		// The mean three times and √2 s to either side have this mean and this standard deviation.
		for _, off := range []float64{0, 0, 0, math.Sqrt2 * spread, -math.Sqrt2 * spread} {
			l := unit.Length(math.Round((mean + off) * float64(micro)))
			s.Readings = append(s.Readings, record.StudyReading{By: r.Text("name"), Quantity: unit.Worked(l, unit.Mm, 7)})
		}
	})
	checkfile.Each(t, "../budget/testdata/check/anova.txt", func(t *testing.T, r checkfile.Row) {
		got := evaluate.StudyOf(s)
		if got.Count != 50 || len(got.People) != 10 || got.Readers() != 10 || !got.Known || got.Outlying >= 0 {
			t.Fatalf("%+v", got)
		}
		in := func(l unit.Length) string { return strconv.Itoa(int(math.Round(float64(l) / float64(micro)))) }
		if in(got.Scatter) != r.Text("within_uV") || strconv.Itoa(got.Freedom) != r.Text("within_nu") || in(got.Between) != r.Text("between_uV") {
			t.Errorf("within %s with %d, between %s", in(got.Scatter), got.Freedom, in(got.Between))
		}
		if in(got.Mean) != "97" { // H.5.2, from memory: 10,000 097 V
			t.Errorf("mean %s", in(got.Mean))
		}
		if q := got.Show(got.Scatter); q.Read != "0.085" {
			t.Errorf("shown as %s", q.Read)
		}
		if p := got.Repeat(); p.Freedom != "40" || p.People != 10 || p.Study != "days" || in(p.S.Length()) != "85" || len(p.S.Read) != len("0.0849") {
			t.Errorf("the gauge gets %+v", p)
		}
	})
}

func decimal(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

func TestStudy(t *testing.T) {
	for _, c := range []struct {
		name     string
		readings []string
		count    int
		known    bool
		freedom  int
		wanting  int
		readers  int
	}{
		{"nobody", nil, 0, false, 0, 6, 0},
		{"one reading", []string{"A 1.842"}, 1, false, 0, 5, 1},
		{"one each", []string{"A 1.842", "B 1.843"}, 2, false, 0, 5, 2},
		{"twice", []string{"A 1.842", "A 1.843"}, 2, true, 1, 4, 1},
		{"two people", []string{"A 1.842", "B 1.843", "A 1.842", "B 1.843", "A 1.841", "B 1.843"}, 6, true, 4, 1, 2},
		{"enough", []string{"A 1.842", "A 1.843", "A 1.842", "A 1.842", "A 1.841", "A 1.842"}, 6, true, 5, 0, 1},
		{"struck ones do not count", []string{"A 1.842", "A 1.843", "A 1.9 struck slipped", "B 1.7 struck wrong side"}, 2, true, 1, 4, 1},
		{"all struck", []string{"A 1.842 struck slipped"}, 0, false, 0, 6, 0},
	} {
		s := evaluate.StudyOf(study(t, c.readings...))
		if s.Count != c.count || s.Known != c.known || s.Freedom != c.freedom || s.Wanting() != c.wanting || s.Readers() != c.readers {
			t.Errorf("%s: %+v, wanting %d", c.name, s, s.Wanting())
		}
	}
}

// By hand: A reads 2, 4 over 1.840 and B 3, 3, 6: s² = (2 + 6)/3, ν = 3, mean 3.6.
func TestStudyByHand(t *testing.T) {
	s := evaluate.StudyOf(study(t, "A 1.842", "B 1.843", "A 1.844", "B 1.843", "B 1.846"))
	if s.Mean != 1840*unit.Thou+36*unit.Thou/10 || s.Freedom != 3 {
		t.Errorf("mean %d, ν %d", s.Mean, s.Freedom)
	}
	if want := math.Sqrt(8.0/3) * float64(unit.Thou); math.Abs(float64(s.Scatter)-want) > .5 {
		t.Errorf("s %d, want %f", s.Scatter, want)
	}
	if a := s.People[0]; a.Name != "A" || a.Count != 2 || a.Mean != 1843*unit.Thou {
		t.Errorf("%+v", a)
	}
	if b := s.People[1]; b.Name != "B" || b.Count != 3 || b.Mean != 1844*unit.Thou {
		t.Errorf("%+v", b)
	}
	if got := s.Show(s.Mean).Read; got != "1.8436" {
		t.Errorf("the mean is shown as %s", got)
	}
}

// An outlying reading is named and counts until somebody strikes it.
func TestStudyOutlying(t *testing.T) {
	steady := []string{"A 1.842", "A 1.843", "A 1.842", "A 1.842", "A 1.841", "A 1.842", "A 1.843", "A 1.842"}
	s := evaluate.StudyOf(study(t, append(steady[:4:4], append([]string{"B 1.842", "B 1.842", "A 1.862"}, steady[4:]...)...)...))
	if s.Outlying != 6 || s.Why.Args[0] != 7 || s.Why.Args[2] != "A" || s.Count != 11 {
		t.Fatalf("%+v", s)
	}
	s = evaluate.StudyOf(study(t, append(steady, "A 1.862 struck locks not seated")...))
	if s.Outlying != -1 || !s.Why.Zero() || s.Count != 8 {
		t.Errorf("%+v", s)
	}
}

// A gauge that shows one and the same every time has a scatter of nought, which is one.
func TestStudyWithoutScatter(t *testing.T) {
	s := evaluate.StudyOf(study(t, "A 1.842", "A 1.842", "A 1.842", "A 1.842", "A 1.842", "A 1.842"))
	r := s.Repeat()
	if !s.Known || s.Scatter != 0 || r.S.Value != 0 || r.S.Unit != unit.In || r.Freedom != "5" {
		t.Errorf("%+v, %+v", s, r)
	}
	if s.Show(s.Mean).Read != "1.8420" || s.Outlying >= 0 {
		t.Errorf("%+v", s)
	}
	if err := record.Doubt(record.Gauge{ID: "gauge", Repeat: &r}, ""); err != nil {
		t.Error(err)
	}
}
