package say

import (
	"strings"
	"time"
)

// Number is a number in digits with a decimal point, which is printed with the mark of the language.
type Number string

// Day is a day as ISO 8601 writes it, 2026-03-02, or a month, 2026-03, with or without a time of day behind a space. It is printed
// as the language writes days.
type Day string

// DayOf is the day of a moment, in the zone of the moment, and MinuteOf that with hours and minutes.
func DayOf(t time.Time) Day { return Day(t.Format(time.DateOnly)) }

// MinuteOf is described at [DayOf].
func MinuteOf(t time.Time) Day { return Day(t.Format("2006-01-02 15:04")) }

// Comma reports whether the language has a decimal comma: German and Spanish do (DIN 1333; in Spanish both marks are in use, and
// the comma is the one of Spain and most of South America).
func (p Printer) Comma() bool { return p.Language == "de" || p.Language == "es" }

// Number prints a number with the decimal mark of the language.
func (p Printer) Number(n Number) string {
	if p.Comma() {
		return strings.Replace(string(n), ".", ",", 1)
	}
	return string(n)
}

// Day prints a day: 02.03.2026 in German, 02/03/2026 in Spanish, 2026-03-02 in English, where the order of day and month is
// another on either side of the ocean. What is no day is printed as it is.
func (p Printer) Day(d Day) string {
	mark := p.dayMark()
	day, clock, timed := strings.Cut(string(d), " ")
	parts := strings.Split(day, "-")
	if mark == "" || len(parts) < 2 || len(parts) > 3 || len(parts[0]) != 4 {
		return string(d)
	}
	for i, j := 0, len(parts)-1; i < j; i, j = i+1, j-1 {
		parts[i], parts[j] = parts[j], parts[i]
	}
	day = strings.Join(parts, mark)
	if timed {
		day += " " + clock
	}
	return day
}

// dayMark stands between day, month and year; "" where days are written as ISO 8601 has them.
func (p Printer) dayMark() string {
	switch p.Language {
	case "de":
		return "."
	case "es":
		return "/"
	}
	return ""
}

// ReadDay returns a day as ISO 8601 writes it, where one was typed as the language writes days; anything else as it stands. Day
// and month may be typed without a nought before them.
func (p Printer) ReadDay(text string) string {
	text = strings.TrimSpace(text)
	mark := p.dayMark()
	if mark == "" {
		return text
	}
	parts := strings.Split(text, mark)
	if len(parts) != 3 {
		return text
	}
	for i, part := range parts[:2] {
		if len(part) == 1 {
			parts[i] = "0" + part
		}
	}
	day := parts[2] + "-" + parts[1] + "-" + parts[0]
	if _, err := time.Parse(time.DateOnly, day); err != nil {
		return text
	}
	return day
}
