package evaluate_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// testerShop is gauged with springs that were tested on one tester, T: loads to .1 lbf with a certificate of .4 lbf
// and a scatter of .3 lbf, heights to .001 in with .001 in and .0005 in. Both coils are straight, of 300 and of
// 210 lbf/in, and 1 in stands where both were read: the outer at 2.000 in, the inner .095 in under that.
func testerShop(t testing.TB) *record.Record {
	t.Helper()
	r := gauged(t)
	r.Gauges = append(r.Gauges, record.Gauge{
		ID: "T", Name: "tester", Kind: record.SpringTester, Step: ptr(in(t, "0.001")),
		Calibration: &record.Calibration{U: in(t, "0.001"), K: "2"}, Repeat: &record.Repeat{S: in(t, "0.0005"), Freedom: "100000"},
		LoadScale: &record.LoadScale{
			Step: ptr(lbf(t, "0.1")), Calibration: &record.Calibration{U: lbf(t, "0.4"), K: "2"}, Repeat: &record.Repeat{S: lbf(t, "0.3"), Freedom: "100000"},
		},
	})
	coils := r.Parts.Springs[0].Coils
	coils[0].Loads = bareTest(t, "2.100", "160", "2.000", "190", "1.200", "430")
	coils[1].Loads = bareTest(t, "2.005", "88.95", "1.905", "109.95", "1.105", "277.95")
	for i := range coils {
		coils[i].Loads.Gauge = "T"
		coils[i].Loads.Lot = nil
	}
	drop(r, intake, record.BaseHeight)
	on(t, r, intake, record.BaseHeight, 0, "H", "2.030")
	return r
}

func stdOf(t *testing.T, l evaluate.Load) float64 {
	t.Helper()
	b, err := l.Sure()
	if err != nil {
		t.Fatal(err)
	}
	return b.Std
}

// Drawn at random, each reading by its gauge's certificate, step and scatter, seat loads lie as far apart as the
// budget says. The step of the retainer is a reading too: under an inner coil it is as good as a height. What
// each gauge has wrong of itself is the same in everything that it read.
func TestSeatLoadMonteCarlo(t *testing.T) {
	r := testerShop(t)
	u := stdOf(t, first(r).SeatLoad)

	draw := rand.New(rand.NewPCG(7, 11))
	gauge := func(id string) (of func() int64) {
		g := r.Gauges[indexOf(r, id)]
		own := float64(g.Calibration.U.Value) / 2 * draw.NormFloat64()
		return func() int64 {
			return int64(own + float64(g.Repeat.S.Value)*draw.NormFloat64() + float64(g.Step.Value)*(draw.Float64()-.5))
		}
	}
	const times = 6000
	var sum, squares float64
	for range times {
		d := *r
		height, mic, cal, tall := gauge("H"), gauge("M"), gauge("C"), gauge("T")
		scale := r.Gauges[indexOf(r, "T")].LoadScale
		ownLoad := float64(scale.Calibration.U.Value) / 2 * draw.NormFloat64()
		load := func() int64 {
			return int64(ownLoad + float64(scale.Repeat.S.Value)*draw.NormFloat64() + float64(scale.Step.Value)*(draw.Float64()-.5))
		}
		d.Parts.Springs = []record.Spring{r.Parts.Springs[0]}
		d.Parts.Springs[0].Coils = append([]record.Coil(nil), r.Parts.Springs[0].Coils...)
		for i := range d.Parts.Springs[0].Coils {
			l := *d.Parts.Springs[0].Coils[i].Loads
			l.Points = append([]record.Point(nil), l.Points...)
			// One error of reading for all points of a test: their own scatter turns the line about the point that
			// the load is read off, which a budget of that point does not follow and need not.
			h, f := tall(), load()
			for j := range l.Points {
				l.Points[j].Height.Value += h
				l.Points[j].Load.Value += f
			}
			d.Parts.Springs[0].Coils[i].Loads = &l
		}
		d.Parts.Retainers = append([]record.Retainer(nil), r.Parts.Retainers...)
		step := r.Parts.Retainers[0].Steps[0]
		step.Value += cal()
		d.Parts.Retainers[0].Steps = []unit.Quantity{step}
		d.Setup.Readings = append([]record.Reading(nil), r.Setup.Readings...)
		for i := range d.Setup.Readings {
			if x := &d.Setup.Readings[i]; x.At == intake && x.Kind == record.BaseHeight {
				x.Quantity.Value += height()
			}
		}
		d.Setup.Valves = append([]record.Valve(nil), r.Setup.Valves...)
		for i := range d.Setup.Valves {
			s := append([]record.Shim(nil), d.Setup.Valves[i].Stack...)
			s[0].Thickness.Value += mic()
			d.Setup.Valves[i].Stack = s
		}
		f := float64(first(&d).SeatLoad.Value)
		sum += f
		squares += f * f
	}
	mean := sum / times
	// Of 6,000 draws a standard deviation is known to 1 %.
	if s := math.Sqrt(squares/times - mean*mean); math.Abs(s-u) > 0.03*u {
		t.Errorf("drawn u %.1f mN, the budget says %.1f", s, u)
	}
}

