package main_test

import (
	"os"
	"os/exec"
	"strings"
	"testing"
)

// Without cgo the program for macOS is made of commands alone: there the toolkit does not compile without it. Elsewhere the widgets
// come along, as tests of screens run on them.
func TestCommandsNeedNoToolkit(t *testing.T) {
	for system, toolkit := range map[string]bool{"darwin": false, "windows": true, "linux": true} {
		list := exec.Command("go", "list", "-deps", ".")
		list.Env = append(os.Environ(), "CGO_ENABLED=0", "GOOS="+system, "GOARCH=arm64")
		var failed strings.Builder
		list.Stderr = &failed
		out, err := list.Output()
		if err != nil {
			t.Fatalf("%s: %v\n%s", system, err, failed.String())
		}
		if got := strings.Contains(string(out), "\nfyne.io/"); got != toolkit {
			t.Errorf("%s: the toolkit is in the program: %t", system, got)
		}
		if !strings.Contains(string(out), "\nkeeperbook/store\n") {
			t.Errorf("%s: the book is not in the program", system)
		}
	}
}
