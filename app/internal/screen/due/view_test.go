package due_test

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
	"keeperbook/app/internal/screen/due"
	"keeperbook/app/internal/task"
	"keeperbook/assets"
	"keeperbook/model/say"
)

// host is a window around the page that notes what it was asked for.
type host struct {
	win          fyne.Window
	opened, leaf string
	failed       error
}

func (h *host) Window() fyne.Window { return h.win }
func (h *host) Tell(say.Line)       {}
func (h *host) Fail(err error)      { h.failed = err }
func (h *host) Changed()            {}
func (h *host) Show(leaf string)    { h.leaf = leaf }
func (h *host) OpenSetup(id string) { h.opened = id }

// What is due stands first, Enter on it opens the life of its head, and all of it goes into a calendar.
func TestDue(t *testing.T) {
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
	h := &host{win: test.NewTempWindow(t, nil)}
	p := due.NewPresenter(desk)
	if p.Sum() == "" || len(p.Rows()) != 0 {
		t.Errorf("before it is read: %q", p.Sum())
	}
	v := due.New(h, p, func(work func()) { work() })
	h.win.SetContent(v.Object())
	h.win.Resize(fyne.NewSize(1180, 780))
	v.Refresh()
	v.Focus()
	rows := p.Rows()
	if h.failed != nil || len(rows) < 5 || !strings.HasPrefix(rows[0].What, "OF-2P, 3 ex: change the spring") || rows[0].Quiet || rows[0].When != "due" {
		t.Fatalf("%+v, %v", rows, h.failed)
	}
	if rows[1].When != "since 2026-02-10" || !strings.HasPrefix(p.Sum(), "2 due, ") {
		t.Errorf("%+v, %q", rows[1], p.Sum())
	}
	h.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if h.opened != "setup-ferry-built" || h.leaf != "life" {
		t.Errorf("opened %q, %q", h.opened, h.leaf)
	}

	to := filepath.Join(t.TempDir(), "due.ics")
	if _, err := p.Save(to, false); err != nil {
		t.Fatal(err)
	}
	if _, err := p.Save(to, false); say.CodeOf(err) != say.Conflict {
		t.Errorf("written over: %v", err)
	}
	file, err := os.ReadFile(to)
	if err != nil {
		t.Fatal(err)
	}
	days := 0
	for _, r := range rows {
		if r.When != "" {
			days++
		}
	}
	if n := strings.Count(string(file), "BEGIN:VEVENT"); n != days {
		t.Errorf("%d events of %d", n, days)
	}
}
