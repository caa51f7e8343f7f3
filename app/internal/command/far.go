package command

import (
	"context"
	"io"
	"strings"
	"sync"
	"time"
	"unicode/utf8"

	"keeperbook/model/say"
)

// farLine is a line at the end of a terminal that says how far a command is, once it takes longer than a blink. It goes before
// anything else is written there.
type farLine struct {
	sync.Mutex
	to    io.Writer
	now   func() time.Time
	due   time.Time // nothing is written before
	shown int       // letters that stand there
}

// telling has work say how far it is at the end of a terminal, and returns what has to be written with instead.
func telling(ctx context.Context, env Env, now func() time.Time) (context.Context, Env) {
	const blink = 300 * time.Millisecond
	f := &farLine{to: env.Err, now: now, due: now().Add(blink)}
	env.Out, env.Err = &wiping{f, env.Out}, &wiping{f, env.Err}
	return say.Telling(ctx, f.tell), env
}

func (f *farLine) tell(l say.Line) {
	const again = 100 * time.Millisecond
	f.Lock()
	defer f.Unlock()
	now := f.now()
	if now.Before(f.due) {
		return
	}
	f.due = now.Add(again)
	text := say.English().Line(l)
	n := utf8.RuneCountInString(text)
	io.WriteString(f.to, "\r"+text+strings.Repeat(" ", max(0, f.shown-n)))
	f.shown = n
}

func (f *farLine) wipe() {
	f.Lock()
	defer f.Unlock()
	if f.shown > 0 {
		io.WriteString(f.to, "\r"+strings.Repeat(" ", f.shown)+"\r")
		f.shown = 0
	}
}

// wiping writes where the line stands, or beside it.
type wiping struct {
	far *farLine
	io.Writer
}

func (w *wiping) Write(data []byte) (int, error) {
	w.far.wipe()
	return w.Writer.Write(data)
}
