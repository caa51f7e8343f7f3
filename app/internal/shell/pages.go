package shell

import (
	"context"
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
	s.said()
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
	s.leave()
	was := ""
	if d := s.presenter.Desk(); d != nil {
		was = d.Path()
	}
	s.presenter.CloseBook() // what cannot be copied of it stays in the file, which is kept
	s.work(s.line("copies.putting-back"), func(ctx context.Context) func() {
		before, err := task.Restore(ctx, path, copy, s.cfg.Clock())
		return func() { s.restored(path, was, before, err) }
	})
}

// restored goes on after a copy was put in the place of a book, or was not: then what was open is opened again.
func (s *Shell) restored(path, was, before string, err error) {
	open := err == nil
	if open {
		err = s.open(path)
		open = err == nil
	} else if was != "" {
		open = s.open(was) == nil
	}
	if !open {
		s.arrange()
	}
	switch {
	case err != nil:
		s.ended(err, "copies.putting-stopped")
	case before == "":
		s.Tell(say.New("copies.restored-none"))
	default:
		s.Tell(say.New("copies.restored", before))
	}
}

// damaged looks through the copies of a book that is damaged and offers the newest, and to save what is left of it.
func (s *Shell) damaged(path string) {
	second := s.CopiesFolder()
	s.work(s.line("copies.reading"), func(ctx context.Context) func() {
		all, err := task.Copies(ctx, path, second)
		if err != nil {
			return nil // the book's own fault is said
		}
		return func() { s.offer(path, all) }
	})
}

// offer offers what can be done with a damaged book.
func (s *Shell) offer(path string, all []task.CopyLine) {
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
	second := s.CopiesFolder()
	s.work(s.line("copies.saving", filepath.Base(path)), func(ctx context.Context) func() {
		to, got, err := task.Salvage(ctx, path, second, "", s.cfg.Clock)
		return func() {
			if err == nil {
				err = s.open(to)
			}
			if s.ended(err, "copies.saving-stopped") {
				s.Tell(say.New("copies.saved", got.Found, got.Lost+got.Left))
			}
		}
	})
}

// CheckSheet asks for a signed sheet and looks at it.
func (s *Shell) CheckSheet() {
	var asked *pathDialog
	asked = s.askPath(say.New("shell.check-sheet"), say.New("shell.check-what"), s.place()+string(filepath.Separator), sheetEnding, func(path string) error {
		asked.close() // what the check lays over the window would go with it
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

// dropped takes what was dropped on the window: a signed sheet, a table, a record, or a book. Each is looked at before it is
// taken, so that several at once are refused and none of them is taken by chance.
func (s *Shell) dropped(_ fyne.Position, all []fyne.URI) {
	if len(all) == 0 || kit.Busy(s.win) {
		return
	}
	if len(all) > 1 {
		s.Fail(say.Fail(say.Invalid, "shell.dropped-several", len(all)))
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
