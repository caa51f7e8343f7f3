package shell_test

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/shell"
	"keeperbook/app/internal/task"
	"keeperbook/app/internal/wire"
)

// leastTouch is how high a thing has to be for a finger to meet it, in pixels.
const leastTouch = 44

// tablet is a window on a tablet, as high as the bar of menus leaves it, in letters from which on things are large enough for
// fingers.
type tablet struct {
	wide, high float32
	scale      float64
	language   string
}

var tablets = []tablet{{1280, 755, 1.5, "de"}, {1024, 720, 1.25, "es"}}

// The whole way on a tablet with the pointer alone but for what is typed: a head is chosen, a reading entered, springs chosen, a
// plan made and put on, a sheet signed, taken into another book, and a day and a check entered there. On each page whatever
// is tapped is high enough for a finger, whole, and in the window or where it can be scrolled to.
func TestTouch(t *testing.T) {
	if testing.Short() {
		t.Skip("once a run is enough")
	}
	for _, tab := range tablets {
		t.Run(fmt.Sprintf("%gx%g at %g in %s", tab.wide, tab.high, tab.scale, tab.language), func(t *testing.T) {
			t.Setenv("DISPLAY", ":0") // never opened: the test's own driver draws
			t.Setenv("HOME", t.TempDir())
			folder := t.TempDir()
			app := test.NewTempApp(t)
			wire.Main{
				Clock: slow(), Who: "test", Folder: func() (string, error) { return folder, nil }, Out: &bytes.Buffer{}, Err: os.Stderr,
				Signers: func() (string, error) { return signersHere(t), nil },
				Window: func(ctx context.Context, cfg shell.Config) error {
					cfg.Background, cfg.Language, cfg.Memory = func(work func()) { work() }, tab.language, shell.OpenMemory("")
					cfg.Memory.Show(func(l *shell.Look) { l.Scale, l.Large = tab.scale, true })
					f := &finger{t: t, folder: folder}
					leaves := cfg.Leaves
					cfg.Leaves = func(s *shell.Shell, desk *task.Desk, bench *task.Bench) []shell.Tab {
						f.desk, f.bench = desk, bench
						return leaves(s, desk, bench)
					}
					f.Shell = shell.New(ctx, app, cfg)
					f.Start()
					f.Window().Resize(fyne.NewSize(tab.wide, tab.high))
					f.goes()
					f.CloseBook()
					return nil
				},
			}.Run(context.Background())
		})
	}
}

// touch goes through what a finger can meet on a page.
type touch struct {
	t    *testing.T
	page string
	met  int
}

// window goes through what is in the window, or over it where something is.
func (m *touch) window(s *shell.Shell) {
	m.t.Helper()
	c := s.Window().Canvas()
	at := c.Content()
	if top := c.Overlays().Top(); top != nil {
		at = top
	}
	m.in(at, fyne.NewPos(0, 0), room{fyne.NewPos(0, 0), fyne.NewPos(c.Size().Width, c.Size().Height)})
	if m.met == 0 {
		m.t.Errorf("%s: there is nothing to tap", m.page)
	}
}

// room is where an object may lie and be reached.
type room struct{ from, to fyne.Position }

// in goes through an object whose parent stands at a place.
func (m *touch) in(o fyne.CanvasObject, parent fyne.Position, around room) {
	if o == nil || !o.Visible() {
		return
	}
	at := parent.Add(o.Position())
	switch o := o.(type) {
	case *fyne.Container:
		for _, inner := range o.Objects {
			m.in(inner, at, around)
		}
		return
	case *container.Scroll:
		m.within(o, at, o.Size(), around)
		view := room{at, at.Add(o.Size())}
		content, start := o.Content.Size(), at.Add(o.Content.Position())
		if o.Direction != container.ScrollVerticalOnly {
			view.from.X, view.to.X = start.X, start.X+content.Width
		}
		if o.Direction != container.ScrollHorizontalOnly {
			view.from.Y, view.to.Y = start.Y, start.Y+content.Height
		}
		if least := min(leastTouch, content.Height); o.Size().Height < least-0.5 {
			m.t.Errorf("%s: what is scrolled has %v of room for %v", m.page, o.Size(), content)
		}
		m.in(o.Content, at, view)
		return
	case *widget.Label:
		m.whole(o)
	case fyne.Tappable:
		m.tapped(o.(fyne.CanvasObject), at, around)
		if _, entry := o.(interface{ SelectedText() string }); entry {
			return // what is in it is the toolkit's
		}
	}
	if w, ok := o.(fyne.Widget); ok {
		for _, inner := range test.WidgetRenderer(w).Objects() {
			m.in(inner, at, around)
		}
	}
}

// tapped holds what is tapped against a finger.
func (m *touch) tapped(o fyne.CanvasObject, at fyne.Position, around room) {
	m.met++
	m.within(o, at, o.Size(), around)
	what := fmt.Sprintf("%s: %T", m.page, o)
	if b, ok := o.(*kit.Button); ok {
		what = fmt.Sprintf("%s: the button %q", m.page, words(b))
	}
	if least := o.MinSize(); o.Size().Width < least.Width-0.5 || o.Size().Height < least.Height-0.5 {
		if _, scrolls := o.(*kit.Pages); !scrolls {
			m.t.Errorf("%s is cut: %v of %v", what, o.Size(), least)
		}
	}
	for _, high := range highs(o) {
		if high < leastTouch-0.01 {
			m.t.Errorf("%s is %.1f high", what, high)
			break
		}
	}
}

// whole holds a line of words against its room.
func (m *touch) whole(l *widget.Label) {
	m.t.Helper()
	name := l.SizeName
	if name == "" {
		name = theme.SizeNameText
	}
	room, need := l.Size().Width-2*theme.InnerPadding(), fyne.MeasureText(l.Text, theme.Size(name), l.TextStyle).Width
	if l.Truncation != fyne.TextTruncateOff && need > room+0.5 {
		m.t.Errorf("%s: %q is cut: %.0f of %.0f", m.page, l.Text, room, need)
	}
}

// highs are the heights of what is tapped on an object: of the object itself, or of what is chosen on it.
func highs(o fyne.CanvasObject) (all []float32) {
	switch o := o.(type) {
	case *kit.Select:
		for _, inner := range test.WidgetRenderer(o).Objects() {
			if r, ok := inner.(*canvas.Rectangle); ok && r.FillColor != nil {
				all = append(all, r.Size().Height)
			}
		}
		return all
	case *kit.Rows:
		tops := []float32{o.Size().Height}
		for _, inner := range test.WidgetRenderer(o).Objects() {
			if r, ok := inner.(*canvas.Rectangle); ok && r.Size().Height == 1 {
				tops = append(tops, r.Position().Y)
			}
		}
		slices.Sort(tops)
		for i := range tops[1:] {
			all = append(all, tops[i+1]-tops[i])
		}
		return all
	}
	return []float32{o.Size().Height}
}

// within holds a place against where it can be reached.
func (m *touch) within(o fyne.CanvasObject, at fyne.Position, size fyne.Size, around room) {
	to := at.Add(size)
	if at.X < around.from.X-0.5 || at.Y < around.from.Y-0.5 || to.X > around.to.X+0.5 || to.Y > around.to.Y+0.5 {
		what := fmt.Sprintf("%T", o)
		if b, ok := o.(*kit.Button); ok {
			what = fmt.Sprintf("%q", words(b))
		}
		m.t.Errorf("%s: %s at %v to %v cannot be reached in %v to %v", m.page, what, at, to, around.from, around.to)
	}
}
