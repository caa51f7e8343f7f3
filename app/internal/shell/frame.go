package shell

import (
	"context"
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/screen/register"
	"keeperbook/app/internal/screen/welcome"
	"keeperbook/app/internal/task"
	"keeperbook/model/say"
)

// Shell is the window.
type Shell struct {
	ctx       context.Context
	app       fyne.App
	win       fyne.Window
	cfg       Config
	memory    *Memory
	sounds    *kit.Sounds
	presenter *Presenter
	words     say.Printer
	draft     register.Draft // the next new head
	away      bool           // the window does not get what is typed
	complaint string         // of the register, as the banner says it
	asked     bool           // whether to leave what is not kept
	told      string         // on the bottom line in place of the summary
	fresh     bool           // it was told since the last change
	copied    time.Time      // when it was last looked whether a copy is due

	frame    *fyne.Container // laid out again whenever what is at its edges changes its size
	banner   *kit.Banner
	guide    *guide // the last that was shown; nil for none
	lesson   bool   // the banner says what comes next on the first head
	status   *kit.Status
	side     *fyne.Container // register, or the strip it folds to
	middle   *fyne.Container // welcome page, hint or open head
	welcome  *welcome.View
	reader   *reader // a page of help in place of what is open, or nil
	shop     Pages   // the shop's pages in place of what is open, or nil
	register *register.View
	behind   bool // the register has not been read since something changed
	heading  *heading
	tabs     *tabs
	leaves   []Tab
	titles   []string          // of the leaves, also while pages stand over them
	page     *container.Scroll // holds the leaf that is shown, and scrolls it where the window is too small for it
	shown    int               // index into leaves
	stale    []bool            // leaves that have not been drawn since the last change
}

// New builds the window of an application, with nothing open in it yet.
func New(ctx context.Context, app fyne.App, cfg Config) *Shell {
	if cfg.Memory == nil {
		cfg.Memory = OpenMemory("")
	}
	if cfg.Background == nil {
		cfg.Background = beside
	}
	if cfg.LongCopy == 0 {
		cfg.LongCopy = longCopy
	}
	if cfg.Elsewhere == nil {
		cfg.Elsewhere = task.OnNetwork
	}
	s := &Shell{
		ctx: ctx, app: app, cfg: cfg, memory: cfg.Memory, presenter: NewPresenter(ctx, cfg.Who, cfg.Clock, cfg.Memory),
		words: say.Chosen(), draft: register.NewDraft(), side: container.NewStack(), middle: container.NewStack(),
	}
	if s.cfg.View == nil {
		s.cfg.View = s.view
	}
	s.presenter.Signers(cfg.Signers)
	s.sounds = kit.NewSounds(!s.memory.Look().Silent)
	s.look()
	s.speak()
	s.win = app.NewWindow(s.words.Line(s.presenter.Title()))
	s.win.SetMaster()
	s.win.SetPadded(false)
	s.banner = kit.NewBanner(s.words)
	s.banner.OnClosed(func() {
		s.lesson = false
		s.frame.Refresh()
		if s.banner.Has(s.win.Canvas().Focused()) {
			s.focus()
		}
	})
	s.status = kit.NewStatus()
	// The bottom line is drawn last: what is scrolled half out of sight ends above it.
	s.frame = container.New(&room{s.banner, s.status, s.side, s.middle}, s.banner, s.side, s.middle, s.status)
	content := fyne.CanvasObject(s.frame)
	if cfg.Ready != nil {
		content = container.NewStack(s.frame, container.NewHBox(container.NewVBox(firstFrame(cfg.Ready))))
	}
	s.win.SetContent(content)
	size := fyne.NewSize(1180, 780)
	if look := s.memory.Look(); look.Width > 0 {
		size = fyne.NewSize(float32(look.Width), float32(look.Height))
	}
	s.win.Resize(size)
	s.win.SetCloseIntercept(s.Quit)
	s.win.SetOnDropped(s.dropped)
	s.listen()
	return s
}

// Start opens what was named, or what was open last, and shows the window.
func (s *Shell) Start() {
	path, err := s.cfg.Book, error(nil)
	if path == "" {
		path = s.presenter.LastBook()
	}
	if path != "" {
		if err = s.presenter.OpenBook(path); err == nil {
			s.presenter.Resume()
		}
	}
	s.arrange()
	s.win.Show()
	if s.cfg.Broken != "" {
		s.Tell(say.New("shell.was-broken", s.cfg.Broken))
	}
	s.warn()
	if err != nil {
		s.refused(path, err)
	}
}

