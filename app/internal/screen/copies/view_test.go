package copies_test

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/screen/copies"
	"keeperbook/app/internal/task"
	"keeperbook/assets"
	"keeperbook/model/say"
)

// host is a window around the page that notes what it was asked for.
type host struct {
	win      fyne.Window
	told     string
	restored string
	failed   error
	desk     *task.Desk
}

func (h *host) Window() fyne.Window  { return h.win }
func (h *host) Tell(l say.Line)      { h.told = say.English().Line(l) }
func (h *host) Fail(err error)       { h.failed = err }
func (h *host) Changed()             {}
func (h *host) Show(string)          {}
func (h *host) Restore(path string)  { h.restored = path }
func (h *host) CopiesFolder() string { return h.desk.Second }
func (h *host) SetCopiesFolder(text string) (err error) {
	h.desk.Second, err = task.SecondFolder(text)
	return err
}

// A copy is taken once, says what it holds, and is put back only after a question; one that rotted is never.
func TestCopies(t *testing.T) {
	ctx := context.Background()
	now := func() time.Time { return time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC) }
	test.NewTempApp(t).Settings().SetTheme(kit.NewTheme(false, 1))
	path, err := task.DemoBook(ctx, t.TempDir(), assets.Demo(), now)
	if err != nil {
		t.Fatal(err)
	}
	desk, err := task.OpenBook(ctx, path, "M. Ashlock", now)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { desk.Close() })
	h := &host{win: test.NewTempWindow(t, nil), desk: desk}
	p := copies.NewPresenter(desk)
	if !strings.Contains(p.Sum(), "Looking") {
		t.Errorf("before it is read: %q", p.Sum())
	}
	v := copies.New(h, p, func(work func()) { work() })
	h.win.SetContent(v.Object())
	h.win.Resize(fyne.NewSize(1180, 780))
	v.Refresh()
	if p.Sum() != "There is no copy yet." {
		t.Errorf("%q", p.Sum())
	}
	v.Copy()
	rows := p.Rows()
	if h.failed != nil || h.told != "The copy is taken." || len(rows) != 1 || !strings.HasPrefix(rows[0].What, "4 heads, 6 set-ups, ") {
		t.Fatalf("%v, %q, %+v", h.failed, h.told, rows)
	}
	v.Copy()
	if h.told != "Nothing was kept since the newest copy." || len(p.Rows()) != 1 {
		t.Errorf("%q, %d copies", h.told, len(p.Rows()))
	}
	// A second folder takes them too, while it is there.
	second := t.TempDir()
	if err := h.SetCopiesFolder(filepath.Join(second, "gone")); say.CodeOf(err) != say.NotFound {
		t.Errorf("%v", err)
	}
	if err := h.SetCopiesFolder(second); err != nil {
		t.Fatal(err)
	}
	v.Copy()
	if rows := p.Rows(); h.told != "The copy is taken." || len(rows) != 2 || rows[0] != rows[1] {
		t.Errorf("%q, %+v", h.told, rows)
	}
	desk.Second = filepath.Join(second, "pulled")
	if _, err := desk.BackUp(ctx, 0); say.CodeOf(err) != say.NotFound {
		t.Errorf("a disk that was pulled: %v", err)
	}
	desk.Second = ""
	v.Refresh()
	v.Ask(0)
	if h.restored != "" {
		t.Error("it was put back without a question")
	}
	for _, o := range h.win.Canvas().Overlays().List() {
		h.win.Canvas().Overlays().Remove(o)
	}
	file := p.Path(0)
	if err := os.WriteFile(file, []byte("rotten"), 0o600); err != nil {
		t.Fatal(err)
	}
	v.Refresh()
	if p.Path(0) != "" || !p.Rows()[0].Bad || filepath.Base(file) == "" {
		t.Errorf("%+v", p.Rows())
	}
	v.Ask(0)
	if n := len(h.win.Canvas().Overlays().List()); n != 0 {
		t.Error("a copy that cannot be read is offered")
	}
}
