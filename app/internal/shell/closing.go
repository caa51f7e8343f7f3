package shell

import (
	"context"
	"errors"
	"os"

	"keeperbook/app/internal/kit"
)

// longCopy is the size of a book in bytes from which its copy takes longer than a blink.
const longCopy = 20 << 20

// closed does what closes the open book, once nothing is lost by it and the book is copied.
func (s *Shell) closed(then func()) { s.leaving(func() { s.closing(then) }) }

// closing does what closes the open book. A large book is copied beside the window first, which can be left; one that
// cannot be copied is closed only where whoever sits there says so.
func (s *Shell) closing(then func()) {
	s.presenter.CopyWhenClosed(true)
	desk := s.presenter.Desk()
	if desk == nil || s.presenter.ReadingOnly() {
		then()
		return
	}
	info, err := os.Stat(desk.Path())
	if err != nil || info.Size() < s.cfg.LongCopy {
		_, err := desk.BackUp(s.ctx, 0)
		s.backedUp(err, then)
		return
	}
	known := len(s.unkept())
	kit.Run(s.ctx, s.Window(), s.cfg.Background, kit.Work{
		Title: s.line("shell.copying"), Text: s.line("shell.copying-what"), Stop: s.line("shell.copying-stop"),
		Do: func(ctx context.Context) func() {
			_, err := desk.BackUp(ctx, 0)
			return func() { s.goOn(known, func() { s.backedUp(err, then) }) }
		},
	})
}

// backedUp goes on after a book was copied, or was not.
func (s *Shell) backedUp(err error, then func()) {
	without := func() {
		s.presenter.CopyWhenClosed(false)
		then()
	}
	switch {
	case err == nil:
		then()
	case errors.Is(err, context.Canceled):
		without()
	default:
		s.asked = true
		kit.Ask(s.Window(), s.line("shell.not-copied"), kit.Sentence(err), []kit.Choice{
			{Label: s.line("shell.unkept-stay"), Primary: true, Cancel: true, Do: func() { s.asked = false }},
			{Label: s.line("shell.not-copied-close"), Key: 'c', Do: func() {
				s.asked = false
				without()
			}},
		})
	}
}
