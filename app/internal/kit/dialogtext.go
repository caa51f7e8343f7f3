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
	ask(win, title, say.Chosen().Line(say.New("kit.keep")), &asking{blanks: blanks, done: done})
}

// Slow is what a form's texts are for where that takes longer than a key press.
type Slow struct {
	Title, Text string // the text is said above the blanks; may be empty
	Yes         string // words of the button that hands the texts over
	Waiting     string // said meanwhile
	Blanks      []Blank
	Run         func(work func()) // runs the work beside the window
	// Work is done with the texts; what it returns is done in the window once the dialog is gone. Where it fails, the
	// dialog says why and keeps the texts, but those that nobody else is to read.
	Work func(texts []string) (then func(), err error)
}

// AskSlow asks for texts as [AskForm] does, and leaves the dialog open and deaf while they are worked on.
func AskSlow(win fyne.Window, s Slow) {
	a := &asking{blanks: s.Blanks, text: s.Text}
	a.done = func(texts []string) error {
		a.wait(s.Waiting)
		s.Run(func() {
			then, err := s.Work(texts)
			fyne.Do(func() { a.worked(then, err) })
		})
		return nil
	}
	ask(win, s.Title, s.Yes, a)
}

// wait says what is waited for, and takes no key until it is there.
func (a *asking) wait(text string) {
	a.deaf = true
	a.trouble.Set(text)
	a.trouble.Show()
	a.show()
}

// worked goes on after what was waited for.
func (a *asking) worked(then func(), err error) {
	a.deaf = false
	if err == nil {
		a.close()
		then()
		return
	}
	for i, b := range slices.Backward(a.blanks) { // so that the first of them has the keyboard
		if b.Hide {
			a.fields[i].entry.wipe()
			a.canvas.Focus(a.fields[i].entry)
		}
	}
	a.trouble.Set(Sentence(err))
	a.Refresh()
}

func ask(win fyne.Window, title, yes string, a *asking) {
	words := say.Chosen()
	d := newDialog(win, title)
	d.guard.asks = true
	a.dialog, a.trouble = d, NewText("")
	a.trouble.bold = true
	if a.text != "" {
		d.body = append(d.body, NewText(a.text))
	}
	blanks := a.blanks
	d.choose([]Choice{
		{Label: words.Line(say.New("kit.cancel")), Cancel: true},
		{Label: yes, Primary: true},
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
	text    string // said above the blanks; may be empty
	blanks  []Blank
	fields  []*Field
	done    func([]string) error
	trouble *Text // what done refused
}

// key takes a key in the text i.
func (a *asking) key(i int, e *fyne.KeyEvent) bool {
	if a.deaf {
		return true
	}
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
	if a.deaf {
		return
	}
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
