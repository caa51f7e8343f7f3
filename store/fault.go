package store

import (
	"context"
	"errors"
	"io/fs"
	"syscall"

	"modernc.org/sqlite"
	lib "modernc.org/sqlite/lib"

	"keeperbook/model/say"
)

// fault puts an error of the driver or the file system into a sentence about the file. What is
// already a sentence, and a request that was given up, pass through.
func fault(err error, file string) error {
	var told *say.Error
	switch {
	case err == nil:
		return nil
	case errors.As(err, &told):
		return told
	case errors.Is(err, context.Canceled), errors.Is(err, context.DeadlineExceeded):
		return err
	}
	var driver *sqlite.Error
	if errors.As(err, &driver) {
		if driver.Code()&255 == lib.SQLITE_INTERRUPT { // only a request that was given up interrupts
			return context.Canceled
		}
		return driverFault(driver.Code(), file).From(err)
	}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return say.Fail(say.NotFound, "store.absent", file).From(err)
	case errors.Is(err, fs.ErrExist):
		return say.Fail(say.Conflict, "store.exists", file).From(err)
	case errors.Is(err, syscall.EISDIR):
		return say.Fail(say.Foreign, "store.foreign", file).From(err)
	case errors.Is(err, syscall.ENOTDIR):
		return say.Fail(say.NotFound, "store.below-file", file).From(err)
	case errors.Is(err, syscall.ENAMETOOLONG):
		return say.Fail(say.Invalid, "store.long-name", file).From(err)
	case diskFull(err):
		return say.Fail(say.Full, "store.full", file).From(err)
	case errors.Is(err, fs.ErrPermission), readOnlyDisk(err):
		return say.Fail(say.ReadOnly, "store.readonly", file).From(err)
	}
	return say.Fail(say.Internal, "store.fault", file).From(err)
}

// driverFault chooses the sentence. The code is an extended one; its low byte is the kind of fault.
func driverFault(code int, file string) *say.Error {
	if code == lib.SQLITE_CONSTRAINT_FOREIGNKEY {
		return say.Fail(say.Conflict, "store.in-use")
	}
	switch code & 255 {
	case lib.SQLITE_BUSY, lib.SQLITE_LOCKED:
		return say.Fail(say.Busy, "store.busy", file)
	case lib.SQLITE_READONLY, lib.SQLITE_PERM, lib.SQLITE_AUTH, lib.SQLITE_CANTOPEN:
		return say.Fail(say.ReadOnly, "store.readonly", file)
	case lib.SQLITE_FULL:
		return say.Fail(say.Full, "store.full", file)
	case lib.SQLITE_IOERR:
		return say.Fail(say.Damaged, "store.disk", file)
	case lib.SQLITE_CORRUPT:
		return say.Fail(say.Damaged, "store.damaged", file)
	case lib.SQLITE_NOTADB:
		return say.Fail(say.Foreign, "store.foreign", file)
	}
	return say.Fail(say.Internal, "store.fault", file)
}

// driverCode returns the low byte of the driver's code, 0 where the error is not the driver's.
func driverCode(err error) int {
	var driver *sqlite.Error
	if errors.As(err, &driver) {
		return driver.Code() & 255
	}
	return 0
}

// causeOf returns what lies under a sentence.
func causeOf(err error) error {
	var told *say.Error
	if errors.As(err, &told) && told.Err != nil {
		return told.Err
	}
	return err
}
