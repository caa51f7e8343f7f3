package shell

import (
	"path/filepath"
	"strings"

	"keeperbook/app/internal/task"
	"keeperbook/model/say"
)

// TakeIn asks for a file and takes it into the open book.
func (s *Shell) TakeIn() {
	s.askPath(say.New("shell.take-in"), say.New("shell.take-in-what"), s.place()+string(filepath.Separator), "", s.takeIn, nil)
}

// takeIn takes a file in: a signed sheet and a table of readings are looked at before.
func (s *Shell) takeIn(path string) error {
	kind, err := task.KindOf(path)
	if err != nil {
		return err
	}
	desk := s.presenter.Desk()
	switch kind {
	case task.SheetFile:
		s.Check(path)
		return nil
	case task.ReadFile:
		table, err := desk.OpenTable(s.ctx, path, s.presenter.Bench())
		if err == nil {
			s.leaving(func() { s.stand(s.cfg.Table(s, table)) })
		}
		return err
	}
	lines, err := desk.TakeFile(s.ctx, path)
	if err != nil {
		return err
	}
	words := make([]string, len(lines))
	for i, l := range lines {
		words[i] = s.printer().Line(l)
	}
	s.register = nil
	s.arrange()
	s.Tell(say.New("shell.taken-in", strings.Join(words, " ")))
	return nil
}
