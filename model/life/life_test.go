package life_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"keeperbook/model/evaluate"
	"keeperbook/model/internal/checkfile"
	"keeperbook/model/life"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

const lbf = 4448.2216152605 // mN

func at(cylinder int) record.Position {
	return record.Position{Cylinder: fmt.Sprint(cylinder), Role: record.Intake, N: 1}
}

func load(t *testing.T, text string) *unit.Quantity {
	t.Helper()
	return quantity(t, text, unit.Lbf)
}

func quantity(t *testing.T, text string, u unit.Symbol) *unit.Quantity {
	t.Helper()
	q, err := unit.Of(text, u)
	if err != nil {
		t.Fatal(err)
	}
	return &q
}

// bench is a head of so many valves at 1.812 in with a spring of 420 lbf/in, and the shop's usual rules.
func bench(t *testing.T, valves int) (*record.Record, evaluate.Evaluation) {
	t.Helper()
	rec := &record.Record{}
	rec.Setup.Rules.LoadLost = &record.Lost{Watch: "5", Replace: "10"}
	rec.Setup.Rules.AssumedLoad = &record.AssumedLoad{S: *load(t, "1.0"), Step: *load(t, "1")}
	var ev evaluate.Evaluation
	for i := range valves {
		v := evaluate.Valve{At: at(i + 1), Label: fmt.Sprintf("%d in", i+1), Rate: unit.Rate(math.Round(420 * lbf / .0254))}
		v.Height.Known, v.Height.Value = true, quantity(t, "1.812", unit.In).Length()
		ev.Valves = append(ev.Valves, v)
	}
	return rec, ev
}

func check(t *testing.T, day string, service record.Service, loads ...string) record.SpringCheck {
	t.Helper()
	c := record.SpringCheck{ID: day, Day: record.Date(day), Service: service, Gauge: "tester 7"}
	for i, l := range loads {
		v := record.CheckedValve{At: at(i + 1)}
		if l != "" {
			v.Load = load(t, l)
		}
		c.Valves = append(c.Valves, v)
	}
	return c
}

func passes(day, count string) record.Run {
	return record.Run{ID: day, Day: record.Date(day), Kind: record.Passes, Count: count, Seconds: "9.5", Mean: "6800"}
}

func why(v life.Valve) string {
	var all []string
	for _, l := range v.Why {
		all = append(all, evaluate.Words(record.Units{Length: unit.In, Load: unit.Lbf}).Line(l))
	}
	return strings.Join(all, "; ")
}

// The spring that went from 240 lbf over 230 run in to 215: the loss counts from run in, and from new beside it.
func TestLossCountsFromRunIn(t *testing.T) {
	rec, ev := bench(t, 1)
	checks := []record.SpringCheck{
		check(t, "2026-03-01", record.CheckedNew, "240"), check(t, "2026-03-08", record.CheckedRunIn, "230"),
		check(t, "2026-06-01", record.CheckedLater, "215"),
	}
	v := life.Of(rec, ev, nil, nil, checks).Valves[0]
	checkfile.Each(t, "testdata/check/lost.txt", func(t *testing.T, r checkfile.Row) {
		got := v.Lost
		if r.Text("since") == "new" {
			got = v.FromNew
		}
		if got == nil || string(life.Percent(got.Share)) != r.Text("percent") {
			t.Errorf("%+v, want %s", got, r.Text("percent"))
		}
	})
	if v.Verdict != life.Watch || !strings.HasPrefix(why(v), "6.5 % lost since run in, ± ") {
		t.Errorf("%s: %s", v.Verdict, why(v))
	}
	// Beyond the rule it is to be changed, and under both it stays.
	checks[2] = check(t, "2026-06-01", record.CheckedLater, "206")
	if v := life.Of(rec, ev, nil, nil, checks).Valves[0]; v.Verdict != life.Replace {
		t.Errorf("%s: %s", v.Verdict, why(v))
	}
	checks[2] = check(t, "2026-06-01", record.CheckedLater, "229")
	if v := life.Of(rec, ev, nil, nil, checks).Valves[0]; v.Verdict != life.Keep {
		t.Errorf("%s: %s", v.Verdict, why(v))
	}
	// Nearer to the rule than anybody can tell, it is watched.
	checks[2] = check(t, "2026-06-01", record.CheckedLater, "208")
	if v := life.Of(rec, ev, nil, nil, checks).Valves[0]; v.Verdict != life.Watch {
		t.Errorf("%s: %s", v.Verdict, why(v))
	}
	// A shop that has no rule gets no verdict.
	rec.Setup.Rules.LoadLost = nil
	if v := life.Of(rec, ev, nil, nil, checks).Valves[0]; v.Verdict != life.Unknown || v.Lost == nil {
		t.Errorf("%s: %s", v.Verdict, why(v))
	}
}

