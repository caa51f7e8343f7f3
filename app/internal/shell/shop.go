package shell

import (
	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/task"
)

// Shop makes the shop's pages of a book. What takes longer than a key press is run by background.
type Shop func(host kit.Host, desk *task.Desk, background func(work func())) (Pages, error)

// ShopPages shows the shop's pages in the place of the head, unless something of it would be lost.
func (s *Shell) ShopPages() {
	if s.presenter.Desk() == nil || s.cfg.Shop == nil {
		return
	}
	s.leaving(s.openShop)
}

func (s *Shell) openShop() {
	pages, err := s.cfg.Shop(s, s.presenter.Desk(), s.cfg.Background)
	if err != nil {
		s.Fail(err)
		return
	}
	s.stand(pages)
}

// leaveShop goes back to the head, which is read again: its parts may have changed.
func (s *Shell) leaveShop() {
	if b := s.presenter.Bench(); b != nil {
		s.OpenSetup(b.Record().Setup.ID)
		return
	}
	s.leaving(s.arrange)
}
