package store

import (
	"path/filepath"
	"testing"
)

// A path that is not there lies nowhere, and what cannot be told is no warning.
func TestOnNetwork(t *testing.T) {
	if OnNetwork(filepath.Join(t.TempDir(), "gone", "book.keeperbook")) {
		t.Error("a book that is not there lies on another machine")
	}
}
