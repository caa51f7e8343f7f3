//go:build cgo && linux

package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/jezek/xgb/xproto"

	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// stream is what one gauge sends, as lines of an xdotool script: one process types it all, as fast as keys
// arrive. Of the same key twice within a millisecond the window's driver takes the second for an echo of the
// first and drops it, so a millisecond lies between two.
type stream struct{ lines []string }

func (s *stream) reading(text string) {
	s.lines = append(s.lines, "type --delay 1 "+text, "key --delay 1 Return")
}

// keys presses other keys.
func (s *stream) keys(names ...string) {
	for _, n := range names {
		s.lines = append(s.lines, "key --delay 1 "+n, "sleep 0.01")
	}
}

// send types everything that was put into the stream since it was sent last.
func (s *stream) send(p *program) {
	p.t.Helper()
	path := filepath.Join(p.t.TempDir(), "stream")
	if err := os.WriteFile(path, []byte(strings.Join(s.lines, "\n")+"\n"), 0o644); err != nil {
		p.t.Fatal(err)
	}
	s.lines = nil
	p.xdotool(path)
}

// A gauge sends 200 readings down three columns as fast as keys can be typed. One in the middle is refused and
// holds the table, for a while a dialog is open, and for a while another window has the keyboard. Of all
// that reached the window every reading stands on the valve that was next when it came, or waits in the
// tray, from where it is placed in the end: none is lost and none is on another valve.
func TestGaugeInTheWindow(t *testing.T) {
	onceARun(t)
	d := newDesktop(t)
	book := filepath.Join(d.home, "bench.keeperbook")
	setup := bigHead(t, book, "64-1")
	p := d.start(book)
	p.listen()
	h := &hand{program: p, eye: d.look()}
	h.eye.calm()
	h.put("64-1")
	h.key("alt+4")

	var text [200]string
	for n := range text {
		text[n] = fmt.Sprintf(".%03d", 500+n)
		if n < 64 {
			text[n] = fmt.Sprintf("1.%03d", 800+n)
		}
	}
	var tray []string
	var landed [3][]string // what stands in base, seal and lift, from the first valve down
	land := func(s *stream, column int, texts ...string) {
		for _, x := range texts {
			s.reading(x)
			landed[column] = append(landed[column], x)
		}
	}
	catch := func(s *stream, texts ...string) {
		for _, x := range texts {
			s.reading(x)
			tray = append(tray, x)
		}
	}
	top := slices.Repeat([]string{"Prior"}, 8)

	s := &stream{}
	land(s, 0, text[:64]...)
	s.keys("Tab") // seal
	s.keys(top...)
	land(s, 1, text[64:100]...)
	s.reading("E----") // the gauge slips into another display: refused
	catch(s, text[100:110]...)
	s.keys("Escape")
	land(s, 1, text[110:125]...)
	s.keys("ctrl+u") // the set-ups of the head
	catch(s, text[125:145]...)
	s.keys("Escape")
	land(s, 1, text[145:158]...)
	s.send(p)
	p.until("the second column full", func() bool { return len(column(book, setup, record.SealGap)) == 64 })

	// Another window has the keyboard. What is typed there cannot arrive.
	h.eye.calm()
	back := h.eye.takeKeyboard()
	elsewhere := text[158:164]
	for _, x := range elsewhere {
		s.reading(x)
	}
	s.send(p)
	h.eye.calm()
	back()
	h.eye.calm()

	s.keys("Tab", "Tab", "Tab") // shims, check height, lift
	s.keys(top...)
	land(s, 2, text[164:200]...)
	s.send(p)
	p.until("everything that was taken", func() bool { return len(column(book, setup, record.LiftChecking)) == len(landed[2]) })
	h.eye.calm()

	// The tray, from its last line up, onto the valves that are still empty.
	x, y := p.lastLine()
	for i := len(tray) - 1; i >= 0; i-- {
		n := len(landed[2])
		p.xdotool("mousemove", fmt.Sprint(x), fmt.Sprint(y), "click", "1")
		landed[2] = append(landed[2], tray[i])
		p.until(fmt.Sprintf("reading %d of the tray on a valve", i), func() bool { return len(column(book, setup, record.LiftChecking)) == n+1 })
		if n == 63 {
			break
		}
		h.eye.calm()
	}

	for i, kind := range []record.Kind{record.BaseHeight, record.SealGap, record.LiftChecking} {
		got := column(book, setup, kind)
		for row, want := range landed[i] {
			if row >= len(got) || got[row] != want {
				t.Errorf("%s, valve %d: %s was sent, the book has %v", kind, row+1, want, got[min(row, len(got)):min(row+3, len(got))])
				break
			}
		}
	}
	t.Logf("%d readings reached the window: %d stood on their valve at once, %d waited in the tray and were placed; %d were typed into another window",
		len(text)-len(elsewhere), len(text)-len(elsewhere)-len(tray), len(tray), len(elsewhere))
}

