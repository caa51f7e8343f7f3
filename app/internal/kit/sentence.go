package kit

import (
	"errors"

	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Said returns an error whose text is the sentence of err in these words. A screen hands its errors on
// in the units that its reader chose.
func Said(words say.Printer, err error) error {
	if err == nil {
		return nil
	}
	return said{sentence(words, err), err}
}

type said struct {
	text string
	err  error
}

func (s said) Error() string { return s.text }
func (s said) Unwrap() error { return s.err }

// Sentence returns the sentence of an error: the one it was given by [Said], else the catalogue's with
// lengths in inches.
func Sentence(err error) string {
	inches := unit.Inches
	inches.Comma = say.Chosen().Comma()
	return sentence(say.ChosenIn(inches.Show), err)
}

func sentence(words say.Printer, err error) string {
	if s, ok := errors.AsType[said](err); ok {
		return s.text
	}
	if e, ok := errors.AsType[*say.Error](err); ok {
		return words.Line(e.Line)
	}
	return err.Error()
}
