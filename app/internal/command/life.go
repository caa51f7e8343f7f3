package command

import (
	"context"
	"fmt"
	"strings"

	"keeperbook/app/internal/files"
	"keeperbook/app/internal/task"
	"keeperbook/model/life"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/store"
)

// springLife is the life of one spring, as -json prints it. Loads are in the unit of the set-up, at the height of the baseline;
// lost and u in percent.
type springLife struct {
	Valve    string   `json:"valve"`
	Baseline string   `json:"baseline,omitempty"`
	Since    string   `json:"since,omitempty"`
	Day      string   `json:"day,omitempty"`
	Load     string   `json:"load,omitempty"`
	Checked  string   `json:"checked,omitempty"`
	Lost     string   `json:"lost,omitempty"`
	U        string   `json:"u,omitempty"`
	FromNew  string   `json:"fromNew,omitempty"`
	Verdict  string   `json:"verdict,omitempty"`
	Why      []string `json:"why,omitempty"`
	NoTrend  string   `json:"noTrend,omitempty"`
}

// lifeLine is the life of a head, as -json prints it.
type lifeLine struct {
	Head      string       `json:"head"`
	Setup     string       `json:"setup"`
	Ran       []string     `json:"ran,omitempty"`
	Cycles    string       `json:"cycles"`
	Uncounted int          `json:"uncounted,omitempty"`
	Starts    int          `json:"starts,omitempty"`
	Burnouts  int          `json:"burnouts,omitempty"`
	OverRevs  int          `json:"overRevs,omitempty"`
	Checks    int          `json:"checks"`
	Springs   []springLife `json:"springs"`
}

// lifeCommand prints what became of the springs of a head.
func lifeCommand(ctx context.Context, env Env, args []string, o *options) error {
	return reading(ctx, args[0], func(book *store.Book) error {
		setup := o.setup
		var err error
		if setup == "" {
			setup, err = task.InService(ctx, book, args[1], task.StampOf(env.Clock()))
		} else {
			setup, err = task.Find(ctx, book, args[1], setup)
		}
		if err != nil {
			return err
		}
		h, err := task.LifeOf(ctx, book, setup)
		if err != nil {
			return err
		}
		if len(args) > 2 {
			return reportTo(ctx, env, book, h, args[2], task.Paper(o.paper))
		}
		h = h.In(say.English().Language)
		line := lineOf(h)
		if o.json {
			return printJSON(env, line)
		}
		fmt.Fprintln(env.Out, line.text(h))
		for _, s := range line.Springs {
			lost := ""
			if s.Lost != "" {
				lost = s.Lost + " %"
			}
			if s.U != "" {
				lost = s.Lost + " ± " + s.U + " %"
			}
			why := strings.Join(s.Why, "; ")
			if why == "" {
				why = s.NoTrend
			}
			fmt.Fprintln(env.Out, strings.Join([]string{s.Valve, s.Baseline, s.Load, lost, s.Verdict, oneCell(why)}, "\t"))
		}
		return nil
	})
}

// reportTo writes the report of a life.
func reportTo(ctx context.Context, env Env, book *store.Book, h task.HeadLife, path string, paper task.Paper) error {
	gauges, err := book.Gauges(ctx)
	if err != nil {
		return err
	}
	data, err := h.Report(record.Date(task.StampOf(env.Clock()).Day()), paper, gauges)
	if err != nil {
		return err
	}
	return files.Write(path, data)
}

// labels writes labels for single springs.
func labels(ctx context.Context, env Env, args []string, o *options) error {
	return reading(ctx, args[0], func(book *store.Book) error {
		counter, err := (&task.Desk{Book: book, Who: env.Who, Clock: env.Clock}).OpenCounter(ctx)
		if err != nil {
			return err
		}
		data, err := counter.Labels(task.LabelAsk{Tags: args[2:], Grid: o.grid, From: o.from})
		if err != nil {
			return err
		}
		return files.Write(args[1], data)
	})
}

// lineOf puts a life into words.
func lineOf(h task.HeadLife) lifeLine {
	l := lifeLine{
		Head: h.Record.Head.Tag, Setup: h.Record.Setup.ID, Cycles: h.Ran.Counted(), Uncounted: h.Ran.Uncounted,
		Starts: h.Ran.Starts, Burnouts: h.Ran.Burnouts, OverRevs: h.Ran.OverRevs, Checks: h.Checks, Ran: h.RanIn(),
	}
	for _, v := range h.Valves {
		s := springLife{Valve: v.Label, Verdict: string(v.Verdict), NoTrend: h.Words.Line(v.NoTrend)}
		show := func(p life.Point) string {
			return h.Words.Line(say.New("expr.one", p.Load)) + " " + string(h.Record.Setup.Units.Load)
		}
		if v.Base >= 0 {
			base, last := v.Points[v.Base], v.Points[v.Now]
			s.Baseline, s.Since, s.Day = show(base), string(base.Service), string(base.Day)
			s.Load, s.Checked = show(last), string(last.Day)
		}
		if v.Lost != nil {
			s.Lost = string(life.Percent(v.Lost.Share))
			if v.Lost.U > 0 {
				s.U = string(life.Percent(v.Lost.U))
			}
		}
		if v.FromNew != nil {
			s.FromNew = string(life.Percent(v.FromNew.Share))
		}
		for _, w := range v.Why {
			s.Why = append(s.Why, h.Words.Line(w))
		}
		l.Springs = append(l.Springs, s)
	}
	return l
}

// text is what the head did, as one line.
func (l lifeLine) text(h task.HeadLife) string {
	ran := strings.Join(l.Ran, ", ")
	if ran == "" {
		ran = h.Words.Line(say.New("life.nothing"))
	}
	return strings.TrimSpace(h.Words.Line(say.New("life.ran", l.Head, ran, l.Cycles, l.Checks)) + " " + h.Besides())
}

// dueLine is something that falls due, as -json prints it.
type dueLine struct {
	Due  bool   `json:"due"`
	Day  string `json:"day,omitempty"`
	What string `json:"what"`
	Head string `json:"head,omitempty"`
}

// dueCommand prints what falls due, or writes it as a calendar.
func dueCommand(ctx context.Context, env Env, args []string, o *options) error {
	return reading(ctx, args[0], func(book *store.Book) error {
		now := env.Clock()
		all, err := task.Dues(ctx, book, record.Date(task.StampOf(now).Day()))
		if err != nil {
			return err
		}
		if len(args) > 1 {
			return files.Write(args[1], task.Calendar(all, now))
		}
		lines := make([]dueLine, len(all))
		for i, d := range all {
			lines[i] = dueLine{d.Over, string(d.Day), d.Text, d.Head}
		}
		if o.json {
			return printJSON(env, lines)
		}
		for _, d := range lines {
			state := map[bool]string{true: "due", false: ""}[d.Due]
			fmt.Fprintf(env.Out, "%s\t%s\t%s\n", state, d.Day, oneCell(d.What))
		}
		return nil
	})
}