// A valve that sank by .018 shows 118 lbf, where its spring carries 125.6 at the height of the baseline.
func TestASunkValveIsNoWeakSpring(t *testing.T) {
	rec, ev := bench(t, 1)
	later := check(t, "2026-06-01", record.CheckedLater, "118")
	later.Valves[0].Height = quantity(t, "1.830", unit.In)
	checks := []record.SpringCheck{check(t, "2026-03-08", record.CheckedRunIn, "125.6"), later}
	v := life.Of(rec, ev, nil, nil, checks).Valves[0]
	if got := float64(v.Points[1].Load) / lbf; math.Abs(got-125.56) > .001 || !v.Points[1].Carried {
		t.Errorf("%g lbf, carried: %t", got, v.Points[1].Carried)
	}
	if v.Verdict != life.Keep {
		t.Errorf("%s: %s", v.Verdict, why(v))
	}
	// Without a rate nobody can tell, and it is said.
	ev.Valves[0].Rate = 0
	v = life.Of(rec, ev, nil, nil, checks).Valves[0]
	if v.Lost != nil || v.Verdict != life.Unknown || !strings.Contains(why(v), "rate of the spring is not known") {
		t.Errorf("%+v %s: %s", v.Lost, v.Verdict, why(v))
	}
}

func TestAnotherTesterIsNotCompared(t *testing.T) {
	rec, ev := bench(t, 1)
	later := check(t, "2026-06-01", record.CheckedLater, "200")
	later.Gauge = "tester 9"
	v := life.Of(rec, ev, nil, nil, []record.SpringCheck{check(t, "2026-03-08", record.CheckedRunIn, "230"), later}).Valves[0]
	if v.Lost != nil || v.Verdict != life.Unknown || !strings.Contains(why(v), "another tester") {
		t.Errorf("%+v %s: %s", v.Lost, v.Verdict, why(v))
	}
	// What was found before on the tester of the baseline stands: a spring to be changed is not forgotten.
	v = life.Of(rec, ev, nil, nil, []record.SpringCheck{
		check(t, "2026-03-08", record.CheckedRunIn, "230"), check(t, "2026-05-01", record.CheckedLater, "200"), later,
	}).Valves[0]
	if v.Verdict != life.Replace || v.Now != 1 || !strings.Contains(why(v), "another tester") {
		t.Errorf("%d %s: %s", v.Now, v.Verdict, why(v))
	}
}

