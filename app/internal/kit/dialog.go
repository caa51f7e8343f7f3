package kit

import (
	"image/color"
	"slices"
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"keeperbook/model/say"
)

// Choice is one answer to a question.
type Choice struct {
	Label   string
	Key     rune         // the letter that picks it, in either case; 0 for none. Never a digit: gauges send digits
	Name    fyne.KeyName // another key that picks it, such as fyne.KeyDelete; empty for none
	Do      func()       // done after the dialog is gone; may be nil
	Primary bool         // Enter picks it
	Cancel  bool         // Esc picks it
}

// Ask asks a question over a window. Enter picks the primary choice, Esc the one that cancels, a letter
// its own; arrows and Tab move between the choices. With no choice that cancels, Esc closes the dialog
// and does nothing. The keyboard then goes back to where it was.
func Ask(win fyne.Window, title, text string, choices []Choice) {
	d := newDialog(win, title)
	if text != "" {
		d.body = append(d.body, NewText(text))
	}
	d.choose(choices)
	d.open()
}

// Unanswered reports whether a dialog over a window holds texts that somebody typed and did not hand over.
func Unanswered(win fyne.Window) bool {
	return slices.ContainsFunc(win.Canvas().Overlays().List(), func(o fyne.CanvasObject) bool {
		d, ok := o.(*dialog)
		return ok && d.typed != nil && d.typed()
	})
}

// dialog is a panel in the middle of a window, with the window dimmed behind it.
type dialog struct {
	widget.BaseWidget
	canvas  fyne.Canvas
	guard   *guard
	stray   func(string)
	typed   func() bool // something was typed into it that is not handed over yet; may be nil
	choices []Choice
	body    []fyne.CanvasObject
	buttons []fyne.CanvasObject
	first   fyne.Focusable
	deaf    bool    // it waits for something, and takes no answer
	stays   bool    // an answer does not close it
	width   float32 // of the words in toolkit units at 100 %

	dim, panel, bar *canvas.Rectangle
	title           *Text
	words           *fyne.Container
	scroll          *container.Scroll
	row             *fyne.Container
}

func newDialog(win fyne.Window, title string) *dialog {
	d := &dialog{canvas: win.Canvas(), width: widestDialog, title: newText(title, theme.SizeNameSubHeadingText, true)}
	d.guard, d.stray = guardOf(win)
	d.ExtendBaseWidget(d)
	return d
}

// choose makes a button of every choice.
func (d *dialog) choose(choices []Choice) {
	d.choices = choices
	var cancel *Button
	for i := range choices {
		c := choices[i]
		b := NewButton(c.Label, hintOf(c), func() { d.pick(c) })
		b.keys, b.runes = d.key, func(r rune) { d.char(r, true) }
		switch {
		case c.Primary:
			b.Strong()
			d.first = b
		case c.Cancel:
			cancel = b
		}
		d.buttons = append(d.buttons, b)
	}
	// Where nothing is the natural answer, Enter must not give one.
	if d.first == nil && cancel != nil {
		d.first = cancel
	}
	if d.first == nil && len(d.buttons) > 0 {
		d.first = d.buttons[0].(*Button)
	}
}

// hintOf names the key of a choice.
func hintOf(c Choice) string {
	words := say.Chosen()
	switch {
	case c.Key != 0:
		return string(unicode.ToUpper(c.Key))
	case c.Primary:
		return words.Line(say.New("kit.enter"))
	case c.Cancel:
		return words.Line(say.New("kit.esc"))
	}
	return string(c.Name)
}

func (d *dialog) open() {
	d.dim, d.panel, d.bar = canvas.NewRectangle(nil), canvas.NewRectangle(nil), canvas.NewRectangle(nil)
	d.words = container.New(&column{gap: 3}, d.body...)
	d.scroll = container.NewVScroll(d.words)
	d.row = container.New(&flow{gap: 2, right: true}, d.buttons...)
	d.show()
}

// show lays the dialog over the window.
func (d *dialog) show() {
	d.canvas.Overlays().Add(d)
	d.Resize(d.canvas.Size())
	d.Refresh()
	if d.first != nil {
		d.canvas.Focus(d.first)
	}
}

// close takes the dialog away. What had the keyboard below was never told that it lost it, and so has it
// again.
func (d *dialog) close() { takeAway(d.canvas, d) }

