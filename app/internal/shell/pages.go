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

// Copies shows the copies of the open book.
func (s *Shell) Copies() {
	if d := s.presenter.Desk(); d != nil && s.cfg.Copies != nil {
		s.leaving(func() { s.stand(s.cfg.Copies(s, d, s.cfg.Background)) })
	}
}

// CopiesFolder is the second folder that takes copies of books; "" for none.
func (s *Shell) CopiesFolder() string { return s.memory.Look().Copies }

// SetCopiesFolder takes another second folder, or none.
func (s *Shell) SetCopiesFolder(text string) error {
	folder, err := task.SecondFolder(text)
	if err != nil {
		return err
	}
	s.memory.Show(func(l *Look) { l.Copies = folder })
	if d := s.presenter.Desk(); d != nil {
		d.Second = folder
	}
	return nil
}

// Restore puts a copy in the place of the open book, and opens it.
func (s *Shell) Restore(copy string) { s.putBack(s.presenter.Desk().Path(), copy) }

// putBack puts a copy in the place of a book, and opens it.
func (s *Shell) putBack(path, copy string) {
	var before string
	err := s.enter(func() (err error) {
		before, err = s.presenter.Restore(path, copy)
		return err
	})
	switch {
	case err != nil:
		s.Fail(err)
		s.arrange()
	case before == "":
		s.Tell(say.New("copies.restored-none"))
	default:
		s.Tell(say.New("copies.restored", before))
	}
}

// damaged offers the newest copy of a book that is damaged, and to save what is left of it.
func (s *Shell) damaged(path string) {
	all, err := task.Copies(s.ctx, path, s.CopiesFolder())
	if err != nil {
		return // the book's own fault is said
	}
	what, choices := s.line("copies.save-what"), []kit.Choice{{Label: s.line("copies.save-yes"), Do: func() { s.salvage(path) }}}
	for _, c := range all {
		if c.Bad.Zero() {
			what = s.line("copies.damaged-what", say.MinuteOf(c.At.Local()), c.Holds()) + "\n" + what
			choices = append([]kit.Choice{{Label: s.line("copies.back-yes"), Do: func() { s.putBack(path, c.Path) }}}, choices...)
			break
		}
	}
	kit.Ask(s.Window(), s.line("copies.damaged"), what, append(choices, kit.Choice{Label: s.line("shell.not-now"), Primary: true, Cancel: true}))
}

// salvage makes a new book of what is left of a damaged one, and opens it.
func (s *Shell) salvage(path string) {
	to, got, err := task.Salvage(s.ctx, path, s.CopiesFolder(), "", s.cfg.Clock)
	if err == nil {
		err = s.open(to)
	}
	if err != nil {
		s.Fail(err)
		return
	}
	s.Tell(say.New("copies.saved", got.Found, got.Lost+got.Left))
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
		s.closed(func() { s.Reopen(path) })
	case ".json", ".csv", ".tsv", ".txt":
		if s.presenter.Desk() == nil || s.presenter.ReadingOnly() {
			s.Fail(say.Fail(say.NotFound, "shell.dropped-nowhere", filepath.Base(path)))
			return
		}
		if err := s.takeIn(path); err != nil {
			s.Fail(err)
		}
	default:
		s.Fail(say.Fail(say.Invalid, "shell.dropped", filepath.Base(path)))
	}
}
