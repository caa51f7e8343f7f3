package needs

import (
	"context"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// host is a window that notes what a page asks of it.
type host struct {
	win     fyne.Window
	changed int
	leaf    string
	page    *View
}

func (h *host) Window() fyne.Window { return h.win }
func (h *host) Tell(say.Line)       {}
func (h *host) Fail(error)          {}
func (h *host) Show(leaf string)    { h.leaf = leaf }
func (h *host) Changed() {
	h.changed++
	h.page.Refresh()
}

// window shows the page in a window of its own.
func window(t *testing.T, b *task.Bench, dark bool, scale float32, size fyne.Size) (*View, *host) {
	t.Helper()
	app := test.NewTempApp(t)
	app.Settings().SetTheme(kit.NewTheme(dark, scale))
	h := &host{}
	v := New(h, b)
	h.page, h.win = v, test.NewTempWindow(t, v.Object())
	h.win.SetPadded(false)
	h.win.Resize(size)
	return v, h
}

func typed(h *host, text string) {
	test.Type(h.win.Canvas().Focused(), text)
}

func press(h *host, key fyne.KeyName) {
	h.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: key})
}

// The first question is answered without a pointer: Enter goes to its field, Enter keeps and moves on.
func TestAnswerWithTheKeyboard(t *testing.T) {
	_, b := fresh(t)
	v, h := window(t, b, false, 1, fyne.NewSize(1100, 800))
	before := v.Open()
	v.Focus()
	press(h, fyne.KeyReturn)
	typed(h, "60")
	press(h, fyne.KeyReturn)
	if l, ok := task.LeastOf(b.Record().PackageOf(record.Intake), 1); !ok || l.Margin.Read != "0.060" {
		t.Fatalf("kept %+v", l)
	}
	if got := v.inputs["in.least.1"].(*kit.Field).Text(); got != ".060" {
		t.Errorf("the field shows %q", got)
	}
	if v.Open() != before-1 || h.changed != 1 {
		t.Errorf("%d open, %d changes", v.Open(), h.changed)
	}
	typed(h, "shop rule")
	press(h, fyne.KeyReturn)
	if l, _ := task.LeastOf(b.Record().PackageOf(record.Intake), 1); l.From != "shop rule" {
		t.Errorf("the next field was not the one beside: %+v", l)
	}
	// A refused text stays and says why; Esc gives the old one back.
	typed(h, "six")
	press(h, fyne.KeyReturn)
	f := v.inputs["in.least.2"].(*kit.Field)
	if f.Text() != "six" || !f.Focused() {
		t.Errorf("a refused text is %q", f.Text())
	}
	v.Refresh()
	if f.Text() != "six" {
		t.Errorf("after a refresh it is %q", f.Text())
	}
	press(h, fyne.KeyEscape)
	if f.Text() != "" {
		t.Errorf("Esc left %q", f.Text())
	}
	// An undo from elsewhere is drawn.
	for range 2 {
		if _, err := b.Undo(context.Background()); err != nil {
			t.Fatal(err)
		}
	}
	v.Refresh()
	if got := v.inputs["in.least.1"].(*kit.Field).Text(); got != "" {
		t.Errorf("after an undo the field shows %q", got)
	}
}

// A question that is answered on another page leads there.
func TestQuestionOfAnotherPage(t *testing.T) {
	_, b := fresh(t)
	v, h := window(t, b, false, 1, fyne.NewSize(1100, 800))
	for i, q := range v.asked {
		if q.Leaf == "" {
			continue
		}
		v.answer(kit.RowAt{Row: i / 2, Cell: i % 2})
		if h.leaf != "parts" {
			t.Errorf("%q leads to %q", q.Text, h.leaf)
		}
		return
	}
	t.Fatal("no question leads to another page")
}

// A check that is answered gets fields for who and what else, in its line.
func TestCheckGrows(t *testing.T) {
	_, b := fresh(t)
	v, h := window(t, b, false, 1, fyne.NewSize(1100, 800))
	v.goTo("check crack check")
	press(h, fyne.KeyRight)
	press(h, fyne.KeyReturn)
	if _, ok := v.inputs["check crack check.who"]; !ok {
		t.Fatal("no field for who did it")
	}
	if got := v.inputs["check crack check.who"].(*kit.Field).Text(); got != "M. Tester" {
		t.Errorf("done by %q", got)
	}
	v.goTo("check.other")
	typed(h, "deck flatness")
	press(h, fyne.KeyReturn)
	if got := v.inputs["check.other"].(*kit.Field).Text(); got != "" {
		t.Errorf("the next work begins with %q", got)
	}
	if n := len(b.Record().Setup.Checks); n != 2 {
		t.Errorf("%d checks", n)
	}
}
