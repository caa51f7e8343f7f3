package plan

import (
	"context"
	"errors"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/task"
	"keeperbook/assets"
	"keeperbook/model/say"
)

// host is a window around the leaf that notes what went wrong.
type host struct {
	win    fyne.Window
	failed error
}

func (h *host) Window() fyne.Window { return h.win }
func (h *host) Tell(say.Line)       {}
func (h *host) Fail(err error)      { h.failed = errors.Join(h.failed, err) }
func (h *host) Changed()            {}
func (h *host) Show(string)         {}

// press presses keys on whatever has the keyboard.
func (h *host) press(t *testing.T, names ...fyne.KeyName) {
	t.Helper()
	for _, n := range names {
		f := h.win.Canvas().Focused()
		if f == nil {
			t.Fatalf("nothing has the keyboard for %s", n)
		}
		f.TypedKey(&fyne.KeyEvent{Name: n})
	}
}

// shown is the leaf of a head of the demonstration in a window. What it does beside other work waits until the function
// that is returned has it done.
func shown(t *testing.T) (*host, *View, func()) {
	t.Helper()
	ctx := context.Background()
	now := func() time.Time { return time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC) }
	app := test.NewTempApp(t)
	app.Settings().SetTheme(kit.NewTheme(false, 1))
	path, err := task.DemoBook(ctx, t.TempDir(), assets.Demo(), now)
	if err != nil {
		t.Fatal(err)
	}
	desk, err := task.OpenBook(ctx, path, "test", now)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { desk.Close() })
	b, err := desk.OpenBench(ctx, "setup-launch-built")
	if err != nil {
		t.Fatal(err)
	}
	h := &host{win: test.NewTempWindow(t, nil)}
	v := New(h, b)
	var waits func()
	v.Work(func(work func()) { waits = work })
	h.win.SetContent(v.Object())
	h.win.Resize(fyne.NewSize(1280, 800))
	v.Focus()
	h.press(t, fyne.KeyReturn)
	if !v.presenter.Making() || waits == nil {
		t.Fatalf("no plan is in the making: %q, %v", v.presenter.Says(), h.failed)
	}
	return h, v, waits
}

// Esc stops a plan in the making, and what was found by then is shown.
func TestEscStopsThePlan(t *testing.T) {
	h, v, work := shown(t)
	h.press(t, fyne.KeyEscape)
	work()
	if v.presenter.Making() || v.presenter.made == nil || !v.presenter.made.Made.Cancelled {
		t.Errorf("after Esc it says %q", v.presenter.Says())
	}
}

// Where somebody waits for the plan, Enter puts it on next.
func TestPlanTakesTheKeyboard(t *testing.T) {
	_, v, work := shown(t)
	work()
	if !v.presenter.Ready() || !v.put.Focused() {
		t.Errorf("it says %q, the keyboard on the plan: %t", v.presenter.Says(), v.put.Focused())
	}
}

// Who went on to type elsewhere keeps the keyboard: Enter there must not put a plan on the head.
func TestPlanLeavesTheKeyboard(t *testing.T) {
	_, v, work := shown(t)
	v.most.Focus()
	work()
	if !v.presenter.Ready() || v.put.Focused() || !v.most.Focused() {
		t.Errorf("it says %q, the keyboard on the plan: %t", v.presenter.Says(), v.put.Focused())
	}
}
