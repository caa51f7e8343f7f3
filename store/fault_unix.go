//go:build unix

package store

import (
	"errors"
	"syscall"
)

func diskFull(err error) bool {
	return errors.Is(err, syscall.ENOSPC) || errors.Is(err, syscall.EDQUOT)
}

func readOnlyDisk(err error) bool { return errors.Is(err, syscall.EROFS) }
