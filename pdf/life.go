package pdf

import (
	"fmt"
	"io"

	"gonum.org/v1/plot/vg"

	"keeperbook/model/life"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/pdf/figure"
)

// Report is the life of a set-up in service, to be printed.
type Report struct {
	Record *record.Record
	Life   life.Life
	Times  life.Times
	Lash   life.LashLog
	Ran    string   // what was run in all
	Runs   []Logged // the newest first
	Checks []Logged // the newest first
	Due    []string
	Day    record.Date // on which it is printed
	Paper  Paper
	Words  say.Printer
}

// Logged is something that was done on a day, in words.
type Logged struct{ Day, Text string }

// WriteReport writes the report as a PDF, in the way of [Write] and with its errors.
func WriteReport(w io.Writer, r Report) error { return writeTo(w, r.Paper, r.press) }

// mostPrinted is how many runs and checks are listed.
const mostPrinted = 60

func (r Report) press(width, height float64) *press {
	rec := r.Record
	out := newPress(width, height, made(rec), r.Words.Line(say.New("report.title", rec.Head.Tag)))
	f := newFlow(out, r.Words)
	f.shop(rec.Shop, f.say("report.sheet"))
	f.name(rec, f.say("setup."+string(rec.Setup.Kind)))
	f.facts(3, strong, f.filled([]fact{
		{"sheet.engine", rec.Engine.Name}, {"sheet.casting", rec.Head.Casting}, {"sheet.work-order", rec.Head.WorkOrder},
		{"sheet.begun", f.words.Day(rec.Setup.Begun.Day())}, {"report.day", f.words.Day(r.Day.Shown())}, {"sheet.setup", rec.Setup.ID},
	}))
	f.skip(4)
	f.para(strong, 0, r.Ran)
	for _, d := range r.Due {
		f.item("▪", d)
	}
	f.springsInService(r)
	if len(r.Times.Days)+len(r.Times.Checks) > 0 {
		f.drawn(f.say("life.times"), figure.TimesHigh*leastSize, figure.NewTimes(r.Times, r.Words))
	}
	f.lashLog(r)
	f.parts(rec)
	f.logged("report.runs", r.Runs)
	f.logged("report.checks", r.Checks)
	f.heading(f.say("sheet.cautions"))
	f.item("⚠", f.say("life.caution"))
	for _, l := range Cautions() {
		f.item("⚠", f.words.Line(l))
	}
	f.foot(f.say("report.foot", f.short(label, footTag, f.tag(rec)), rec.Setup.ID, r.Day), "")
	return out
}

// springsInService sets what each spring lost and what is to be done with it, and draws all of them and the worst.
func (f *flow) springsInService(r Report) {
	f.heading(f.say("life.springs"))
	rows := r.Life.InWords(f.words, r.Record.Setup.Units.Load)
	if len(rows) == 0 {
		f.para(body, 0, f.say("report.no-check"))
		return
	}
	f.para(label, 0, f.words.Line(r.Life.CountedFrom()))
	f.skip(2)
	g := grid{shares: []float64{0.08, 0.11, 0.13, 0.22, 0.46}, titles: []string{f.say("plan.head.valve")}}
	for _, key := range []string{"life.head-verdict", "life.head-lost", "report.loads", "life.head-why"} {
		g.titles = append(g.titles, f.say(key))
	}
	for _, row := range rows {
		loads := row.Loads
		if row.Last != "" {
			loads += ", " + row.Last
		}
		g.rows = append(g.rows, []string{row.Label, row.Verdict, row.Lost, loads, row.Why})
	}
	f.grid(g)
	rule := r.Record.Setup.Rules.LoadLost
	if all, ok := r.Life.GraphAll(rule); ok {
		f.drawn(f.say("life.plot-all"), 190, figure.NewLossesAll(all, f.words))
	}
	if worst := r.Life.Worst(); worst >= 0 {
		if one, ok := r.Life.Graph(r.Life.Valves[worst], rule, r.Record.Setup.Units.Load); ok {
			f.drawn(f.say("life.plot", one.Of), 190, figure.NewLosses(one, f.words))
		}
	}
}

// drawing is one that fills a rectangle.
type drawing interface {
	Draw(c vg.Canvas, size vg.Point, look figure.Look)
}

// drawn sets a drawing of a height under its title.
func (f *flow) drawn(title string, high float64, d drawing) {
	f.skip(6)
	f.need(strong.pitch() + high + 4)
	f.para(strong, 0, title)
	d.Draw(canvasAt(f.press, f.left, f.y+high), vg.Point{X: vg.Length(f.width()), Y: vg.Length(high)}, Look())
	f.y += high + 4
}

// lashLog sets the lash of the valves, check by check.
func (f *flow) lashLog(r Report) {
	const most = 6
	titles, rows, more := r.Lash.InWords(f.words, most)
	if len(rows) == 0 {
		return
	}
	f.heading(f.say("life.lash-title"))
	f.para(label, 0, f.say("life.lash-how"))
	g := grid{titles: append([]string{f.say("plan.head.valve")}, titles...), shares: []float64{0.08}}
	for range titles {
		g.shares = append(g.shares, 0.92/float64(len(titles)))
	}
	g.rows = rows
	f.grid(g)
	if more > 0 {
		f.para(label, 0, f.say("life.lash-more", more))
	}
}

// logged lists what was done, day by day.
func (f *flow) logged(key string, all []Logged) {
	if len(all) == 0 {
		return
	}
	f.heading(f.say(key))
	var facts []fact
	for _, l := range all[:min(len(all), mostPrinted)] {
		facts = append(facts, fact{l.Day, l.Text})
	}
	f.list(70, facts)
	if more := len(all) - mostPrinted; more > 0 {
		f.para(label, 0, f.say("report.more", fmt.Sprint(more)))
	}
}