// bigHead makes a book with one head of 64 valves.
func bigHead(t *testing.T, path, tag string) string {
	t.Helper()
	ctx := context.Background()
	desk, err := task.MakeBook(ctx, path, "M. Tester", time.Now)
	if err != nil {
		t.Fatal(err)
	}
	defer desk.Close()
	setup, err := desk.Begin(ctx, task.NewHead{
		Tag: tag, Cylinders: task.Cylinders("16"), Intakes: 2, Exhausts: 2, Kind: record.AsFound,
		Units: record.Units{Length: unit.In, Load: unit.Lbf},
	})
	if err != nil {
		t.Fatal(err)
	}
	return setup
}

// column is what the book holds of a kind of reading, from the first valve down to the last that has one, as
// it was typed.
func column(book, setup string, kind record.Kind) []string {
	w := workedOut(book, setup)
	if w == nil {
		return nil
	}
	var all []string
	for _, at := range w.Record.Head.Positions() {
		for _, r := range w.Record.Setup.Readings {
			if r.At == at && r.Kind == kind {
				all = append(all, r.Quantity.Typed)
			}
		}
	}
	return all
}

// takeKeyboard opens another window that has the keyboard, until back is called.
func (e *eye) takeKeyboard() (back func()) {
	e.t.Helper()
	before, err := xproto.GetInputFocus(e.x).Reply()
	if err != nil {
		e.t.Fatal(err)
	}
	id, err := xproto.NewWindowId(e.x)
	if err != nil {
		e.t.Fatal(err)
	}
	screen := xproto.Setup(e.x).DefaultScreen(e.x)
	xproto.CreateWindow(e.x, screen.RootDepth, id, e.root, 1190, 10, 60, 40, 0, xproto.WindowClassInputOutput, screen.RootVisual,
		xproto.CwOverrideRedirect, []uint32{1})
	if err := xproto.MapWindowChecked(e.x, id).Check(); err != nil {
		e.t.Fatal(err)
	}
	focus := func(w xproto.Window) {
		if err := xproto.SetInputFocusChecked(e.x, xproto.InputFocusPointerRoot, w, xproto.TimeCurrentTime).Check(); err != nil {
			e.t.Fatal(err)
		}
	}
	focus(id)
	return func() {
		focus(before.Focus)
		xproto.DestroyWindow(e.x, id)
	}
}

// lastLine is where the last line of the tray has its button that places it: at the right, above the bottom
// line of the window.
func (p *program) lastLine() (x, y int) {
	p.t.Helper()
	width, height := p.size()
	return width - 125, height - 63
}

// size is that of the program's window in pixels.
func (p *program) size() (width, height int) {
	p.t.Helper()
	out := p.xdotool("search", "--onlyvisible", "--name", "Keeperbook", "getwindowgeometry", "--shell")
	for _, line := range strings.Split(out, "\n") {
		fmt.Sscanf(line, "WIDTH=%d", &width)
		fmt.Sscanf(line, "HEIGHT=%d", &height)
	}
	return width, height
}
