package pdf

import (
	"math"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// sure sets how sure the margin of a valve is, and what makes it so; without a margin, of its lift limit.
// Where nothing can be told there is nothing to set: the findings say it.
func (f *flow) sure(v evaluate.Valve, s *record.Setup) {
	figure, title := v.Margin, "sheet.sure"
	if _, ok := figure.U(); !ok {
		figure, title = v.UpTo, "sheet.sure-limit"
	}
	u, ok := figure.U()
	budget, err := figure.Sure()
	if !ok || err != nil {
		return
	}
	f.heading(f.say(title, v.Label))
	number := "sheet.sure-number"
	switch {
	case title == "sheet.sure":
	case s.Rules.Decision == record.Plain:
		number = "sheet.sure-limit-plain"
	default:
		number = "sheet.sure-limit-number"
	}
	line := f.say(number, figure.Value, unit.Up(u), unit.Fine(math.Round(budget.Std)), evaluate.Degrees(budget.Nu))
	if chance := v.ChanceLine(); !chance.Zero() && title == "sheet.sure" {
		line += " " + f.say("sheet.sure-chance", chance)
	}
	f.para(strong, 0, line)
	f.para(body, 0, f.say("sheet.sure-how"))
	f.skip(3)
	g := grid{
		titles: []string{
			f.say("sheet.sure-what"), f.say("sheet.sure-from"), f.say("sheet.sure-spread"), f.say("sheet.sure-times"),
			f.say("sheet.sure-u", string(s.Units.Length)), f.say("sheet.sure-share"),
		},
		shares: []float64{0.22, 0.28, 0.27, 0.075, 0.085, 0.07},
		once:   2,
	}
	for _, p := range figure.Parts() {
		g.rows = append(g.rows, []string{
			f.words.Line(p.What), f.words.Line(p.From), f.words.Line(p.How), f.words.Line(p.Times), f.words.Line(p.U), f.words.Line(p.Share),
		})
	}
	f.grid(g)
}

// sureLoads says of the loads of a valve how sure they are, in a line each.
func (f *flow) sureLoads(v evaluate.Valve, add func(say.Line)) {
	for _, key := range []string{seatKey, openKey} {
		load, _ := v.Load(key)
		u, ok := load.U()
		if decides := load.Decides(); ok && !decides.Zero() {
			add(say.New("sheet.load-sure", say.New("name."+key), load.Value, unit.UpLoad(u), decides))
		}
	}
}
