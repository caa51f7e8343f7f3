package shell

import (
	"net/url"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/task"
	"keeperbook/model/say"
)

// drawing is a leaf that draws one valve, which can leave as a file.
type drawing interface{ Drawn() task.Drawn }

// LeaveAs asks for the name of a file, whose ending says as what the open set-up leaves the book, and writes it.
func (s *Shell) LeaveAs() {
	bench := s.whole()
	var drawn task.Drawn
	for _, l := range s.leaves {
		if d, ok := l.Leaf.(drawing); ok {
			drawn = d.Drawn()
		}
	}
	usual := bench.OutPath(task.OutSheet)
	kit.Save(s, kit.Saving{
		Title:   s.line("shell.leave", bench.Record().Head.Tag),
		Label:   s.line("shell.leave-what", drawn.Valve),
		Path:    strings.TrimSuffix(usual, filepath.Ext(usual)) + ".xlsx",
		Replace: s.line("sheet.replace"), Cancel: s.line("kit.cancel"),
		Write: func(path string, replace bool) (say.Line, error) {
			where, err := bench.LeaveAs(path, drawn, replace)
			return say.New("shell.left", where), err
		},
	})
}

// whole is the open set-up with what pages that stand over it kept in it.
func (s *Shell) whole() *task.Bench {
	if s.shop != nil {
		if err := s.presenter.Reread(); err != nil {
			s.Fail(err)
		}
	}
	return s.presenter.Bench()
}

// view opens a file in the program that the system has for it. The path of a file: URL begins with a slash, before a drive too (RFC 8089).
func (s *Shell) view(path string) error {
	return s.app.OpenURL(&url.URL{Scheme: "file", Path: "/" + strings.TrimPrefix(filepath.ToSlash(path), "/")})
}

// Print opens the sheet in the system's viewer of PDF, from which it is printed.
func (s *Shell) Print() {
	write, err := s.whole().ToPrint()
	if err != nil {
		s.Fail(err)
		return
	}
	s.background(func() {
		file, err := write()
		fyne.Do(func() {
			if err != nil {
				s.Fail(err)
				return
			}
			if err := s.cfg.View(file); err != nil {
				s.Fail(say.Fail(say.NotFound, "shell.no-viewer", file).From(err))
				return
			}
			s.Tell(say.New("shell.printing"))
		})
	})
}