func TestCyclesAndTrend(t *testing.T) {
	rec, ev := bench(t, 1)
	runs := []record.Run{
		passes("2026-03-07", "2"), // before it was run in
		passes("2026-04-01", "6"), passes("2026-05-01", "6"), passes("2026-06-01", "6"), passes("2026-07-01", "6"),
	}
	checks := []record.SpringCheck{
		check(t, "2026-03-08", record.CheckedRunIn, "240"), check(t, "2026-04-01", record.CheckedLater, "237"),
		check(t, "2026-05-01", record.CheckedLater, "234"), check(t, "2026-06-01", record.CheckedLater, "231"),
	}
	l := life.Of(rec, ev, nil, runs, checks)
	// 26 passes of 9.5 s at a mean of 6,800 turns a minute: 26 · 538.33 (half the turns of the crank).
	if math.Abs(l.Ran.Cycles-26*9.5*6800/120) > 1e-6 || l.Ran.Uncounted != 0 {
		t.Errorf("%+v", l.Ran)
	}
	v := l.Valves[0]
	if v.Trend == nil {
		t.Fatal(say.English().Line(v.NoTrend))
	}
	// 3 lbf in six passes: 24 are gone after 48, of which 24 were run since: some 24 more, and the interval holds them.
	const each = 9.5 * 6800 / 120
	if x := v.Crossing; x == nil || !(x.Low < 48*each && 48*each < x.High) {
		t.Errorf("%+v", v.Crossing)
	}
	if text := why(v); !strings.Contains(text, "more passes") {
		t.Error(text)
	}
	t.Run("too few checks", func(t *testing.T) {
		v := life.Of(rec, ev, nil, runs, checks[:3]).Valves[0]
		if v.Trend != nil || v.NoTrend.Key != "wear.few" {
			t.Errorf("%+v", v.NoTrend)
		}
	})
	t.Run("a run without its time", func(t *testing.T) {
		blind := append([]record.Run{}, runs...)
		blind[2].Seconds = ""
		v := life.Of(rec, ev, nil, blind, checks).Valves[0]
		if v.Trend != nil || v.NoTrend.Key != "life.uncounted" {
			t.Errorf("%+v", v.NoTrend)
		}
	})
	t.Run("a run without its time after the last check", func(t *testing.T) {
		blind := append([]record.Run{}, runs...)
		blind[4].Mean = ""
		v := life.Of(rec, ev, nil, blind, checks).Valves[0]
		if v.Trend == nil || strings.Contains(why(v), "more passes") || !strings.Contains(why(v), "not known how it goes on") {
			t.Error(why(v))
		}
	})
	t.Run("nothing was run", func(t *testing.T) {
		v := life.Of(rec, ev, nil, nil, checks).Valves[0]
		if v.Trend != nil || v.NoTrend.Key != "life.one-time" {
			t.Errorf("%+v", v.NoTrend)
		}
	})
	t.Run("nobody knows the tester", func(t *testing.T) {
		rec, ev := bench(t, 1)
		rec.Setup.Rules.AssumedLoad = nil
		v := life.Of(rec, ev, nil, runs, checks).Valves[0]
		if v.Trend != nil || v.NoTrend.Key != "life.no-scatter" {
			t.Errorf("%+v", v.NoTrend)
		}
	})
}

func TestWhatIsSeen(t *testing.T) {
	rec, ev := bench(t, 2)
	checks := []record.SpringCheck{check(t, "2026-03-08", record.CheckedRunIn, "230", "230"), check(t, "2026-06-01", record.CheckedLater, "230", "230")}
	checks[1].Valves[0].Seen = []record.Sight{record.Polish, record.Nick}
	checks[1].Valves[1].Seen = []record.Sight{record.NothingOnIt}
	all := life.Of(rec, ev, nil, nil, checks).Valves
	if all[0].Verdict != life.Replace || !strings.HasPrefix(why(all[0]), "nick, seen 2026-06-01") || all[1].Verdict != life.Keep {
		t.Errorf("%s: %s; %s: %s", all[0].Verdict, why(all[0]), all[1].Verdict, why(all[1]))
	}
	// Beyond its speed after the check, every spring is watched; before it, they were looked at since.
	run := passes("2026-06-02", "1")
	run.OverRevs = 1
	if v := life.Of(rec, ev, nil, []record.Run{run}, checks).Valves[1]; v.Verdict != life.Watch {
		t.Errorf("%s: %s", v.Verdict, why(v))
	}
	// A check that left the valve out looked at nothing of it.
	apart := append(slices.Clone(checks), check(t, "2026-06-03", record.CheckedLater, "230"))
	if all := life.Of(rec, ev, nil, []record.Run{run}, apart).Valves; all[1].Verdict != life.Watch {
		t.Errorf("%s: %s", all[1].Verdict, why(all[1]))
	}
	// Nor did one that found a lash or has a note; what was seen, nothing too, and a free length are of the spring.
	for _, c := range []struct {
		valve record.CheckedValve
		want  life.Verdict
	}{
		{record.CheckedValve{Found: quantity(t, ".013", unit.In), Left: quantity(t, ".014", unit.In)}, life.Watch},
		{record.CheckedValve{Note: "cover off"}, life.Watch},
		{record.CheckedValve{Seen: []record.Sight{record.NothingOnIt}}, life.Keep},
		{record.CheckedValve{Free: quantity(t, "2.380", unit.In)}, life.Keep},
	} {
		after := check(t, "2026-06-03", record.CheckedLater, "230", "")
		c.valve.At = ev.Valves[1].At
		after.Valves[1] = c.valve
		if v := life.Of(rec, ev, nil, []record.Run{run}, append(slices.Clone(checks), after)).Valves[1]; v.Verdict != c.want {
			t.Errorf("%+v: %s, %s", c.valve, v.Verdict, why(v))
		}
	}
	run.Day = "2026-05-31"
	if v := life.Of(rec, ev, nil, []record.Run{run}, checks).Valves[1]; v.Verdict != life.Keep {
		t.Errorf("%s: %s", v.Verdict, why(v))
	}
}

