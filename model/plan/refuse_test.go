package plan_test

import (
	"errors"
	"strings"
	"testing"

	"keeperbook/model/plan"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

func TestRefused(t *testing.T) {
	load := plan.Give[unit.Load]
	for name, c := range map[string]struct {
		change func(*bench)
		key    string
	}{
		"no valves":                      {func(b *bench) { b.Valves = nil }, "plan.no-valves"},
		"no springs":                     {func(b *bench) { b.Springs = nil }, "plan.no-springs"},
		"no shims":                       {func(b *bench) { b.Shims = nil }, "plan.no-shims"},
		"no shims under a spring":        {func(b *bench) { b.Most.Shims = 0 }, "plan.most-shims"},
		"more shims than fit":            {func(b *bench) { b.Most.Shims = 13 }, "plan.most-shims"},
		"stacks of nothing":              {func(b *bench) { b.Most.Total = 0 }, "plan.most-total"},
		"stacks a metre thick":           {func(b *bench) { b.Most.Total = unit.Limit }, "plan.most-total"},
		"a step below nought":            {func(b *bench) { b.Step = -1 }, "plan.step"},
		"a step too fine":                {func(b *bench) { b.Step = 1; b.Roles[0].Load = load(1 << 50) }, "plan.fine-step"},
		"a spring on no valve of these":  {func(b *bench) { b.Springs[2].On = 8 }, "plan.spring-place"},
		"a spring below the first valve": {func(b *bench) { b.Springs[2].On = -2 }, "plan.spring-place"},
		"two springs on a valve":         {func(b *bench) { b.Springs[2].On = 3 }, "plan.two-springs"},
		"no spring to stay":              {func(b *bench) { b.Mode = plan.Shims; b.Springs[2].On = plan.Nowhere }, "plan.no-spring-on"},
		"no spring to measure over":      {func(b *bench) { b.Mode = plan.Heights; b.Springs[2].On = plan.Nowhere }, "plan.no-spring-on"},
		"a shim of nothing":              {func(b *bench) { b.Shims[0].Thick = 0 }, "plan.shim-thick"},
		"a shim a metre thick":           {func(b *bench) { b.Shims[0].Thick = unit.Limit }, "plan.shim-thick"},
		"fewer than no shims":            {func(b *bench) { b.Shims[1].Count = -1 }, "plan.shim-count"},
		"more shims than anybody has":    {func(b *bench) { b.Shims[1].Count = 1_000_001 }, "plan.shim-many"},
		"a size that stands twice":       {func(b *bench) { b.Shims[1].Thick = b.Shims[0].Thick }, "plan.shim-twice"},
		"a valve of no role":             {func(b *bench) { b.Valves[1].Role = 2 }, "plan.valve-role"},
		"a valve of a role below none":   {func(b *bench) { b.Valves[1].Role = -1 }, "plan.valve-role"},
		"a valve without a base height":  {func(b *bench) { b.Valves[1].Base = 0 }, "plan.valve-base"},
		"a seat band upside down":        {func(b *bench) { b.Valves[1].Seat = plan.Band{Least: load(2), Most: load(1)} }, "plan.seat-band"},
		"an open band upside down":       {func(b *bench) { b.Valves[1].Open = plan.Band{Least: load(2), Most: load(1)} }, "plan.open-band"},
		"a step of a metre":              {func(b *bench) { b.Step = int64(unit.Limit) + 1 }, "plan.step"},
		"a target out of this world":     {func(b *bench) { b.Roles[1].Load = load(1 << 51) }, "plan.target"},
		"loads out of this world": {func(b *bench) {
			b.Fit = func(at plan.Place) plan.Fit { return plan.Fit{Seat: 1 << 60} }
			b.without()
		}, "plan.fine-step"},
		"a target below nought":        {func(b *bench) { b.Roles[1].Load = load(-1) }, "plan.target"},
		"more valves than are planned": {func(b *bench) { b.Valves = make([]plan.Valve, 257); fill(b.Valves) }, "plan.many-valves"},
		"more springs than are planned": {func(b *bench) {
			for len(b.Springs) < 1025 {
				b.Springs = append(b.Springs, plan.Spring{On: plan.Nowhere})
			}
		}, "plan.many-springs"},
		"more stacks than are tried": {func(b *bench) {
			for len(b.Shims) < 12 {
				b.Shims = append(b.Shims, plan.Shim{Thick: unit.Length(len(b.Shims)) * unit.Thou})
			}
			b.Most.Shims = 12
		}, "plan.many-stacks"},
		"nothing that says what fits": {func(b *bench) { b.Fit = nil }, "plan.unasked"},
		"a mode that nobody knows":    {func(b *bench) { b.Mode = 3 }, "plan.unasked"},
	} {
		t.Run(name, func(t *testing.T) {
			b := newHead(1, 8, 10, 1, 5, 5, 5)
			c.change(b)
			p, err := plan.Solve(b.Problem, plan.Options{})
			var e *say.Error
			if !errors.As(err, &e) || e.Line.Key != c.key || p != nil {
				t.Fatalf("got %v, %v, want %s", p, err, c.key)
			}
			if said := inches.Line(e.Line); strings.Contains(said, "{") || !strings.HasSuffix(said, ".") {
				t.Errorf("not a sentence: %s", said)
			}
			if want := say.Invalid; c.key != "plan.unasked" && e.Code != want {
				t.Errorf("code %s, want %s", e.Code, want)
			}
		})
	}
}

func fill(valves []plan.Valve) {
	for i := range valves {
		valves[i].Base = unit.Inch
	}
}
