package valves

import (
	"context"
	"image/png"
	"os"
	"path/filepath"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/task"
	"keeperbook/assets"
	"keeperbook/model/say"
	"keeperbook/store"
)

// frame stands in for the window around the leaf.
type frame struct {
	win     fyne.Window
	told    []string
	changed int
}

func (f *frame) Window() fyne.Window { return f.win }
func (f *frame) Tell(line say.Line)  { f.told = append(f.told, say.English().Line(line)) }
func (f *frame) Fail(err error)      { f.told = append(f.told, err.Error()) }
func (f *frame) Changed()            { f.changed++ }
func (f *frame) Show(string)         {}

// shown opens the leaf of a set-up of the demonstration book in a window.
func shown(t *testing.T, setup string, dark bool, scale float32) (*View, *frame) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "demo.keeperbook")
	clock := func() time.Time { return time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC) }
	if _, err := task.Demo(context.Background(), path, assets.Demo(), clock); err != nil {
		t.Fatal(err)
	}
	book, err := store.Open(context.Background(), path, store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { book.Close() })
	bench, err := (&task.Desk{Book: book, Who: "test", Clock: clock}).OpenBench(context.Background(), setup)
	if err != nil {
		t.Fatal(err)
	}
	app := test.NewTempApp(t)
	app.Settings().SetTheme(kit.NewTheme(dark, scale))
	f := &frame{win: test.NewTempWindow(t, nil)}
	v := NewView(f, bench)
	f.win.SetContent(v.Object())
	f.win.Resize(fyne.NewSize(1180*scale, 800*scale))
	v.Focus()
	return v, f
}

func TestShots(t *testing.T) {
	for _, c := range []struct {
		name, setup string
		dark        bool
		scale       float32
	}{{"six", "setup-ferry-built", false, 1}, {"six-dark", "setup-ferry-built", true, 1}, {"four", "setup-hill-built", false, 1}} {
		v, f := shown(t, c.setup, c.dark, c.scale)
		for _, r := range "1842" {
			v.p.Rune(r)
		}
		img := f.win.Canvas().Capture()
		os.MkdirAll("/tmp/shots", 0o755)
		o, _ := os.Create("/tmp/shots/valves-" + c.name + ".png")
		png.Encode(o, img)
		o.Close()
	}
}
