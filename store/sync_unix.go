//go:build unix

package store

import (
	"errors"
	"os"
)

// syncFolder brings the names in a folder to the disk.
func syncFolder(path string) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}
