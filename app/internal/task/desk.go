// Package task holds the use cases of the program: what screens and commands alike do with a book.
//
// A task takes what a person typed or a file said, lets the model read and judge it, and has the store
// keep it. It computes nothing itself and knows no screen.
package task

import (
	"context"
	"crypto/rand"
	"encoding/hex"
	"time"

	"keeperbook/app/internal/signer"
	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/store"
)

// Desk is one open book with who works on it and when it is.
type Desk struct {
	Book    *store.Book
	Who     string           // goes into the history with everything kept
	Clock   func() time.Time // the time that entries carry
	Signers signer.Ring      // of this machine; without a folder there are none
	Held    *signer.Held     // the key that stays open for a while; nil where none does
	Second  string           // a folder that takes copies of the book besides; "" for none
}

// now is the time as it is written down.
func (d *Desk) now() record.Stamp { return StampOf(d.Clock()) }

// StampOf writes a time down as records do.
func StampOf(t time.Time) record.Stamp { return record.Stamp(t.UTC().Format(time.RFC3339)) }

// NewID returns a name for a new thing or action: 128 random bits, so that two books never give out
// the same.
func NewID() string {
	var b [16]byte
	rand.Read(b[:]) // never fails: it ends the program instead, as its documentation says
	return hex.EncodeToString(b[:])
}

// keep keeps the edits of one action.
func (d *Desk) keep(ctx context.Context, setup string, edits []record.Edit) error {
	a, err := d.action(setup, edits)
	if err != nil {
		return err
	}
	_, err = d.Book.Keep(ctx, a)
	return err
}

// action is one of whoever sits there now.
func (d *Desk) action(setup string, edits []record.Edit) (record.Action, error) {
	return record.Action{Token: NewID(), Setup: setup, By: d.Who, At: d.now(), Edits: edits}, doubt(edits)
}

// doubt refuses parts of which not everything can be so. What a record brings in from elsewhere is taken as it
// is: it is somebody's word, and evaluation says what does not go together.
func doubt(edits []record.Edit) error {
	for _, e := range edits {
		if err := evaluate.DoubtPart(e.Noun); err != nil {
			return err
		}
	}
	return nil
}

// Worked is a set-up with everything worked out of it.
type Worked struct {
	Record     *record.Record
	Evaluation evaluate.Evaluation
	Figures    record.Figures
}

// Work loads a set-up and works it out.
func Work(ctx context.Context, book *store.Book, setup string) (Worked, error) {
	rec, _, err := recordOf(ctx, book, setup)
	if err != nil {
		return Worked{}, err
	}
	return worked(rec), nil
}

// worked works a record out.
func worked(rec *record.Record) Worked {
	ev := evaluate.Evaluate(rec)
	return Worked{rec, ev, ev.Figures(evaluate.Words(rec.Setup.Units), rec.Setup.Units)}
}

// in is what was worked out as it is printed in a language, English where there is none of this tag. What rides in an exported
// record is in English, what rides in a sheet in the language of its pages, on which it is looked for again.
func (w Worked) in(language string) (Worked, say.Printer) {
	words := evaluate.WordsIn(language, w.Record.Setup.Units)
	if words.Language != say.English().Language {
		w.Figures = w.Evaluation.Figures(words, w.Record.Setup.Units)
	}
	return w, words
}
