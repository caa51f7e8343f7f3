package study_test

import (
	"context"
	"errors"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/screen/study"
	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// host is a window around the page that notes what it is told. It tells a person from a gauge by their pace.
type host struct {
	win    fyne.Window
	now    time.Time
	told   []string
	failed error
	left   int
}

func (h *host) Window() fyne.Window { return h.win }
func (h *host) Tell(l say.Line)     { h.told = append(h.told, l.Key) }
func (h *host) Fail(err error)      { h.failed = errors.Join(h.failed, err) }
func (h *host) Changed()            {}
func (h *host) Show(string)         {}

// shown puts the page of a new gauge into a window.
func shown(t *testing.T) (*task.Desk, *host, *study.View) {
	t.Helper()
	app := test.NewTempApp(t)
	app.Settings().SetTheme(kit.NewTheme(false, 1))
	desk, g := shop(t, false)
	h := &host{now: clock()}
	win := test.NewTempWindow(t, nil)
	v, err := study.New(h, desk, g.ID, func() { h.left++ })
	if err != nil {
		t.Fatal(err)
	}
	h.win = kit.Listening(win, func() time.Time { return h.now }, v.Stray)
	win.SetContent(v.Object())
	win.Resize(fyne.NewSize(1280, 800))
	v.Refresh()
	return desk, h, v
}

// keys presses keys on whatever has the keyboard, as a person does.
func (h *host) keys(t *testing.T, names ...fyne.KeyName) {
	t.Helper()
	for _, n := range names {
		h.now = h.now.Add(time.Second)
		f := h.win.Canvas().Focused()
		if f == nil {
			t.Fatalf("nothing has the keyboard for %s", n)
		}
		f.TypedKey(&fyne.KeyEvent{Name: n})
	}
}

func (h *host) types(text string) {
	for _, r := range text {
		h.now = h.now.Add(time.Second)
		h.win.Canvas().Focused().TypedRune(r)
	}
}

// sends types readings as a gauge does, each with Enter behind it, in no time.
func (h *host) sends(t *testing.T, texts ...string) {
	t.Helper()
	for _, text := range texts {
		for _, r := range text {
			h.win.Canvas().Focused().TypedRune(r)
		}
		h.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	}
}

// kept is what the newest study of the book holds: "1.842 M. Ashlock", and behind a struck one its reason.
func kept(t *testing.T, desk *task.Desk) (string, record.Study) {
	t.Helper()
	studies, err := desk.Book.Studies(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	if len(studies) == 0 {
		return "", record.Study{}
	}
	s := studies[len(studies)-1]
	var all []string
	for _, r := range s.Readings {
		line := r.Quantity.Read + " " + r.By
		if r.Struck != nil {
			line += " (" + r.Struck.Reason + ")"
		}
		all = append(all, line)
	}
	return strings.Join(all, ", "), s
}

// With the keyboard alone: what is measured, readings by two people, an outlying one struck, the study used and
// taken back, and back to the gauge.
func TestStudyByKeyboard(t *testing.T) {
	desk, h, v := shown(t)
	v.Focus()
	h.types("one valve")
	h.keys(t, fyne.KeyReturn)
	h.sends(t, "1842", "1843", "1842", "1842", "1841", "1842", "1862")
	h.keys(t, fyne.KeyF3)
	h.types("J. Peverel")
	h.keys(t, fyne.KeyReturn)
	h.sends(t, "1842", "1843")
	h.keys(t, fyne.KeyF2)
	h.sends(t, "1842")
	got, s := kept(t, desk)
	want := "1.842 M. Ashlock, 1.843 M. Ashlock, 1.842 M. Ashlock, 1.842 M. Ashlock, 1.841 M. Ashlock, 1.842 M. Ashlock, " +
		"1.862 M. Ashlock, 1.842 J. Peverel, 1.843 J. Peverel, 1.842 M. Ashlock"
	if got != want || s.What != "one valve" || s.Readings[0].Quantity.Typed != "1842" {
		t.Errorf("of %q:\n%s\nwant\n%s", s.What, got, want)
	}

	press(t, h, "Strike reading 7…")
	h.keys(t, fyne.KeyReturn) // without a reason
	if got, _ := kept(t, desk); strings.Contains(got, "(") {
		t.Errorf("struck without a reason: %s", got)
	}
	h.types("locks not seated")
	h.keys(t, fyne.KeyReturn)
	if got, _ := kept(t, desk); !strings.Contains(got, "1.862 M. Ashlock (locks not seated)") {
		t.Errorf("not struck: %s", got)
	}
	press(t, h, "Use it for the gauge")
	if r := inBook(t, desk).Repeat; r == nil || r.Study != s.ID || r.Freedom != "7" || r.People != 2 {
		t.Errorf("the gauge has %+v", r)
	}
	press(t, h, "Take the last use back")
	if r := inBook(t, desk).Repeat; r != nil {
		t.Errorf("taken back, the gauge has %+v", r)
	}
	if h.failed != nil || strings.Join(h.told, " ") != "study.used study.taken-back" {
		t.Errorf("told %q, failed %v", h.told, h.failed)
	}
	h.types("18")
	h.keys(t, fyne.KeyEscape)
	if h.left != 0 {
		t.Error("Esc left the page over a text that was typed")
	}
	h.keys(t, fyne.KeyEscape)
	if h.left != 1 {
		t.Error("Esc does not lead back")
	}
}

// words are what stands on a button.
func words(b *kit.Button) string {
	for _, o := range test.WidgetRenderer(b).Objects() {
		if text, ok := o.(*canvas.Text); ok {
			return text.Text
		}
	}
	return ""
}

// press finds a button of the window and presses Enter on it.
func press(t *testing.T, h *host, label string) {
	t.Helper()
	c := h.win.Canvas()
	first := c.Focused()
	for range 60 {
		c.FocusNext()
		if b, ok := c.Focused().(*kit.Button); ok && words(b) == label {
			h.keys(t, fyne.KeyReturn)
			return
		}
		if c.Focused() == first {
			break
		}
	}
	t.Fatalf("no button %q can be reached by the keyboard", label)
}

// Readings come as fast as keys can be, one in the middle is refused, and one comes while a question is open.
// Each is in the study or stands beside it, and none presses a button or makes a name.
func TestBurst(t *testing.T) {
	desk, h, v := shown(t)
	v.Focus()
	h.sends(t, "1.842") // into the field of what is measured
	if got, s := kept(t, desk); got != "" || s.What != "" {
		t.Errorf("a reading is what is measured: %q, %q", s.What, got)
	}
	h.sends(t, "1.843", "E----", "1.844")
	h.keys(t, fyne.KeyF3)
	h.sends(t, "1.845")
	if h.win.Canvas().Overlays().Top() == nil {
		t.Fatal("the gauge answered the question")
	}
	h.keys(t, fyne.KeyEscape)
	h.win.Canvas().FocusNext() // a button
	h.sends(t, "1.846")
	if got, _ := kept(t, desk); got != "1.843 M. Ashlock, 1.844 M. Ashlock, 1.846 M. Ashlock" {
		t.Errorf("kept is %s", got)
	}
	if lines := v.Unkept(); len(lines) != 3 {
		t.Errorf("not kept are %v", lines)
	}
	// What stands beside the study can be put into the field again.
	press(t, h, "Put it into the field")
	h.keys(t, fyne.KeyReturn)
	if got, _ := kept(t, desk); !strings.HasSuffix(got, "1.846 M. Ashlock, 1.842 M. Ashlock") {
		t.Errorf("put back, kept is %s", got)
	}
	press(t, h, "Drop it") // the refused one
	press(t, h, "Put it into the field")
	h.keys(t, fyne.KeyReturn)
	if got, _ := kept(t, desk); !strings.HasSuffix(got, "1.842 M. Ashlock, 1.845 M. Ashlock") {
		t.Errorf("put back, kept is %s", got)
	}
	if len(v.Unkept()) != 0 || h.left != 0 || h.failed != nil || len(h.told) != 0 {
		t.Errorf("left %d times, told %q, failed %v", h.left, h.told, h.failed)
	}
}

// A reading is chosen among the others, struck, and counted again.
func TestReadingsByKeyboard(t *testing.T) {
	desk, h, v := shown(t)
	v.Focus()
	h.types("one valve")
	h.keys(t, fyne.KeyReturn)
	h.sends(t, "1842", "1843", "1844")
	rows := func() {
		for range 60 {
			h.win.Canvas().FocusNext()
			if _, ok := h.win.Canvas().Focused().(*kit.Rows); ok {
				return
			}
		}
		t.Fatal("the readings cannot be reached")
	}
	rows()
	h.keys(t, fyne.KeyRight, fyne.KeyReturn)
	h.types("slipped")
	h.keys(t, fyne.KeyReturn)
	if got, _ := kept(t, desk); got != "1.842 M. Ashlock, 1.843 M. Ashlock (slipped), 1.844 M. Ashlock" {
		t.Errorf("kept is %s", got)
	}
	h.keys(t, fyne.KeyReturn, fyne.KeyEscape, fyne.KeyReturn)
	h.types("c")
	if got, _ := kept(t, desk); strings.Contains(got, "slipped") {
		t.Errorf("kept is %s", got)
	}
	h.keys(t, fyne.KeyEscape)
	h.sends(t, "1845")
	if got, _ := kept(t, desk); !strings.HasSuffix(got, "1.845 M. Ashlock") {
		t.Errorf("after Esc the keyboard is not in the field: %s", got)
	}
}
