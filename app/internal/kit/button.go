package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Button is pressed by Enter, by Space or by the pointer, and shows the key that presses it from
// elsewhere.
type Button struct {
	widget.BaseWidget
	label, key string
	do         func()
	strong     bool                      // paper on ink: what Enter does
	keys       func(*fyne.KeyEvent) bool // takes a key before the button; may be nil
	runes      func(rune)                // takes a character; may be nil
	shown      func(fyne.CanvasObject)   // brings it into sight; may be nil

	focused, hovered bool
	ground           *canvas.Rectangle
	words, hint      *canvas.Text
}

// NewButton returns a button. Key names the key that does the same, such as "Ctrl+N", and may be empty.
func NewButton(label, key string, do func()) *Button {
	b := &Button{label: label, key: key, do: do}
	b.ground, b.words, b.hint = canvas.NewRectangle(nil), canvas.NewText(label, nil), canvas.NewText(key, nil)
	b.ExtendBaseWidget(b)
	return b
}

// Strong makes the button the one that is seen first, and returns it.
func (b *Button) Strong() *Button {
	b.strong = true
	b.Refresh()
	return b
}

// SetLabel changes the words on the button.
func (b *Button) SetLabel(label string) {
	if b.label == label {
		return
	}
	b.label = label
	b.Refresh()
}

// Typing hands what is typed on the button to a field, where it begins a text, and Esc gives that the
// keyboard: a gauge that types does not look where the keyboard is, and its Enter must not press anything.
// Space does not press the button then, as a gauge may send one before a number.
func (b *Button) Typing(f *Field) *Button {
	b.runes = func(r rune) {
		if r != ' ' {
			f.Begin(r)
		}
	}
	b.keys = func(e *fyne.KeyEvent) bool {
		if e.Name == fyne.KeyEscape {
			f.Focus()
		}
		return e.Name == fyne.KeyEscape || e.Name == fyne.KeySpace
	}
	return b
}

// Escape has Esc do something too while the button has the keyboard, and returns the button.
func (b *Button) Escape(do func()) *Button {
	b.keys = func(e *fyne.KeyEvent) bool {
		if e.Name != fyne.KeyEscape {
			return false
		}
		do()
		return true
	}
	return b
}

// Focused reports whether the button has the keyboard.
func (b *Button) Focused() bool { return b.focused }

// Press does what the button does.
func (b *Button) Press() {
	if b.do != nil {
		b.do()
	}
}

// Tapped is the toolkit's.
func (b *Button) Tapped(*fyne.PointEvent) { b.Press() }

// MouseIn is the toolkit's.
func (b *Button) MouseIn(*desktop.MouseEvent) { b.hovered = true; b.Refresh() }

// MouseMoved is the toolkit's.
func (b *Button) MouseMoved(*desktop.MouseEvent) {}

// MouseOut is the toolkit's.
func (b *Button) MouseOut() { b.hovered = false; b.Refresh() }

// FocusGained is the toolkit's.
func (b *Button) FocusGained() {
	b.focused = true
	b.Refresh()
	if b.shown != nil {
		b.shown(b)
	}
}

// FocusLost is the toolkit's.
func (b *Button) FocusLost() { b.focused = false; b.Refresh() }

func (b *Button) follow(reveal func(fyne.CanvasObject)) { b.shown = reveal }

// TypedRune is the toolkit's.
func (b *Button) TypedRune(r rune) {
	if b.runes != nil {
		b.runes(r)
	}
}

// TypedKey presses the button for Enter and Space and moves on for arrows.
func (b *Button) TypedKey(e *fyne.KeyEvent) {
	if Wherever(b, e) {
		return
	}
	if b.keys != nil && b.keys(e) {
		return
	}
	switch e.Name {
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		b.Press()
	case fyne.KeyRight, fyne.KeyDown:
		step(b, (fyne.Canvas).FocusNext)
	case fyne.KeyLeft, fyne.KeyUp:
		step(b, (fyne.Canvas).FocusPrevious)
	}
}

// CreateRenderer is the toolkit's.
func (b *Button) CreateRenderer() fyne.WidgetRenderer { return coloured(buttonRenderer{b}) }

type buttonRenderer struct{ b *Button }

func (r buttonRenderer) Destroy() {}

func (r buttonRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.b.ground, r.b.words, r.b.hint}
}

func (r buttonRenderer) pad() float32 { return 1.6 * sizeOf(r.b, theme.SizeNameInnerPadding) }

func (r buttonRenderer) MinSize() fyne.Size {
	b := r.b
	text := sizeOf(b, theme.SizeNameText)
	// The label is measured bold, so that a button does not grow when it becomes the strong one.
	width := wide(b.label, text, true) + 2*r.pad()
	if b.key != "" {
		width += wide(b.key, sizeOf(b, theme.SizeNameCaptionText), false) + 0.7*r.pad()
	}
	return fyne.NewSize(width, 2.5*text)
}

func (r buttonRenderer) Layout(size fyne.Size) {
	b := r.b
	inset := float32(2)
	put(b.ground, fyne.NewPos(inset, inset), size.SubtractWidthHeight(2*inset, 2*inset))
	words, baseline := drawnSize(b.words)
	top := (size.Height - words.Height) / 2
	put(b.words, fyne.NewPos(r.pad(), top), fyne.NewSize(size.Width-2*r.pad(), words.Height))
	b.words.Alignment = fyne.TextAlignLeading
	if b.key == "" {
		b.words.Alignment = fyne.TextAlignCenter
	}
	// Both stand on one line, though the key is smaller.
	key, other := drawnSize(b.hint)
	put(b.hint, fyne.NewPos(size.Width-r.pad()-key.Width, top+baseline-other), key)
}

// drawnSize returns the size of a text and how far below its top the line is that it stands on.
func drawnSize(t *canvas.Text) (size fyne.Size, baseline float32) {
	return fyne.CurrentApp().Driver().RenderedTextSize(t.Text, t.TextSize, t.TextStyle, t.FontSource)
}

// Refresh draws what the button is now: a frame of ink where the keyboard is.
func (r buttonRenderer) Refresh() {
	b, p := r.b, palette(r.b)
	ground, ink, soft := p.Fill, p.Ink, p.Faint
	if b.strong {
		ground, ink, soft = p.Ink, p.Paper, p.Paper
	}
	b.ground.FillColor, b.ground.StrokeColor, b.ground.StrokeWidth = ground, p.Rule, 1
	b.ground.CornerRadius = sizeOf(b, theme.SizeNameInputRadius)
	if b.hovered {
		b.ground.StrokeColor, b.ground.StrokeWidth = p.Ink, 1.5
	}
	if b.focused {
		b.ground.StrokeColor, b.ground.StrokeWidth = p.Ink, 3
		if b.strong {
			// On ink a frame of ink would not be seen; a grey one stands off on both sides.
			b.ground.StrokeColor = p.Rule
		}
	}
	b.words.Text, b.words.Color, b.words.TextSize, b.words.TextStyle.Bold = b.label, ink, sizeOf(b, theme.SizeNameText), b.strong
	b.hint.Text, b.hint.Color, b.hint.TextSize = b.key, soft, sizeOf(b, theme.SizeNameCaptionText)
	r.Layout(b.Size())
	for _, o := range r.Objects() {
		o.Refresh()
	}
}
