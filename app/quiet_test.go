//go:build cgo && linux

package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// A command says what it has to say and nothing else, also where the environment names no language.
func TestCommandsAreQuiet(t *testing.T) {
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	book := filepath.Join(t.TempDir(), "d.keeperbook")
	for _, locale := range []string{"C.UTF-8", "C", ""} {
		for _, c := range []struct {
			args  []string
			lines int // on standard error
		}{{[]string{"examine", book}, 1}, {[]string{"heads", book, "too", "many"}, -1}} {
			cmd := exec.Command(self, c.args...)
			cmd.Env = []string{asProgram + "=1", "LANG=" + locale, "HOME=" + t.TempDir()}
			var said bytes.Buffer
			cmd.Stderr = &said
			if err := cmd.Run(); err == nil {
				t.Errorf("%v did not fail", c.args)
			}
			if n := strings.Count(said.String(), "\n"); c.lines >= 0 && n != c.lines || strings.Contains(said.String(), "yne") {
				t.Errorf("LANG=%q: %v says\n%s", locale, c.args, said.String())
			}
		}
	}
}
