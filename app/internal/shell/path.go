package shell

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"keeperbook/app/internal/kit"
	"keeperbook/model/say"
)

// mostFound is how many of the names that a path can go on with are shown.
const mostFound = 8

// pathDialog asks for the path of a book. Tab completes it, the arrows go over what is there, Enter takes
// it, Esc gives up. What is refused stays as it was typed, with the reason below.
type pathDialog struct {
	shell   *Shell
	paths   *Paths
	entry   *pathEntry
	found   [mostFound]*kit.Text
	trouble *kit.Text
	list    *fyne.Container
	pop     *widget.PopUp
	take    func(string) error
	refused func(string, error)
}

// askPath asks for the path of a file with an ending and hands it to take. Where what is there may not be written, refused is asked
// what to do instead; it may be nil. It returns the dialog.
func (s *Shell) askPath(title, what say.Line, start, ending string, take func(path string) error, refused func(string, error)) *pathDialog {
	d := &pathDialog{shell: s, paths: NewPaths(start, ending), take: take, refused: refused, trouble: kit.NewText("")}
	d.trouble.Bold(true)
	d.entry = newPathEntry(d, start)
	d.list = container.NewVBox()
	for i := range d.found {
		d.found[i] = kit.NewText("")
		d.list.Add(d.found[i])
	}
	enter := kit.NewButton(s.line("shell.path-take"), s.line("kit.enter"), d.enter).Strong()
	leave := kit.NewButton(s.line("kit.cancel"), s.line("kit.esc"), d.close)
	body := kit.Column(kit.NewHeading(s.words.Line(title)), kit.NewText(s.words.Line(what)), d.entry, d.list, d.trouble,
		container.NewHBox(enter, leave), kit.NewHint(s.line("shell.path-keys")))
	d.pop = widget.NewModalPopUp(container.New(&dialogRoom{s.win.Canvas()}, container.NewPadded(body)), s.win.Canvas())
	d.show()
	d.pop.Show()
	s.win.Canvas().Focus(d.entry)
	d.entry.CursorColumn = len([]rune(start))
	d.entry.Refresh()
	return d
}

func (d *pathDialog) close() {
	d.pop.Hide()
}

// typed follows the text.
func (d *pathDialog) typed(text string) {
	d.paths.Type(text)
	d.trouble.Set("")
	d.show()
}

// show lists what the path can go on with, the chosen one bold with an arrow before it.
func (d *pathDialog) show() {
	names, cursor := d.paths.Found(), d.paths.Cursor()
	first := max(0, cursor-mostFound+1)
	for i, t := range d.found {
		n := first + i
		switch {
		case n >= len(names):
			t.Set("")
		case n == cursor:
			t.Set("▸ " + names[n])
		default:
			t.Set("   " + names[n])
		}
		t.Bold(n == cursor && n < len(names))
	}
	d.pop.Refresh()
}

func (d *pathDialog) move(by int) {
	d.paths.Move(by)
	d.show()
}

func (d *pathDialog) complete() {
	text := d.paths.Complete()
	d.entry.SetText(text)
	d.entry.CursorColumn = len([]rune(text))
	d.entry.Refresh()
}

// enter goes into a chosen folder, and takes anything else.
func (d *pathDialog) enter() {
	if d.paths.Folder() {
		d.complete()
		return
	}
	if err := d.take(d.paths.Path()); err != nil {
		if d.refused != nil && readable(err) {
			d.close()
			d.refused(d.paths.Path(), err)
			return
		}
		d.trouble.Set(kit.Sentence(err))
		d.show()
		return
	}
	d.close()
}

// dialogRoom is as wide as a path needs, within the window.
type dialogRoom struct{ canvas fyne.Canvas }

func (r *dialogRoom) MinSize(objects []fyne.CanvasObject) fyne.Size {
	w := min(40*em(), r.canvas.Size().Width-4*em())
	objects[0].Resize(fyne.NewSize(w, objects[0].MinSize().Height))
	return fyne.NewSize(w, objects[0].MinSize().Height)
}

func (*dialogRoom) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	objects[0].Resize(size)
	objects[0].Move(fyne.NewPos(0, 0))
}

// pathEntry is the field of the dialog.
type pathEntry struct {
	widget.Entry
	dialog *pathDialog
}

func newPathEntry(d *pathDialog, start string) *pathEntry {
	e := &pathEntry{dialog: d}
	e.Text = start
	e.OnChanged = d.typed
	e.ExtendBaseWidget(e)
	return e
}

// AcceptsTab is true: Tab completes.
func (e *pathEntry) AcceptsTab() bool { return true }

// TypedKey takes the keys of the dialog first.
func (e *pathEntry) TypedKey(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeyTab:
		e.dialog.complete()
	case fyne.KeyDown:
		e.dialog.move(1)
	case fyne.KeyUp:
		e.dialog.move(-1)
	case fyne.KeyReturn, fyne.KeyEnter:
		e.dialog.enter()
	case fyne.KeyEscape:
		e.dialog.close()
	default:
		e.Entry.TypedKey(k)
	}
}
