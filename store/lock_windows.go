package store

import (
	"errors"
	"os"
	"syscall"
)

// errorSharingViolation is the code for a file that another handle does not share.
const errorSharingViolation = syscall.Errno(32)

// openLock opens the lock file so that others may read it and nobody else may open it to write.
func openLock(path string) (*os.File, error) {
	return hold(path, syscall.OPEN_ALWAYS)
}

// probeLock holds the lock file where there is one.
func probeLock(path string) (*os.File, error) {
	return hold(path, syscall.OPEN_EXISTING)
}

func hold(path string, how uint32) (*os.File, error) {
	name, err := syscall.UTF16PtrFromString(path)
	if err != nil {
		return nil, err
	}
	h, err := syscall.CreateFile(name, syscall.GENERIC_READ|syscall.GENERIC_WRITE,
		syscall.FILE_SHARE_READ, nil, how, syscall.FILE_ATTRIBUTE_NORMAL, 0)
	if errors.Is(err, errorSharingViolation) {
		return nil, errHeld
	}
	if err != nil {
		return nil, err
	}
	return os.NewFile(uintptr(h), path), nil
}

// A file cannot be taken away while it is open here, so it is closed first. Where somebody opens
// it in between, taking it away fails, and it is theirs.
func dropLock(l *lock) {
	l.file.Close()
	os.Remove(l.path)
}
