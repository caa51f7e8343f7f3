package record_test

import (
	"errors"
	"testing"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

func TestDoubtsOfALife(t *testing.T) {
	const now record.Stamp = "2026-06-01T12:00:00Z"
	run := record.Run{ID: "1", Day: "2026-05-30", Kind: record.Passes, Count: "6", Seconds: "9.5", Mean: "6800", Top: "7800"}
	check := record.SpringCheck{ID: "1", Day: "2026-05-30", Service: record.CheckedLater}
	in1 := record.Position{Cylinder: "1", Role: record.Intake, N: 1}
	for name, c := range map[string]struct {
		run   func(*record.Run)
		check func(*record.SpringCheck)
		key   string
	}{
		"a run":                         {run: func(r *record.Run) {}},
		"tomorrow, where it is already": {run: func(r *record.Run) { r.Day = "2026-06-02" }},
		"a day to come":                 {run: func(r *record.Run) { r.Day = "2026-06-03" }, key: "record.life-to-come"},
		"no day":                        {run: func(r *record.Run) { r.Day = "30 May" }, key: "record.life-day"},
		"no count":                      {run: func(r *record.Run) { r.Count = "" }, key: "record.run-count"},
		"none":                          {run: func(r *record.Run) { r.Count = "0" }, key: "record.run-count"},
		"a negative duration":           {run: func(r *record.Run) { r.Seconds = "-9.5" }, key: "record.run-number"},
		"no speed at all":               {run: func(r *record.Run) { r.Mean = "0" }, key: "record.run-number"},
		"starts below nought":           {run: func(r *record.Run) { r.Starts = -1 }, key: "record.run-number"},
		"thousands with a point":        {run: func(r *record.Run) { r.Mean = "6.800" }, key: "record.run-speed"},
		"a pull from nowhere":           {run: func(r *record.Run) { r.From = "3.2" }, key: "record.run-speed"},
		"a mean over the highest":       {run: func(r *record.Run) { r.Top = "6700" }, key: "record.run-top"},
		"a pull downwards":              {run: func(r *record.Run) { r.From, r.To = "8000", "3000" }, key: "record.run-pull"},
		"oil without its degrees":       {run: func(r *record.Run) { r.Oil = "210" }, key: "record.run-oil"},
		"another kind":                  {run: func(r *record.Run) { r.Kind = "furlongs" }, key: "record.run-kind"},

		"a check":                {check: func(c *record.SpringCheck) {}},
		"at no time of its life": {check: func(c *record.SpringCheck) { c.Service = "later" }, key: "record.check-service"},
		"the next before it":     {check: func(c *record.SpringCheck) { c.NextDay = "2026-05-30" }, key: "record.check-next"},
		"so many of nothing":     {check: func(c *record.SpringCheck) { c.NextIn = "40" }, key: "record.check-next-in"},
		"a valve twice": {check: func(c *record.SpringCheck) {
			c.Valves = []record.CheckedValve{{At: in1}, {At: in1}}
		}, key: "record.check-twice"},
		"something else seen": {check: func(c *record.SpringCheck) {
			c.Valves = []record.CheckedValve{{At: in1, Seen: []record.Sight{"moss"}}}
		}, key: "record.check-sight"},
		"nothing and a nick": {check: func(c *record.SpringCheck) {
			c.Valves = []record.CheckedValve{{At: in1, Seen: []record.Sight{record.NothingOnIt, record.Nick}}}
		}, key: "record.check-nothing"},
	} {
		t.Run(name, func(t *testing.T) {
			var noun record.Noun
			if c.run != nil {
				r := run
				c.run(&r)
				noun = r
			} else {
				one := check
				c.check(&one)
				noun = one
			}
			err := record.Doubt(noun, now)
			var e *say.Error
			if key := ""; errors.As(err, &e) {
				key = e.Line.Key
				if key != c.key {
					t.Errorf("%s, want %q", key, c.key)
				}
			} else if err != nil || c.key != "" {
				t.Errorf("%v, want %q", err, c.key)
			}
		})
	}
}
