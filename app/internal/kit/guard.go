package kit

import (
	"slices"
	"strings"
	"time"
	"unicode"

	"fyne.io/fyne/v2"
)

// burst is the longest time between two characters that a gauge sends. A person who types fast needs
// about twice as long from one key to the next; common practice, no published source.
const burst = 60 * time.Millisecond

// stall is how long the program may be kept from taking the keys of one reading, by a machine that is busy,
// before a text that also a person can type is no longer held for a gauge's.
const stall = 250 * time.Millisecond

// apart is the pause after which characters do not belong together.
const apart = time.Second

// guard tells what a gauge types from what a person types. A gauge that sends a reading and Enter while a
// dialog is open must not answer the dialog. Where nothing can be typed, digits and Enter are a reading
// however slowly they came; where a text is asked for, speed tells. The time between two characters is that
// between their being taken, so one long pause may lie within a reading, which must not be torn by it.
type guard struct {
	now   func() time.Time
	asks  bool // a text is asked for
	last  time.Time
	typed []keystroke
}

// keystroke is a character and how long after the key before it it came.
type keystroke struct {
	r   rune
	gap time.Duration
}

// char notes a character and reports whether it belongs to a reading: right behind another one, or behind
// digits where nothing can be typed.
func (g *guard) char(r rune) (follows bool) {
	t := g.now()
	gap := t.Sub(g.last)
	if gap >= apart {
		g.typed = nil
	}
	follows = gap < burst || !g.asks && g.reading(0) != ""
	g.typed = append(g.typed, keystroke{r, gap})
	g.last = t
	return follows
}

// end notes a key that ends a reading, Enter or Tab. Gauge is true where it came behind a reading or right
// behind the end of one; text is the reading, empty where it was handed out already.
func (g *guard) end() (text string, gauge bool) {
	t := g.now()
	gap := t.Sub(g.last)
	if len(g.typed) == 0 {
		gauge = gap < burst
	} else {
		text = g.reading(gap)
		gauge = text != ""
	}
	g.typed = nil
	if gauge {
		g.last = t
	}
	return text, gauge
}

// reading is the longest end of what was typed that a gauge may have sent, with an Enter so long behind it;
// empty where there is none.
func (g *guard) reading(gap time.Duration) string {
	for i := range g.typed {
		if text := textOf(g.typed[i:]); reads(text) && g.sent(i, gap) {
			return text
		}
	}
	return ""
}

// sent reports whether what was typed from i on, and the Enter behind it, came as a gauge sends it.
func (g *guard) sent(i int, gap time.Duration) bool {
	if !g.asks {
		return gap < apart
	}
	// A reading begins after a pause, or in the middle of what a person types.
	if i > 0 && g.typed[i].gap < burst {
		return false
	}
	slow, quick := 0, 0
	for n, s := range append(slices.Clone(g.typed[i+1:]), keystroke{gap: gap}) {
		switch {
		case s.gap < burst:
			quick++
		case s.gap >= stall || n == 0 && g.typed[i].r == ' ': // a person's space before it
			return false
		default:
			slow++
		}
	}
	return 2*slow <= quick
}

func textOf(typed []keystroke) string {
	text := make([]rune, len(typed))
	for i, s := range typed {
		text[i] = s.r
	}
	return string(text)
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