// Quit ends the program, unless something would be lost and whoever is asked wants to stay.
func (s *Shell) Quit() { s.closed(s.End) }

// End remembers how things stand, closes the book and ends the program, and asks nobody.
func (s *Shell) End() {
	s.settle()
	s.leave()
	if err := s.sounds.Close(); err != nil {
		fyne.LogError("clearing the sounds away", err) // two small files in the system's folder for such
	}
	if err := s.presenter.CloseBook(); err != nil {
		fyne.LogError("closing the book", err) // what was kept is on the disk since it was kept
	}
	if err := s.presenter.Uncopied(); err != nil {
		fyne.LogError("copying the book", err)
	}
	s.win.Close()
	s.app.Quit()
}

// look shows everything in the chosen weight of light and size.
func (s *Shell) look() {
	look := s.memory.Look()
	s.app.Settings().SetTheme(kit.NewTheme(look.Dark, float32(look.Scale)))
}

// arrange shows what is open now: the welcome page, the register, or a head.
func (s *Shell) arrange() {
	s.win.SetTitle(s.words.Line(s.presenter.Title()))
	s.reader, s.shop = nil, nil
	switch {
	case s.presenter.Desk() == nil:
		s.register, s.leaves, s.tabs, s.heading = nil, nil, nil, nil
		s.welcome = welcome.NewView(welcome.NewPresenter(s, s.presenter.Recent()), s.words)
		s.side.Objects, s.middle.Objects = nil, []fyne.CanvasObject{s.welcome}
	case s.presenter.Bench() == nil:
		s.leaves, s.tabs, s.heading = nil, nil, nil
		s.sideways()
		s.middle.Objects = []fyne.CanvasObject{s.hint()}
	default:
		s.openLeaves()
		s.sideways()
	}
	s.menu()
	s.frame.Refresh()
	s.bottom()
	s.focus()
}

// anew shows everything as it is in the book now, the open set-up read once more.
func (s *Shell) anew() {
	if err := s.presenter.Reread(); err != nil {
		s.Fail(err) // what is shown is as old as it was
	}
	s.arrange()
}

// sideways puts the register at the left, or the strip it folds to.
func (s *Shell) sideways() {
	if s.presenter.Folded() {
		s.side.Objects = []fyne.CanvasObject{newStrip("▸\n"+s.line("shell.strip"), s.Unfold)}
		return
	}
	if s.register == nil {
		p := register.NewPresenter(s.ctx, s.presenter.Desk())
		if err := p.Filter(""); err != nil {
			s.Fail(err)
		}
		s.register, s.behind = register.NewView(p, s.words, door{s}), false
		s.countDue()
	}
	if s.behind {
		s.register.Refresh()
		s.behind = false
		s.countDue()
	}
	if b := s.presenter.Bench(); b != nil {
		s.register.Mark(b.Record().Head.ID)
	}
	s.side.Objects = []fyne.CanvasObject{newPanel(s.register.Object())}
}

// countDue finds out beside the window how much is due of the heads. What cannot be worked out is not shown; the page of what
// falls due says why.
func (s *Shell) countDue() {
	desk, register := s.presenter.Desk(), s.register
	s.background(func() {
		heads, err := desk.DueHeads(s.ctx)
		fyne.Do(func() {
			if err == nil && s.register == register {
				register.Due(heads)
			}
		})
	})
}

// hint fills the window while a book is open and no head in it.
func (s *Shell) hint() fyne.CanvasObject {
	key := "shell.no-head"
	if s.register.Empty() {
		key = "shell.empty-book"
	}
	text := widget.NewLabel(s.line(key))
	text.Wrapping, text.Alignment = fyne.TextWrapWord, fyne.TextAlignCenter
	return container.New(&middling{em: 30}, text)
}

