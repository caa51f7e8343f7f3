package shell

import (
	"context"
	"errors"

	"keeperbook/app/internal/kit"
	"keeperbook/model/say"
)

// work does what may take long beside the window, which waits for it.
func (s *Shell) work(title string, do func(context.Context) (then func())) {
	kit.Run(s.ctx, s.Window(), s.cfg.Background, kit.Work{Title: title, Do: do})
}

// ended says what came of work that failed: what is left of it where somebody stopped it, else why. It reports whether it
// did not.
func (s *Shell) ended(err error, stopped string, args ...any) bool {
	switch {
	case errors.Is(err, context.Canceled):
		s.Tell(say.New(stopped, args...))
	case err != nil:
		s.Fail(err)
	}
	return err == nil
}
