package evaluate_test

import (
	"strings"
	"testing"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// nested is a record of one cylinder with nested coils on a stepped retainer, everything measured. On
// 1 in both coils keep more than their least; tests change what they look at. All figures are invented.
func nested(t testing.TB) *record.Record {
	t.Helper()
	r := &record.Record{
		Head: record.Head{ID: "head", Engine: "engine", Tag: "T-1", Cylinders: []string{"1"}, Intakes: 1, Exhausts: 1},
		Setup: record.Setup{
			ID: "setup", Head: "head", Kind: record.AsBuilt,
			Units: record.Units{Length: unit.In, Load: unit.Lbf}, Rules: plainRules(),
		},
		Parts: record.Parts{
			Springs: []record.Spring{{ID: "nest", Name: "nest", Coils: []record.Coil{
				{Name: "outer", Bind: bind(t, "1.060")}, {Name: "inner", Bind: bind(t, "0.985")},
			}}},
			Retainers: []record.Retainer{{ID: "stepped", Steps: []unit.Quantity{in(t, "0.095")}, Lid: ptr(in(t, "0.100"))}},
			Locks:     []record.Locks{{ID: "standard", Offset: ptr(in(t, "0.000"))}, {ID: "plus-50", Offset: ptr(in(t, "0.050"))}},
			Locators:  []record.Locator{{ID: "cup", Floor: ptr(in(t, "0.060"))}},
			Seals:     []record.Seal{{ID: "seal", Sits: record.OnGuide}, {ID: "one-piece", Sits: record.OnLocator}},
			Valves:    []record.ValvePart{{ID: "valve", Head: ptr(in(t, "2.02"))}},
		},
	}
	for _, role := range []record.Role{record.Intake, record.Exhaust} {
		r.Put(record.Package{
			Role: role, Spring: "nest", Retainer: "stepped", Locks: "standard", Locator: "cup", Valve: "valve",
			Least: []record.Least{{Coil: 1, Margin: in(t, "0.070")}, {Coil: 2, Margin: in(t, "0.070")}},
		})
		at := record.Position{Cylinder: "1", Role: role, N: 1}
		r.Put(record.Valve{At: at, Stack: []record.Shim{{Thickness: in(t, "0.030"), Under: record.UnderLocator}}})
		add(t, r, at, record.BaseHeight, 0, "1.900")
		add(t, r, at, record.LiftChecking, 0, "0.700")
	}
	return r
}

var intake = record.Position{Cylinder: "1", Role: record.Intake, N: 1}

// add keeps a reading as the program does: with a copy of what it was measured over.
func add(t testing.TB, r *record.Record, at record.Position, kind record.Kind, coil int, read string, correction ...record.Taken) {
	t.Helper()
	r.Put(record.Reading{
		At: at, Kind: kind, Coil: coil, N: len(r.ReadingsAt(at, kind, coil)) + 1, Quantity: in(t, read), Correction: correction,
		Method: record.Typed, Over: evaluate.Trim(kind, evaluate.OverNow(r, at)),
	})
}

// lastOf is the last reading of one thing, to be changed.
func lastOf(r *record.Record, at record.Position, kind record.Kind, coil int) *record.Reading {
	var last *record.Reading
	for i := range r.Setup.Readings {
		if o := &r.Setup.Readings[i]; o.At == at && o.Kind == kind && o.Coil == coil {
			last = o
		}
	}
	return last
}

// drop takes the readings of a kind away.
func drop(r *record.Record, at record.Position, kind record.Kind) {
	var left []record.Reading
	for _, o := range r.Setup.Readings {
		if o.At != at || o.Kind != kind {
			left = append(left, o)
		}
	}
	r.Setup.Readings = left
}

func in(t testing.TB, read string) unit.Quantity {
	t.Helper()
	q, err := unit.Of(read, unit.In)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

func bind(t testing.TB, read string) *record.Bind {
	return &record.Bind{Reading: in(t, read), Source: record.Measured}
}

func ptr[T any](v T) *T { return &v }

// first evaluates and returns 1 in.
func first(r *record.Record) evaluate.Valve { return evaluate.Evaluate(r).Valves[0] }

// shown prints a figure in inches, "" where it is not known.
func shown(f evaluate.Figure) string {
	if !f.Known {
		return ""
	}
	return unit.Inches.LengthIn(f.Value)
}

// said prints every line of the working and of the findings of a valve.
func said(v evaluate.Valve) string {
	p := evaluate.Words(record.Units{Length: unit.In, Load: unit.Lbf})
	var b strings.Builder
	figures := []evaluate.Figure{v.Base, v.Shims, v.Installed, v.Height, v.Lift, v.Margin, v.UpTo, v.SealOpen, v.RoomOpen, v.LashShim, v.Target, v.ShimNeeded}
	for _, c := range v.Coils {
		figures = append(figures, c.Height, c.Bind, c.Open, c.Margin, c.Least, c.Slack)
	}
	for _, f := range figures {
		for _, l := range f.Working() {
			b.WriteString(p.Line(l) + "\n")
		}
	}
	for _, part := range v.Margin.Parts() {
		line := ""
		for _, l := range []say.Line{part.What, part.From, part.How, part.Times, part.U, part.Share} {
			line += p.Line(l) + " | "
		}
		b.WriteString(line + "\n")
	}
	for _, l := range v.Remedies {
		b.WriteString(p.Line(l) + "\n")
	}
	for _, f := range v.Findings {
		b.WriteString(p.Line(f.Line) + "\n" + p.Line(f.Short) + "\n")
	}
	return b.String()
}

func wantSaid(t *testing.T, v evaluate.Valve, lines ...string) {
	t.Helper()
	text := said(v)
	for _, l := range lines {
		if !strings.Contains(text, l) {
			t.Errorf("nowhere said: %s\nsaid:\n%s", l, text)
		}
	}
}

// plainRules are the usual rules with numbers held against their limits as they stand.
func plainRules() record.Rules {
	r := record.DefaultRules(unit.In)
	r.Decision = record.Plain
	return r
}
