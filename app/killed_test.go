//go:build cgo && linux

package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A program that is killed, as by a power cut, starts again where it was and has nothing to say about it.
// Nothing but its own file lies among the user's settings.
func TestKilled(t *testing.T) {
	d := newDesktop(t)
	p := d.start()
	p.listen()
	book := filepath.Join(d.home, "data", "keeperbook", "demonstration.keeperbook")
	settings := filepath.Join(d.home, "config", "keeperbook", "window.json")
	remembers := func(words ...string) func() bool {
		return func() bool {
			text, _ := os.ReadFile(settings)
			for _, w := range words {
				if !strings.Contains(string(text), w) {
					return false
				}
			}
			return true
		}
	}
	p.press("d")
	p.until("the open book in the memory", remembers(`"open": "`+book))
	p.press("ctrl+d")
	p.until("the dark room in the memory", remembers(`"dark": true`))
	if err := p.cmd.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	p.cmd.Wait() // it was killed, and says so

	p = d.start()
	if got := p.words(); got != "keeperbook: ready\n" {
		t.Errorf("after it was killed it says:\n%s", got)
	}
	p.stop()
	if !remembers(`"open": "`+book, `"dark": true`)() {
		t.Error("the book or the light is forgotten")
	}
	err := filepath.WalkDir(filepath.Join(d.home, "config"), func(path string, e fs.DirEntry, err error) error {
		if err == nil && !e.IsDir() && path != settings {
			t.Errorf("it wrote %s", path)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}
