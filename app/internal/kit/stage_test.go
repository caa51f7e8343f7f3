package kit_test

import (
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"

	"keeperbook/app/internal/kit"
)

// stage is a window with a clock, and a person's and a gauge's hands on its keys.
type stage struct {
	t     *testing.T
	win   fyne.Window // listens to a gauge
	now   time.Time
	stray []string
}

func newStage(t *testing.T, content fyne.CanvasObject) *stage {
	t.Helper()
	test.NewTempApp(t).Settings().SetTheme(kit.NewTheme(false, 1))
	w := test.NewWindow(content)
	w.SetPadded(false)
	w.Resize(fyne.NewSize(1000, 700))
	s := &stage{t: t, now: time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)}
	s.win = kit.Listening(w, func() time.Time { return s.now }, func(text string) { s.stray = append(s.stray, text) })
	t.Cleanup(w.Close)
	return s
}

func (s *stage) rune(r rune) {
	s.t.Helper()
	f := s.win.Canvas().Focused()
	if f == nil {
		s.t.Fatal("nothing has the keyboard")
	}
	f.TypedRune(r)
}

func (s *stage) press(names ...fyne.KeyName) {
	s.t.Helper()
	for _, n := range names {
		f := s.win.Canvas().Focused()
		if f == nil {
			s.t.Fatalf("nothing has the keyboard for %s", n)
		}
		f.TypedKey(&fyne.KeyEvent{Name: n})
	}
}

// person types with a second from key to key.
func (s *stage) person(text string, then ...fyne.KeyName) {
	s.t.Helper()
	for _, r := range text {
		s.now = s.now.Add(time.Second)
		s.rune(r)
	}
	for _, n := range then {
		s.now = s.now.Add(time.Second)
		s.press(n)
	}
}

// gauge sends a reading with so much time from key to key, and Enter.
func (s *stage) gauge(text string, each time.Duration) {
	s.t.Helper()
	s.now = s.now.Add(time.Second)
	for _, r := range text {
		s.rune(r)
		s.now = s.now.Add(each)
	}
	s.press(fyne.KeyReturn)
}

// torn sends a reading and Enter with a pause after so many of its characters.
func (s *stage) torn(text string, cut int, pause time.Duration) {
	s.t.Helper()
	s.now = s.now.Add(time.Second)
	for i, r := range text {
		if i == cut {
			s.now = s.now.Add(pause)
		}
		s.rune(r)
		s.now = s.now.Add(time.Millisecond)
	}
	if cut == len(text) {
		s.now = s.now.Add(pause)
	}
	s.press(fyne.KeyReturn)
}

// says returns everything that can be read in the window, the topmost layer only.
func (s *stage) says() string {
	o := s.win.Canvas().Overlays().Top()
	if o == nil {
		o = s.win.Content()
	}
	return read(o)
}

// read returns the texts of an object, a space between them, in the order they are drawn in.
func read(o fyne.CanvasObject) string {
	var all []string
	var walk func(fyne.CanvasObject)
	walk = func(o fyne.CanvasObject) {
		if !o.Visible() {
			return
		}
		switch o := o.(type) {
		case *canvas.Text:
			all = append(all, o.Text)
		case *fyne.Container:
			for _, inner := range o.Objects {
				walk(inner)
			}
		case fyne.Widget:
			for _, inner := range test.WidgetRenderer(o).Objects() {
				walk(inner)
			}
		}
	}
	walk(o)
	return strings.Join(strings.Fields(strings.Join(all, " ")), " ")
}

func wantSays(t *testing.T, s *stage, wants ...string) {
	t.Helper()
	for _, want := range wants {
		if !strings.Contains(s.says(), want) {
			t.Errorf("the window does not say %q: %s", want, s.says())
		}
	}
}

// each calls see for an object and everything in it that is seen, with its place in the window.
func each(o fyne.CanvasObject, see func(fyne.CanvasObject, fyne.Position)) {
	var walk func(fyne.CanvasObject, fyne.Position)
	walk = func(o fyne.CanvasObject, at fyne.Position) {
		if !o.Visible() {
			return
		}
		at = at.Add(o.Position())
		see(o, at)
		switch o := o.(type) {
		case *fyne.Container:
			for _, inner := range o.Objects {
				walk(inner, at)
			}
		case fyne.Widget:
			for _, inner := range test.WidgetRenderer(o).Objects() {
				walk(inner, at)
			}
		}
	}
	walk(o, fyne.Position{})
}
