package shell_test

import (
	"context"
	"path/filepath"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/shell"
	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// finger taps what it reads in a window, and types where the keyboard is, as on the keys that the system shows.
type finger struct {
	*shell.Shell
	t      *testing.T
	folder string
	desk   *task.Desk // of the head that was opened last
	bench  *task.Bench
}

// sight is a text in the window: where it stands, and what has to be scrolled for it.
type sight struct {
	at      fyne.Position
	size    fyne.Size
	scrolls []*container.Scroll
}

// find finds a text in the window, or over it where something is.
func (f *finger) find(text string) (found sight, ok bool) {
	var look func(o fyne.CanvasObject, parent fyne.Position, scrolls []*container.Scroll)
	look = func(o fyne.CanvasObject, parent fyne.Position, scrolls []*container.Scroll) {
		if ok || o == nil || !o.Visible() {
			return
		}
		at, says := parent.Add(o.Position()), ""
		switch o := o.(type) {
		case *fyne.Container:
			for _, inner := range o.Objects {
				look(inner, at, scrolls)
			}
			return
		case *container.Scroll:
			look(o.Content, at, append(slices.Clone(scrolls), o))
			return
		case *canvas.Text:
			says = o.Text
		case *kit.Text:
			says = o.Text()
		case *widget.Label:
			says = o.Text
		}
		if says == text {
			found, ok = sight{at, o.Size(), scrolls}, true
			return
		}
		if w, is := o.(fyne.Widget); is {
			for _, inner := range test.WidgetRenderer(w).Objects() {
				look(inner, at, scrolls)
			}
		}
	}
	c := f.Window().Canvas()
	if top := c.Overlays().Top(); top != nil {
		look(top, fyne.NewPos(0, 0), nil)
		return found, ok
	}
	look(c.Content(), fyne.NewPos(0, 0), nil)
	return found, ok
}

// sees brings a text into sight and returns the middle of it.
func (f *finger) sees(text string) fyne.Position {
	f.t.Helper()
	s, ok := f.find(text)
	if !ok {
		f.t.Fatalf("the window does not say %q", text)
	}
	for i := range s.scrolls {
		s, _ = f.find(text)
		view := s.scrolls[i]
		top := fyne.CurrentApp().Driver().AbsolutePositionForObject(view)
		to := view.Offset.Add(s.at).Subtract(top).SubtractXY(0, (view.Size().Height-s.size.Height)/2)
		most := view.Content.Size().Height - view.Size().Height
		view.ScrollToOffset(fyne.NewPos(view.Offset.X, max(0, min(to.Y, most))))
	}
	s, _ = f.find(text)
	return s.at.AddXY(s.size.Width/2, s.size.Height/2)
}

// taps taps a text.
func (f *finger) taps(text string) {
	f.t.Helper()
	test.TapCanvas(f.Window().Canvas(), f.sees(text))
}

// tapsKey taps a sentence of the catalogue.
func (f *finger) tapsKey(key string, args ...any) {
	f.t.Helper()
	f.taps(say.Chosen().Line(say.New(key, args...)))
}

// cell taps the cell of a valve in a column.
func (f *finger) cell(valve, column string) {
	f.t.Helper()
	row := f.sees(valve)
	head, ok := f.find(say.Chosen().Line(say.New(column)))
	if !ok {
		f.t.Fatalf("there is no column %s", column)
	}
	test.TapCanvas(f.Window().Canvas(), fyne.NewPos(head.at.X+head.size.Width/2, row.Y))
}

// types types where the keyboard is, and Enter after it.
func (f *finger) types(text string) {
	write(f.Shell, text)
	press(f.Shell, fyne.KeyReturn)
}

// reached holds the page in sight against a finger. The toolkit lays out anew in each frame what has grown, which the test's own
// driver does only for another size of the window.
func (f *finger) reached(page string) {
	f.t.Helper()
	size := f.Window().Canvas().Size()
	f.Window().Resize(size.AddWidthHeight(1, 0))
	f.Window().Resize(size)
	(&touch{t: f.t, page: page}).window(f.Shell)
}

// goes goes the whole way.
func (f *finger) goes() {
	f.reached("welcome")
	f.tapsKey("welcome.demo")
	f.reached("register")
	f.taps("DR-1L")
	if f.bench == nil {
		f.t.Fatal("no head is open")
	}
	for _, leaf := range []string{"needs", "parts", "life"} {
		f.tapsKey("shell.leaf-" + leaf)
		f.reached(leaf)
	}
	f.measures()
	f.chooses()
	f.plans()
	f.signs()
	f.takesIn()
	f.logs()
}

// measures enters a height anew where another one stands.
func (f *finger) measures() {
	f.tapsKey("shell.leaf-valves")
	f.reached("valves")
	f.cell("1 in", "column.base")
	f.types("1.850")
	f.reached("a question above the table")
	f.tapsKey("valves.filled.replace")
	at := record.Position{Cylinder: "1", Role: record.Intake, N: 1}
	for _, r := range f.bench.Record().Setup.Readings {
		if r.At == at && r.Kind == record.BaseHeight && r.Struck == nil && r.Quantity.Typed == "1.850" {
			return
		}
	}
	f.t.Errorf("the height is not in the book: %+v", f.bench.Record().Setup.Readings)
}

// chooses puts another type on the intakes, and the first one back.
func (f *finger) chooses() {
	f.tapsKey("shell.leaf-choose")
	f.reached("choose")
	spring := func() string { return f.bench.Record().PackageOf(record.Intake).Spring }
	before := spring()
	for _, c := range []struct {
		name string
		back bool
	}{{"springs as found", false}, {"beehive 6", true}} {
		f.taps(c.name)
		f.reached("choose " + c.name)
		f.tapsKey("choose.put", say.New("role.in"))
		if (spring() == before) != c.back {
			f.t.Errorf("on the intakes is %s after %s, and %s before", spring(), c.name, before)
		}
	}
}

// plans has a plan made, and puts it on.
func (f *finger) plans() {
	f.tapsKey("shell.leaf-plan")
	f.reached("plan")
	f.tapsKey("plan.make")
	f.reached("a plan")
	springs := func() (all []string) {
		for _, v := range f.bench.Record().Setup.Valves {
			all = append(all, v.Spring)
		}
		return all
	}
	before := springs()
	f.tapsKey("plan.put")
	if slices.Equal(springs(), before) {
		f.t.Errorf("on the head are %v as before", before)
	}
}

// signs signs the sheet of another head.
func (f *finger) signs() {
	f.taps("▸\n" + say.Chosen().Line(say.New("shell.strip")))
	f.taps("QH-3")
	f.tapsKey("shell.leaf-sheet")
	f.reached("sheet")
	f.tapsKey("sign.sign")
	f.reached("about to sign")
	f.taps("M. Ashlock")
	f.tapsKey("sign.sign")
	f.reached("passphrase")
	write(f.Shell, "grinding paste")
	f.tapsKey("sign.yes")
	w, err := task.Work(context.Background(), f.desk.Book, "setup-hill-built")
	if err != nil || w.Record.Setup.State != record.Closed {
		f.t.Errorf("it is %s, %v", w.Record.Setup.State, err)
	}
	f.reached("signed sheet")
}

// takesIn takes a signed sheet into a new book, and opens its head there.
func (f *finger) takesIn() {
	f.CloseBook() // what comes now is on another tablet
	f.tapsKey("welcome.new")
	f.reached("path of a book")
	f.tapsKey("shell.path-take")
	f.reached("empty register")
	f.tapsKey("shell.menu-take-in")
	write(f.Shell, filepath.Base(signedSheet(f.t, f.folder, false)))
	f.reached("path of a file")
	f.tapsKey("shell.path-take")
	f.reached("signed sheet of others")
	f.tapsKey("verify.take-in")
	f.tapsKey("verify.open")
	if h := f.bench.Record().Head; h.Tag != "DR-1L" {
		f.t.Errorf("open is %s", h.Tag)
	}
}

// logs logs a day and a check.
func (f *finger) logs() {
	f.tapsKey("shell.leaf-life")
	f.types("6 passes, 9.5 s, mean 6800, top 7800")
	f.tapsKey("life.check")
	f.reached("check")
	write(f.Shell, "131, polish")
	f.tapsKey("life.keep")
	l, err := f.desk.Book.Life(context.Background(), f.bench.Record().Head.ID)
	if err != nil || len(l.Runs) != 1 || len(l.Checks) != 1 {
		f.t.Errorf("in the book: %+v, %v", l, err)
	}
	f.reached("life after a check")
}
