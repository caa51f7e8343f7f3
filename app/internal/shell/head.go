package shell

import (
	"keeperbook/app/internal/screen/register"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// OpenSetup opens a set-up of the book.
func (s *Shell) OpenSetup(id string) {
	s.leave()
	if err := s.presenter.OpenSetup(id); err != nil {
		s.Fail(err)
		return
	}
	s.arrange()
}

// Find unfolds the register and puts the keyboard into its filter.
func (s *Shell) Find() {
	s.presenter.Fold(false)
	s.sideways()
	s.frame.Refresh()
	s.register.Focus(s.win.Canvas())
}

// Follow begins a set-up from the open one.
func (s *Shell) Follow(kind record.SetupKind) {
	s.leave()
	if err := s.presenter.Follow(kind); err != nil {
		s.Fail(err)
		return
	}
	s.behind = true
	s.arrange()
	s.Tell(say.New("shell.followed", say.New("setup."+string(kind))))
}

// begin keeps a new head and opens it.
func (s *Shell) begin(d register.Draft) error {
	n, err := d.Head()
	if err != nil {
		return err
	}
	s.leave()
	if err := s.presenter.Begin(n); err != nil {
		return err
	}
	s.draft, s.behind = d.Next(), true
	s.arrange()
	return nil
}
