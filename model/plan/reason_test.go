package plan_test

import (
	"slices"
	"strings"
	"testing"

	"keeperbook/model/plan"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

func solve(t *testing.T, b *bench) *plan.Plan {
	t.Helper()
	p, err := plan.Solve(b.Problem, plan.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

var inches = say.In(unit.Inches.Show)

func sentences(lines []say.Line) (all []string) {
	for _, l := range lines {
		all = append(all, inches.Line(l))
	}
	return all
}

// Each of these heads has one thing wrong with it.
func TestReasons(t *testing.T) {
	const (
		one  = "With at most 3 shims under a spring nothing fits, because:"
		some = "With at most 3 shims under a spring nothing fits, because these do not go together; without any one of them the rest would:"
	)
	seat := func(b *bench, least unit.Load) {
		for i := range b.Valves {
			b.Valves[i].Seat.Least = plan.Give(least)
		}
	}
	for name, c := range map[string]struct {
		change func(*bench)
		lines  []string
		free   []string
		fix    func(*bench) // does the first thing that is said to do
	}{
		"a pocket too shallow": {
			func(b *bench) { b.Valves[5].Base = 1700 * unit.Thou },
			[]string{one, "3 ex: the spring is to keep .060 to bind; it keeps .0319 at most, with spring S6 without shims."},
			[]string{"Locks of +.050 on 3 ex would do."},
			func(b *bench) { b.Valves[5].Base += 50 * unit.Thou },
		},
		"guards of its own": {
			func(b *bench) {
				b.guard = func(valve, spring, shims int) unit.Length {
					if valve == 5 && shims < 2 {
						return 120 * unit.Thou
					}
					return unit.Length(5*shims) * unit.Thou
				}
				b.most = plan.Given[unit.Length]{}
				b.Most.Shims = 1
			},
			[]string{
				"With at most one shim under a spring nothing fits, because:",
				"3 ex: the spring is to keep .060 and a guard of .120 to bind; it keeps .1523 at most, with spring S6 without shims.",
			},
			[]string{"Locks of +.050 on 3 ex would do."},
			func(b *bench) { b.Valves[5].Base += 50 * unit.Thou },
		},
		"shims that do not do": {
			func(b *bench) { seat(b, 1_010_000); b.Shims[2].Count = 0; b.most = plan.Given[unit.Length]{} },
			[]string{
				some, "1 in, 1 ex, 2 in, 2 ex, 3 in, 3 ex, 4 in, 4 ex: seat load at least 227.1.",
				"Of .015 shims there are 5.", "Of .030 shims there are 5.", "Of .060 shims there are 0.",
			},
			[]string{
				"2 more shims of .015 would do.", "One more shim of .030 would do.", "One more shim of .060 would do.",
				"Locks of −.050 on any one of these would do: 1 in, 1 ex, 2 in, 2 ex, 3 in, 3 ex, 4 in, 4 ex.",
			},
			func(b *bench) { b.Shims[0].Count += 2 },
		},
		"too few springs": {
			func(b *bench) { b.Springs, b.coils = b.Springs[:7], b.coils[:7] },
			[]string{one, "There are 8 valves and 7 springs."},
			[]string{"One more spring like S1 would do."},
			func(b *bench) {
				b.Springs, b.coils = append(b.Springs, plan.Spring{Name: "S1 too", On: plan.Nowhere}), append(b.coils, b.coils[0])
			},
		},
		"too few springs for some": {
			func(b *bench) {
				b.Fit = func(at plan.Place) plan.Fit {
					f := b.fit(at)
					f.None = at.Spring != 1 && at.Spring%8 != 7 && at.Valve < 3
					return f
				}
			},
			[]string{one, "3 valves (1 in, 1 ex, 2 in) have 2 springs between them that will do: S2, S8."},
			[]string{"One more spring like S2 would do."},
			func(b *bench) {
				b.Springs, b.coils = append(slices.Clone(b.Springs), make([]plan.Spring, 15-len(b.Springs))...), append(b.coils, make([]spring, 15-len(b.coils))...)
				for j := 10; j < 15; j++ {
					b.Springs[j].On = plan.Nowhere
				}
				b.Springs = append(b.Springs, plan.Spring{Name: "S2 too", On: plan.Nowhere})
				b.coils = append(b.coils, b.coils[1])
			},
		},
		"a stack too thin": {
			func(b *bench) {
				b.Most.Total = 30 * unit.Thou
				b.Valves[2].Seat.Least = plan.Give[unit.Load](1_040_000)
			},
			[]string{
				some, "2 in: seat load at least 233.8; it is 229.0 at most, with spring S5 over .030 of shims.",
				"2 in: at most .030 of shims under the spring.",
			},
			[]string{"Locks of −.050 on 2 in would do.", "Stacks of up to .045 instead of .030 would do."},
			func(b *bench) { b.Valves[2].Base -= 50 * unit.Thou },
		},
		"a band between two shims": {
			func(b *bench) {
				b.Mode = plan.Shims
				b.Valves[3].Seat = plan.Band{Least: plan.Give[unit.Load](1_054_000), Most: plan.Give[unit.Load](1_054_001)}
			},
			[]string{some, "2 ex: seat load at least 236.9.", "2 ex: seat load at most 236.9."},
			nil, nil,
		},
		"open load": {
			func(b *bench) { b.Valves[2].Open = plan.Band{Most: plan.Give[unit.Load](1_040_000)} },
			[]string{one, "2 in: open load at most 233.8; it is 467.8 at least, with spring S2 without shims."},
			nil, nil,
		},
		"no load at all": {
			func(b *bench) {
				b.Fit = func(at plan.Place) plan.Fit {
					f := b.fit(at)
					f.None = at.Valve == 4
					return f
				}
			},
			[]string{one, "3 in: no spring goes there, or none has a load at such heights."},
			nil, nil,
		},
		"two things at once": {
			func(b *bench) { b.Valves[1].Base, b.Valves[5].Base = 1700*unit.Thou, 1700*unit.Thou },
			[]string{one, "1 ex: the spring is to keep .060 to bind; it keeps .0341 at most, with spring S6 without shims."},
			[]string{"Locks of +.050 on 1 ex would do. That clears this reason; there is another one."},
			nil,
		},
	} {
		t.Run(name, func(t *testing.T) {
			b := newHead(1, 8, 10, 1, 5, 5, 5)
			if p := solve(t, b); p.Outcome != plan.Proven {
				t.Fatalf("outcome %d before the change", p.Outcome)
			}
			c.change(b)
			p := solve(t, b)
			if p.Outcome != plan.Nothing || !p.Reason.Irreducible {
				t.Fatalf("outcome %d", p.Outcome)
			}
			if got := sentences(p.Reason.Lines); !slices.Equal(got, c.lines) {
				t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(c.lines, "\n"))
			}
			if got := sentences(p.Reason.Free); !slices.Equal(got, c.free) {
				t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(c.free, "\n"))
			}
			if c.fix == nil {
				return
			}
			c.fix(b)
			if p := solve(t, b); p.Outcome != plan.Proven {
				t.Errorf("what is said to do does not: outcome %d", p.Outcome)
			}
		})
	}
}

// A search that is cut short does not claim what it does not know.
func TestReasonCutShort(t *testing.T) {
	b := newHead(1, 12, 14, 1, 8, 8, 0)
	for i := range b.Valves {
		b.Valves[i].Seat.Least = plan.Give[unit.Load](1_010_000)
	}
	loose, firm := 0, 0
	for _, nodes := range []int{20, 100, 5000} {
		p, err := plan.Solve(b.Problem, plan.Options{Nodes: nodes})
		if err != nil {
			t.Fatal(err)
		}
		if p.Outcome != plan.Nothing || len(p.Reason.Lines) < 2 {
			t.Fatalf("%d nodes: outcome %d, %v", nodes, p.Outcome, p.Reason)
		}
		switch among := strings.HasSuffix(inches.Line(p.Reason.Lines[0]), "The reason is among these:"); {
		case among == p.Reason.Irreducible:
			t.Errorf("%d nodes: irreducible %t, and it says %q", nodes, p.Reason.Irreducible, sentences(p.Reason.Lines))
		case among:
			loose++
		default:
			firm++
		}
	}
	if loose == 0 || firm == 0 {
		t.Errorf("%d reasons cut short and %d whole", loose, firm)
	}
}
