package shop_test

import (
	"errors"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/screen/shop"
	"keeperbook/app/internal/task"
	"keeperbook/model/say"
)

// host is a window around the pages that notes what it is told.
type host struct {
	win     fyne.Window
	told    []string
	failed  error
	changed int
}

func (h *host) Window() fyne.Window { return h.win }
func (h *host) Tell(l say.Line)     { h.told = append(h.told, say.English().Line(l)) }
func (h *host) Fail(err error)      { h.failed = errors.Join(h.failed, err) }
func (h *host) Changed()            { h.changed++ }
func (h *host) Show(string)         {}

// shown puts the pages of the demonstration book into a window.
func shown(t *testing.T) (*task.Desk, *host, *shop.View) {
	t.Helper()
	app := test.NewTempApp(t)
	app.Settings().SetTheme(kit.NewTheme(false, 1))
	h := &host{win: test.NewTempWindow(t, nil)}
	desk := demonstration(t)
	v, err := shop.New(h, desk)
	if err != nil {
		t.Fatal(err)
	}
	v.Background = func(work func()) { work() }
	h.win.SetContent(v.Object())
	h.win.Resize(fyne.NewSize(1280, 800))
	v.Refresh()
	return desk, h, v
}

// keys presses keys on whatever has the keyboard.
func (h *host) keys(t *testing.T, names ...fyne.KeyName) {
	t.Helper()
	for _, n := range names {
		f := h.win.Canvas().Focused()
		if f == nil {
			t.Fatalf("nothing has the keyboard for %s", n)
		}
		f.TypedKey(&fyne.KeyEvent{Name: n})
	}
}

func (h *host) types(text string) {
	for _, r := range text {
		h.win.Canvas().Focused().TypedRune(r)
	}
}

// counter is what the book has now.
func counter(t *testing.T, desk *task.Desk) *task.Counter {
	t.Helper()
	c, _ := pages(t, desk)
	return c
}

// With the keyboard alone: open the second type, rename it, go on to its note.
func TestRenameByKeyboard(t *testing.T) {
	if testing.Short() {
		t.Skip("one goroutine: once a run is enough")
	}
	desk, h, v := shown(t)
	v.Focus()
	h.keys(t, fyne.KeyDown, fyne.KeyReturn)
	h.types("found springs")
	h.keys(t, fyne.KeyReturn)
	if got := counter(t, desk).Parts().Springs[1].Name; got != "found springs" {
		t.Errorf("the type is called %q", got)
	}
	if h.changed != 1 || h.failed != nil {
		t.Errorf("told of %d changes, failed with %v", h.changed, h.failed)
	}
}

// A refused text is there again when one comes back to it, and Esc gives the old value back.
func TestRefusedTextStays(t *testing.T) {
	if testing.Short() {
		t.Skip("one goroutine: once a run is enough")
	}
	desk, h, v := shown(t)
	v.Focus()
	h.keys(t, fyne.KeyReturn)
	h.keys(t, fyne.KeyDown, fyne.KeyDown) // past the coils to the rate
	h.types("12x")
	h.keys(t, fyne.KeyReturn)
	refused := h.win.Canvas().Focused()
	v.Show(shop.Gauges)
	v.Show(shop.Springs)
	v.Focus()
	h.keys(t, fyne.KeyReturn)
	h.keys(t, fyne.KeyDown, fyne.KeyDown)
	if h.win.Canvas().Focused() != refused {
		t.Fatal("the field of the refused text is another one")
	}
	if e, ok := refused.(interface{ SelectedText() string }); !ok || e.SelectedText() != "12x" {
		t.Error("the refused text is not in its field")
	}
	h.keys(t, fyne.KeyEscape)
	if got := counter(t, desk).Parts().Springs[0].Rate.Read; got != "318" {
		t.Errorf("the rate in the book is %q", got)
	}
}

// From the button to a spring in the book, and out of it again.
func TestAddAndRemove(t *testing.T) {
	desk, h, v := shown(t)
	n := len(counter(t, desk).Gauges())
	v.Show(shop.Gauges)
	v.Focus()
	h.keys(t, fyne.KeyEnd)
	h.keys(t, fyne.KeyDown, fyne.KeyReturn) // the button under the list
	h.types("tester 7")
	h.keys(t, fyne.KeyReturn)
	if got := counter(t, desk).Gauges(); len(got) != n+1 {
		t.Fatalf("%d gauges, want %d", len(got), n+1)
	}
	if h.win.Canvas().Overlays().Top() != nil {
		t.Fatal("the question is still open")
	}
	h.win.Canvas().FocusPrevious() // from the name of what is new to the button above it
	h.keys(t, fyne.KeyReturn, fyne.KeyEscape)
	if got := counter(t, desk).Gauges(); len(got) != n+1 {
		t.Fatalf("%d gauges after Esc, want %d", len(got), n+1)
	}
	h.keys(t, fyne.KeyReturn)
	h.win.Canvas().Focused().TypedRune('r')
	if got := counter(t, desk).Gauges(); len(got) != n || len(h.told) != 1 || h.failed != nil {
		t.Errorf("%d gauges, want %d; told %q, failed %v", len(got), n, h.told, h.failed)
	}
}

// A table of springs comes in from the clipboard, and one with a fault is refused with the first of its sentences.
func TestPasteSprings(t *testing.T) {
	desk, h, v := shown(t)
	clip := fyne.CurrentApp().Clipboard()
	before := len(counter(t, desk).Parts().Pieces)
	press := func() {
		h.failed = nil
		v.Focus()
		for range 20 {
			if b, ok := h.win.Canvas().Focused().(*kit.Button); ok && words(b) == "Paste a table…" {
				h.keys(t, fyne.KeyReturn)
				return
			}
			h.win.Canvas().FocusNext()
		}
		t.Fatal("the keyboard never gets to the button")
	}
	for _, c := range []struct{ table, want string }{
		{"", "There is no text on the clipboard"},
		{"tag,spring,what,height\nP-1,nest 12,free,tall\nP-2,,free,2.2\n", "Nothing of the table was kept, for 1 more lines do not fit either. line 2: "},
		{"tag,spring,what,height\nP-2,,free,2.2\n", "Nothing of the table was kept. Line 2 begins"},
	} {
		clip.SetContent(c.table)
		press()
		if h.failed == nil || !strings.Contains(h.failed.Error(), c.want) || len(counter(t, desk).Parts().Pieces) != before {
			t.Errorf("%q: %v", c.table, h.failed)
		}
	}
	clip.SetContent("tag\tspring\twhat\theight\nP-1\tnest 12\tfree\t2.2\nP-2\tnest 12\tfree\t2.21\n")
	press()
	if n := len(counter(t, desk).Parts().Pieces); n != before+2 || h.failed != nil || h.told[len(h.told)-1] != "2 single springs of the table are in the book." {
		t.Errorf("%d springs, %v, told %q", n-before, h.failed, h.told)
	}
}
