package pdf

import (
	"slices"
	"strings"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
)

// method sets how the numbers were got: what the gauges read through, how the lift was taken, who typed
// or sent or supplied them, and which gauges were used.
func (f *flow) method(r *record.Record, gauges []evaluate.Gauge) {
	f.heading(f.say("sheet.method"))
	f.list(112, f.filled([]fact{
		{"sheet.through-heights", f.through(r, heights)},
		{"sheet.through-bind", f.through(r, binds)},
		{"sheet.lift-method", f.lifts(r)},
		{"sheet.came-in", f.cameIn(r)},
		{"sheet.measured-by", f.people(r)},
		{"sheet.struck", f.struck(r)},
	}))
	f.gauges(gauges, r.Setup.Units.Length)
}

func heights(k record.Kind) bool {
	switch k {
	case record.BaseHeight, record.CheckHeight, record.SeatDepth, record.RetainerDepth:
		return true
	}
	return false
}

func binds(k record.Kind) bool { return k == record.BindReading }

// counting reports whether a reading counts.
func counting(r record.Reading) bool { return r.Struck == nil }

// tally counts texts in the order in which they first come.
type tally struct {
	texts  []string
	counts map[string]int
}

func (t *tally) add(text string) {
	if t.counts == nil {
		t.counts = map[string]int{}
	}
	if t.counts[text] == 0 {
		t.texts = append(t.texts, text)
	}
	t.counts[text]++
}

// join joins the texts with their counts: "through the lid .095, not zeroed (14)".
func (f *flow) join(t tally) string {
	parts := make([]string, len(t.texts))
	for i, text := range t.texts {
		parts[i] = f.say("sheet.counted", text, t.counts[text])
	}
	return strings.Join(parts, "; ")
}

// through says what stood in the stack when readings were taken, of bind those of types and single
// springs too.
func (f *flow) through(r *record.Record, of func(record.Kind) bool) string {
	var t tally
	for _, reading := range r.Setup.Readings {
		if of(reading.Kind) && counting(reading) {
			t.add(f.setting(reading.Correction))
		}
	}
	if of(record.BindReading) {
		for _, b := range bindsOfParts(r) {
			t.add(joined(f.setting(b.Correction), f.say("source."+string(b.Source))))
		}
	}
	return f.join(t)
}

func bindsOfParts(r *record.Record) []record.Bind {
	var all []record.Bind
	for _, s := range r.Parts.Springs {
		for _, c := range s.Coils {
			if c.Bind != nil {
				all = append(all, *c.Bind)
			}
		}
		if s.Assembly != nil && s.Assembly.Bind != nil {
			all = append(all, *s.Assembly.Bind)
		}
	}
	for _, p := range r.Parts.Pieces {
		for _, b := range p.Binds {
			all = append(all, b.Bind)
		}
	}
	return all
}

// setting words a correction: "reads through lid .095, not zeroed".
func (f *flow) setting(all []record.Taken) string {
	if len(all) == 0 {
		return f.say("sheet.through-nothing")
	}
	parts := make([]string, len(all))
	for i, t := range all {
		parts[i] = f.say("sheet.through-part", f.say("stack."+string(t.Part)), t.Amount, f.say("zero."+string(t.Zero)))
	}
	return f.say("sheet.through", strings.Join(parts, ", "))
}

// lifts says of each role how its lift was found.
func (f *flow) lifts(r *record.Record) string {
	var parts []string
	for _, role := range []record.Role{record.Intake, record.Exhaust} {
		var t tally
		for _, reading := range r.Setup.Readings {
			if reading.At.Role == role && counting(reading) &&
				(reading.Kind == record.LiftChecking || reading.Kind == record.LiftRunning) {
				t.add(f.say("lift." + string(reading.Kind)))
			}
		}
		var how []string
		if len(t.texts) > 0 {
			how = append(how, f.join(t))
		}
		for _, s := range r.Setup.Shared {
			if s.Role == role && (s.Kind == record.LiftChecking || s.Kind == record.LiftRunning) {
				how = append(how, f.say("lift.shared", r.Head.Label(s.From)))
			}
		}
		if card := slices.ContainsFunc(r.Setup.Packages, func(p record.Package) bool {
			return p.Role == role && p.Card != nil
		}); card {
			how = append(how, f.say("lift.card"))
		}
		if len(how) == 0 {
			how = append(how, f.say("lift.none"))
		}
		parts = append(parts, f.say("sheet.of-role", f.say("role."+string(role)), strings.Join(how, ", ")))
	}
	return strings.Join(parts, "; ")
}

func (f *flow) cameIn(r *record.Record) string {
	var t tally
	for _, reading := range r.Setup.Readings {
		if counting(reading) {
			t.add(f.say("method." + string(reading.Method)))
		}
	}
	return f.join(t)
}

func (f *flow) people(r *record.Record) string {
	var t tally
	for _, reading := range r.Setup.Readings {
		if counting(reading) && reading.By != "" {
			t.add(reading.By)
		}
	}
	return f.join(t)
}

// struck says which readings do not count any more, and why.
func (f *flow) struck(r *record.Record) string {
	var all []string
	for _, reading := range r.Setup.Readings {
		if counting(reading) {
			continue
		}
		reason := reading.Struck.Reason
		if reason == "" {
			reason = f.say("sheet.no-reason")
		}
		all = append(all, f.say("sheet.struck-one", r.Head.Label(reading.At), f.say("kind."+string(reading.Kind)),
			reading.Quantity, reason, reading.Struck.By))
	}
	return strings.Join(all, "; ")
}
