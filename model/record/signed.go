package record

import "strconv"

// Signed says that somebody signed a set-up: the sheet that was signed, by its fingerprint. It belongs to the book and is in
// no Record; it is kept when a set-up is closed and never changes.
type Signed struct {
	Setup  string `json:"setup"`
	N      int    `json:"n"`      // 1 closed the set-up; those after it signed the same sheet
	Sheet  string `json:"sheet"`  // SHA-256 of the sheet's file, hexadecimal
	Record string `json:"record"` // SHA-256 of the record that it shows, hexadecimal: its fingerprint
	Name   string `json:"name"`
	Role   string `json:"role,omitempty"`
	When   Stamp  `json:"when"` // as the signer says it
	Root   string `json:"root"` // SHA-256 of the certificate that trust is given to, hexadecimal
}

// ItemKind is the item's.
func (Signed) ItemKind() ItemKind { return SignedItem }

// Key is unique within the book.
func (s Signed) Key() string { return s.Setup + "/" + strconv.Itoa(s.N) }
