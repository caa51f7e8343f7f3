package store

import (
	"bytes"
	"encoding/binary"
	"errors"
	"io"
	"os"

	"keeperbook/model/say"
)

const (
	// applicationID marks our files at byte 68: "Keep" in ASCII.
	applicationID = 0x4b656570
	// Offsets of the SQLite file header, from its published file format.
	formatAt      = 44
	versionAt     = 60
	applicationAt = 68
	headerLength  = 100
)

var magic = []byte("SQLite format 3\x00")

// checkHeader refuses a file that is not a book of ours, before SQLite touches it: SQLite would
// make an empty file into a book. It returns the version of the book's schema. flag is os.O_RDWR
// where the book is to be written, so that a file that may not be is refused here too.
//
// It must not run while this process has the file open in SQLite: where locks belong to the
// process, closing the file would drop them.
func checkHeader(path string, flag, newest int) (int, error) {
	if info, err := os.Stat(path); err != nil {
		return 0, fault(err, path)
	} else if !info.Mode().IsRegular() {
		return 0, say.Fail(say.Foreign, "store.foreign", path)
	}
	f, err := os.OpenFile(path, flag, 0)
	if err != nil {
		return 0, fault(err, path)
	}
	defer f.Close()
	header := make([]byte, headerLength)
	n, err := io.ReadFull(f, header)
	switch {
	case n == 0 && errors.Is(err, io.EOF):
		return 0, say.Fail(say.Foreign, "store.empty", path)
	case err != nil && !errors.Is(err, io.ErrUnexpectedEOF):
		return 0, fault(err, path)
	case n < headerLength || !bytes.HasPrefix(header, magic),
		binary.BigEndian.Uint32(header[applicationAt:]) != applicationID:
		return 0, say.Fail(say.Foreign, "store.foreign", path)
	}
	// Another form of the schema than 1 to 4 SQLite calls an error of the statement, where it is damage of the file.
	if format := binary.BigEndian.Uint32(header[formatAt:]); format > 4 {
		return 0, say.Fail(say.Damaged, "store.damaged", path)
	}
	version := int(int32(binary.BigEndian.Uint32(header[versionAt:])))
	return version, checkVersion(path, version, newest)
}

// checkVersion refuses a book made by a later version of the program. What that version knows
// about the book would be lost.
func checkVersion(path string, version, newest int) error {
	switch {
	case version > newest:
		return say.Fail(say.Newer, "store.newer", path, version, newest)
	case version < 1:
		return say.Fail(say.Foreign, "store.foreign", path)
	}
	return nil
}

// checkOld refuses to read a book that would have to be migrated first.
func checkOld(path string, version, newest int) error {
	if version < newest {
		return say.Fail(say.ReadOnly, "store.older", path, version, newest)
	}
	return nil
}
