//go:build !linux && !darwin

package store

import "strings"

// onNetwork knows the paths that name another machine.
func onNetwork(path string) bool {
	return strings.HasPrefix(path, `\\`) || strings.HasPrefix(path, "//")
}
