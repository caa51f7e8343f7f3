package task

import (
	"errors"
	"maps"
	"slices"

	"keeperbook/model/say"
)

// Drafts keep what was typed into fields and not kept, so that nothing a person typed is lost: a text that
// was refused, or that waits for others without which it says nothing. The zero value is ready.
type Drafts struct{ of map[string]Draft }

// Draft is a text that is not in the book.
type Draft struct {
	Text string
	Err  error // why it was refused; nil where it only waits
}

// Line is the sentence that says why a text was refused, none where it only waits.
func (d Draft) Line() say.Line {
	var e *say.Error
	switch {
	case d.Err == nil:
		return say.Line{}
	case errors.As(d.Err, &e):
		return e.Line
	}
	return say.New("expr.one", d.Err.Error())
}

// Keep notes a text that is not kept.
func (d *Drafts) Keep(field, text string, err error) {
	if d.of == nil {
		d.of = map[string]Draft{}
	}
	d.of[field] = Draft{text, err}
}

// Drop forgets a text, because it is in the book now or was given up.
func (d *Drafts) Drop(fields ...string) {
	for _, f := range fields {
		delete(d.of, f)
	}
}

// At returns what was typed into a field and not kept.
func (d *Drafts) At(field string) (Draft, bool) {
	t, ok := d.of[field]
	return t, ok
}

// Unkept says of each text that it is not in the book, in the order of their fields' names.
func (d *Drafts) Unkept() (lines []say.Line) {
	for _, field := range slices.Sorted(maps.Keys(d.of)) {
		switch t := d.of[field]; t.Err {
		case nil:
			lines = append(lines, say.New("task.draft-waits", t.Text))
		default:
			lines = append(lines, say.New("task.draft-refused", t.Text, t.Line()))
		}
	}
	return lines
}

// Settle keeps the text where there is an error, and forgets it where there is none. It returns the error.
func (d *Drafts) Settle(field, text string, err error) error {
	if err != nil {
		d.Keep(field, text, err)
		return err
	}
	d.Drop(field)
	return nil
}
