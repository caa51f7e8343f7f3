package sheet_test

import (
	"context"
	"errors"
	"image/color"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/screen/sheet"
	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// host is a window around the leaf that notes what it is told.
type host struct {
	win    fyne.Window
	told   string
	failed error
	leaf   string
}

func (h *host) Window() fyne.Window { return h.win }
func (h *host) Tell(l say.Line)     { h.told = say.English().Line(l) }
func (h *host) Fail(err error)      { h.failed = errors.Join(h.failed, err) }
func (h *host) Changed()            {}
func (h *host) Show(leaf string)    { h.leaf = leaf }

// asks reports whether a dialog is open.
func (h *host) asks() bool { return h.win.Canvas().Overlays().Top() != nil }

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

func shown(t *testing.T, setup string) (*task.Desk, *task.Bench, *host, *sheet.View) {
	t.Helper()
	app := test.NewTempApp(t)
	app.Settings().SetTheme(kit.NewTheme(false, 1))
	h := &host{win: test.NewTempWindow(t, nil)}
	desk := demonstration(t)
	b := bench(t, desk, setup)
	v := sheet.New(h, desk, b)
	h.win.SetContent(v.Object())
	h.win.Resize(fyne.NewSize(1280, 800))
	return desk, b, h, v
}

// ink counts the dark pixels on the right of the window, where the pages are.
func ink(h *host) (n int) {
	img := h.win.Canvas().Capture()
	for x := 400; x < img.Bounds().Dx(); x += 2 {
		for y := 0; y < img.Bounds().Dy(); y += 2 {
			if color.GrayModel.Convert(img.At(x, y)).(color.Gray).Y < 0x80 {
				n++
			}
		}
	}
	return n
}

// The pages are there, they follow what the set-up becomes, and PgDn scrolls them.
func TestPagesInTheWindow(t *testing.T) {
	if testing.Short() {
		t.Skip("once a run is enough: drawing takes long under -race")
	}
	_, b, h, v := shown(t, "setup-ferry-built")
	v.Focus()
	first := ink(h)
	if first < 1000 {
		t.Fatalf("%d dark points: nothing is printed", first)
	}
	h.keys(t, fyne.KeyPageDown)
	if second := ink(h); second == first {
		t.Error("PgDn shows the same")
	}
	h.keys(t, fyne.KeyHome)
	if again := ink(h); again != first {
		t.Errorf("Home shows %d dark points, before there were %d", again, first)
	}
	open := v.Open()
	at := record.Position{Cylinder: "4", Role: record.Intake, N: 1}
	if err := b.Take(context.Background(), task.Cell{Entry: task.Entry{At: at, Kind: record.BaseHeight, Text: "1850"}}, task.First); err != nil {
		t.Fatal(err)
	}
	v.Refresh()
	if v.Open() != open-1 {
		t.Errorf("%d open after the missing height was entered, %d before", v.Open(), open)
	}
	if ink(h) == first || h.failed != nil {
		t.Errorf("the page does not show the height that was entered (%v)", h.failed)
	}
}

// An export by keyboard: Enter takes the proposed path; where a file is there already a letter replaces it,
// and Enter alone does not.
func TestExportByKeyboard(t *testing.T) {
	desk, _, h, v := shown(t, "setup-ferry-built")
	path := filepath.Join(filepath.Dir(desk.Path()), "OF-2P-as-built.pdf")
	v.Focus()
	h.win.Canvas().Focused().TypedRune('p')
	h.keys(t, fyne.KeyReturn)
	if _, err := os.Stat(path); err != nil || !strings.Contains(h.told, path) {
		t.Fatalf("told %q, and the file: %v", h.told, err)
	}
	if h.asks() {
		t.Fatal("the question is still open")
	}
	if err := os.WriteFile(path, []byte("another's"), 0o644); err != nil {
		t.Fatal(err)
	}
	h.told = ""
	v.ExportPDF()
	h.keys(t, fyne.KeyReturn) // is there already: asks
	h.keys(t, fyne.KeyReturn) // the answer of Enter keeps it
	if data, err := os.ReadFile(path); err != nil || string(data) != "another's" || h.told != "" {
		t.Fatalf("the file was written over by Enter: %.20q, %v, told %q", data, err, h.told)
	}
	if !h.asks() {
		t.Fatal("whoever says no is not asked for another path")
	}
	h.keys(t, fyne.KeyReturn)
	h.win.Canvas().Focused().TypedRune('r')
	if data, err := os.ReadFile(path); err != nil || !strings.HasPrefix(string(data), "%PDF-") || h.failed != nil {
		t.Errorf("not replaced: %.20q, %v, %v", data, err, h.failed)
	}
	if !strings.Contains(h.told, path) {
		t.Errorf("told %q", h.told)
	}
}

// What cannot be written is said in the question, which stays with the path that was typed.
func TestExportRefused(t *testing.T) {
	_, _, h, v := shown(t, "setup-ferry-built")
	v.ExportRecord()
	for _, r := range "nowhere/of.json" {
		h.win.Canvas().Focused().TypedRune(r)
	}
	h.keys(t, fyne.KeyReturn)
	if !h.asks() || h.told != "" || h.failed != nil {
		t.Errorf("open %v, told %q, failed %v", h.asks(), h.told, h.failed)
	}
	h.keys(t, fyne.KeyEscape)
	if h.asks() {
		t.Error("Esc does not leave the question")
	}
}

func TestCopy(t *testing.T) {
	_, _, h, v := shown(t, "setup-ferry-built")
	v.Copy()
	if text := fyne.CurrentApp().Clipboard().Content(); !strings.HasPrefix(text, "valve\tverdict\t") || h.told == "" {
		t.Errorf("copied %.40q, told %q", text, h.told)
	}
}
