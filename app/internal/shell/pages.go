package shell

import (
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/task"
	"keeperbook/model/say"
)

// Pages stand in the place of the head: those of the shop, the history of a set-up, what falls due, the check
// of a sheet.
type Pages interface {
	Object() fyne.CanvasObject
	Refresh()
	Focus()
}

// stand shows pages in the place of the head.
func (s *Shell) stand(pages Pages) {
	s.leave()
	s.leaves, s.stale, s.tabs, s.shop, s.reader = nil, nil, nil, pages, nil
	s.menu()
	back := kit.NewButton(s.line("shell.shop-back"), "", s.leaveShop)
	s.middle.Objects = []fyne.CanvasObject{
		container.NewBorder(container.NewPadded(kit.Buttons(back)), nil, nil, nil, pages.Object()),
	}
	s.middle.Refresh()
	pages.Refresh()
	pages.Focus()
}

// History shows what became of the open set-up.
func (s *Shell) History() {
	if b := s.presenter.Bench(); b != nil && s.cfg.History != nil {
		s.leaving(func() { s.stand(s.cfg.History(s, b, s.cfg.Background)) })
	}
}

// Due shows what falls due in the open book.
func (s *Shell) Due() {
	if d := s.presenter.Desk(); d != nil && s.cfg.Due != nil {
		s.leaving(func() { s.stand(s.cfg.Due(s, d, s.cfg.Background)) })
	}
}

// CheckSheet asks for a signed sheet and looks at it.
func (s *Shell) CheckSheet() {
	s.askPath(say.New("shell.check-sheet"), say.New("shell.check-what"), s.place()+string(filepath.Separator), sheetEnding, func(path string) error {
		s.Check(path)
		return nil
	}, nil)
}

// sheetEnding is that of sheets.
const sheetEnding = ".pdf"

// Check looks at a signed sheet.
func (s *Shell) Check(path string) {
	if s.cfg.Check == nil {
		return
	}
	s.leaving(func() { s.stand(s.cfg.Check(s, s.presenter.Desk(), s.presenter.ReadingOnly(), path, s.cfg.Background)) })
}

// dropped takes what was dropped on the window: a signed sheet, or a book.
func (s *Shell) dropped(_ fyne.Position, all []fyne.URI) {
	if len(all) == 0 {
		return
	}
	switch path := all[0].Path(); strings.ToLower(filepath.Ext(path)) {
	case sheetEnding:
		s.Check(path)
	case task.BookEnding:
		s.leaving(func() { s.Reopen(path) })
	default:
		s.Fail(say.Fail(say.Invalid, "shell.dropped", filepath.Base(path)))
	}
}
