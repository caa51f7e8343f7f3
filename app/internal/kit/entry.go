package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// entry is the toolkit's text entry with its keys taken first.
type entry struct {
	widget.Entry
	before func(*fyne.KeyEvent) bool // takes a key before the entry; may be nil
	chars  func(rune)                // sees a character before the entry
	gained func()
	lost   func()
	keep   func() // Ctrl+Enter, in a text of many lines
}

func newEntry(many bool) *entry {
	e := &entry{}
	e.MultiLine = many
	if many {
		e.Wrapping = fyne.TextWrapWord
	}
	e.ExtendBaseWidget(e)
	return e
}

// CreateRenderer is the toolkit's. The texts get their letters by name: for a widget under a theme of its
// own the toolkit would read the whole font again, and keep it for as long as the program runs.
func (e *entry) CreateRenderer() fyne.WidgetRenderer {
	r := e.Entry.CreateRenderer()
	name(r.Objects()...)
	return r
}

// name gives all texts in objects the letters of the theme. Widgets of the toolkit hand out their texts only
// in a renderer, and keep them for the next one.
func name(objects ...fyne.CanvasObject) {
	for _, o := range objects {
		switch o := o.(type) {
		case *canvas.Text:
			o.FontSource = letters().regular
		case *container.Scroll:
			if o.Content != nil {
				name(o.Content)
			}
		case fyne.Widget:
			name(o.CreateRenderer().Objects()...)
		}
	}
}

// AcceptsTab is false, so that Tab moves on from a text of many lines too.
func (e *entry) AcceptsTab() bool { return false }

// TypedKey is the toolkit's.
func (e *entry) TypedKey(k *fyne.KeyEvent) {
	if !Wherever(e, k) && (e.before == nil || !e.before(k)) {
		e.Entry.TypedKey(k)
	}
}

// OpenMenu shows the toolkit's own menu at the lower end of the field.
func (e *entry) OpenMenu() {
	e.TappedSecondary(&fyne.PointEvent{Position: fyne.NewPos(0, e.Size().Height)})
}

// TypedRune is the toolkit's.
func (e *entry) TypedRune(r rune) {
	if e.chars != nil {
		e.chars(r)
	}
	e.Entry.TypedRune(r)
}

// TypedShortcut is the toolkit's.
func (e *entry) TypedShortcut(s fyne.Shortcut) {
	if c, ok := s.(*desktop.CustomShortcut); ok && e.keep != nil && c.Modifier == fyne.KeyModifierShortcutDefault &&
		(c.KeyName == fyne.KeyReturn || c.KeyName == fyne.KeyEnter) {
		e.keep()
		return
	}
	e.Entry.TypedShortcut(s)
}

// wipe takes the text away together with what is selected of it, which would else swallow the next character.
func (e *entry) wipe() {
	e.Entry.TypedShortcut(&fyne.ShortcutSelectAll{})
	e.Entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDelete})
}

// FocusGained selects the text, so that typing replaces it and an arrow goes on in it.
func (e *entry) FocusGained() {
	e.Entry.FocusGained()
	if !e.MultiLine && e.Text != "" {
		e.Entry.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
	if e.gained != nil {
		e.gained()
	}
}

// FocusLost is the toolkit's.
func (e *entry) FocusLost() {
	e.Entry.FocusLost()
	if e.lost != nil {
		e.lost()
	}
}

// large is the window's theme with running text in the size of what is typed.
type large struct{ fyne.Theme }

// enlarged returns an object with its text in the size of what is typed.
func enlarged(o fyne.CanvasObject) *container.ThemeOverride {
	return container.NewThemeOverride(o, large{followed{}})
}

// Size is the toolkit's.
func (l large) Size(name fyne.ThemeSizeName) float32 {
	if name == theme.SizeNameText {
		return largeToText * l.Theme.Size(name)
	}
	return l.Theme.Size(name)
}