func (d *dialog) pick(c Choice) {
	if d.deaf {
		return
	}
	if !d.stays {
		d.close()
	}
	if c.Do != nil {
		c.Do()
	}
}

// cancel does what Esc does.
func (d *dialog) cancel() {
	for _, c := range d.choices {
		if c.Cancel {
			d.pick(c)
			return
		}
	}
	d.close()
}

// char takes a character; letters pick a choice where they are not text.
func (d *dialog) char(r rune, picks bool) {
	if d.guard.char(r) || !picks || unicode.IsDigit(r) {
		return
	}
	for _, c := range d.choices {
		if c.Key != 0 && unicode.ToLower(c.Key) == unicode.ToLower(r) {
			d.pick(c)
			return
		}
	}
}

// key takes a key on a button; false leaves it to the button.
func (d *dialog) key(e *fyne.KeyEvent) bool {
	switch e.Name {
	case fyne.KeyEscape:
		d.cancel()
		return true
	case fyne.KeySpace:
		// A gauge may send a space before a number.
		return true
	case fyne.KeyReturn, fyne.KeyEnter:
		text, gauge := d.guard.end()
		if gauge {
			d.hand(text)
		}
		return gauge
	}
	for _, c := range d.choices {
		if c.Name != "" && c.Name == e.Name {
			d.pick(c)
			return true
		}
	}
	return false
}

func (d *dialog) hand(text string) {
	if text != "" && d.stray != nil {
		d.stray(text)
	}
}

// Tapped keeps the pointer from what is below.
func (d *dialog) Tapped(*fyne.PointEvent) {}

// CreateRenderer is the toolkit's.
func (d *dialog) CreateRenderer() fyne.WidgetRenderer { return coloured(dialogRenderer{d}) }

// widestDialog is the width of a dialog's words in toolkit units at 100 %.
const widestDialog = 500

type dialogRenderer struct{ d *dialog }

func (r dialogRenderer) Destroy()           {}
func (r dialogRenderer) MinSize() fyne.Size { return fyne.NewSize(1, 1) }

func (r dialogRenderer) Objects() []fyne.CanvasObject {
	d := r.d
	return []fyne.CanvasObject{d.dim, d.panel, d.bar, d.title, d.scroll, d.row}
}

func (r dialogRenderer) Layout(size fyne.Size) {
	d := r.d
	put(d.dim, fyne.NewPos(0, 0), size)
	pad := 4 * sizeOf(d, theme.SizeNamePadding)
	width := min(ratio(d, d.width), size.Width-3*pad)
	inner := d.words.Layout.(*column)
	inner.inset = pad / 2
	title, words, row := d.title.HeightFor(width), inner.heightFor(d.words.Objects, width+2*inner.inset), heightOf(d.row, width)
	rest := title + row + 4*pad
	words = max(0, min(words, size.Height-rest-pad))
	height := rest + words
	if len(d.body) == 0 {
		height -= pad
	}
	left, top := (size.Width-width)/2, (size.Height-height)/2.4
	put(d.panel, fyne.NewPos(left-pad, top), fyne.NewSize(width+2*pad, height))
	put(d.bar, fyne.NewPos(left-pad, top), fyne.NewSize(width+2*pad, 4))
	y := top + 1.2*pad
	put(d.title, fyne.NewPos(left, y), fyne.NewSize(width, title))
	y += title + 0.8*pad
	// Frames of fields and the scroll's bar stand in the panel's margin.
	inner.width = width + 2*inner.inset
	put(d.scroll, fyne.NewPos(left-inner.inset, y), fyne.NewSize(inner.width, words))
	put(d.row, fyne.NewPos(left, top+height-row-0.8*pad), fyne.NewSize(width, row))
}

func (r dialogRenderer) Refresh() {
	d := r.d
	p := palette(d)
	d.dim.FillColor = color.NRGBA{R: p.Paper.R, G: p.Paper.G, B: p.Paper.B, A: 0xA0}
	d.panel.FillColor, d.panel.StrokeColor, d.panel.StrokeWidth = p.Raised, p.Ink, 1.5
	d.bar.FillColor = p.Ink
	r.Layout(d.Size())
	for _, o := range r.Objects() {
		o.Refresh()
	}
}
