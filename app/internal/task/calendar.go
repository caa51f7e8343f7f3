package task

import (
	"context"
	"strings"
	"time"

	ics "github.com/arran4/golang-ical"

	"keeperbook/app/internal/files"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Calendar writes what falls due as iCalendar (RFC 5545), each on its day as an entry of the whole day, what is due without a
// day today, and what is not due yet and goes by runs not at all. The same thing keeps its identifier, so that a calendar that reads the file again moves the entry.
func Calendar(all []DueLine, now time.Time) []byte {
	c := ics.NewCalendarFor("keeperbook")
	c.SetMethod(ics.MethodPublish)
	c.SetName(say.Chosen().Line(say.New("due.calendar")))
	for _, d := range all {
		if d.Day == "" && !d.Over {
			continue // nobody knows the day
		}
		day, err := time.Parse(time.DateOnly, string(d.Day))
		if err != nil {
			day = now
		}
		e := c.AddEvent(d.Key + "@keeperbook")
		e.SetDtStampTime(now.UTC())
		e.SetAllDayStartAt(day)
		e.SetSummary(d.Text)
	}
	return []byte(c.Serialize())
}

// Dues returns what falls due in the book today.
func (d *Desk) Dues(ctx context.Context) ([]DueLine, error) {
	return Dues(ctx, d.Book, record.Date(d.now().Day()))
}

// CalendarPath is where a calendar goes where nobody says otherwise: beside the book, named after it.
func (d *Desk) CalendarPath() string { return strings.TrimSuffix(d.Path(), BookEnding) + "-due.ics" }

// SaveCalendar writes what falls due, on the terms of [Bench.Save], and returns the whole path.
func (d *Desk) SaveCalendar(all []DueLine, path string, replace bool) (string, error) {
	path, err := files.Place(path, d.CalendarPath(), replace)
	if err != nil {
		return path, err
	}
	return path, files.Write(path, Calendar(all, d.Clock()))
}
