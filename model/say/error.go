package say

import "errors"

// Code says what kind of trouble an error is, so that a caller can act on it without reading words.
type Code string

// The codes. There are few on purpose: one per thing that a caller does differently.
const (
	Invalid  Code = "invalid"   // what was entered or read does not fit; change it and try again
	NotFound Code = "not-found" // what was asked for is not there
	Conflict Code = "conflict"  // what is there differs from what was expected
	Busy     Code = "busy"      // somebody else has it open; try again when they are done
	Full     Code = "full"      // no room on the disk; make room and try again
	ReadOnly Code = "read-only" // may be read but not written
	Foreign  Code = "foreign"   // not a file of this program
	Newer    Code = "newer"     // made by a later version of this program
	Damaged  Code = "damaged"   // ours, but broken
	Moved    Code = "moved"     // the file was renamed or deleted while open
	Internal Code = "internal"  // a fault of the program itself
)

// Error is trouble that a person is told about in one plain sentence: what was read, what is
// allowed, what to do now.
type Error struct {
	Code  Code
	Field string // the field, cell or file it is about; may be empty
	Line  Line   // the sentence
	Err   error  // the cause, for the log only; may be nil
}

// Error returns the sentence in English. Screens and commands print Line in the reader's language.
func (e *Error) Error() string { return Chosen().Line(e.Line) }

// Unwrap returns the cause.
func (e *Error) Unwrap() error { return e.Err }

// Fail returns an error with this code and sentence.
func Fail(code Code, key string, args ...any) *Error {
	return &Error{Code: code, Line: New(key, args...)}
}

// About returns a copy of the error that names the field it is about.
func (e *Error) About(field string) *Error {
	c := *e
	c.Field = field
	return &c
}

// From returns a copy of the error that carries its cause.
func (e *Error) From(err error) *Error {
	c := *e
	c.Err = err
	return &c
}

// CodeOf returns the code of the first [Error] in the chain, Internal for any other error, and the
// empty code for nil.
func CodeOf(err error) Code {
	if err == nil {
		return ""
	}
	var e *Error
	if errors.As(err, &e) {
		return e.Code
	}
	return Internal
}
