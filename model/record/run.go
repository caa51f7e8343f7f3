package record

import (
	"strconv"

	"keeperbook/model/say"
)

// RunKind is in what a run is counted.
type RunKind string

// What runs are counted in.
const (
	Passes     RunKind = "passes"
	Laps       RunKind = "laps"
	Hours      RunKind = "hours"
	Miles      RunKind = "miles"
	Kilometres RunKind = "km"
	Pulls      RunKind = "pulls" // on a test stand
)

// RunKinds lists them in the order they are asked for.
var RunKinds = []RunKind{Passes, Laps, Hours, Miles, Kilometres, Pulls}

// Run is what an engine did with a head on it in one day, or in one part of it. Numbers are plain decimals, speeds crank turns
// a minute, and what is absent was not written down. It belongs to the book and is in no Record.
type Run struct {
	ID    string  `json:"id"`
	Head  string  `json:"head"` // id
	Day   Date    `json:"day"`
	Kind  RunKind `json:"kind"`
	Count string  `json:"count"`

	Seconds string `json:"seconds,omitempty"` // that each pass or lap took
	Mean    string `json:"mean,omitempty"`    // time-mean speed: valve cycles come from it, never from the highest
	Speed   string `json:"speed,omitempty"`   // over the ground, miles or kilometres an hour
	From    string `json:"from,omitempty"`    // speed at which a pull began
	To      string `json:"to,omitempty"`      // and ended
	Rate    string `json:"rate,omitempty"`    // and by which it rose in a second

	Top       string `json:"top,omitempty"`       // highest speed reached
	Starts    int    `json:"starts,omitempty"`    // from cold: each heats the springs once
	Burnouts  int    `json:"burnouts,omitempty"`  // before passes
	OverRevs  int    `json:"overRevs,omitempty"`  // times the engine went beyond the speed it was set up for
	Oil       string `json:"oil,omitempty"`       // highest oil temperature
	OilDegree string `json:"oilDegree,omitempty"` // F or C
	Where     string `json:"where,omitempty"`
	Note      string `json:"note,omitempty"`
	By        string `json:"by"`
}

// ItemKind is the item's.
func (Run) ItemKind() ItemKind { return RunItem }

// Key is unique within the book.
func (r Run) Key() string { return r.ID }

// leastSpeed is the speed below which none is believed. Common practice, no published source: no engine idles at 100 turns a minute,
// so 6.800 was meant as thousands.
const leastSpeed = "100"

// doubtRun looks at one run. Half of what its cycles come from is no fault: they are absent then, and said to be.
func doubtRun(r Run, now Stamp) *say.Error {
	if err := doubtLifeDay(r.Day, now); err != nil {
		return err
	}
	if !positive(r.Count) {
		return invalid("record.run-count", r.Count, string(r.Kind)).About("count")
	}
	for _, n := range []struct{ field, text string }{
		{"seconds", r.Seconds}, {"mean", r.Mean}, {"speed", r.Speed}, {"from", r.From}, {"to", r.To}, {"rate", r.Rate}, {"top", r.Top},
		{"oil", r.Oil},
	} {
		if n.text != "" && !positive(n.text) {
			return invalid("record.run-number", n.text).About(n.field)
		}
	}
	for _, n := range []struct{ field, text string }{{"mean", r.Mean}, {"from", r.From}, {"to", r.To}, {"top", r.Top}} {
		if n.text != "" && less(n.text, leastSpeed) {
			return invalid("record.run-speed", n.text, leastSpeed).About(n.field)
		}
	}
	for _, n := range []struct {
		field string
		count int
	}{{"starts", r.Starts}, {"burnouts", r.Burnouts}, {"overRevs", r.OverRevs}} {
		if n.count < 0 {
			return invalid("record.run-number", n.count).About(n.field)
		}
	}
	switch {
	case r.From != "" && r.To != "" && less(r.To, r.From):
		return invalid("record.run-pull", r.From, r.To).About("to")
	case r.Mean != "" && r.Top != "" && less(r.Top, r.Mean):
		return invalid("record.run-top", r.Top, r.Mean).About("top")
	case (r.Oil == "") != (r.OilDegree == ""), r.OilDegree != "" && r.OilDegree != "F" && r.OilDegree != "C":
		return invalid("record.run-oil", r.Oil).About("oil")
	}
	for _, k := range RunKinds {
		if r.Kind == k {
			return nil
		}
	}
	return invalid("record.run-kind", string(r.Kind)).About("kind")
}

// doubtLifeDay refuses a day that is none, or that did not come yet.
func doubtLifeDay(d Date, now Stamp) *say.Error {
	if _, ok := d.day(); !ok {
		return invalid("record.life-day", string(d)).About("day")
	}
	if toCome(d, now) {
		return invalid("record.life-to-come", string(d)).About("day")
	}
	return nil
}

// less compares two plain decimals, which are short enough to be told apart as floating-point numbers.
func less(a, b string) bool {
	x, _ := strconv.ParseFloat(a, 64)
	y, _ := strconv.ParseFloat(b, 64)
	return x < y
}
