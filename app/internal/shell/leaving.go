package shell

import (
	"strings"

	"keeperbook/app/internal/kit"
	"keeperbook/model/say"
)

// keeping is a leaf, or the shop's pages, in which something may stand that is not in the book: a text that is being typed or was
// refused, a reading in the tray.
type keeping interface {
	Unkept() []say.Line // a line for each, empty where everything is kept
}

// leaving does what takes the open head, or the whole window, out of sight. What was typed into a field
// is kept before, as it is whenever the keyboard leaves the field. Where something would be lost even so
// it is asked about first, and nothing happens where the answer is to stay.
func (s *Shell) leaving(then func()) {
	if s.asked || kit.Busy(s.win) {
		return // the question is open already, or what is being done would be lost
	}
	s.settle()
	lines := s.unkept()
	if len(lines) == 0 {
		then()
		return
	}
	words := make([]string, len(lines))
	for i, l := range lines {
		words[i] = s.printer().Line(l)
	}
	s.asked = true
	kit.Ask(s.Window(), s.line("shell.unkept"), strings.Join(words, "\n"), []kit.Choice{
		{Label: s.line("shell.unkept-stay"), Primary: true, Cancel: true, Do: func() { s.asked = false }},
		{Label: s.line("shell.unkept-leave"), Key: 'l', Do: func() {
			s.asked = false
			then()
		}},
	})
}

// goOn does what takes the open head out of sight, after work that was begun while so many things were not kept: whoever said then that
// they may go is asked once more only where a gauge typed another one meanwhile.
func (s *Shell) goOn(known int, then func()) {
	if len(s.unkept()) > known {
		s.leaving(then)
		return
	}
	then()
}

// settle has the field with the keyboard keep what was typed into it.
func (s *Shell) settle() { kit.Settle(s.win) }

// unkept is everything that would be lost.
func (s *Shell) unkept() (lines []say.Line) {
	if kit.Unanswered(s.win) {
		lines = append(lines, say.New("shell.unkept-dialog"))
	}
	if l, ok := s.shop.(keeping); ok {
		lines = append(lines, l.Unkept()...)
	}
	for _, t := range s.leaves {
		if l, ok := t.Leaf.(keeping); ok {
			lines = append(lines, l.Unkept()...)
		}
	}
	return lines
}
