package evaluate_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// changeOf returns what became of one number of 1 in.
func changeOf(t testing.TB, was, is *record.Record, key string) evaluate.Change {
	t.Helper()
	old, now := evaluate.Evaluate(was), evaluate.Evaluate(is)
	for _, c := range evaluate.Compare(&old, &now)[0].Changes {
		if c.Key == key {
			return c
		}
	}
	t.Fatalf("%s is not compared", key)
	return evaluate.Change{}
}

func TestCompare(t *testing.T) {
	lifted := func(r *record.Record, read string) {
		drop(r, intake, record.LiftChecking)
		add(t, r, intake, record.LiftChecking, 0, read)
	}
	for _, c := range []struct {
		name     string
		was, is  func(r *record.Record)
		key      string
		want, mm string
		estimate bool
	}{
		{"a thinner stack", func(r *record.Record) { shim(t, r, "0.045") }, nil, "shims", "−.015", "−0.381", false},
		{"leaves the spring taller", func(r *record.Record) { shim(t, r, "0.045") }, nil, "height", "+.015", "+0.381", false},
		{"and the margin wider", func(r *record.Record) { shim(t, r, "0.045") }, nil, "margin", "+.015", "+0.381", false},
		{"nothing changed", nil, nil, "base", ".000", "0.00", false},
		{"less than is usually shown is no nought", nil, func(r *record.Record) {
			drop(r, intake, record.BaseHeight)
			add(t, r, intake, record.BaseHeight, 0, "1.90003")
		}, "base", "+.00003", "+0.001", false},
		{"a check height that agrees is the height in force", nil, func(r *record.Record) {
			add(t, r, intake, record.CheckHeight, 0, "1.872")
		}, "height", "+.002", "+0.051", false},
		{"missing then", func(r *record.Record) { drop(r, intake, record.BaseHeight) }, nil, "base", "", "", false},
		{"missing now", nil, func(r *record.Record) { drop(r, intake, record.BaseHeight) }, "margin", "", "", false},
		{"less lift", nil, func(r *record.Record) { lifted(r, "0.690") }, "lift", "−.010", "−0.254", false},
		{"against an estimate", func(r *record.Record) {
			drop(r, intake, record.LiftChecking)
			add(t, r, intake, record.LiftRunning, 0, "0.690")
		}, nil, "lift", "+.010e", "+0.254e", true},
		{"a margin on an estimate", func(r *record.Record) {
			drop(r, intake, record.LiftChecking)
			add(t, r, intake, record.LiftRunning, 0, "0.690")
		}, nil, "margin", "−.010e", "−0.254e", true},
		{"the seal, closed", func(r *record.Record) { sealed(t, r, "seal", "0.790") },
			func(r *record.Record) { sealed(t, r, "seal", "0.800") }, "seal", "+.010", "+0.254", false},
		{"and open", func(r *record.Record) { sealed(t, r, "seal", "0.790") },
			func(r *record.Record) { sealed(t, r, "seal", "0.800") }, "seal-open", "+.010", "+0.254", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			was, is := nested(t), nested(t)
			if c.was != nil {
				c.was(was)
			}
			if c.is != nil {
				c.is(is)
			}
			ch := changeOf(t, was, is, c.key)
			if got := ch.Text(evaluate.Words(is.Setup.Units)); got != c.want {
				t.Errorf("%s changed by %q, want %q", c.key, got, c.want)
			}
			if got := ch.Text(evaluate.Words(record.Units{Length: unit.Mm, Load: unit.N})); got != c.mm {
				t.Errorf("%s changed by %q mm, want %q", c.key, got, c.mm)
			}
			if (ch.By.Mark == evaluate.Estimate) != c.estimate {
				t.Errorf("marked %q", ch.By.Mark)
			}
		})
	}
}

// Heights of two different coils have no difference; which of them governs is said.
func TestCompareOtherCoil(t *testing.T) {
	was, is := nested(t), nested(t)
	is.Parts.Springs[0].Coils[0].Bind = bind(t, "1.200")
	old, now := evaluate.Evaluate(was), evaluate.Evaluate(is)
	pair, words := evaluate.Compare(&old, &now)[0], evaluate.Words(is.Setup.Units)
	if got := words.Line(pair.Governs()); got != "inner → outer" {
		t.Errorf("governs %q", got)
	}
	for _, key := range []string{"open", "bind"} {
		if c := changeOf(t, was, is, key); c.By.Known || !c.Was.Known || !c.Is.Known {
			t.Errorf("%s: %+v", key, c)
		}
	}
	// The margin is the valve's own, whichever coil sets it: .090 then, 1.870 − .700 − 1.200 = −.030 now.
	if got := changeOf(t, was, is, "margin").Text(words); got != "−.120" {
		t.Errorf("margin changed by %q", got)
	}
	// A damper put in between leaves the inner coil the inner coil.
	is = nested(t)
	spring := &is.Parts.Springs[0]
	spring.Coils = []record.Coil{spring.Coils[0], {Name: "damper", Bind: bind(t, "0.900")}, spring.Coils[1]}
	is.Parts.Retainers[0].Steps = []unit.Quantity{in(t, "0.000"), in(t, "0.095")}
	for i := range is.Setup.Packages {
		p := &is.Setup.Packages[i]
		p.Least = append(p.Least, record.Least{Coil: 3, Margin: in(t, "0.070")})
	}
	now = evaluate.Evaluate(is)
	if line := evaluate.Compare(&old, &now)[0].Governs(); !line.Zero() {
		t.Errorf("governs %q", words.Line(line))
	}
	if got := changeOf(t, was, is, "bind").Text(words); got != ".000" {
		t.Errorf("bind changed by %q", got)
	}
}

