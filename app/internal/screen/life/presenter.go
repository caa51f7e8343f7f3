// Package life is the leaf of a head in service: what it ran, what its springs lost, and what falls due.
package life

import (
	"context"
	"strings"

	"keeperbook/app/internal/task"
	"keeperbook/model/life"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Presenter is the leaf without a window.
type Presenter struct {
	bench   *task.Bench
	read    task.HeadLife
	testers []record.Gauge
	days    []record.UsualDay
	day     record.Date
	chosen  int              // the valve whose loads are drawn; −1 for the worst
	all     bool             // all of them are drawn
	draft   *task.CheckDraft // nil while nobody enters a check
}

// NewPresenter returns the leaf of a set-up, to be loaded.
func NewPresenter(bench *task.Bench) *Presenter {
	return &Presenter{bench: bench, day: bench.Today(), chosen: -1}
}

func (p *Presenter) say(key string, args ...any) string { return p.bench.Say(key, args...) }

// Load reads the life of the head.
func (p *Presenter) Load(ctx context.Context) error {
	h, err := p.bench.Life(ctx)
	if err != nil {
		return err
	}
	testers, err := p.bench.Testers(ctx)
	if err != nil {
		return err
	}
	days, err := p.bench.UsualDays(ctx)
	if err != nil {
		return err
	}
	p.read, p.testers, p.days = h, testers, days
	return nil
}

// Day is the day that is entered for, and SetDay takes another.
func (p *Presenter) Day() string { return p.bench.Words().Day(p.day.Shown()) }

// SetDay is described at [Presenter.Day].
func (p *Presenter) SetDay(text string) error {
	day := record.DateOf(text)
	if err := task.CheckDay(day, p.bench.Today()); err != nil {
		return err
	}
	p.day = day
	return nil
}

// Understood is how a line of running reads; what is wrong with it is said when it is kept.
func (p *Presenter) Understood(line string) string {
	if _, named, ok := strings.Cut(line, "="); ok {
		line = named
	}
	read, err := task.ReadRunLine(task.Usual(line, p.days), p.read.Runs)
	if err != nil || strings.TrimSpace(line) == "" {
		return ""
	}
	return read
}

// Log keeps what was run on the day.
func (p *Presenter) Log(ctx context.Context, line string) (say.Line, error) {
	if u, named, err := p.bench.NameDay(ctx, line); named || err != nil {
		if err != nil {
			return say.Line{}, err
		}
		key := "life.day-named"
		if u.Line == "" {
			key = "life.day-forgotten"
		}
		return say.New(key, u.Name, u.Line), p.Load(ctx)
	}
	run, err := p.bench.LogRun(ctx, p.day, line)
	if err != nil {
		return say.Line{}, err
	}
	return say.New("life.logged", task.RunLine(run), run.Day), p.Load(ctx)
}

// Days names the usual days of the engine; "" where it has none.
func (p *Presenter) Days() string {
	if len(p.days) == 0 {
		return ""
	}
	names := make([]string, len(p.days))
	for i, d := range p.days {
		names[i] = d.Name
	}
	return p.say("life.days", strings.Join(names, ", "))
}

// Sum says what the head did in all.
func (p *Presenter) Sum() string { return p.read.Sum() }

// mostRuns is how many runs are listed.
const mostRuns = 12

// RunRow is a run as it is listed.
type RunRow struct {
	Run       record.Run
	Day, Text string
}

// Runs are the last runs, the newest first, and how many more there are.
func (p *Presenter) Runs() (rows []RunRow, more int) {
	all := p.read.Runs
	for i := len(all) - 1; i >= 0 && len(rows) < mostRuns; i-- {
		rows = append(rows, RunRow{all[i], p.bench.Words().Day(all[i].Day.Shown()), task.RunLine(all[i])})
	}
	return rows, len(all) - len(rows)
}

// Forget takes a run or a check away.
func (p *Presenter) Forget(ctx context.Context, n record.Noun) error {
	if err := p.bench.Forget(ctx, n); err != nil {
		return err
	}
	return p.Load(ctx)
}

// Springs are the springs in the order of the head; none before the first check.
func (p *Presenter) Springs() []life.ValveWords {
	return p.read.InWords(p.bench.Words(), p.bench.Record().Setup.Units.Load)
}

// Choose takes the valve whose loads are drawn, and All all of them.
func (p *Presenter) Choose(row int) { p.chosen, p.all = row, false }

// All is described at [Presenter.Choose].
func (p *Presenter) All() { p.all = true }

// Chosen is the valve whose loads are drawn: the one that was chosen, or the worst.
func (p *Presenter) Chosen() int {
	if p.chosen >= 0 {
		return p.chosen
	}
	return p.read.Worst()
}

// Graph is the loads of the spring that is chosen; false where there is nothing to draw.
func (p *Presenter) Graph() (life.Graph, bool) {
	at := p.Chosen()
	if at < 0 || at >= len(p.read.Valves) {
		return life.Graph{}, false
	}
	setup := &p.bench.Record().Setup
	return p.read.Graph(p.read.Valves[at], setup.Rules.LoadLost, setup.Units.Load)
}

// Counted says from when losses count; "" before the first check.
func (p *Presenter) Counted() string { return p.bench.Words().Line(p.read.CountedFrom()) }

// Dues are what falls due, what is due already first.
func (p *Presenter) Dues() (all []string) {
	for _, over := range []bool{true, false} {
		for _, d := range p.bench.Dues(p.read) {
			if d.Over != over {
				continue
			}
			all = append(all, p.bench.Words().Line(task.DueOn(d)))
		}
	}
	return all
}

// Open is how many springs are to be changed.
func (p *Presenter) Open() int {
	n := 0
	for _, v := range p.read.Valves {
		if v.Verdict == life.Replace {
			n++
		}
	}
	return n
}

// Path is where the report goes where nobody says otherwise.
func (p *Presenter) Path() string { return p.bench.OutPath(task.OutLife) }

// Save writes the report and says where it is.
func (p *Presenter) Save(ctx context.Context, path string, replace bool) (say.Line, error) {
	where, err := p.bench.SaveLife(ctx, path, replace)
	if err != nil {
		return say.Line{}, err
	}
	return say.New("report.saved", where), nil
}
