package shell

import (
	"io/fs"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"keeperbook/app/internal/kit"
)

// worded is a leaf, or a page in the place of leaves, that knows the word of what has the cursor.
type worded interface{ Word() string }

// word is the word of what has the cursor; "" where nothing knows it.
func (s *Shell) word() string {
	at := any(s.shop)
	if s.shown < len(s.leaves) {
		at = s.leaves[s.shown].Leaf
	}
	if w, ok := at.(worded); ok {
		return w.Word()
	}
	return ""
}

// guide is a page in place of what the window shows: a field to type into, what was found, and what a word means.
type guide struct {
	shell *Shell
	help  fs.FS // in the language of the window
	g     *Guide
	field *guideEntry
	list  *widget.List
	page  *fyne.Container
	text  *container.Scroll
	back  func()

	object fyne.CanvasObject
}

// Guide shows everything that can be done and what the words of the book mean, beginning at the word of what has the cursor. Beneath a
// dialog it opens nothing.
func (s *Shell) Guide() {
	if s.cfg.Help == nil || s.win.Canvas().Overlays().Top() != nil {
		return
	}
	help := HelpIn(s.cfg.Help, s.words.Language)
	words, err := Words(help)
	if err != nil {
		s.Fail(err) // the pages travel inside the program
		return
	}
	if s.guiding() {
		s.win.Canvas().Focus(s.guide.field) // it is there already
		return
	}
	if s.reader != nil {
		s.reader.back()
	}
	d := &guide{shell: s, help: help, g: NewGuide(words, s.deeds())}
	d.g.At(s.word())
	before, side, had := s.middle.Objects, s.side.Objects, s.win.Canvas().Focused()
	d.back = func() {
		s.middle.Objects, s.side.Objects = before, side
		s.frame.Refresh()
		if had != nil {
			s.win.Canvas().Focus(had)
		}
		if s.win.Canvas().Focused() != had || had == nil { // it is not there any more
			s.focus()
		}
	}
	d.field = newGuideEntry(d, s.line("shell.guide-find"))
	d.list = widget.NewList(func() int { return len(d.g.Found()) }, newGuideLine, d.draw)
	d.list.HideSeparators = true
	d.list.OnSelected = func(i int) {
		d.list.Unselect(i)
		d.g.Choose(i)
		d.enter()
		s.win.Canvas().Focus(d.field)
	}
	d.page = container.NewVBox()
	d.text = container.NewVScroll(container.NewPadded(d.page))
	back := kit.NewButton(s.line("shell.back"), s.line("kit.esc"), func() { d.back() })
	left := container.NewBorder(container.NewVBox(d.field, kit.NewHint(s.line("shell.guide-keys"))), kit.Buttons(back), nil, nil, d.list)
	s.side.Objects = nil
	d.object = container.New(&leaning{em: 24}, container.NewPadded(left), d.text)
	s.guide, s.middle.Objects = d, []fyne.CanvasObject{d.object}
	s.frame.Refresh()
	d.show()
	s.win.Canvas().Focus(d.field)
}

// guiding reports whether the guide is what the window shows.
func (s *Shell) guiding() bool {
	return s.guide != nil && len(s.middle.Objects) == 1 && s.middle.Objects[0] == s.guide.object
}

// deeds are what the menus do, those that can be done now.
func (s *Shell) deeds() (all []Deed) {
	for _, m := range s.win.MainMenu().Items {
		for _, i := range m.Items {
			if !i.IsSeparator && !i.Disabled && i.Action != nil {
				all = append(all, Deed{i.Label, m.Label, i.Action})
			}
		}
	}
	return all
}

// newGuideLine is one line of the list, as high as a line of words.
func newGuideLine() fyne.CanvasObject { return container.New(&oneLine{}, kit.NewText("")) }

// oneLine is a line and a half high, whatever is in it.
type oneLine struct{}

func (*oneLine) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(em(), 1.6*em()) }

func (*oneLine) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	objects[0].Resize(size)
	objects[0].Move(fyne.NewPos(0, 0))
}

