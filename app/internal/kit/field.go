package kit

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// Field is one value that is typed: its label above, the text large, the unit behind it, and below what
// was understood or why it was refused. Enter commits and moves on, leaving commits, Esc gives the old
// value back. A refused text stays as it was typed.
type Field struct {
	widget.BaseWidget
	Unit       string                   // shown behind the text
	Understand func(text string) string // what the text reads as, shown while it is typed; may be nil
	Typing     func(text string)        // told what stands in the field with every key; may be nil
	Next       func()                   // where Enter goes on; nil: to the next thing that takes the keyboard
	Key        func(fyne.KeyName) bool  // takes a key before the field does; may be nil

	label   *Text
	unit    *Text
	below   *Text
	frame   *canvas.Rectangle
	entry   *entry
	holder  *container.ThemeOverride
	value   string // the one that holds
	tried   string // the text that was refused last
	refused bool
	plain   bool // a dialog's: whoever asks commits
	commit  func(string) error
	shown   func(fyne.CanvasObject)
}

// NewField returns a field. Commit is given the text and says why it will not do; it is not called for a
// text that is the value already. It may be nil.
func NewField(label, value string, commit func(string) error) *Field {
	return newField(label, value, commit, false)
}

// NewNote returns a field for a text of several lines. Enter begins a new line; Tab or Ctrl+Enter commits
// and moves on.
func NewNote(label, value string, commit func(string) error) *Field {
	f := newField(label, value, commit, true)
	f.entry.keep = f.enter
	return f
}

func newField(label, value string, commit func(string) error, many bool) *Field {
	f := &Field{value: value, commit: commit, entry: newEntry(many)}
	f.label, f.unit, f.below = NewHint(label), NewHint(""), NewHint("")
	f.unit.whole = true
	f.frame = canvas.NewRectangle(color.Transparent)
	f.entry.SetText(value)
	f.entry.OnChanged = func(string) { f.typed() }
	f.entry.before = f.key
	f.entry.gained = f.gained
	f.entry.lost = f.lost
	f.holder = enlarged(f.entry)
	f.ExtendBaseWidget(f)
	return f
}

// Set shows another value. A text that was typed and not committed stays, and Esc then gives back the
// new value.
func (f *Field) Set(value string) {
	pending := f.Pending()
	f.value = value
	if !pending && f.entry.Text != value {
		f.entry.SetText(value)
	}
}

// Value returns the value that holds: the last one set or committed.
func (f *Field) Value() string { return f.value }

// Text returns what stands in the field.
func (f *Field) Text() string { return f.entry.Text }

// Pending reports whether a text stands in the field that was not committed.
func (f *Field) Pending() bool { return f.entry.Text != f.value }

// SetLabel changes the label.
func (f *Field) SetLabel(label string) { f.label.Set(label) }

// Focus puts the keyboard into the field.
func (f *Field) Focus() {
	step(f, func(c fyne.Canvas) { c.Focus(f.entry) })
}

// Begin gives the keyboard to the field with a first character in it, as when it was typed there.
func (f *Field) Begin(char rune) { f.BeginText(string(char)) }

// BeginText gives the keyboard to the field with a text in it, as when it was typed there.
func (f *Field) BeginText(text string) {
	f.Focus()
	for _, char := range text {
		f.entry.TypedRune(char)
	}
}

// Focused reports whether the field has the keyboard.
func (f *Field) Focused() bool {
	focused := false
	step(f, func(c fyne.Canvas) { focused = c.Focused() == fyne.Focusable(f.entry) })
	return focused
}

func (f *Field) follow(reveal func(fyne.CanvasObject)) { f.shown = reveal }

func (f *Field) gained() {
	f.Refresh()
	if f.shown != nil {
		f.shown(f)
	}
}

func (f *Field) lost() {
	// What was refused is not tried again only because the keyboard went elsewhere.
	if !f.plain && !(f.refused && f.tried == f.entry.Text) {
		f.Commit()
	}
	f.Refresh()
}

// typed follows the text while it is typed.
func (f *Field) typed() {
	if f.Typing != nil {
		f.Typing(f.entry.Text)
	}
	if f.refused && f.tried != f.entry.Text {
		f.refused = false
	}
	f.Refresh()
}

func (f *Field) key(e *fyne.KeyEvent) bool {
	if f.Key != nil && f.Key(e.Name) {
		return true
	}
	switch e.Name {
	case fyne.KeyEscape:
		f.Restore()
		return true
	case fyne.KeyReturn, fyne.KeyEnter:
		if f.entry.MultiLine {
			return false
		}
		f.enter()
		return true
	case fyne.KeyDown:
		if !f.entry.MultiLine {
			step(f, fyne.Canvas.FocusNext)
			return true
		}
	case fyne.KeyUp:
		if !f.entry.MultiLine {
			step(f, fyne.Canvas.FocusPrevious)
			return true
		}
	}
	return false
}

func (f *Field) enter() {
	if !f.Commit() {
		return
	}
	if f.Next != nil {
		f.Next()
		return
	}
	f.Forward()
}

// Forward gives the keyboard to the next object of the window.
func (f *Field) Forward() { step(f, fyne.Canvas.FocusNext) }

// Restore gives the old value back.
func (f *Field) Restore() {
	f.refused = false
	f.entry.SetText(f.value)
	f.Refresh()
}

// Commit hands the text over if it is not the value already, and reports whether it holds now.
func (f *Field) Commit() bool {
	text := f.entry.Text
	if !f.Pending() {
		f.refuse(nil)
		return true
	}
	if f.commit == nil {
		f.value = text
		return true
	}
	if err := f.commit(text); err != nil {
		f.refuse(err)
		return false
	}
	// Commit may have set the value already, in its own way of writing.
	if f.Pending() && f.entry.Text == text {
		f.value = text
	}
	f.refuse(nil)
	return true
}

// refuse shows why the text will not do; nil takes the sentence away.
func (f *Field) refuse(err error) {
	f.refused = err != nil
	if f.refused {
		f.tried = f.entry.Text
		f.below.Set(Sentence(err))
	}
	f.Refresh()
}

// note is what stands below.
func (f *Field) note() string {
	switch {
	case f.refused:
		return f.below.text
	case f.Understand != nil && f.entry.Text != "":
		return f.Understand(f.entry.Text)
	}
	return ""
}
