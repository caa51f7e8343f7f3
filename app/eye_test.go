//go:build cgo && linux

package main

import (
	"bytes"
	"image"
	"io"
	"testing"
	"time"

	"github.com/jezek/xgb"
	"github.com/jezek/xgb/xproto"
	"github.com/jezek/xgb/xtest"
)

// eye sees a display and presses single keys on it, quicker than a program started for each could.
type eye struct {
	t    *testing.T
	x    *xgb.Conn
	root xproto.Window
	keys map[xproto.Keysym]xproto.Keycode
}

// look opens an eye on the desktop.
func (d *desktop) look() *eye {
	d.t.Helper()
	xgb.Logger.SetOutput(io.Discard) // it complains that the display asks for no password
	x, err := xgb.NewConnDisplay(d.display)
	if err != nil {
		d.t.Fatal(err)
	}
	d.t.Cleanup(x.Close)
	if err := xtest.Init(x); err != nil {
		d.t.Fatal(err)
	}
	setup := xproto.Setup(x)
	e := &eye{t: d.t, x: x, root: setup.DefaultScreen(x).Root, keys: map[xproto.Keysym]xproto.Keycode{}}
	n := byte(setup.MaxKeycode - setup.MinKeycode + 1)
	m, err := xproto.GetKeyboardMapping(x, setup.MinKeycode, n).Reply()
	if err != nil {
		d.t.Fatal(err)
	}
	for i := range int(n) {
		if sym := m.Keysyms[i*int(m.KeysymsPerKeycode)]; sym != 0 && e.keys[sym] == 0 {
			e.keys[sym] = setup.MinKeycode + xproto.Keycode(i)
		}
	}
	return e
}

// all is the whole desktop.
var all = image.Rect(0, 0, 1280, 860)

// see returns the pixels of a part of the desktop, four bytes each.
func (e *eye) see(part image.Rectangle) []byte {
	e.t.Helper()
	got, err := xproto.GetImage(e.x, xproto.ImageFormatZPixmap, xproto.Drawable(e.root),
		int16(part.Min.X), int16(part.Min.Y), uint16(part.Dx()), uint16(part.Dy()), 0xffffffff).Reply()
	if err != nil {
		e.t.Fatal(err)
	}
	return got.Data
}

// press presses and lets go of one key by its symbol: a letter or digit is its own symbol.
func (e *eye) press(sym xproto.Keysym) {
	e.t.Helper()
	for _, kind := range []byte{xproto.KeyPress, xproto.KeyRelease} {
		if err := xtest.FakeInputChecked(e.x, kind, byte(e.keys[sym]), 0, e.root, 0, 0, 0).Check(); err != nil {
			e.t.Fatal(err)
		}
	}
}

// changed waits until a part of the desktop looks another way than before, and says how long that took.
func (e *eye) changed(part image.Rectangle, before []byte) (time.Duration, bool) {
	e.t.Helper()
	for begun := time.Now(); time.Since(begun) < 20*time.Second; {
		if !bytes.Equal(e.see(part), before) {
			return time.Since(begun), true
		}
		time.Sleep(200 * time.Microsecond) // leaves the processor to who draws
	}
	return 0, false
}

// calm waits until the desktop has stood still for a moment.
func (e *eye) calm() {
	e.t.Helper()
	last, since := e.see(all), time.Now()
	for end := time.Now().Add(20 * time.Second); time.Now().Before(end); time.Sleep(20 * time.Millisecond) {
		now := e.see(all)
		if !bytes.Equal(now, last) {
			last, since = now, time.Now()
		} else if time.Since(since) > 150*time.Millisecond {
			return
		}
	}
	e.t.Fatal("the window does not come to rest")
}

// where returns the rectangle in which two pictures of the desktop differ.
func where(a, b []byte) image.Rectangle {
	var r image.Rectangle
	for i := 0; i+3 < min(len(a), len(b)); i += 4 {
		if !bytes.Equal(a[i:i+4], b[i:i+4]) {
			x, y := i/4%all.Dx(), i/4/all.Dx()
			r = r.Union(image.Rect(x, y, x+1, y+1))
		}
	}
	return r
}
