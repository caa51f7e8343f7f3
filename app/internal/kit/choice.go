package kit

import (
	"strings"
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Select is a choice between a few words that are all seen. Arrows and first letters move through them,
// Enter commits and moves on, leaving commits, Esc gives the old choice back; a tap commits at once.
type Select struct {
	widget.BaseWidget
	Next  func()     // where Enter goes on; nil: to the next thing that takes the keyboard
	Typed func(rune) // a character that no option begins with; may be nil

	label   *Text
	below   *Text
	options []string
	value   int // the one that holds; −1 none
	at      int // the one that is marked
	focused bool
	commit  func(int) error
	shown   func(fyne.CanvasObject)
	cells   []*canvas.Rectangle
	words   []*canvas.Text
	outline *canvas.Rectangle
}

// NewChoice returns a choice between options, of which one is chosen; −1 is none. Commit is given the
// index and says why it will not do; it is not called for the one that holds already.
func NewChoice(label string, options []string, chosen int, commit func(int) error) *Select {
	s := &Select{label: NewHint(label), below: newText("", theme.SizeNameCaptionText, true), commit: commit}
	s.outline = canvas.NewRectangle(nil)
	s.ExtendBaseWidget(s)
	s.SetOptions(options, chosen)
	return s
}

// SetOptions shows other options.
func (s *Select) SetOptions(options []string, chosen int) {
	s.options, s.value, s.at = options, chosen, chosen
	s.cells, s.words = nil, nil
	for _, o := range options {
		s.cells = append(s.cells, canvas.NewRectangle(nil))
		s.words = append(s.words, canvas.NewText(o, nil))
	}
	s.Refresh()
}

// Set shows another choice. One that is marked and not committed stays marked.
func (s *Select) Set(chosen int) {
	pending := s.at != s.value
	s.value = chosen
	if !pending {
		s.at = chosen
	}
	s.Refresh()
}

// Value returns the index of the choice that holds, −1 for none.
func (s *Select) Value() int { return s.value }

// Focus puts the keyboard on the choice.
func (s *Select) Focus() { step(s, func(c fyne.Canvas) { c.Focus(s) }) }

func (s *Select) follow(reveal func(fyne.CanvasObject)) { s.shown = reveal }

// FocusGained is the toolkit's.
func (s *Select) FocusGained() {
	s.focused = true
	s.Refresh()
	if s.shown != nil {
		s.shown(s)
	}
}

// FocusLost commits what is marked.
func (s *Select) FocusLost() {
	s.focused = false
	if s.below.text == "" {
		s.Commit()
	}
	s.Refresh()
}

// TypedRune goes to the next option that begins with the letter.
func (s *Select) TypedRune(r rune) {
	for i := range s.options {
		n := (s.at + 1 + i) % len(s.options)
		first := []rune(strings.TrimSpace(s.options[n]))
		if len(first) > 0 && unicode.ToLower(first[0]) == unicode.ToLower(r) {
			s.mark(n)
			return
		}
	}
	if s.Typed != nil && r != ' ' {
		s.Typed(r)
	}
}

// TypedKey is the toolkit's.
func (s *Select) TypedKey(e *fyne.KeyEvent) {
	if Wherever(s, e) {
		return
	}
	switch e.Name {
	case fyne.KeyRight:
		s.mark(min(s.at+1, len(s.options)-1))
	case fyne.KeyLeft:
		s.mark(max(s.at-1, 0))
	case fyne.KeyHome:
		s.mark(0)
	case fyne.KeyEnd:
		s.mark(len(s.options) - 1)
	case fyne.KeyDown:
		step(s, fyne.Canvas.FocusNext)
	case fyne.KeyUp:
		step(s, fyne.Canvas.FocusPrevious)
	case fyne.KeyEscape:
		s.mark(s.value)
	case fyne.KeyReturn, fyne.KeyEnter:
		if !s.Commit() {
			return
		}
		if s.Next != nil {
			s.Next()
			return
		}
		step(s, fyne.Canvas.FocusNext)
	}
}

// Tapped chooses what was tapped.
func (s *Select) Tapped(e *fyne.PointEvent) {
	s.Focus()
	for i, c := range s.cells {
		p, size := c.Position(), c.Size()
		if e.Position.X >= p.X && e.Position.X < p.X+size.Width && e.Position.Y >= p.Y && e.Position.Y < p.Y+size.Height {
			s.mark(i)
			s.Commit()
		}
	}
}

func (s *Select) mark(i int) {
	s.at = i
	s.below.Set("")
	s.Refresh()
}

// Commit hands the marked option over if it does not hold already, and reports whether it holds now.
func (s *Select) Commit() bool {
	if s.at == s.value {
		return true
	}
	chosen := s.at
	if s.commit != nil {
		if err := s.commit(chosen); err != nil {
			s.below.Set(Sentence(err))
			s.Refresh()
			return false
		}
	}
	s.value = chosen
	s.mark(chosen)
	return true
}
