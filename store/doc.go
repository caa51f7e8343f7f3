// Package store keeps a book: one SQLite file, named *.keeperbook.
//
// State tables hold what is so; the append-only table event holds how it came about, each event
// chained to the one before by SHA-256. [Book.Keep] writes both in one transaction and returns
// only when the disk has them. Undo and redo append inverse events, so nothing is ever taken out
// of the history. What personal data is kept of an owner beside the name lies outside of it.
//
// A book is opened by one writer at a time. A lock file beside it says by whom. Reading goes
// through four more connections that cannot write.
//
// Every error that a person meets is a [say.Error]; driver codes are put into sentences in fault.go.
package store
