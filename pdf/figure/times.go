package figure

import (
	"time"

	"gonum.org/v1/plot/vg"

	"keeperbook/model/life"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Times is the life of a set-up along its days: a bar for each day that the head ran, as high as the valve cycles of the day, a
// diamond for a check, an open one for a check that is promised, and a wedge over a day beyond the speed it was set up for.
type Times struct {
	times life.Times
	words say.Printer
}

// NewTimes prepares the drawing.
func NewTimes(t life.Times, words say.Printer) Times { return Times{t, words} }

func (t Times) say(key string, args ...any) string { return t.words.Line(say.New(key, args...)) }

// TimesHigh is how high the drawing is, in heights of its letters.
const TimesHigh = 9

// Draw draws into the rectangle from the canvas's origin to size.
func (t Times) Draw(c vg.Canvas, size vg.Point, look Look) {
	b, text := brush{c, look}, look.TextSize
	from, until, ok := t.span()
	if !ok || size.X < 16*text || size.Y < 7*text {
		b.paragraph(at(0, size.Y-text), size.X, t.say("figure.load-no-room"))
		return
	}
	left0, right0 := text, size.X-text
	ground, roof := 4.6*text, size.Y-1.4*text
	x := func(d record.Date) vg.Length {
		day, err := time.Parse(time.DateOnly, string(d))
		if err != nil {
			return left0
		}
		return left0 + (right0-left0)*vg.Length(day.Sub(from)/time.Hour)/vg.Length(until.Sub(from)/time.Hour)
	}
	b.line(mid, look.Ink, at(left0, ground), at(right0, ground))
	t.months(b, x, from, until, ground)
	most := 0.0
	for _, d := range t.times.Days {
		most = max(most, d.Cycles)
	}
	for _, d := range t.times.Days {
		high := 0.5 * text // it ran, and nobody knows how much
		if d.Cycles > 0 {
			high = max(0.5*text, (roof-ground)*vg.Length(d.Cycles/most))
		}
		b.line(2.4*heavy, look.Ink, at(x(d.Day), ground), at(x(d.Day), ground+high))
		if d.Over {
			top := ground + high + 0.3*text
			b.fill(look.Ink, at(x(d.Day)-0.5*text, top+0.9*text), at(x(d.Day)+0.5*text, top+0.9*text), at(x(d.Day), top))
		}
	}
	under := ground - 0.9*text
	for _, d := range t.times.Checks {
		b.fill(look.Ink, diamond(at(x(d), under), 0.45*text)...)
	}
	if t.times.Promised != "" {
		b.outline(mid, look.Ink, diamond(at(x(t.times.Promised), under), 0.45*text)...)
	}
	b.text(look.regular(), left, at(left0, 0.8*text), false, t.say("figure.times-key"))
}

// span is what the drawing reaches over; false where a day cannot be read.
func (t Times) span() (from, until time.Time, ok bool) {
	from, err := time.Parse(time.DateOnly, string(t.times.From))
	if err != nil {
		return from, until, false
	}
	until, err = time.Parse(time.DateOnly, string(t.times.Until))
	if err != nil {
		return from, until, false
	}
	if until.Sub(from) < 14*24*time.Hour {
		until = from.AddDate(0, 0, 14)
	}
	return from, until, true
}

// months rules the beginnings of months with their names, as many as there is room for.
func (t Times) months(b brush, x func(record.Date) vg.Length, from, until time.Time, ground vg.Length) {
	text := b.look.TextSize
	room := 1.6 * wide(b.look.regular(), "2026-06")
	first := time.Date(from.Year(), from.Month(), 1, 0, 0, 0, 0, time.UTC)
	every := 1
	for _, every = range []int{1, 2, 3, 6, 12, 24, 60} {
		day := func(n int) record.Date { return record.Date(first.AddDate(0, n, 0).Format(time.DateOnly)) }
		if x(day(every))-x(day(0)) >= room {
			break
		}
	}
	for m := first; !m.After(until); m = m.AddDate(0, every, 0) {
		// The first month may have begun before the set-up.
		if m.Before(from) {
			continue
		}
		at1 := x(record.Date(m.Format(time.DateOnly)))
		b.line(thin, b.look.Ink, at(at1, ground), at(at1, ground-0.4*text))
		half := wide(b.look.regular(), "2026-06") / 2
		if at1-half < 0 || at1+half > x(record.Date(until.Format(time.DateOnly)))+text {
			continue
		}
		b.text(b.look.regular(), centre, at(at1, ground-2*text), false, t.words.Day(say.Day(m.Format("2006-01"))))
	}
}

func diamond(m vg.Point, r vg.Length) []vg.Point {
	return []vg.Point{at(m.X-r, m.Y), at(m.X, m.Y+r), at(m.X+r, m.Y), at(m.X, m.Y-r)}
}