// openLeaves makes the leaves of the open set-up and shows the one that was shown last.
func (s *Shell) openLeaves() {
	key, place := s.presenter.Leaf()
	s.heading = newHeading(s)
	s.leaves = s.cfg.Leaves(s, s.presenter.Desk(), s.presenter.Bench())
	s.stale, s.shown, s.page = make([]bool, len(s.leaves)), 0, container.NewScroll(container.NewStack())
	s.titles = make([]string, len(s.leaves))
	for i, l := range s.leaves {
		s.titles[i] = l.Title
	}
	s.tabs = newTabs(s.titles, s.goTo)
	if i := slices.IndexFunc(s.leaves, func(t Tab) bool { return t.Key == key }); i >= 0 {
		s.shown = i
		if l, ok := s.leaves[i].Leaf.(Placed); ok && place != "" {
			l.GoTo(place)
		}
	}
	for _, t := range s.leaves {
		if l, ok := t.Leaf.(working); ok && s.cfg.Background != nil {
			l.Work(s.cfg.Background)
		}
		if l, ok := t.Leaf.(sized); ok && s.memory.Look().Large {
			l.SetLarge(true)
		}
	}
	if s.shown < len(s.leaves) {
		s.page.Content = s.leaves[s.shown].Leaf.Object()
	}
	s.count()
	s.middle.Objects = []fyne.CanvasObject{container.New(&headed{s.heading, s.tabs}, s.heading.object, s.tabs, s.page)}
}

// turn shows a leaf.
func (s *Shell) turn(i int) {
	if i >= len(s.leaves) {
		return
	}
	s.shown = i
	if s.stale[i] {
		s.leaves[i].Leaf.Refresh()
		s.stale[i] = false
	}
	s.page.Content = s.leaves[i].Leaf.Object()
	s.page.ScrollToTop()
	s.page.Refresh()
	s.count()
	s.bottom()
}

// goTo goes to a leaf, as its tab or its key does, from a page of help or sentences too.
func (s *Shell) goTo(i int) {
	s.said()
	switch {
	case s.reader != nil:
		s.reader.back()
	case s.guiding():
		s.guide.back()
	}
	s.choose(i)
}

// choose goes to a leaf, also where what was just said is about it.
func (s *Shell) choose(i int) {
	if i < len(s.leaves) {
		s.turn(i)
		s.known()
		s.leaves[i].Leaf.Focus()
		s.leave()
	}
}

// backTo leaves the pages that stand over the head for one of its leaves.
func (s *Shell) backTo(i int) {
	s.openSetup(s.presenter.Bench().Record().Setup.ID, func() { s.goTo(i) })
}

// known lets the toolkit find the window of what was put into it a moment ago, as it otherwise can once
// it was painted: a leaf asks for the keyboard by that way.
func (s *Shell) known() {
	if c, ok := s.win.Canvas().(interface{ EnsureMinSize() bool }); ok {
		c.EnsureMinSize()
	}
}

// count writes into the tabs how much is open in each leaf.
func (s *Shell) count() {
	if s.tabs == nil {
		return
	}
	open := make([]int, len(s.leaves))
	for i, l := range s.leaves {
		open[i] = l.Leaf.Open()
	}
	s.tabs.show(s.shown, open)
}

// leave remembers how the window is shown, the leaf in sight and the place in it. It is called whenever
// one of them changed and not only at the end, which a power cut does not wait for.
func (s *Shell) leave() {
	size, large := s.win.Canvas().Size(), s.memory.Look().Large
	if s.shown < len(s.leaves) {
		if l, ok := s.leaves[s.shown].Leaf.(sized); ok {
			large = l.Large()
		}
	}
	s.memory.Show(func(l *Look) { l.Width, l.Height, l.Large = float64(size.Width), float64(size.Height), large })
	if s.presenter.Bench() == nil || s.shown >= len(s.leaves) {
		return
	}
	place := ""
	if l, ok := s.leaves[s.shown].Leaf.(Placed); ok {
		place = l.Place()
	}
	s.presenter.Leave(s.leaves[s.shown].Key, place)
}

// focus puts the keyboard where work goes on.
func (s *Shell) focus() {
	switch {
	case s.presenter.Desk() == nil:
		s.welcome.Focus(s.win.Canvas())
	case !s.presenter.Folded():
		s.register.Focus(s.win.Canvas())
	case s.shown < len(s.leaves):
		s.known()
		s.leaves[s.shown].Leaf.Focus()
	}
}

// Unfold opens the register beside the head, or folds it again.
func (s *Shell) Unfold() {
	if s.presenter.Bench() == nil {
		s.focus()
		return
	}
	s.presenter.Fold(!s.presenter.Folded())
	s.sideways()
	s.frame.Refresh()
	s.focus()
}
