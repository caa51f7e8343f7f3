package command

import (
	"context"
	"fmt"
	"strings"

	"keeperbook/app/internal/task"
	"keeperbook/model/evaluate"
	"keeperbook/model/plan"
	"keeperbook/model/say"
	"keeperbook/model/unit"
	"keeperbook/store"
)

// planWords are what may be planned, as it is said behind -for.
var planWords = map[string]plan.Mode{"springs": plan.Both, "shims": plan.Shims, "heights": plan.Heights}

// goal is an objective as -json prints it: what it comes to, and the least that it could come to as far as is known.
type goal struct {
	Value int64 `json:"value"`
	Bound int64 `json:"bound"`
}

// planned is a plan as -json prints it. Step is what deviations count in: millinewtons, or tenths of a nanometre where
// heights are planned. Lengths and loads are in the units that are named.
type planned struct {
	Proven  bool           `json:"proven"`
	Outcome string         `json:"outcome"`
	Says    string         `json:"says"`
	Step    int64          `json:"step"`
	Worst   *goal          `json:"worst,omitempty"`
	Sum     *goal          `json:"sum,omitempty"`
	Shims   *goal          `json:"shims,omitempty"`
	Moves   *goal          `json:"moves,omitempty"`
	Nodes   int            `json:"nodes"`
	Length  string         `json:"length"`
	Load    string         `json:"load"`
	Valves  []plannedValve `json:"valves,omitempty"`
	Pick    []string       `json:"pick,omitempty"`
	Reason  []string       `json:"reason,omitempty"`
	Free    []string       `json:"free,omitempty"`
	Notes   []string       `json:"notes,omitempty"`
}

type plannedValve struct {
	Valve   string   `json:"valve"`
	Spring  string   `json:"spring,omitempty"`
	From    string   `json:"from,omitempty"`
	Shims   []string `json:"shims"`
	Height  string   `json:"height"`
	Margin  string   `json:"margin"`
	Seat    string   `json:"seat,omitempty"`
	Open    string   `json:"open,omitempty"`
	Verdict string   `json:"verdict"`
}

// makePlan plans springs and shims for the newest set-up of a head, and changes nothing.
func makePlan(ctx context.Context, env Env, args []string, o *options) error {
	mode := planWords[o.planFor]
	return reading(ctx, args[0], func(book *store.Book) error {
		setup, err := task.Find(ctx, book, args[1], o.setup)
		if err != nil {
			return err
		}
		desk := &task.Desk{Book: book, Who: env.Who, Clock: env.Clock}
		bench, err := desk.OpenBench(ctx, setup)
		if err != nil {
			return err
		}
		p, err := bench.NewPlan(ctx, task.PlanAsk{Mode: mode, Most: o.most, All: o.all})
		if err != nil {
			return err
		}
		if err := p.Make(plan.Options{Cancel: func() bool { return ctx.Err() != nil }}); err != nil {
			return err
		}
		if o.json {
			return printJSON(env, plannedOf(bench, p.Made))
		}
		printPlan(env, bench, p.Made)
		return nil
	})
}

// printPlan prints a plan for people: how good it is, a table, what to pick.
func printPlan(env Env, bench *task.Bench, made *evaluate.Planned) {
	words := bench.Words()
	lines := func(all []say.Line) {
		for _, l := range all {
			fmt.Fprintln(env.Out, words.Line(l))
		}
	}
	fmt.Fprintln(env.Out, words.Line(made.Say()))
	lines(made.Notes)
	if made.Reason != nil {
		lines(made.Reason.Lines)
		lines(made.Reason.Free)
	}
	if len(made.Rows) == 0 {
		return
	}
	heads := make([]string, len(task.PlanColumns()))
	for i, key := range task.PlanColumns() {
		heads[i] = words.Line(say.New(key))
	}
	fmt.Fprintln(env.Out, strings.Join(heads, "\t"))
	for i := range made.Rows {
		var cells []string
		for _, c := range made.Rows[i].Cells(words) {
			cells = append(cells, c.Text())
		}
		fmt.Fprintln(env.Out, strings.Join(cells, "\t"))
	}
	for _, s := range made.Spreads {
		lines(s.Lines(bench.LoadUnit()))
	}
	lines(made.Pick)
}

// outcomes are the words for what a plan is worth.
var outcomes = map[plan.Outcome]string{plan.Proven: "proven", plan.Open: "open", plan.Nothing: "nothing-fits", plan.Unknown: "unknown"}

func plannedOf(bench *task.Bench, made *evaluate.Planned) planned {
	words, units := bench.Words(), bench.Record().Setup.Units
	texts := func(all []say.Line) []string {
		out := make([]string, len(all))
		for i, l := range all {
			out[i] = words.Line(l)
		}
		return out
	}
	p := planned{
		Proven: made.Outcome == plan.Proven || made.Outcome == plan.Nothing, Outcome: outcomes[made.Outcome], Says: words.Line(made.Say()),
		Step: made.Step, Nodes: made.Nodes, Length: string(units.Length), Load: string(units.Load), Pick: texts(made.Pick), Notes: texts(made.Notes),
	}
	if made.Reason != nil {
		p.Reason, p.Free = texts(made.Reason.Lines), texts(made.Reason.Free)
	}
	if len(made.Rows) == 0 {
		return p
	}
	of := func(g plan.Goal) *goal { return &goal{g.Value, g.Bound} }
	p.Worst, p.Sum, p.Shims, p.Moves = of(made.Worst), of(made.Sum), of(made.Shims), of(made.Plan.Moves)
	style := evaluate.StyleOf(units)
	length := func(f evaluate.Figure) string {
		if !f.Known {
			return ""
		}
		return style.LengthIn(f.Value)
	}
	load := func(l evaluate.Load) string {
		if !l.Known {
			return ""
		}
		return style.LoadIn(l.Value)
	}
	for _, r := range made.Rows {
		v := plannedValve{
			Valve: r.Label, Spring: r.Spring, Shims: []string{}, Height: length(r.After.Height), Margin: length(r.After.Margin),
			Seat: load(r.After.Seat), Open: load(r.After.Open), Verdict: words.Line(r.After.Word),
		}
		if !r.From.Zero() {
			v.From = words.Line(r.From)
		}
		for _, s := range r.Shims {
			v.Shims = append(v.Shims, inUnit(s.Thickness))
		}
		p.Valves = append(p.Valves, v)
	}
	return p
}

// inUnit writes a quantity as it was read, with its unit.
func inUnit(q unit.Quantity) string { return q.Read + " " + string(q.Unit) }
