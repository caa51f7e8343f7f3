package kit

import (
	"strings"
	"time"
	"unicode"

	"fyne.io/fyne/v2"
)

// burst is the longest time between two characters that a gauge sends. A person who types fast needs
// about twice as long from one key to the next; common practice, no published source.
const burst = 60 * time.Millisecond

// guard tells what a gauge types from what a person types, by its speed. A gauge that sends a reading
// and Enter while a dialog is open must not answer the dialog.
type guard struct {
	now  func() time.Time
	last time.Time
	text []rune
}

// char notes a character and reports whether it came right behind another one.
func (g *guard) char(r rune) (follows bool) {
	t := g.now()
	follows = t.Sub(g.last) < burst
	if !follows {
		g.text = g.text[:0]
	}
	g.text = append(g.text, r)
	g.last = t
	return follows
}

// end notes a key that ends a reading, Enter or Tab. Gauge is true where it came right behind digits or
// behind the end of a reading; text is the reading, empty where it was handed out already.
func (g *guard) end() (text string, gauge bool) {
	t := g.now()
	quick := t.Sub(g.last) < burst
	text = string(g.text)
	g.text = g.text[:0]
	if !quick || text != "" && !reads(text) {
		return "", false
	}
	g.last = t
	return text, true
}

// opened takes the opening of a dialog for the end of a reading, because it may well be one: a gauge that
// ends with two Enters would answer with the second.
func (g *guard) opened() { g.last = g.now() }

// reads reports whether a text looks like a reading: digits, perhaps with a unit behind them.
func reads(text string) bool {
	text = strings.TrimSpace(text)
	number := strings.TrimRightFunc(text, func(r rune) bool { return unicode.IsLetter(r) || r == '"' || r == ' ' })
	return strings.ContainsAny(number, digits) && strings.Trim(number, digits+"+-−.,' ") == "" && len(text)-len(number) <= 4
}

// Listening returns a window that listens to a gauge. What a gauge types into a dialog that is open
// over it is handed to stray, and does not answer the dialog. Now tells the time.
func Listening(win fyne.Window, now func() time.Time, stray func(text string)) fyne.Window {
	return listening{win, now, stray}
}

type listening struct {
	fyne.Window
	now   func() time.Time
	stray func(string)
}

// guardOf returns the guard for a dialog over a window, and where a reading goes.
func guardOf(win fyne.Window) (*guard, func(string)) {
	l, ok := win.(listening)
	if !ok {
		return &guard{now: time.Now}, nil
	}
	g := &guard{now: l.now}
	g.opened()
	return g, l.stray
}
