//go:build cgo && linux

package main

import (
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// The program in a real window, by the keyboard alone: welcome page, demonstration book, a head found by
// its tag and its menu put away, the one missing height typed over a menu and in the book, and taken back after the program was closed and
// opened again.
func TestWindow(t *testing.T) {
	d := newDesktop(t)
	p := d.start()
	p.listen()
	book := filepath.Join(d.home, "data", "keeperbook", "demonstration.keeperbook")

	p.press("d")
	p.until("the demonstration book", func() bool { _, err := os.Stat(book); return err == nil })
	time.Sleep(time.Second) // it is opened and drawn, which nothing outside can see
	p.write("OF-2P")
	time.Sleep(300 * time.Millisecond)
	p.press("shift+F10")
	time.Sleep(300 * time.Millisecond)
	p.press("Escape") // of the menu: without one it would show all heads again
	p.press("Return")
	time.Sleep(time.Second)
	p.press("alt+4")
	time.Sleep(500 * time.Millisecond)

	// The table stands on the one reading that is missing. Without a decimal mark it is thousandths. A menu over it takes
	// the arrow, and none of the reading.
	p.press("Menu")
	time.Sleep(300 * time.Millisecond)
	p.press("Down")
	p.write("1842")
	p.press("Return")
	at := record.Position{Cylinder: "4", Role: record.Intake, N: 1}
	p.until("the height of 4 in in the book", func() bool {
		v, ok := valveIn(book, "setup-ferry-built", at)
		return ok && v.Base.Known && v.Base.Value == 1842*unit.Thou && v.Verdict == evaluate.Within
	})

	picture := filepath.Join(t.TempDir(), "window.png")
	p.shot(picture)
	if n := greys(t, picture); n < 16 {
		t.Errorf("the window shows %d greys", n)
	}
	p.stop()

	// What was kept is there after a restart, on the same head, and undo still takes it back.
	p = d.start()
	p.listen()
	time.Sleep(time.Second)
	p.press("alt+4")
	time.Sleep(500 * time.Millisecond)
	p.press("ctrl+z")
	p.until("the height taken back", func() bool {
		v, ok := valveIn(book, "setup-ferry-built", at)
		return ok && !v.Base.Known
	})
	p.stop()
	if words := p.words(); len(words) > 0 {
		t.Logf("said: %s", words)
	}
}

// listen gives the window the keyboard, as a window manager would.
func (p *program) listen() {
	p.t.Helper()
	p.focus(p.windows()[0])
	time.Sleep(300 * time.Millisecond)
}

// windows are the program's windows on the desktop, the oldest first.
func (d *desktop) windows() []string {
	d.t.Helper()
	return strings.Fields(d.xdotool("search", "--sync", "--onlyvisible", "--name", "Keeperbook"))
}

func (d *desktop) focus(window string) {
	d.t.Helper()
	d.xdotool("windowfocus", "--sync", window)
}

// greys counts the brightness values of a picture.
func greys(t *testing.T, path string) int {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	img, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	seen := map[uint32]bool{}
	for y := 0; y < img.Bounds().Dy(); y += 2 {
		for x := 0; x < img.Bounds().Dx(); x += 2 {
			_, g, _, _ := img.At(x, y).RGBA()
			seen[g>>8] = true
		}
	}
	return len(seen)
}
