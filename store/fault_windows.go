package store

import (
	"errors"
	"syscall"
)

// Codes of the Windows API that package syscall has no name for.
const (
	errorWriteProtect   = syscall.Errno(19)
	errorHandleDiskFull = syscall.Errno(39)
	errorDiskFull       = syscall.Errno(112)
)

func diskFull(err error) bool {
	return errors.Is(err, errorHandleDiskFull) || errors.Is(err, errorDiskFull)
}

func readOnlyDisk(err error) bool { return errors.Is(err, errorWriteProtect) }
