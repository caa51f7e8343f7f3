package shell

import (
	"fyne.io/fyne/v2"
	"time"

	"keeperbook/app/internal/kit"
	"keeperbook/model/say"
)

// The window is what the screens ask things of.
var _ kit.Host = (*Shell)(nil)

// Window returns the window. What a gauge types into a dialog over it answers nothing, and goes to the
// leaf that keeps such readings.
func (s *Shell) Window() fyne.Window { return kit.Listening(s.win, s.cfg.Clock, s.Stray) }

// Tell shows a sentence on the bottom line. It gives way to the next one, and to the summary with the
// next change but the one it was said of, or when somebody goes to another page.
func (s *Shell) Tell(line say.Line) {
	s.told, s.fresh = s.printer().Line(line), true
	s.bottom()
}

// said takes back what was told: whoever goes to another page has read it, and is not told it there.
func (s *Shell) said() {
	s.told = ""
	s.bottom()
}

// Fail shows the sentence of an error in the banner, until it is put away. Where the book is not where it
// was, a copy can be saved at once.
func (s *Shell) Fail(err error) {
	err = kit.Said(s.printer(), err)
	var actions []kit.Action
	if say.CodeOf(err) == say.Moved && s.presenter.Desk() != nil {
		actions = append(actions, kit.Action{Label: s.line("shell.menu-copy"), Do: s.SaveCopy})
	}
	s.banner.Fail(err, actions...)
	s.frame.Refresh()
}

// Changed draws what shows the set-up: heading, counts, bottom line and the leaf in sight. The other
// leaves are drawn when they come into sight.
func (s *Shell) Changed() {
	if s.presenter.Bench() == nil {
		return
	}
	if line := s.presenter.Bench().Notice(); !line.Zero() {
		s.told = s.printer().Line(line)
	} else if !s.fresh {
		s.told = ""
	}
	s.fresh = false
	for i := range s.stale {
		s.stale[i] = i != s.shown
	}
	if s.shown < len(s.leaves) {
		s.leaves[s.shown].Leaf.Refresh()
	}
	s.heading.refresh()
	s.count()
	s.bottom()
	s.behind = true
	s.backUp()
	s.teach()
}

// backUp copies the book beside the window, once the newest copy is an hour old. It asks no more often than every few minutes.
func (s *Shell) backUp() {
	const hour, seldom = time.Hour, 5 * time.Minute
	now := s.cfg.Clock()
	if s.presenter.ReadingOnly() || now.Sub(s.copied) < seldom {
		return
	}
	s.copied = now
	desk := s.presenter.Desk()
	s.background(func() {
		if _, err := desk.BackUp(s.ctx, hour); err != nil {
			fyne.Do(func() {
				if s.presenter.Desk() == desk { // a book that was closed meanwhile is copied as it is closed
					s.Fail(err)
				}
			})
		}
	})
}

// Moved is called by a leaf whose place changed and nothing else: what comes next is another thing now.
func (s *Shell) Moved() {
	s.bottom()
	s.leave()
}

// Stray takes what a gauge typed into a dialog, and gives it to the leaf that keeps such readings.
func (s *Shell) Stray(text string) {
	for _, l := range s.leaves {
		if t, ok := l.Leaf.(interface{ Stray(text string) }); ok {
			t.Stray(text)
		}
	}
	if t, ok := s.shop.(interface{ Stray(text string) }); ok {
		t.Stray(text)
	}
}

// Show goes to a leaf of the open head.
func (s *Shell) Show(leaf string) {
	for i, l := range s.leaves {
		if l.Key == leaf {
			s.choose(i)
		}
	}
}

// printer shows values in the units of the open set-up.
func (s *Shell) printer() say.Printer {
	if b := s.presenter.Bench(); b != nil {
		return b.Words()
	}
	return s.words
}

// next is what the leaf in sight says to do now, where it says anything: a reading lands where its cursor
// is, which need not be what the set-up misses first.
func (s *Shell) next() string {
	if s.shown >= len(s.leaves) {
		return ""
	}
	if l, ok := s.leaves[s.shown].Leaf.(interface{ Next() say.Line }); ok {
		return s.printer().Line(l.Next())
	}
	return ""
}

// bottom writes the bottom line.
func (s *Shell) bottom() {
	b := s.presenter.Bottom()
	switch {
	case s.away:
		b.Next = s.words.Line(say.New("shell.away"))
	case s.next() != "":
		b.Next = s.next()
	case b.Next != "":
		b.Next = s.words.Line(say.New("shell.next", b.Next))
	}
	if s.told != "" {
		b.Summary = s.told
	}
	s.status.Set(b.Summary, b.Next)
}
