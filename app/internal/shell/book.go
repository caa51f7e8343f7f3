package shell

import (
	"context"
	"os"
	"path/filepath"
	"runtime/debug"

	"fyne.io/fyne/v2"

	"keeperbook/app/internal/crash"
	"keeperbook/app/internal/task"
	"keeperbook/model/say"
)

// NewBook asks where a new book goes and opens it.
func (s *Shell) NewBook() {
	s.closed(func() {
		s.askPath(say.New("shell.new-book"), say.New("shell.new-book-what"), filepath.Join(s.place(), "heads"+task.BookEnding), task.BookEnding, s.make, nil)
	})
}

// OpenBook asks for a book and opens it.
func (s *Shell) OpenBook() {
	s.closed(func() {
		s.askPath(say.New("shell.open-book"), say.New("shell.open-book-what"), s.place()+string(filepath.Separator), task.BookEnding, s.open, s.refused)
	})
}

// SaveCopy asks where a copy of the open book goes.
func (s *Shell) SaveCopy() {
	path := s.presenter.Desk().Path()
	proposal := path[:len(path)-len(filepath.Ext(path))] + "-copy" + task.BookEnding
	s.askPath(say.New("shell.copy-book"), say.New("shell.copy-book-what"), proposal, task.BookEnding, func(path string) error {
		where, err := s.presenter.SaveCopy(path)
		if err == nil {
			s.Tell(say.New("shell.copied", where))
		}
		return err
	}, nil)
}

// CloseBook closes the book and goes back to the welcome page.
func (s *Shell) CloseBook() {
	s.closed(func() {
		s.leave()
		if err := s.presenter.LeaveBook(); err != nil {
			s.Fail(err)
		}
		s.arrange()
		s.saidUncopied()
	})
}

// Reopen opens a book that was open before.
func (s *Shell) Reopen(path string) {
	if err := s.open(path); err != nil {
		s.refused(path, err)
	}
}

// DemoBook writes the demonstration book into the folder for data, where it is not there yet, and opens it.
func (s *Shell) DemoBook() { s.closed(s.demo) }

func (s *Shell) demo() {
	folder, err := s.cfg.Folder()
	if err != nil {
		s.Fail(say.Fail(say.NotFound, "command.data-folder", err.Error()))
		return
	}
	known := len(s.unkept())
	s.work(s.line("shell.writing-demo"), func(ctx context.Context) func() {
		path, err := task.DemoBook(ctx, folder, s.cfg.Demo, s.cfg.Clock)
		return func() {
			if s.ended(err, "shell.demo-stopped") {
				s.goOn(known, func() { s.Reopen(path) })
			}
		}
	})
}

// background runs what takes longer than a key press.
func (s *Shell) background(work func()) {
	s.cfg.Background(work)
}

// beside runs work on a goroutine of its own. A fault in it would end the program without a word; it comes to the window's
// goroutine, where it is caught and written down.
func beside(work func()) {
	go func() {
		defer func() {
			if r := recover(); r != nil {
				f := crash.Of(r, debug.Stack())
				fyne.Do(func() { panic(f) })
			}
		}()
		work()
	}()
}

func (s *Shell) open(path string) error {
	return s.enter(func() error { return s.presenter.OpenBook(path) })
}

func (s *Shell) make(path string) error {
	return s.enter(func() error { return s.presenter.MakeBook(path) })
}

func (s *Shell) read(path string) error {
	return s.enter(func() error { return s.presenter.ReadBook(path) })
}

// enter opens a book and shows it. Where that fails, what is open stays as it is.
func (s *Shell) enter(open func() error) error {
	s.leave()
	if err := open(); err != nil {
		return err
	}
	s.register, s.told = nil, ""
	s.presenter.Resume()
	s.arrange()
	s.banner.Close() // what it said was of the book before
	s.warn()
	s.saidUncopied()
	return nil
}

// saidUncopied says why the book that was closed last was not copied. What was kept in it is on the disk all the same.
func (s *Shell) saidUncopied() {
	if err := s.presenter.Uncopied(); err != nil {
		s.Fail(err)
	}
}

// warn says what is to be known of where the open book lies.
func (s *Shell) warn() {
	if d := s.presenter.Desk(); d != nil && s.cfg.Elsewhere(d.Path()) {
		s.Fail(say.Fail(say.Conflict, "shell.network", filepath.Base(d.Path())))
	}
}

// place is the folder that a path is asked for from: that of the book opened last, else the data folder.
func (s *Shell) place() string {
	for _, path := range s.presenter.Recent() {
		if info, err := os.Stat(filepath.Dir(path)); err == nil && info.IsDir() {
			return filepath.Dir(path)
		}
	}
	if folder, err := os.UserHomeDir(); err == nil {
		return folder
	}
	return "."
}