func (d *guide) draw(i int, o fyne.CanvasObject) {
	f, text := d.g.Found()[i], o.(*fyne.Container).Objects[0].(*kit.Text)
	words := ""
	if f.Word != nil {
		words = f.Word.Title
	} else {
		words = d.shell.line("shell.guide-deed", f.Deed.Menu, f.Deed.Name)
	}
	mark := "   "
	if i == d.g.Cursor() {
		mark = "▸ "
	}
	text.Set(mark + words)
	text.Bold(i == d.g.Cursor())
}

// show draws the list, and of a word its page.
func (d *guide) show() {
	d.list.Refresh()
	d.page.Objects = nil
	if at := d.g.Cursor(); at >= 0 {
		d.list.ScrollTo(at)
		if f := d.g.Found()[at]; f.Word != nil {
			d.page.Add(kit.NewTitle(f.Word.Title))
			for _, p := range f.Word.Pieces() {
				d.page.Add(d.piece(p))
			}
		} else {
			d.page.Add(kit.NewTitle(f.Deed.Name))
			d.page.Add(kit.NewText(d.shell.line("shell.guide-do")))
		}
	} else {
		d.page.Add(kit.NewText(d.shell.line("shell.guide-none")))
	}
	d.text.ScrollToTop()
	d.page.Refresh()
}

func (d *guide) piece(p Piece) fyne.CanvasObject {
	if p.Drawing == "" {
		text := widget.NewRichTextFromMarkdown(p.Text)
		text.Wrapping = fyne.TextWrapWord
		return text
	}
	data, err := fs.ReadFile(d.help, p.Drawing)
	if err != nil {
		return kit.NewText(p.Text)
	}
	picture := canvas.NewImageFromResource(fyne.NewStaticResource(p.Drawing, data))
	picture.FillMode = canvas.ImageFillContain
	picture.SetMinSize(fyne.NewSize(20*em(), 22*em()))
	return picture
}

// enter does the chosen thing; of a word the page stands there already.
func (d *guide) enter() {
	at := d.g.Cursor()
	if at < 0 {
		return
	}
	if f := d.g.Found()[at]; f.Deed != nil {
		d.back()
		f.Deed.Do()
		return
	}
	d.show()
}

// scroll moves the page by screens of it.
func (d *guide) scroll(by float32) {
	most := max(d.text.Content.MinSize().Height-d.text.Size().Height, 0)
	y := d.text.Offset.Y + by*0.9*d.text.Size().Height
	d.text.ScrollToOffset(fyne.NewPos(0, min(max(y, 0), most)))
}

// leaning is a narrow column so many ems wide and the rest beside it.
type leaning struct{ em float32 }

func (l *leaning) MinSize(objects []fyne.CanvasObject) fyne.Size {
	a, b := objects[0].MinSize(), objects[1].MinSize()
	return fyne.NewSize(a.Width+b.Width, max(a.Height, b.Height))
}

func (l *leaning) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	w := min(l.em*em(), 0.45*size.Width)
	objects[0].Resize(fyne.NewSize(w, size.Height))
	objects[0].Move(fyne.NewPos(0, 0))
	objects[1].Resize(fyne.NewSize(size.Width-w, size.Height))
	objects[1].Move(fyne.NewPos(w, 0))
}

// guideEntry is the field of the page, which has the keyboard all the while.
type guideEntry struct {
	widget.Entry
	guide *guide
}

func newGuideEntry(d *guide, hint string) *guideEntry {
	e := &guideEntry{guide: d}
	e.PlaceHolder = hint
	e.OnChanged = func(text string) {
		d.g.Ask(text)
		d.show()
	}
	e.ExtendBaseWidget(e)
	return e
}

// TypedKey takes the keys of the page first.
func (e *guideEntry) TypedKey(k *fyne.KeyEvent) {
	switch d := e.guide; k.Name {
	case fyne.KeyDown:
		d.g.Move(1)
		d.show()
	case fyne.KeyUp:
		d.g.Move(-1)
		d.show()
	case fyne.KeyPageDown:
		d.scroll(1)
	case fyne.KeyPageUp:
		d.scroll(-1)
	case fyne.KeyReturn, fyne.KeyEnter:
		d.enter()
	case fyne.KeyEscape:
		if e.Text != "" {
			e.SetText("")
			return
		}
		d.back()
	default:
		e.Entry.TypedKey(k)
	}
}