func indexOf(r *record.Record, gauge string) int {
	for i := range r.Gauges {
		if r.Gauges[i].ID == gauge {
			return i
		}
	}
	return -1
}

// Under an inner coil a step that nobody measured well makes the load as unsure as a height would, by that coil's
// rate: u² grows by (210 lbf/in × u)².
func TestStepCountsWithItsCoil(t *testing.T) {
	r := testerShop(t)
	good := stdOf(t, first(r).SeatLoad)
	r.Gauges[indexOf(r, "C")].Calibration.U = in(t, "0.0100") // k = 2: u .005 in place of .0005
	bad := stdOf(t, first(r).SeatLoad)
	const mN = 4448.2216
	want := math.Sqrt(good*good + 210*210*mN*mN*(.005*.005-.0005*.0005))
	if math.Abs(bad-want) > 1 {
		t.Errorf("u %.1f mN, want %.1f", bad, want)
	}
}

// seatLoad reads a load on the head of 1 in at a height, "" for the installed one.
func seatLoad(t testing.TB, r *record.Record, read, height string) {
	t.Helper()
	x := record.Reading{At: intake, Kind: record.SeatLoad, N: len(r.ReadingsAt(intake, record.SeatLoad, 0)) + 1, Quantity: lbf(t, read),
		Gauge: "T", Method: record.Typed, Over: evaluate.Trim(record.SeatLoad, evaluate.OverNow(r, intake))}
	if height != "" {
		x.Height = ptr(in(t, height))
	}
	r.Put(x)
}

// A load on the head that was read at another height than the installed one counts only where a curve carries it
// there. Without one it is shown as it was read, and what is asked for stays unknown.
func TestLoadReadElsewhere(t *testing.T) {
	r := testerShop(t)
	seatBand(t, r, band(t, "250", ""))
	seatLoad(t, r, "320", "1.900")
	for i := range r.Parts.Springs[0].Coils {
		r.Parts.Springs[0].Coils[i].Loads = nil
	}
	v := first(r)
	if v.SeatLoad.Known || v.Verdict != evaluate.Missing {
		t.Errorf("%s lbf at 2.000 from a reading at 1.900, %v", pounds(v.SeatLoad), v.Verdict)
	}
	if pounds(v.SeatMeasured) != "320.0" {
		t.Errorf("read 320, shown %q", pounds(v.SeatMeasured))
	}
	wantSaid(t, v, "The load on the head was read at 1.900 and not at 2.000, and nothing carries it there.")
	// At the installed height the number stands, but nobody knows what the doubt in the height does to it.
	drop(r, intake, record.SeatLoad)
	seatLoad(t, r, "320", "2.000")
	if v := first(r); pounds(v.SeatLoad) != "320.0" || v.Verdict != evaluate.Unproven {
		t.Errorf("%s lbf, %v", pounds(v.SeatLoad), v.Verdict)
	}
	// Beyond what the curve knows it is not carried either; the computed load counts then.
	r = testerShop(t)
	seatLoad(t, r, "160", "2.200")
	if v := first(r); pounds(v.SeatLoad) != "299.9" || pounds(v.SeatMeasured) != "160.0" {
		t.Errorf("in force %s lbf, read %s", pounds(v.SeatLoad), pounds(v.SeatMeasured))
	}
}

