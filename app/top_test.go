package main_test

import (
	"os"
	"path"
	"slices"
	"strings"
	"testing"
)

// entries are what stands at the top, beside the history.
var entries = []string{
	".ci", ".gitignore", "DEVELOPERS.md", "FyneApp.toml", "LICENSE", "README.md", "app", "assets", "go.mod", "go.sum", "model", "pdf", "store",
}

// strays says what of the names at the top is missing, and what is there and neither belongs there
// nor is passed over by the patterns of .gitignore.
func strays(names []string, ignore string) (found []string) {
	for _, e := range entries {
		if !slices.Contains(names, e) {
			found = append(found, e+" is missing")
		}
	}
	passed := func(name string) bool {
		for pattern := range strings.Lines(ignore) {
			if ok, err := path.Match(strings.TrimPrefix(strings.TrimSpace(pattern), "/"), name); ok && err == nil {
				return true
			}
		}
		return false
	}
	for _, n := range names {
		if n != ".git" && !slices.Contains(entries, n) && !passed(n) {
			found = append(found, n+" does not belong at the top")
		}
	}
	return found
}

func TestTopLevel(t *testing.T) {
	ignore, err := os.ReadFile("../.gitignore")
	if err != nil {
		t.Fatal(err)
	}
	top, err := os.ReadDir("..")
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range top {
		names = append(names, e.Name())
	}
	for _, s := range strays(names, string(ignore)) {
		t.Error(s)
	}
	t.Run("sees what is planted", func(t *testing.T) {
		planted := append([]string{".git", "keeperbook", "shop.keeperbook", "internal"}, entries[1:]...)
		want := []string{".ci is missing", "internal does not belong at the top"}
		if got := strays(planted, string(ignore)); !slices.Equal(got, want) {
			t.Errorf("got %q, want %q", got, want)
		}
	})
}
