package kit

import (
	"slices"
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"keeperbook/model/say"
)

// Blank is one text that a dialog asks for.
type Blank struct {
	Label string
	Start string
	Unit  string                  // shown behind the text; may be empty
	Hide  bool                    // nobody else is to read it: a dot stands for each sign
	Check func(text string) error // says why a text will not do; nil takes any
}

// AskText asks for one text. Enter hands it to done after check let it pass; what check refuses stays
// in the field with the error's sentence under it. Esc closes the dialog and nothing is done.
func AskText(win fyne.Window, title, label, start string, check func(string) error, done func(string)) {
	AskForm(win, title, []Blank{{Label: label, Start: start, Check: check}}, func(texts []string) error {
		done(texts[0])
		return nil
	})
}

// AskForm asks for several texts. Enter moves from one to the next, and on the last hands all of them to
// done after every check let them pass. Where done fails, the dialog comes back with the error's sentence
// and all texts in it.
func AskForm(win fyne.Window, title string, blanks []Blank, done func(texts []string) error) {
	words := say.English()
	d := newDialog(win, title)
	d.guard.asks = true
	a := &asking{dialog: d, blanks: blanks, done: done, trouble: NewText("")}
	a.trouble.bold = true
	d.choose([]Choice{
		{Label: words.Line(say.New("kit.cancel")), Cancel: true},
		{Label: words.Line(say.New("kit.keep")), Primary: true},
	})
	keep := d.buttons[1].(*Button)
	keep.do = a.keep
	for i, b := range blanks {
		f := NewField(b.Label, b.Start, nil)
		f.Unit = b.Unit
		f.entry.Password = b.Hide
		f.entry.before = func(e *fyne.KeyEvent) bool { return a.key(i, e) }
		f.entry.chars = func(r rune) { d.char(r, false) }
		f.plain = true
		f.follow(a.reveal)
		a.fields = append(a.fields, f)
	}
	fields := container.New(&columns{least: 210})
	for _, f := range a.fields {
		fields.Objects = append(fields.Objects, f)
	}
	if len(blanks) <= severalBlanks {
		fields.Layout = &column{gap: 3}
	} else {
		d.width = 1.4 * widestDialog
	}
	d.body = append(d.body, fields)
	a.trouble.Hide()
	d.body = append(d.body, a.trouble)
	d.first = a.fields[0].entry
	d.typed = func() bool { return slices.ContainsFunc(a.fields, (*Field).Pending) }
	d.open()
}

// severalBlanks is how many texts stand one under the other; more stand in two columns.
const severalBlanks = 4

// asking is a dialog with texts.
type asking struct {
	*dialog
	blanks  []Blank
	fields  []*Field
	done    func([]string) error
	trouble *Text // what done refused
}

// key takes a key in the text i.
func (a *asking) key(i int, e *fyne.KeyEvent) bool {
	switch e.Name {
	case fyne.KeyEscape:
		a.cancel()
		return true
	case fyne.KeyReturn, fyne.KeyEnter:
		// A passphrase may well come from a machine too, and goes nowhere else.
		if text, gauge := a.guard.end(); gauge && !a.blanks[i].Hide {
			a.divert(i, text)
			return true
		}
		if !a.check(i) {
			return true
		}
		if i+1 < len(a.fields) {
			a.canvas.Focus(a.fields[i+1].entry)
			return true
		}
		a.keep()
		return true
	}
	return false
}

// divert takes what a gauge typed out of a text again and hands it on. Where nobody takes it, it stays,
// and only its Enter counts for nothing. So does one character alone, which a person may have typed.
func (a *asking) divert(i int, text string) {
	n := utf8.RuneCountInString(text)
	if a.stray == nil || n < 2 {
		return
	}
	e := a.fields[i].entry
	typed := []rune(e.Text)
	if at := e.CursorColumn; at >= n && string(typed[at-n:at]) == text {
		e.SetText(string(typed[:at-n]) + string(typed[at:]))
		e.CursorColumn = at - n
		e.Refresh()
	}
	a.hand(text)
}

// check shows under the text i why it will not do.
func (a *asking) check(i int) bool {
	var err error
	if a.blanks[i].Check != nil {
		err = a.blanks[i].Check(a.fields[i].entry.Text)
	}
	a.fields[i].refuse(err)
	a.Refresh()
	return err == nil
}

// keep hands over all texts, or goes to the first that will not do.
func (a *asking) keep() {
	texts := make([]string, len(a.fields))
	for i, f := range a.fields {
		texts[i] = f.entry.Text
		if !a.check(i) {
			a.canvas.Focus(f.entry)
			return
		}
	}
	// What done opens must not go away together with this dialog.
	a.close()
	if err := a.done(texts); err != nil {
		a.trouble.Set(Sentence(err))
		a.trouble.Show()
		a.first = a.fields[len(a.fields)-1].entry
		a.show()
	}
}

// reveal scrolls a text into sight where the window is too low for all of them.
func (a *asking) reveal(o fyne.CanvasObject) {
	top, low := o.Position().Y, o.Position().Y+o.Size().Height
	y, view := a.scroll.Offset.Y, a.scroll.Size().Height
	switch {
	case top < y:
		a.scroll.ScrollToOffset(fyne.NewPos(0, top))
	case low > y+view:
		a.scroll.ScrollToOffset(fyne.NewPos(0, low-view))
	}
}