// A load that is carried to another height is as unsure as the reading and both heights: by hand, with k 510 lbf/in and
// the height it was taken at read on the tester. Both heights on the same number change nothing of that. Between
// other points of the tester than the installed height its load is less sure yet.
func TestCarriedLoadIsAsUnsureAsItsHeights(t *testing.T) {
	r := testerShop(t)
	seatLoad(t, r, "300", "")
	const mN, k = 4448.2216, 510 * 4448.2216
	u2 := func(step, certificate, s float64) float64 { return step*step/12 + certificate*certificate/4 + s*s }
	load := u2(.1, .4, .3) * mN * mN
	if got := stdOf(t, first(r).SeatLoad); math.Abs(got-math.Sqrt(load)) > 1 {
		t.Errorf("read in place: u %.1f mN, want %.1f", got, math.Sqrt(load))
	}
	// Step by step: base height, shim, tester's height; and the retainer's step, which is in both, drops out.
	want := math.Sqrt(load + k*k*(u2(.0005, .0010, .0008)+u2(.00005, .0002, .0001)+u2(.001, .001, .0005)))
	for _, height := range []string{"2.000", "2.040"} {
		drop(r, intake, record.SeatLoad)
		seatLoad(t, r, "300", height)
		if got := stdOf(t, first(r).SeatLoad); math.Abs(got-want) > 0.01*want {
			t.Errorf("read at %s: u %.1f mN, want %.1f", height, got, want)
		}
	}
	drop(r, intake, record.SeatLoad)
	seatLoad(t, r, "300", "1.960")
	if got := stdOf(t, first(r).SeatLoad); got <= want {
		t.Errorf("read beyond a point: u %.1f mN, want more than %.1f", got, want)
	}
}

// Repeats average what scatters, and neither the step of the scale nor its certificate.
func TestRepeatedSeatLoad(t *testing.T) {
	r := testerShop(t)
	for _, read := range []string{"300.2", "299.8", "300.1", "299.9"} {
		seatLoad(t, r, read, "")
	}
	const mN = 4448.2216
	want := mN * math.Sqrt(.1*.1/12+.2*.2+.3*.3/4)
	v := first(r)
	if got := stdOf(t, v.SeatLoad); math.Abs(got-want) > 2 || pounds(v.SeatLoad) != "300.0" {
		t.Errorf("%s ± u %.1f mN, want %.1f", pounds(v.SeatLoad), got, want)
	}
}

// Tested as one and coil by coil, the spring carries what it did as one, and the difference is shown. The rate
// between seat and full lift stands with the open load.
func TestWorkingOfLoads(t *testing.T) {
	r := loaded(t)
	r.Parts.Springs[0].Assembly = &record.Assembly{Loads: bareTest(t, "2.100", "231", "1.200", "690")}
	v := first(r)
	if got := pounds(v.SeatLoad); got != "301.9" {
		t.Errorf("%s lbf, want 301.9: as one, not as its coils", got)
	}
	p := evaluate.Words(r.Setup.Units)
	var all []string
	for _, l := range append(v.SeatLoad.Working(), v.OpenLoad.Working()...) {
		all = append(all, p.Line(l))
	}
	text := strings.Join(all, "\n")
	for _, want := range []string{"as one it carries 2.0 lbf more there than its coils do alone", "rate 510.0 lbf/in between 2.000 and 1.300"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
}

// A step that nobody entered is asked for where a load is, though the spring's bind was measured as one.
func TestLoadWithoutStep(t *testing.T) {
	r := loaded(t)
	s := &r.Parts.Springs[0]
	s.Coils[1].Bind = nil
	s.Assembly = &record.Assembly{Bind: bind(t, "1.080"), Retainer: "stepped", Locator: "cup"}
	r.Parts.Retainers[0].Steps = nil
	seatBand(t, r, band(t, "250", ""))
	v := first(r)
	if v.Verdict == evaluate.Within {
		t.Error("within, with a seat load that nobody knows")
	}
	wantSaid(t, v, "1 in: the seat load that is asked for is not known. Retainer or locator does not say the step of every coil; enter the steps on the Parts page.")
}

// A damper that rubs on the outer coil is on the seat of the whole nest, though nobody read the inner coil on the
// releasing stroke: 180 + 109.95. As one, it is so on other steps too: 10 under 299.95, carried over from flat lands.
func TestDamperRubsInANest(t *testing.T) {
	r := loaded(t)
	l := r.Parts.Springs[0].Coils[0].Loads
	l.Points[0].Back, l.Points[1].Back = ptr(lbf(t, "150")), ptr(lbf(t, "420"))
	if v := first(r); pounds(v.SeatLoad) != "289.9" || pounds(v.OpenLoad) != "656.9" {
		t.Errorf("seat %s, open %s; want 289.9 and 656.9", pounds(v.SeatLoad), pounds(v.OpenLoad))
	}
	r = loaded(t)
	l = bareTest(t, "2.100", "229", "1.200", "688")
	l.Points[0].Back, l.Points[1].Back = ptr(lbf(t, "219")), ptr(lbf(t, "678"))
	r.Parts.Springs[0].Assembly = &record.Assembly{Loads: l}
	if v := first(r); pounds(v.SeatLoad) != "290.0" || pounds(v.OpenLoad) != "656.9" {
		t.Errorf("as one: seat %s, open %s; want 290.0 (289.95) and 656.9", pounds(v.SeatLoad), pounds(v.OpenLoad))
	}
}
