package shell

import (
	"context"
	"errors"
	"path/filepath"
	"strings"

	"keeperbook/app/internal/task"
	"keeperbook/model/say"
)

// TakeIn asks for a file and takes it into the open book.
func (s *Shell) TakeIn() {
	var asked *pathDialog
	asked = s.askPath(say.New("shell.take-in"), say.New("shell.take-in-what"), s.place()+string(filepath.Separator), "", func(path string) error {
		kind, err := task.KindOf(path)
		if err == nil {
			asked.close()
			s.take(kind, path)
		}
		return err
	}, nil)
}

// takeIn takes a file in, or refuses one that is nothing to take in.
func (s *Shell) takeIn(path string) error {
	kind, err := task.KindOf(path)
	if err == nil {
		s.take(kind, path)
	}
	return err
}

// take takes a file in: a signed sheet and a table of readings are looked at before.
func (s *Shell) take(kind task.FileKind, path string) {
	switch kind {
	case task.SheetFile:
		s.Check(path)
	case task.ReadFile:
		s.openTable(path)
	default:
		s.leaving(func() { s.takeFile(path) })
	}
}

// openTable reads a table of readings and shows what it would bring in.
func (s *Shell) openTable(path string) {
	desk, bench := s.presenter.Desk(), s.presenter.Bench()
	s.work(s.line("work.take-in", filepath.Base(path)), func(ctx context.Context) func() {
		table, err := desk.OpenTable(ctx, path, bench)
		return func() {
			if s.ended(err, "work.not-taken", filepath.Base(path)) {
				s.leaving(func() { s.stand(s.cfg.Table(s, table, s.cfg.Background)) })
			}
		}
	})
}

// takeFile takes in what needs no look before.
func (s *Shell) takeFile(path string) {
	desk, known := s.presenter.Desk(), len(s.unkept())
	s.work(s.line("work.take-in", filepath.Base(path)), func(ctx context.Context) func() {
		lines, err := desk.TakeFile(ctx, path)
		var refused *task.Refused
		if errors.As(err, &refused) {
			err = refused.Short() // a banner has no room for hundreds of lines
		}
		return func() {
			if !s.ended(err, "work.not-taken", filepath.Base(path)) {
				return
			}
			words := make([]string, len(lines))
			for i, l := range lines {
				words[i] = s.printer().Line(l)
			}
			s.goOn(known, func() {
				s.register = nil
				s.anew()
				s.Tell(say.New("shell.taken-in", strings.Join(words, " ")))
			})
		}
	})
}
