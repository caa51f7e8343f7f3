package shell

import (
	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/screen/register"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// line puts a key of the catalogue into words.
func (s *Shell) line(key string, args ...any) string { return s.words.Line(say.New(key, args...)) }

// NewHead asks for a new head: first what every head needs, then what most have.
func (s *Shell) NewHead() { s.leaving(s.askHead) }

func (s *Shell) askHead() {
	d := s.draft
	blank := func(key, start string) kit.Blank { return kit.Blank{Label: s.line(key), Start: start} }
	blanks := []kit.Blank{
		blank("shell.head-tag", d.Tag), blank("shell.head-cylinders", d.Cylinders), blank("shell.head-valves", d.Valves),
		blank("shell.head-owner", d.Owner), blank("shell.head-engine", d.Engine), blank("shell.head-order", d.WorkOrder),
		blank("shell.head-casting", d.Casting), blank("shell.head-front", d.Front), blank("shell.head-length", d.Length),
		blank("shell.head-kind", d.Kind),
	}
	blanks[0].Check, blanks[1].Check, blanks[2].Check = register.CheckTag, register.CheckCylinders, register.CheckValves
	blanks[8].Check, blanks[9].Check = register.CheckLength, register.CheckKind
	kit.AskForm(s.Window(), s.line("shell.new-head"), blanks, func(t []string) error {
		return s.begin(register.Draft{
			Tag: t[0], Cylinders: t[1], Valves: t[2], Owner: t[3], Engine: t[4], WorkOrder: t[5], Casting: t[6],
			Front: t[7], Length: t[8], Kind: t[9],
		})
	})
}

// ChooseSetup offers the set-ups of the open head, the newest first.
func (s *Shell) ChooseSetup() {
	setups, open, err := s.presenter.Setups()
	if err != nil {
		s.Fail(err)
		return
	}
	choices := make([]kit.Choice, 0, len(setups)+1)
	for i, u := range setups {
		c := kit.Choice{Label: s.words.Line(SetupLine(u)), Primary: i == open, Do: func() { s.OpenSetup(u.ID) }}
		if i < len(letters) {
			c.Key = rune(letters[i])
		}
		choices = append(choices, c)
	}
	kit.Ask(s.Window(), s.line("shell.setups", s.presenter.Bench().Record().Head.Tag), s.line("shell.setups-what"), choices)
}

// letters pick a set-up; digits would be typed by gauges.
const letters = "abcdefghijklmnopqrstuvwxyz"

// AskFollow asks whether to begin a set-up from the open one.
func (s *Shell) AskFollow(kind record.SetupKind) {
	s.leaving(func() {
		word := say.New("setup." + string(kind))
		kit.Ask(s.Window(), s.line("shell.follow", word), s.line("shell.follow-what", s.presenter.Bench().Record().Head.Tag), []kit.Choice{
			{Label: s.line("shell.follow-yes"), Primary: true, Do: func() { s.Follow(kind) }},
			{Label: s.line("shell.not-now"), Cancel: true},
		})
	})
}

// refused says why a book did not open. One that is open elsewhere, or may not be written, can be read.
func (s *Shell) refused(path string, err error) {
	if !readable(err) {
		s.Fail(err)
		if say.CodeOf(err) == say.Damaged {
			s.damaged(path)
		}
		return
	}
	kit.Ask(s.Window(), s.line("shell.in-use"), kit.Sentence(err)+"\n"+s.line("shell.read-what"), []kit.Choice{
		{Label: s.line("shell.read-it"), Primary: true, Do: func() {
			if err := s.read(path); err != nil {
				s.Fail(err)
			}
		}},
		{Label: s.line("shell.not-now"), Cancel: true},
	})
}

// readable reports whether a book that did not open may at least be read.
func readable(err error) bool {
	return say.CodeOf(err) == say.Busy || say.CodeOf(err) == say.ReadOnly
}
