package exchange

import (
	"errors"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

func TestRunLine(t *testing.T) {
	for text, want := range map[string]record.Run{
		"6 quarter-mile passes, 7,800 rpm": {Kind: record.Passes, Count: "6", Top: "7800"},
		"6 passes, 9.5 s, mean 6,800, top 7800 rpm, 2 starts, 6 burnouts, 1 over-rev, 210 °F, at Marram Flats": {
			Kind: record.Passes, Count: "6", Seconds: "9.5", Mean: "6800", Top: "7800", Starts: 2, Burnouts: 6, OverRevs: 1, Oil: "210",
			OilDegree: "F", Where: "Marram Flats",
		},
		"1 pull, 3000 to 8000 at 600":   {Kind: record.Pulls, Count: "1", From: "3000", To: "8000", Rate: "600"},
		"60 miles, 55 mph, mean 2,400":  {Kind: record.Miles, Count: "60", Speed: "55", Mean: "2400"},
		"1.5h, mean 3000":               {Kind: record.Hours, Count: "1.5", Mean: "3000"},
		"95 km/h, 1,250 km, mean 2,400": {Kind: record.Kilometres, Count: "1250", Speed: "95", Mean: "2400"},
		"40 laps, 38s , oil 98 c":       {Kind: record.Laps, Count: "40", Seconds: "38", Oil: "98", OilDegree: "C"},
	} {
		got, err := ReadRunLine(text, nil)
		if err != nil || cmp.Diff(want, got) != "" {
			t.Errorf("%s: %s, %v", text, cmp.Diff(want, got), err)
		}
		again, err := ReadRunLine(RunLine(got), nil)
		if err != nil || cmp.Diff(want, again) != "" {
			t.Errorf("%s comes back as %s: %s, %v", text, RunLine(got), cmp.Diff(want, again), err)
		}
	}
	for text, key := range map[string]string{
		"": "exchange.run-nothing", "mean 6800": "exchange.run-nothing", "6": "exchange.run-part", "six passes and then some": "exchange.run-part",
		"6 passes, 4 laps": "exchange.run-part", "6 passes, top": "exchange.run-part", "6 passes, 2.5 starts": "exchange.run-part",
		"6 passes, 6800 mean": "exchange.run-part", "6 passes, at": "exchange.run-part", "6 passes, oil 210": "exchange.run-part",
		"2 x 10 laps": "exchange.run-part", "2 × laps": "exchange.run-part", "2 hours 3 pulls": "exchange.run-part",
		"10 laps 3 miles": "exchange.run-part", "10 laps miles": "exchange.run-part", "6 ½ hours": "exchange.run-part",
		"100 km, 60 mph, mean 3000": "exchange.run-ground", "100 miles, 60 km/h": "exchange.run-ground", "60km/h, 100 mi": "exchange.run-ground",
		"60 mph, mean 3000, 100 km": "exchange.run-ground", "6 passes, 225 km/h": "exchange.run-ground",
	} {
		var e *say.Error
		if _, err := ReadRunLine(text, nil); !errors.As(err, &e) || e.Line.Key != key {
			t.Errorf("%q: %v, want %s", text, err, key)
		}
	}
}

// Whoever typed a speed in the other unit is told which one to write.
func TestRunLineSaysTheUnit(t *testing.T) {
	const want = "60 mph does not go with km, where a speed is in km/h; write it in km/h."
	if _, err := ReadRunLine("100 km, 60 mph", nil); err == nil || err.Error() != want {
		t.Error(err)
	}
}

// Where the chosen language has a decimal comma, three figures behind a mark may be thousands or not, and are asked about; in
// English they are thousands behind a comma alone.
func TestRunLineInLanguages(t *testing.T) {
	defer say.Speak("en")
	for _, c := range []struct{ language, text, count, key string }{
		{"en", "12,500 km", "12500", ""},
		{"en", "1.250 h", "1.250", ""},
		{"en", "4 laps, 38 s, mean 6800,210 F", "4", ""}, // no thousands: four figures stand before the comma
		{"de", "12,500 km", "", "exchange.run-twofold"},
		{"de", "12.500 km", "", "exchange.run-twofold"},
		{"es", "6 passes, 9,500 s", "", "exchange.run-twofold"},
		{"de", "6 passes, 9.512 s, mean 6800", "6", ""}, // a time is typed with a point
		{"de", "12500 km", "12500", ""},
		{"es", "12.5 km", "12.5", ""},
		{"es", "0.125 h", "0.125", ""},
	} {
		say.Speak(c.language)
		got, err := ReadRunLine(c.text, nil)
		var e *say.Error
		if errors.As(err, &e) != (c.key != "") || e != nil && e.Line.Key != c.key || err == nil && got.Count != c.count {
			t.Errorf("%s: %q reads as %+v, %v", c.language, c.text, got, err)
		}
	}
	for _, c := range []struct {
		language, text, count string
		asked                 bool
	}{{"de", "1.500 km", "1.500", true}, {"es", "1,500 km", "1,500", true}, {"de", "40 passes", "40", false}, {"en", "1.500 km", "1.500", false}} {
		say.Speak(c.language)
		if count, of, err := ReadNextLine(c.text); count != c.count || of == "" || (err != nil) != c.asked {
			t.Errorf("%s: %q reads as %s %s, %v", c.language, c.text, count, of, err)
		}
	}
}

// A quotation mark takes from the last run of the kind what a day has in common with another, and nothing that happened on it.
func TestRunLineAsBefore(t *testing.T) {
	before := []record.Run{
		{Kind: record.Passes, Count: "4", Seconds: "9.8", Mean: "6500"},
		{Kind: record.Passes, Count: "6", Seconds: "9.5", Mean: "6800", Top: "7800", Starts: 2, OverRevs: 1, Where: "Marram Flats"},
		{Kind: record.Hours, Count: "1", Mean: "3000"},
	}
	got, err := ReadRunLine(`8 passes, top 7900, "`, before)
	want := record.Run{Kind: record.Passes, Count: "8", Seconds: "9.5", Mean: "6800", Top: "7900", Where: "Marram Flats"}
	if err != nil || cmp.Diff(want, got) != "" {
		t.Errorf("%s, %v", cmp.Diff(want, got), err)
	}
	if got, err := ReadRunLine(`8 passes, mean 6700, "`, before); err != nil || got.Mean != "6700" {
		t.Errorf("%+v, %v", got, err)
	}
	var e *say.Error
	if _, err := ReadRunLine(`8 laps, "`, before); !errors.As(err, &e) || e.Line.Key != "exchange.run-before" {
		t.Error(err)
	}
}

func TestCheckLine(t *testing.T) {
	for text, want := range map[string]CheckRow{
		"215":          {Load: "215"},
		"215 at 1.830": {Load: "215", Height: "1.830"},
		"215 at 1.830, lash .013, left .014, nick + heat colour": {
			Load: "215", Height: "1.830", Found: ".013", Left: ".014", Seen: []record.Sight{record.Nick, record.HeatColour},
		},
		"lash .013": {Found: ".013"},
		"rust":      {Seen: []record.Sight{record.Rust}},
		"":          {},
	} {
		if got, err := ReadCheckLine(text); err != nil || cmp.Diff(want, got) != "" {
			t.Errorf("%s: %s, %v", text, cmp.Diff(want, got), err)
		}
	}
	for text, key := range map[string]string{
		"215, moss": "exchange.check-part", "lash .013, 215": "exchange.check-part", "215, 220": "exchange.check-part",
		"lash .013, lash .015": "exchange.check-second", "lash .013, lash .013": "exchange.check-second", "215, left .014, left .015": "exchange.check-second",
		"free 2.38, rust, free 2.40": "exchange.check-second",
	} {
		var e *say.Error
		if _, err := ReadCheckLine(text); !errors.As(err, &e) || e.Line.Key != key {
			t.Errorf("%q: %v, want %s", text, err, key)
		}
	}
}

// What was typed of a valve is written back as it was typed, and reads the same.
func TestWriteCheckLine(t *testing.T) {
	q := func(typed string) *unit.Quantity { return &unit.Quantity{Typed: typed} }
	for want, v := range map[string]record.CheckedValve{
		"": {},
		"215 at 1.830, free 2.4, lash .013, left .014, nick + end-tip": {
			Load: q("215"), Height: q("1.830"), Free: q("2.4"), Found: q(".013"), Left: q(".014"), Seen: []record.Sight{record.Nick, record.EndTip},
		},
		"lash .013": {Found: q(".013")},
		"nothing":   {Seen: []record.Sight{record.NothingOnIt}, Note: "in no line"},
	} {
		if got := CheckLine(v); got != want {
			t.Errorf("%q, want %q", got, want)
		}
		row, err := ReadCheckLine(want)
		if err != nil {
			t.Fatal(err)
		}
		for _, n := range []struct {
			text string
			q    *unit.Quantity
		}{{row.Load, v.Load}, {row.Height, v.Height}, {row.Free, v.Free}, {row.Found, v.Found}, {row.Left, v.Left}} {
			if n.q == nil && n.text != "" || n.q != nil && n.text != n.q.Typed {
				t.Errorf("%q: %q, want %v", want, n.text, n.q)
			}
		}
		if !slices.Equal(row.Seen, v.Seen) {
			t.Errorf("%q: %v", want, row.Seen)
		}
	}
	// A comma of the language would end a part, and three figures behind a point might be thousands there.
	comma := unit.Quantity{Typed: "131,5", Read: "131.5", Unit: unit.Lbf}
	three := unit.Quantity{Typed: "131.250", Read: "131.250", Unit: unit.Lbf}
	at := unit.Quantity{Typed: "1,830", Read: "1.830", Unit: unit.In}
	for want, v := range map[string]record.CheckedValve{"131.5 lbf at 1.830 in": {Load: &comma, Height: &at}, "131.25 lbf": {Load: &three}} {
		if got := CheckLine(v); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// Whatever stands in a table or a line, it is read or refused with a sentence.
func FuzzLife(f *testing.F) {
	f.Add("head,day,count,kind,starts,oil\nDR-1L,2026-05-30,6,passes,2,210 F\n")
	f.Add("head,day,service,valve,load,seen,next\nDR-1L,2026-05-30,run-in,1 in,215,nick + polish,40 passes\n")
	f.Add("6 passes, 9.5s, mean 6,800, 3000 to 8000 at 600, oil 210 °F, at x")
	f.Add("215 at 1.830, lash .013, nick + rust")
	f.Fuzz(func(t *testing.T, text string) {
		ReadRuns([]byte(text))
		ReadChecks([]byte(text))
		ReadCheckLine(text)
		if r, err := ReadRunLine(text, nil); err == nil && r.Count == "" {
			t.Fatalf("%q counts nothing", text)
		}
	})
}