// A valve that only one of the two has is there, and nothing is made up of it.
func TestCompareOtherValves(t *testing.T) {
	was, is := nested(t), nested(t)
	was.Head.Exhausts = 2
	is.Head.Intakes = 2
	old, now := evaluate.Evaluate(was), evaluate.Evaluate(is)
	var labels []string
	for _, p := range evaluate.Compare(&old, &now) {
		labels = append(labels, p.Label)
		known := slices.ContainsFunc(p.Changes, func(c evaluate.Change) bool { return c.By.Known })
		if alone := p.At.N == 2; known == alone {
			t.Errorf("%s: differences are known: %t", p.Label, known)
		}
	}
	if want := 4; len(labels) != want {
		t.Errorf("valves %v, want %d", labels, want)
	}
}

// The difference is the newer number less the older one to the unit, it is there where both are, and the
// other way round it has the other sign.
func TestCompareProperty(t *testing.T) {
	lengths := func(rt *rapid.T, what string, from, to int64) unit.Quantity {
		v := rapid.Int64Range(from, to).Draw(rt, what)
		return unit.Quantity{Typed: "-", Read: "1", Unit: unit.In, Value: v}
	}
	inch := int64(unit.Inch)
	draw := func(rt *rapid.T, which string) *record.Record {
		r := nested(t)
		r.Setup.Valves, r.Setup.Readings = nil, nil
		for _, at := range r.Head.Positions() {
			for _, kind := range []record.Kind{
				record.BaseHeight, record.CheckHeight, record.SealGap, record.LiftChecking, record.LiftRunning,
			} {
				least, most := int64(0), inch
				if kind == record.BaseHeight || kind == record.CheckHeight {
					least, most = inch, 3*inch
				}
				name := which + at.String() + string(kind)
				if rapid.Bool().Draw(rt, name+"?") {
					r.Put(record.Reading{
						At: at, Kind: kind, N: 1, Quantity: lengths(rt, name, least, most),
						Over: evaluate.Trim(kind, evaluate.OverNow(r, at)),
					})
				}
			}
			if rapid.Bool().Draw(rt, which+"shims?") {
				r.Put(record.Valve{At: at, Stack: []record.Shim{{Thickness: lengths(rt, which+"shims", 0, inch/2), Under: record.UnderLocator}}})
			}
		}
		r.Parts.Springs[0].Coils[0].Bind.Reading = lengths(rt, which+"bind", inch, 3*inch/2)
		return r
	}
	words := evaluate.Words(record.Units{Length: unit.In, Load: unit.Lbf})
	rapid.Check(t, func(rt *rapid.T) {
		was, is := evaluate.Evaluate(draw(rt, "was ")), evaluate.Evaluate(draw(rt, "is "))
		there, back := evaluate.Compare(&was, &is), evaluate.Compare(&is, &was)
		if len(there) != 2 || len(back) != 2 {
			rt.Fatalf("%d and %d valves", len(there), len(back))
		}
		for i := range there {
			p, q := &there[i], &back[i]
			other := p.Governs()
			if other.Zero() != q.Governs().Zero() {
				rt.Fatalf("%s: governs %v there, %v back", p.Label, other, q.Governs())
			}
			for j, c := range p.Changes {
				both := c.Was.Known && c.Is.Known
				coils := !other.Zero() && (c.Key == "open" || c.Key == "bind")
				switch {
				case c.By.Known != (both && !coils):
					rt.Fatalf("%s %s: known %t of %t and %t", p.Label, c.Key, c.By.Known, c.Was.Known, c.Is.Known)
				case c.By.Known && c.Was.Value+c.By.Value != c.Is.Value:
					rt.Fatalf("%s %s: %d + %d is not %d", p.Label, c.Key, c.Was.Value, c.By.Value, c.Is.Value)
				case q.Changes[j].By.Known != c.By.Known || q.Changes[j].By.Value != -c.By.Value:
					rt.Fatalf("%s %s: %v there, %v back", p.Label, c.Key, c.By, q.Changes[j].By)
				}
				if text := c.Text(words); c.By.Known && text != "" && (text[0] == '+') != (c.By.Value > 0) {
					rt.Fatalf("%s %s: %d reads %q", p.Label, c.Key, c.By.Value, text)
				}
			}
			// With one coil governing both times, the margin moves by what the open height does over the bind.
			by := func(key string) evaluate.Figure {
				for _, c := range p.Changes {
					if c.Key == key {
						return c.By
					}
				}
				rt.Fatalf("%s is not compared", key)
				return evaluate.Figure{}
			}
			if m, o, b := by("margin"), by("open"), by("bind"); m.Known && o.Known && b.Known && m.Value != o.Value-b.Value {
				rt.Fatalf("%s: margin %d, open %d, bind %d", p.Label, m.Value, o.Value, b.Value)
			}
		}
	})
}

func TestComparedKeysAreOfTheTable(t *testing.T) {
	words := say.English().Words
	for _, key := range evaluate.ComparedKeys() {
		if _, ok := words["column."+key]; !ok && key != "height" {
			t.Errorf("the table has no column %s", key)
		}
	}
}
