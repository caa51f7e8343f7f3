package shell

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"keeperbook/app/internal/kit"
	"keeperbook/model/say"
)

// reader is a page of sentences in place of what the window shows. Arrows scroll it, Esc or Enter goes
// back.
type reader struct {
	widget.BaseWidget
	scroll *container.Scroll
	back   func()
	body   fyne.CanvasObject
}

// readOut reads sentences out under a title. What was shown before stands there again afterwards.
func (s *Shell) readOut(title string, lines []say.Line) {
	if s.reader != nil {
		s.reader.back()
	}
	before, side := s.middle.Objects, s.side.Objects
	r := &reader{}
	r.back = func() {
		s.reader = nil
		s.middle.Objects, s.side.Objects = before, side
		s.frame.Refresh()
		s.focus()
	}
	texts := []fyne.CanvasObject{kit.NewTitle(s.line(title))}
	for _, l := range lines {
		texts = append(texts, kit.NewText(s.words.Line(l)))
	}
	texts = append(texts, container.NewHBox(kit.NewButton(s.line("shell.back"), s.line("kit.esc"), func() { r.back() })))
	r.scroll = container.NewVScroll(container.New(&middling{em: 46}, kit.Column(texts...)))
	r.body = container.NewPadded(r.scroll)
	r.ExtendBaseWidget(r)
	s.reader = r
	s.side.Objects, s.middle.Objects = nil, []fyne.CanvasObject{r}
	s.frame.Refresh()
	s.win.Canvas().Focus(r)
}

// CreateRenderer is the toolkit's.
func (r *reader) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(r.body) }

// FocusGained is the toolkit's; the page has nothing to show for it.
func (r *reader) FocusGained() {}

// FocusLost is the toolkit's.
func (r *reader) FocusLost() {}

// TypedRune is the toolkit's; nothing is typed into a page.
func (r *reader) TypedRune(rune) {}

// TypedKey scrolls, and goes back.
func (r *reader) TypedKey(k *fyne.KeyEvent) {
	if kit.Wherever(r, k) {
		return
	}
	page := r.scroll.Size().Height
	switch k.Name {
	case fyne.KeyEscape, fyne.KeyReturn, fyne.KeyEnter:
		r.back()
	case fyne.KeyDown:
		r.by(2 * em())
	case fyne.KeyUp:
		r.by(-2 * em())
	case fyne.KeyPageDown, fyne.KeySpace:
		r.by(0.9 * page)
	case fyne.KeyPageUp:
		r.by(-0.9 * page)
	case fyne.KeyHome:
		r.scroll.ScrollToTop()
	case fyne.KeyEnd:
		r.scroll.ScrollToBottom()
	}
}

func (r *reader) by(y float32) {
	most := max(r.scroll.Content.MinSize().Height-r.scroll.Size().Height, 0)
	r.scroll.ScrollToOffset(fyne.NewPos(0, min(max(r.scroll.Offset.Y+y, 0), most)))
}