func TestLashMoves(t *testing.T) {
	rec, ev := bench(t, 1)
	ev.Valves[0].LashLeft.Known, ev.Valves[0].LashLeft.Value = true, quantity(t, ".014", unit.In).Length()
	first, second := check(t, "2026-03-08", record.CheckedRunIn, ""), check(t, "2026-06-01", record.CheckedLater, "")
	first.Valves[0].Found, first.Valves[0].Left = quantity(t, ".013", unit.In), quantity(t, ".014", unit.In)
	second.Valves[0].Found = quantity(t, ".011", unit.In)
	v := life.Of(rec, ev, nil, nil, []record.SpringCheck{second, first}).Valves[0]
	if v.Lash == nil || *v.Lash != -3*unit.Thou || !strings.Contains(why(v), "tighter by .003") {
		t.Errorf("%v: %s", v.Lash, why(v))
	}
}

func TestOneOutOfItsSet(t *testing.T) {
	rec, ev := bench(t, 8)
	rec.Setup.Rules.LoadLost = &record.Lost{Watch: "20", Replace: "30"}
	checks := []record.SpringCheck{
		check(t, "2026-03-08", record.CheckedRunIn, "230", "231", "229", "230", "232", "230", "231", "230"),
		check(t, "2026-06-01", record.CheckedLater, "228", "229", "227", "228", "230", "214", "229", "228"),
	}
	for i, v := range life.Of(rec, ev, nil, nil, checks).Valves {
		want := life.Keep
		if i == 5 {
			want = life.Watch
		}
		if v.Verdict != want {
			t.Errorf("%s is %s: %s", v.Label, v.Verdict, why(v))
		}
	}
}

func TestDue(t *testing.T) {
	rec, ev := bench(t, 1)
	last := check(t, "2026-06-01", record.CheckedLater, "200")
	last.NextDay, last.NextIn, last.NextOf = "2026-07-01", "10", record.Passes
	checks := []record.SpringCheck{check(t, "2026-03-08", record.CheckedRunIn, "230"), last}
	runs := []record.Run{passes("2026-05-01", "40"), passes("2026-06-10", "6"), passes("2026-06-20", "4")}
	l := life.Of(rec, ev, nil, runs, checks)
	for _, c := range []struct {
		runs  int
		today record.Date
		want  string
	}{
		{2, "2026-06-30", "due change | 2026-07-01 check | 6 of 10"},
		{3, "2026-07-01", "due change | due 2026-07-01 check | due 10 of 10"},
	} {
		var all []string
		for _, d := range l.Due("DR-1L", "S", runs[:c.runs], c.today) {
			text := say.English().Line(d.What)
			word := "check"
			switch {
			case strings.Contains(text, "change the spring"):
				word = "change"
			case strings.Contains(text, " of 10 passes"):
				word = strings.TrimSuffix(text[strings.LastIndex(text, ", ")+2:], " passes run")
			}
			state := ""
			if d.Over {
				state = "due"
			}
			all = append(all, strings.Join(strings.Fields(state+" "+string(d.Day)+" "+word), " "))
		}
		if got := strings.Join(all, " | "); got != c.want {
			t.Errorf("got  %s\nwant %s", got, c.want)
		}
	}
	gauge := record.Gauge{ID: "g", Name: "tester 7", Kind: record.SpringTester, LoadScale: &record.LoadScale{Calibration: &record.Calibration{Due: "2026-06-30"}}}
	if all := life.GaugeDue([]record.Gauge{gauge}, "2026-07-01"); len(all) != 1 || !all[0].Over {
		t.Errorf("%+v", all)
	}
}
