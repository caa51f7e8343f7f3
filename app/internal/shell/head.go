package shell

import (
	"keeperbook/app/internal/screen/register"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// door is what the register asks of the window. What it complains of goes away with the reason for it.
type door struct{ *Shell }

// Fail shows why nothing was opened.
func (d door) Fail(err error) {
	d.Shell.Fail(err)
	d.complaint = d.banner.Says()
}

// Deeds are what the register offers beside its heads: nothing in a book that is open to read only.
func (d door) Deeds() []register.Deed {
	if d.presenter.ReadingOnly() {
		return nil
	}
	return []register.Deed{{Label: d.line("shell.menu-new-head"), Do: d.NewHead}, {Label: d.line("shell.menu-take-in"), Do: d.TakeIn}}
}

// Well puts away what the register said, unless something else stands in its place by now.
func (s *Shell) Well() {
	if s.complaint != "" && s.banner.Says() == s.complaint {
		s.banner.Close()
	}
	s.complaint = ""
}

// OpenSetup opens a set-up of the book.
func (s *Shell) OpenSetup(id string) { s.openSetup(id, func() {}) }

// openSetup opens a set-up and goes on in it.
func (s *Shell) openSetup(id string, then func()) {
	s.leaving(func() {
		s.leave()
		if err := s.presenter.OpenSetup(id); err != nil {
			s.Fail(err)
			return
		}
		s.told = "" // it was said of what was open before
		s.arrange()
		s.Well()
		then()
	})
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
	s.Well()
	return nil
}
