package kit_test

import (
	"context"
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"keeperbook/app/internal/kit"
	"keeperbook/model/say"
)

// waiting is a window with work over it that goes on step by step.
type waiting struct {
	*stage
	below *kit.Field
	work  func()                // begins and ends it
	do    func(context.Context) // what it does
	ended []error               // why it was asked to end, when it was over
	look  func()                // what the clock does otherwise
}

func working(t *testing.T) *waiting {
	w := &waiting{below: kit.NewField("below", "1.842", nil), look: kit.StandStill(t)}
	w.stage = newStage(t, kit.NewForm(w.below))
	w.below.Focus()
	kit.Run(context.Background(), w.win, func(work func()) { w.work = work }, kit.Work{
		Title: "The table is being taken in",
		Do: func(ctx context.Context) func() {
			w.do(ctx)
			err := ctx.Err()
			return func() { w.ended = append(w.ended, err) }
		},
	})
	w.now = w.now.Add(time.Second)
	return w
}

// Work that ends within a blink shows nothing, and takes the window for as long.
func TestWorkWithinABlink(t *testing.T) {
	w := working(t)
	w.do = func(context.Context) {}
	if !kit.Busy(w.win) {
		t.Error("the window goes on")
	}
	w.person("x", fyne.KeyEscape, fyne.KeyReturn)
	if got := w.says(); strings.Contains(got, "The table is being taken in") {
		t.Errorf("it says %q", got)
	}
	w.gauge("1.836", 5*time.Millisecond)
	w.work()
	if kit.Busy(w.win) || len(w.ended) != 1 || w.ended[0] != nil {
		t.Errorf("ended %v, busy %v", w.ended, kit.Busy(w.win))
	}
	if !slices.Equal(w.stray, []string{"1.836"}) {
		t.Errorf("the gauge's reading is lost: %q", w.stray)
	}
	w.person("9")
	if got := w.below.Text(); got == "1.842" {
		t.Error("the keyboard does not go back")
	}
	w.look() // a clock that is late
	if kit.Busy(w.win) {
		t.Error("it is waited for what is over")
	}
}

// Longer work says what is done and how far; Esc and the button ask it to end, and the window waits until it has.
func TestWorkIsStopped(t *testing.T) {
	for name, stop := range map[string]func(*waiting){
		"Esc":        func(w *waiting) { w.press(fyne.KeyEscape) },
		"the button": func(w *waiting) { w.press(fyne.KeyReturn) },
	} {
		t.Run(name, func(t *testing.T) {
			w := working(t)
			w.do = func(ctx context.Context) {
				w.look()
				wantSays(t, w.stage, "The table is being taken in", "Stop Esc")
				for i := range 2 {
					say.Tell(ctx, "work.lines", 100+i, 400)
				}
				w.look()
				wantSays(t, w.stage, "Line 101 of 400 is being read.")
				w.now = w.now.Add(time.Second)
				if stop(w); ctx.Err() == nil {
					t.Error("it goes on")
				}
				say.Tell(ctx, "work.lines", 102, 400)
				w.look()
				wantSays(t, w.stage, "It is being stopped…")
				stop(w)
				if !kit.Busy(w.win) {
					t.Error("the window does not wait for the end")
				}
			}
			w.work()
			if kit.Busy(w.win) || kit.DialogOpen(w.win) || len(w.ended) != 1 || !errors.Is(w.ended[0], context.Canceled) {
				t.Errorf("ended %v, busy %v", w.ended, kit.Busy(w.win))
			}
			w.person("9")
			if w.below.Text() == "1.842" {
				t.Error("the keyboard does not go back")
			}
		})
	}
}

// By the clock nothing is shown before a blink is over, and something after it.
func TestWorkByTheClock(t *testing.T) {
	if testing.Short() {
		t.Skip("two goroutines draw: a test has no loop of a window")
	}
	s := newStage(t, kit.NewForm(kit.NewField("below", "", nil)))
	kit.Run(context.Background(), s.win, func(work func()) { work() }, kit.Work{Title: "It goes on", Do: func(context.Context) func() {
		time.Sleep(150 * time.Millisecond)
		if strings.Contains(s.says(), "It goes on") {
			t.Error("it flickers")
		}
		time.Sleep(350 * time.Millisecond)
		wantSays(t, s, "It goes on")
		return nil
	}})
	if kit.Busy(s.win) {
		t.Error("it is not over")
	}
}
