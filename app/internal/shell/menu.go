package shell

import (
	"runtime"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"keeperbook/app/internal/kit"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// menu builds the main menu of what is open. Keys that have to work whatever has the keyboard stand in
// it, because it is asked first.
func (s *Shell) menu() {
	s.win.SetMainMenu(fyne.NewMainMenu(s.fileMenu(), s.headMenu(), s.viewMenu(), s.helpMenu()))
}

func (s *Shell) item(key string, shortcut fyne.Shortcut, enabled bool, action func()) *fyne.MenuItem {
	return s.entry(s.line(key), shortcut, enabled, action)
}

func (s *Shell) entry(label string, shortcut fyne.Shortcut, enabled bool, action func()) *fyne.MenuItem {
	i := fyne.NewMenuItem(label, func() {
		if !kit.Busy(s.win) { // its keys are heard over a dialog too, and over a menu
			kit.CloseMenu(s.win)
			action()
		}
	})
	i.Disabled = !enabled
	// The shortcut of an item is acted on even where the item is grey.
	if shortcut == nil || !enabled {
		return i
	}
	i.Shortcut = shortcut
	// The toolkit writes the keys of an item so faintly that they can hardly be read; so they stand in its
	// name. Where the system draws the menu it writes them itself.
	if k, ok := shortcut.(fyne.KeyboardShortcut); ok && runtime.GOOS != "darwin" {
		i.Label, i.Shortcut = s.line("shell.menu-key", label, s.keysOf(k)), unwritten(shortcut.ShortcutName())
	}
	return i
}

// unwritten is a shortcut that is known by its name alone.
type unwritten string

// ShortcutName is the toolkit's.
func (u unwritten) ShortcutName() string { return string(u) }

// keysOf names the keys of a shortcut as they stand on the keyboard.
func (s *Shell) keysOf(k fyne.KeyboardShortcut) string {
	if k.Mod() == fyne.KeyModifierAlt {
		return s.line("kit.alt", string(k.Key()))
	}
	return s.line("kit.ctrl", string(k.Key()))
}

func ctrl(key fyne.KeyName) fyne.Shortcut {
	return &desktop.CustomShortcut{KeyName: key, Modifier: fyne.KeyModifierShortcutDefault}
}

func alt(key fyne.KeyName) fyne.Shortcut {
	return &desktop.CustomShortcut{KeyName: key, Modifier: fyne.KeyModifierAlt}
}

func (s *Shell) fileMenu() *fyne.Menu {
	book := s.presenter.Desk() != nil
	quit := s.item("shell.menu-quit", ctrl(fyne.KeyQ), true, s.Quit)
	quit.IsQuit = true
	return fyne.NewMenu(s.words.Line(say.New("shell.menu-file")),
		s.item("shell.menu-new-book", nil, true, s.NewBook),
		s.item("shell.menu-open-book", ctrl(fyne.KeyO), true, s.OpenBook),
		s.item("shell.menu-demo", nil, true, s.DemoBook),
		fyne.NewMenuItemSeparator(),
		s.item("shell.menu-check", ctrl(fyne.KeyK), s.cfg.Check != nil, s.CheckSheet),
		s.item("shell.menu-take-in", ctrl(fyne.KeyT), book && !s.presenter.ReadingOnly(), s.TakeIn),
		s.item("shell.menu-shop", ctrl(fyne.KeyP), book && s.cfg.Shop != nil && !s.presenter.ReadingOnly(), s.ShopPages),
		s.item("shell.menu-copy", nil, book, s.SaveCopy),
		s.item("shell.menu-copies", nil, book && s.cfg.Copies != nil && !s.presenter.ReadingOnly(), s.Copies),
		s.item("shell.menu-close", nil, book, s.CloseBook),
		fyne.NewMenuItemSeparator(),
		quit)
}

func (s *Shell) headMenu() *fyne.Menu {
	book, head := s.presenter.Desk() != nil, s.presenter.Bench() != nil
	write := !s.presenter.ReadingOnly()
	items := []*fyne.MenuItem{
		s.item("shell.menu-new-head", ctrl(fyne.KeyN), book && write, s.NewHead),
		s.item("shell.menu-find", ctrl(fyne.KeyF), book, s.Find),
		s.item("shell.menu-due", ctrl(fyne.KeyL), book && s.cfg.Due != nil, s.Due),
		fyne.NewMenuItemSeparator(),
		s.item("shell.menu-setups", ctrl(fyne.KeyU), head, s.ChooseSetup),
		s.item("shell.menu-found", nil, head && write, func() { s.AskFollow(record.AsFound) }),
		s.item("shell.menu-built", ctrl(fyne.KeyB), head && write, func() { s.AskFollow(record.AsBuilt) }),
		s.item("shell.menu-history", ctrl(fyne.KeyH), head && s.cfg.History != nil, s.History),
	}
	items = append(items, fyne.NewMenuItemSeparator(),
		s.item("shell.menu-leave", ctrl(fyne.KeyS), head, s.LeaveAs),
		s.item("shell.menu-print", ctrl(fyne.KeyR), head, s.Print))
	if len(s.leaves) > 0 {
		items = append(items, fyne.NewMenuItemSeparator())
	} else if head {
		// Pages stand over the head; its leaves are behind them.
		items = append(items, fyne.NewMenuItemSeparator())
		for i, title := range s.titles {
			items = append(items, s.entry(title, alt(fyne.KeyName(rune('1'+i))), true, func() { s.backTo(i) }))
		}
	}
	for i, l := range s.leaves {
		items = append(items, s.entry(l.Title, alt(fyne.KeyName(rune('1'+i))), true, func() { s.goTo(i) }))
	}
	return fyne.NewMenu(s.words.Line(say.New("shell.menu-head")), items...)
}

func (s *Shell) viewMenu() *fyne.Menu {
	light := s.item("shell.menu-dark", ctrl(fyne.KeyD), true, s.TurnLight)
	light.Checked = s.memory.Look().Dark
	sounds := s.item("shell.menu-sounds", nil, s.sounds.Can(), s.TurnSounds)
	sounds.Checked = s.sounds.On() && s.sounds.Can()
	items := []*fyne.MenuItem{
		s.item("shell.menu-register", alt(fyne.Key0), s.presenter.Bench() != nil, s.Unfold),
		fyne.NewMenuItemSeparator(),
		light,
		sounds,
		s.item("shell.menu-larger", ctrl(fyne.KeyEqual), true, func() { s.resize(1) }),
		s.item("shell.menu-smaller", ctrl(fyne.KeyMinus), true, func() { s.resize(-1) }),
		s.item("shell.menu-usual", ctrl(fyne.Key0), true, func() { s.resize(0) }),
		fyne.NewMenuItemSeparator(),
	}
	return fyne.NewMenu(s.words.Line(say.New("shell.menu-view")), append(items, s.languages()...)...)
}

func (s *Shell) helpMenu() *fyne.Menu {
	return fyne.NewMenu(s.words.Line(say.New("shell.menu-help")),
		s.item("shell.menu-guide", ctrl(fyne.KeyE), s.cfg.Help != nil, s.Guide),
		s.item("shell.menu-first", nil, true, s.FirstHead),
		s.item("shell.menu-keys", nil, true, s.Keys),
		s.item("shell.menu-cautions", nil, true, s.Cautions),
		s.item("shell.menu-about", nil, true, s.About))
}

// listen takes the keys that no menu can show, and where the keyboard goes.
func (s *Shell) listen() {
	c := s.win.Canvas()
	for _, plus := range []fyne.Shortcut{
		ctrl(fyne.KeyPlus), &desktop.CustomShortcut{KeyName: fyne.KeyEqual, Modifier: fyne.KeyModifierShortcutDefault | fyne.KeyModifierShift},
	} {
		c.AddShortcut(plus, func(fyne.Shortcut) { s.resize(1) })
	}
	// With nothing to take them, undo and redo belong to the table of the open head.
	for _, turn := range []fyne.Shortcut{&fyne.ShortcutUndo{}, &fyne.ShortcutRedo{}} {
		c.AddShortcut(turn, s.forward)
	}
	c.SetOnTypedKey(func(k *fyne.KeyEvent) {
		switch k.Name {
		case fyne.KeyF1:
			s.Guide()
		case fyne.KeyF9:
			s.Unfold()
		case fyne.KeyEscape:
			s.banner.Close()
		}
	})
	life := s.app.Lifecycle()
	life.SetOnEnteredForeground(func() { s.listening(true) })
	life.SetOnExitedForeground(func() { s.listening(false) })
}

// forward gives undo or redo to the table of valves, which asks before it crosses a day or a person and
// says what it took back. Whatever of the set-up was done last is taken back there, also where another
// leaf is in sight.
func (s *Shell) forward(shortcut fyne.Shortcut) {
	if kit.Busy(s.win) {
		return
	}
	s.Show("valves")
	if s.shown >= len(s.leaves) {
		return
	}
	s.leaves[s.shown].Leaf.Focus()
	if f, ok := s.win.Canvas().Focused().(fyne.Shortcutable); ok {
		f.TypedShortcut(shortcut)
	}
}

// listening says in large letters when what is typed goes elsewhere: a gauge that types does not look.
func (s *Shell) listening(here bool) {
	if s.away == here {
		s.away = !here
		s.bottom()
	}
}

// TurnLight changes between light and dark.
func (s *Shell) TurnLight() {
	dark := !s.memory.Look().Dark
	s.memory.Show(func(l *Look) { l.Dark = dark })
	s.look()
	s.menu()
}

// resize shows everything a step larger or smaller, or in the usual size.
func (s *Shell) resize(by int) {
	scale := s.memory.Look().step(by)
	if by == 0 {
		scale = 1
	}
	s.memory.Show(func(l *Look) { l.Scale = scale })
	s.look()
	s.Tell(say.New("shell.scale", int(scale*100+0.5)))
}
