// Package exchange turns records into bytes and back: the exported record, as canonical JSON, and
// readings, as a table that any spreadsheet writes.
//
// An exported record is one JSON object in the canonical form of RFC 8785, strings and whole numbers
// only:
//
//	{"figures":{…},"fingerprint":"<hex>","format":3,"kind":"keeperbook-record","record":{…}}
//
// The fingerprint is the SHA-256 of the canonical bytes of "record" alone, so that two books can tell
// whether they hold the same set-up whatever was printed from it. [Export] writes nothing that
// [Decode] would not read, and [Decode] accepts one form of a thing only: a key that is absent is not
// the same as null, nor as an empty text.
//
// A table of readings has a line per reading, see [ReadCSV]. Its readings stay text here; what they
// mean in the column they go to is decided by whoever takes them in.
//
// The package reads and writes bytes, never files.
package exchange
