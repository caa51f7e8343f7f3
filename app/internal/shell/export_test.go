package shell

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage"

	"keeperbook/app/internal/task"
)

// Drop drops files on the window.
func (s *Shell) Drop(paths ...string) {
	var all []fyne.URI
	for _, p := range paths {
		all = append(all, storage.NewFileURI(p))
	}
	s.dropped(fyne.Position{}, all)
}

// TakeFile takes a file in as if it were dropped on the window.
func (s *Shell) TakeFile(path string) error { return s.takeIn(path) }

// Word is the name of the page of help about what has the cursor.
func (s *Shell) Word() string { return s.word() }

// Desk is the open book.
func (s *Shell) Desk() *task.Desk { return s.presenter.Desk() }
