//go:build unix

package store

import (
	"errors"
	"os"
	"syscall"
)

// openLock opens the lock file, making it where it is missing, and holds it.
func openLock(path string) (*os.File, error) {
	return hold(path, os.O_RDWR|os.O_CREATE)
}

// probeLock holds the lock file where there is one, without making or changing it.
func probeLock(path string) (*os.File, error) {
	return hold(path, os.O_RDONLY)
}

func hold(path string, flag int) (*os.File, error) {
	f, err := os.OpenFile(path, flag, 0o644)
	if err != nil {
		return nil, err
	}
	if err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB); err != nil {
		f.Close()
		if errors.Is(err, syscall.EWOULDBLOCK) {
			return nil, errHeld
		}
		return nil, err
	}
	return f, nil
}

func dropLock(l *lock) {
	if l.current() {
		os.Remove(l.path)
	}
	l.file.Close()
}
