package needs

import (
	"slices"
	"strings"

	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// works lists the works of the job: the usual ones, said or not, and then whatever else was entered.
func (p *Presenter) works() []record.Check {
	said := slices.Clone(p.bench.Record().Setup.Checks)
	var all []record.Check
	for _, key := range task.UsualChecks() {
		what := p.bench.Say(key)
		at := slices.IndexFunc(said, func(c record.Check) bool { return strings.EqualFold(c.What, what) })
		if at < 0 {
			all = append(all, record.Check{What: what})
			continue
		}
		all = append(all, said[at])
		said = slices.Delete(said, at, at+1)
	}
	return append(all, said...)
}

// checks asks of each work whether it was done here and by whom.
func (p *Presenter) checks() section {
	var all []spec
	for _, c := range p.works() {
		all = append(all, p.done(c))
		if c.ID != "" {
			all = append(all, p.who(c), p.remark(c))
		}
	}
	all = append(all, spec{
		Field: Field{Name: "check.other", Label: p.bench.Say("needs.check-other"), Long: true},
		put: func(text string) ([]record.Noun, error) {
			if strings.TrimSpace(text) == "" {
				return nil, say.Fail(say.Invalid, "needs.check-empty")
			}
			return []record.Noun{p.bench.NewCheck(text, record.NotDoneHere)}, nil
		},
	})
	note := p.bench.Say("needs.checks-note")
	for _, l := range p.bench.Evaluation().Unlooked {
		note += " " + p.bench.Say("needs.unlooked", l)
	}
	return section{"checks", p.bench.Say("needs.group.checks"), note, all}
}

func checkName(what string) string { return "check " + what }

// done is the answer of one work: done here, not here, or nothing said yet.
func (p *Presenter) done(c record.Check) spec {
	return spec{
		Field: Field{Name: checkName(c.What), Label: c.What, Value: string(c.Done), Options: []Option{
			{string(record.DoneHere), p.bench.Say("needs.check-here")},
			{string(record.NotDoneHere), p.bench.Say("needs.check-not-here")},
			{"", p.bench.Say("needs.check-unsaid")},
		}},
		put: func(text string) ([]record.Noun, error) {
			next := p.bench.NewCheck(c.What, record.Done(text))
			if c.ID == "" {
				return []record.Noun{next}, nil
			}
			// A name of somebody else stands whatever the answer.
			if c.Who == "" || c.Who == p.bench.Who() {
				c.Who = next.Who
			}
			c.Done = next.Done
			return []record.Noun{c}, nil
		},
		remove: func(text string) record.Noun {
			if text == "" && c.ID != "" {
				return c
			}
			return nil
		},
	}
}

func (p *Presenter) who(c record.Check) spec {
	return spec{
		Field: Field{Name: checkName(c.What) + ".who", Label: p.bench.Say("needs.check-who"), Value: c.Who, Long: true, Beside: true},
		put: func(text string) ([]record.Noun, error) {
			c.Who = strings.TrimSpace(text)
			return []record.Noun{c}, nil
		},
	}
}

func (p *Presenter) remark(c record.Check) spec {
	return spec{
		Field: Field{Name: checkName(c.What) + ".note", Label: p.bench.Say("needs.check-note"), Value: c.Note, Long: true, Beside: true},
		put: func(text string) ([]record.Noun, error) {
			c.Note = strings.TrimSpace(text)
			return []record.Noun{c}, nil
		},
	}
}

func (p *Presenter) unsaidChecks() int {
	n := 0
	for _, c := range p.works() {
		if c.ID == "" {
			n++
		}
	}
	return n
}

// firstUnsaid is the field of the first work of which nobody said anything.
func (p *Presenter) firstUnsaid() string {
	for _, c := range p.works() {
		if c.ID == "" {
			return checkName(c.What)
		}
	}
	return ""
}
