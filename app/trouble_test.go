//go:build cgo && linux

package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"keeperbook/model/record"
)

// What happens to a book while somebody types: it is renamed, the disk is full, another window has it. The
// entry is not called kept, its text stays in its cell, and once the cause is gone Enter keeps it. (What
// the window says is held in the tests of its parts.)
func TestTroubleWhileTyping(t *testing.T) {
	d := newDesktop(t)
	book := filepath.Join(d.home, "bench.keeperbook")
	setup := bigHead(t, book, "64-1")
	p := d.start(book)
	p.listen()
	h := &hand{program: p, eye: d.look()}
	h.eye.calm()
	h.put("64-1")
	h.key("alt+4")
	h.put("1841")
	kept := func(texts ...string) func() bool {
		return func() bool {
			got := column(book, setup, record.BaseHeight)
			if len(got) != len(texts) {
				return false
			}
			for i := range texts {
				if got[i] != texts[i] {
					return false
				}
			}
			return true
		}
	}
	p.until("the first height", kept("1841"))

	t.Run("renamed", func(t *testing.T) {
		away := book + ".away"
		if err := os.Rename(book, away); err != nil {
			t.Fatal(err)
		}
		h.put("1842")
		if got := column(away, setup, record.BaseHeight); len(got) > 1 {
			t.Errorf("the entry went into the renamed file: %v", got)
		}
		if err := os.Rename(away, book); err != nil {
			t.Fatal(err)
		}
		h.key("Up", "Return") // on the cell that is not saved Enter tries again
		p.until("the height that had waited", kept("1841", "1842"))
	})
	t.Run("disk full", func(t *testing.T) {
		// No file may grow: to the program that is a disk without room.
		p.mostFile(t, "4096")
		h.put("1843")
		if !kept("1841", "1842")() {
			t.Error("an entry is in the book though there was no room")
		}
		p.mostFile(t, "unlimited")
		h.key("Up", "Return")
		p.until("the height that had waited", kept("1841", "1842", "1843"))
	})
	t.Run("second window", func(t *testing.T) {
		second := d.start(book)
		windows := second.windows()
		second.focus(windows[len(windows)-1])
		h.eye.calm()
		other := &hand{program: second, eye: h.eye}
		other.key("Return") // it can be opened to read, and stands where the first one was
		other.put("1999")
		if !kept("1841", "1842", "1843")() {
			t.Error("the second window wrote into the book of the first")
		}
		second.stop()
		p.focus(p.windows()[0])
		time.Sleep(200 * time.Millisecond)
		h.put("1844")
		p.until("the height of the first window", kept("1841", "1842", "1843", "1844"))
	})
}

// mostFile says how large a file the running program may write, in bytes.
func (p *program) mostFile(t *testing.T, size string) {
	t.Helper()
	out, err := exec.Command("prlimit", "--pid", fmt.Sprint(p.cmd.Process.Pid), "--fsize="+size+":unlimited").CombinedOutput()
	if err != nil {
		t.Fatalf("prlimit: %v: %s", err, out)
	}
}
