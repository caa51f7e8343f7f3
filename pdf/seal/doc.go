// Package seal makes a PDF prove itself: the record rides in it as an attached file, and a signature of the signer's own
// key covers every byte (ISO 32000-2 §12.8, PAdES baseline B after ETSI EN 319 142-1). It reads only what was written by
// this program or sealed by it: one classic cross-reference table, and at most one more for each signature after the first.
//
// [Seal] takes the pages of a finished sheet and returns them sealed, built to PDF/A-3b (ISO 19005-3). [Countersign] adds a
// second signature in the field that was reserved for it. [Check] gives three answers that must not be mixed up: whether
// the signed bytes are whole, who signed them, and what was added after.
//
// The same pages, record, signer and moment give the same bytes. Nothing here reads a clock or a file.
package seal
