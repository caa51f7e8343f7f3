package shell

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/task"
)

// Pages are what belongs to the shop and not to one head: springs, gauges, rules, its name.
type Pages interface {
	Object() fyne.CanvasObject
	Refresh()
	Focus()
}

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
	s.leave()
	s.leaves, s.stale, s.tabs, s.shop = nil, nil, nil, pages
	s.menu()
	back := kit.NewButton(s.line("shell.shop-back"), "", s.leaveShop)
	s.middle.Objects = []fyne.CanvasObject{
		container.NewBorder(container.NewPadded(kit.Buttons(back)), nil, nil, nil, pages.Object()),
	}
	s.middle.Refresh()
	pages.Refresh()
	pages.Focus()
}

// leaveShop goes back to the head, which is read again: its parts may have changed.
func (s *Shell) leaveShop() {
	if b := s.presenter.Bench(); b != nil {
		s.OpenSetup(b.Record().Setup.ID)
		return
	}
	s.leaving(s.arrange)
}
