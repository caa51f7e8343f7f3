package store

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"syscall"
	"testing"

	lib "modernc.org/sqlite/lib"

	"keeperbook/model/say"
)

// Extended codes fall under their low byte, and each kind of fault has the code that callers act on.
func TestDriverCodes(t *testing.T) {
	for code, want := range map[int]say.Code{
		lib.SQLITE_BUSY: say.Busy, lib.SQLITE_BUSY_SNAPSHOT: say.Busy, lib.SQLITE_LOCKED: say.Busy,
		lib.SQLITE_READONLY_DIRECTORY: say.ReadOnly, lib.SQLITE_CANTOPEN_ISDIR: say.ReadOnly, lib.SQLITE_PERM: say.ReadOnly,
		lib.SQLITE_FULL: say.Full, lib.SQLITE_IOERR_FSYNC: say.Damaged, lib.SQLITE_CORRUPT_INDEX: say.Damaged,
		lib.SQLITE_NOTADB: say.Foreign, lib.SQLITE_CONSTRAINT_FOREIGNKEY: say.Conflict,
		lib.SQLITE_CONSTRAINT_CHECK: say.Internal, lib.SQLITE_ERROR: say.Internal,
	} {
		if got := driverFault(code, "x").Code; got != want {
			t.Errorf("%d is %s, want %s", code, got, want)
		}
	}
}

func TestFilesystemFaults(t *testing.T) {
	told := say.Fail(say.Full, "store.full", "x")
	for _, c := range []struct {
		err  error
		want say.Code
	}{
		{&fs.PathError{Op: "open", Path: "x", Err: fs.ErrNotExist}, say.NotFound},
		{&fs.PathError{Op: "open", Path: "x", Err: fs.ErrExist}, say.Conflict},
		{&fs.PathError{Op: "open", Path: "x", Err: fs.ErrPermission}, say.ReadOnly},
		{&fs.PathError{Op: "open", Path: "x", Err: syscall.EISDIR}, say.Foreign},
		{&fs.PathError{Op: "open", Path: "x/y", Err: syscall.ENOTDIR}, say.NotFound},
		{&fs.PathError{Op: "open", Path: "xx", Err: syscall.ENAMETOOLONG}, say.Invalid},
		{fmt.Errorf("around: %w", told), say.Full},
		{errors.New("anything"), say.Internal},
	} {
		if got := say.CodeOf(fault(c.err, "x")); got != c.want {
			t.Errorf("%v is %s, want %s", c.err, got, c.want)
		}
	}
	if fault(nil, "x") != nil || !errors.Is(fault(context.Canceled, "x"), context.Canceled) {
		t.Error("no fault, or one that was given up, was put into a sentence")
	}
}
