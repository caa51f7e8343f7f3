package store

import "path/filepath"

// OnNetwork reports whether a book lies on a disk of another machine. SQLite relies on locks that such disks often only pretend to
// keep, so that two machines may write at once and neither hears of it. False where it cannot be told.
func OnNetwork(path string) bool {
	abs, err := filepath.Abs(path)
	if err != nil {
		return false
	}
	return onNetwork(abs)
}
