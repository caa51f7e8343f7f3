package shell

import (
	"context"

	"keeperbook/app/internal/task"
	"keeperbook/model/say"
)

// FirstHead opens the head of the first lesson, made where it is not there yet, and says what comes next on it until somebody
// puts that away.
func (s *Shell) FirstHead() {
	s.closed(func() {
		folder, err := s.cfg.Folder()
		if err != nil {
			s.Fail(say.Fail(say.NotFound, "command.data-folder", err.Error()))
			return
		}
		known := len(s.unkept())
		s.work(s.line("shell.writing-first"), func(ctx context.Context) func() {
			path, err := task.FirstBook(ctx, folder, s.cfg.Demo, s.cfg.Clock)
			return func() {
				if s.ended(err, "shell.demo-stopped") {
					s.goOn(known, func() { s.openFirst(path) })
				}
			}
		})
	})
}

// openFirst opens the head of the first lesson and begins it.
func (s *Shell) openFirst(path string) {
	if err := s.open(path); err != nil {
		s.Fail(err)
		return
	}
	s.lesson = true
	s.OpenSetup(task.FirstSetup)
	s.Show("valves")
	s.teach()
}

// teach says what comes next of the lesson, where one is on.
func (s *Shell) teach() {
	b := s.presenter.Bench()
	if !s.lesson || b == nil || b.Record().Setup.ID != task.FirstSetup {
		s.lesson = false
		return
	}
	line, over := b.Lesson()
	words := s.printer().Line(line)
	if s.banner.Says() == words {
		return
	}
	s.banner.Say(words) // putting it away leaves the lesson
	s.lesson = !over
	s.frame.Refresh()
}
