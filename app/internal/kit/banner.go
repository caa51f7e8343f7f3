package kit

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"keeperbook/model/say"
)

// Action is something that can be done about what a banner says.
type Action struct {
	Label string
	Key   string // the key that does the same, shown only; may be empty
	Do    func()
}

// Banner is a bar at the top of a screen with one sentence and up to two actions. It is not seen while
// it says nothing. Its last button puts it away, and so does Esc while the keyboard is in it.
type Banner struct {
	widget.BaseWidget
	words    say.Printer
	sentence *Text
	buttons  *fyne.Container
	ground   *canvas.Rectangle
	bar      *canvas.Rectangle
	width    float32
	closed   func()
}

// NewBanner returns a banner that says nothing. Words says the errors that it is given.
func NewBanner(words say.Printer) *Banner {
	b := &Banner{words: words, sentence: NewText(""), ground: canvas.NewRectangle(nil), bar: canvas.NewRectangle(nil)}
	b.sentence.bold = true
	b.buttons = Buttons()
	b.ExtendBaseWidget(b)
	b.Hide()
	return b
}

// SetWords changes how errors are said, because another book may be kept in other units.
func (b *Banner) SetWords(words say.Printer) { b.words = words }

// Fail shows the sentence of an error.
func (b *Banner) Fail(err error, actions ...Action) { b.Say(sentence(b.words, err), actions...) }

// Say shows a sentence and what can be done about it. An action puts the banner away first.
func (b *Banner) Say(text string, actions ...Action) {
	b.buttons.Objects = nil
	for _, a := range actions {
		b.add(NewButton(a.Label, a.Key, func() {
			b.Close()
			a.Do()
		}))
	}
	b.add(NewButton(b.words.Line(say.New("kit.put-away")), b.words.Line(say.New("kit.esc")), func() { b.Close() }))
	b.sentence.Set(text)
	b.Show()
	b.Refresh()
}

func (b *Banner) add(button *Button) {
	button.keys = func(e *fyne.KeyEvent) bool { return e.Name == fyne.KeyEscape && b.Close() }
	b.buttons.Objects = append(b.buttons.Objects, button)
}

// Says returns the sentence, empty where the banner is not seen.
func (b *Banner) Says() string { return b.sentence.text }

// Has reports whether one of its buttons has the keyboard, or nothing has.
func (b *Banner) Has(f fyne.Focusable) bool {
	if f == nil {
		return true
	}
	return slices.ContainsFunc(b.buttons.Objects, func(o fyne.CanvasObject) bool { return o == fyne.CanvasObject(f.(fyne.CanvasObject)) })
}

// OnClosed is called when the banner was put away, so that the keyboard can go back to work.
func (b *Banner) OnClosed(do func()) { b.closed = do }

// Close puts the banner away and reports whether it was there. A screen calls it for Esc when it has no
// other use for the key.
func (b *Banner) Close() bool {
	if !b.Visible() {
		return false
	}
	b.sentence.Set("")
	b.Hide()
	if b.closed != nil {
		b.closed()
	}
	return true
}

// Focus puts the keyboard on the first button.
func (b *Banner) Focus() {
	if b.Visible() {
		step(b, func(c fyne.Canvas) { c.Focus(b.buttons.Objects[0].(*Button)) })
	}
}

// CreateRenderer is the toolkit's.
func (b *Banner) CreateRenderer() fyne.WidgetRenderer { return coloured(bannerRenderer{b}) }

type bannerRenderer struct{ b *Banner }

func (r bannerRenderer) Destroy() {}

func (r bannerRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.b.ground, r.b.bar, r.b.sentence, r.b.buttons}
}

func (r bannerRenderer) pad() float32 { return 2.4 * sizeOf(r.b, theme.SizeNamePadding) }

// beside reports whether sentence and buttons fit beside each other in a width, and how wide the buttons are.
func (r bannerRenderer) beside(width float32) (ok bool, buttons float32) {
	for _, o := range r.b.buttons.Objects {
		buttons += o.MinSize().Width + 2*theme.Padding()
	}
	return buttons < 0.55*width, buttons
}

// HeightFor returns the height in toolkit units that the banner takes at a width.
func (b *Banner) HeightFor(width float32) float32 {
	r := bannerRenderer{b}
	ok, buttons := r.beside(width)
	if ok {
		return max(b.sentence.HeightFor(width-buttons-3*r.pad()), heightOf(b.buttons, buttons)) + 1.4*r.pad()
	}
	return b.sentence.HeightFor(width-2*r.pad()) + heightOf(b.buttons, width-2*r.pad()) + 2*r.pad()
}

func (r bannerRenderer) MinSize() fyne.Size {
	least := ratio(r.b, 320)
	return fyne.NewSize(least, r.b.HeightFor(max(least, widthOf(r.b, r.b.width))))
}

func (r bannerRenderer) Layout(size fyne.Size) {
	b := r.b
	b.width = size.Width
	put(b.ground, fyne.NewPos(0, 0), size)
	put(b.bar, fyne.NewPos(0, size.Height-3), fyne.NewSize(size.Width, 3))
	pad := r.pad()
	ok, buttons := r.beside(size.Width)
	if ok {
		width := size.Width - buttons - 3*pad
		text := b.sentence.HeightFor(width)
		put(b.sentence, fyne.NewPos(pad, (size.Height-text)/2), fyne.NewSize(width, text))
		height := heightOf(b.buttons, buttons)
		put(b.buttons, fyne.NewPos(size.Width-buttons-pad/2, (size.Height-height)/2), fyne.NewSize(buttons, height))
		return
	}
	width := size.Width - 2*pad
	text := b.sentence.HeightFor(width)
	put(b.sentence, fyne.NewPos(pad, 0.7*pad), fyne.NewSize(width, text))
	put(b.buttons, fyne.NewPos(pad, 1.2*pad+text), fyne.NewSize(width, heightOf(b.buttons, width)))
}

func (r bannerRenderer) Refresh() {
	p := palette(r.b)
	r.b.ground.FillColor, r.b.bar.FillColor = p.Raised, p.Ink
	r.Layout(r.b.Size())
	for _, o := range r.Objects() {
		o.Refresh()
	}
}
