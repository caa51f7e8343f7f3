package kit

import (
	"cmp"
	"context"
	"image/color"
	"slices"
	"sync"
	"sync/atomic"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"keeperbook/model/say"
)

// Work is what may take longer than a key press, and is waited for.
type Work struct {
	Title string // what is being done
	Text  string // said until the work says how far it is; may be empty
	Stop  string // words of the button that ends it; the usual ones where it is empty
	// Do does it, beside the window. It says how far it is by [say.Tell], and ends soon after its context did, with nothing
	// left by halves. What it returns is done in the window afterwards.
	Do func(ctx context.Context) (then func())
}

const (
	// blink is how long work may take before the window says that it waits; what is shown for less only flickers.
	blink = 300 * time.Millisecond
	// again is how often it then says how far the work is.
	again = 100 * time.Millisecond
)

// Run does work that background runs beside a window, for as long as ctx. Until it is over the window takes nothing; after a blink it says what is
// being done and how far it is, with a button that ends it, as Esc does.
func Run(ctx context.Context, win fyne.Window, background func(work func()), w Work) {
	ctx, stop := context.WithCancel(ctx)
	r := &running{win: win, work: w, stop: stop, hush: newHush(win)}
	r.hush.open(win.Canvas())
	ctx = say.Telling(ctx, func(l say.Line) { r.far.Store(&l) })
	over := make(chan struct{})
	follow(r, over)
	background(func() {
		then := w.Do(ctx)
		close(over)
		fyne.Do(func() {
			r.end()
			if then != nil {
				then()
			}
		})
	})
}

// Busy reports whether a window waits for work.
func Busy(win fyne.Window) bool {
	return slices.ContainsFunc(win.Canvas().Overlays().List(), func(o fyne.CanvasObject) bool {
		switch o := o.(type) {
		case *hush:
			return true
		case *dialog:
			return o.stays || o.deaf
		}
		return false
	})
}

// running is work that is being waited for. It is locked only because a window without a loop of its own, as tests have it,
// does at once what any goroutine asks of it.
type running struct {
	sync.Mutex
	win    fyne.Window
	work   Work
	stop   context.CancelFunc
	far    atomic.Pointer[say.Line] // what was said last
	hush   *hush
	dialog *dialog // nil until the blink is over
	text   *Text   // in it
	halted bool    // it was asked to end
	over   bool
}

// follow has a window say how far work is until it is over.
var follow = func(r *running, over <-chan struct{}) { go r.follow(over) }

func (r *running) follow(over <-chan struct{}) {
	wait := time.NewTimer(blink)
	defer wait.Stop()
	for {
		select {
		case <-over:
			return
		case <-wait.C:
			fyne.Do(r.show)
			wait.Reset(again)
		}
	}
}

// show says what is being done and how far.
func (r *running) show() {
	r.Lock()
	defer r.Unlock()
	if r.over {
		return
	}
	if r.dialog == nil {
		r.hush.close()
		d := newDialog(r.win, r.work.Title)
		d.guard, d.stays, r.dialog, r.text = r.hush.guard, true, d, NewText(r.work.Text)
		d.body = append(d.body, r.text)
		d.choose([]Choice{{Label: cmp.Or(r.work.Stop, say.Chosen().Line(say.New("work.stop"))), Cancel: true, Do: r.halt}})
		d.open()
	}
	far := r.far.Load()
	switch {
	case r.halted:
		r.says(say.New("work.stopping"))
	case far != nil:
		r.says(*far)
	}
}

func (r *running) says(line say.Line) {
	if text := say.Chosen().Line(line); text != r.text.Text() {
		r.text.Set(text)
		r.dialog.Refresh()
	}
}

// halt asks the work to end. The window goes on waiting until it has: only then is it known what became of it.
func (r *running) halt() {
	r.halted, r.dialog.deaf = true, true
	r.says(say.New("work.stopping"))
	r.stop()
}

// end gives the window back.
func (r *running) end() {
	r.Lock()
	defer r.Unlock()
	r.over = true
	r.stop()
	if r.dialog != nil {
		r.dialog.close()
		return
	}
	r.hush.close()
}

// hush lies over a window for the blink in which work may be over before anybody sees that it is waited for. It is not seen, and
// nothing gets below it but what a gauge types, which goes where readings go.
type hush struct {
	widget.BaseWidget
	canvas fyne.Canvas
	guard  *guard
	stray  func(string)
}

func newHush(win fyne.Window) *hush {
	h := &hush{}
	h.guard, h.stray = guardOf(win)
	h.ExtendBaseWidget(h)
	return h
}

func (h *hush) open(c fyne.Canvas) {
	h.canvas = c
	c.Overlays().Add(h)
	h.Resize(c.Size())
	c.Focus(h)
}

func (h *hush) close() { takeAway(h.canvas, h) }

// Tapped keeps the pointer from what is below.
func (h *hush) Tapped(*fyne.PointEvent) {}

// FocusGained and FocusLost are the toolkit's.
func (h *hush) FocusGained() {}

// FocusLost is described at [hush.FocusGained].
func (h *hush) FocusLost() {}

// TypedRune and TypedKey keep the keys from what is below.
func (h *hush) TypedRune(r rune) { h.guard.char(r) }

// TypedKey is described at [hush.TypedRune].
func (h *hush) TypedKey(e *fyne.KeyEvent) {
	if e.Name != fyne.KeyReturn && e.Name != fyne.KeyEnter {
		return
	}
	if text, gauge := h.guard.end(); gauge && text != "" && h.stray != nil {
		h.stray(text)
	}
}

// CreateRenderer is the toolkit's.
func (h *hush) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(canvas.NewRectangle(color.Transparent))
}
