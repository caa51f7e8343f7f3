//go:build unix

package shell_test

import (
	"bufio"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"syscall"
	"testing"
	"time"

	"keeperbook/app/internal/shell"
)

// memoryChild names the file that this test binary, started once more, changes without end.
const memoryChild = "KEEPERBOOK_TEST_MEMORY"

// Killed while it writes without a pause, the program leaves one state or the next and nothing in between.
func TestMemoryKilled(t *testing.T) {
	if path := os.Getenv(memoryChild); path != "" {
		m := shell.OpenMemory(path)
		for i := 0; ; i++ {
			word := fmt.Sprint(i)
			m.Work(shell.Place{Book: "/b/shop.keeperbook", Setup: word, Leaf: word, Cell: word})
			if err := m.Close(); err != nil {
				t.Fatal(err)
			}
			fmt.Println(i)
		}
	}
	path := filepath.Join(t.TempDir(), "window.json")
	for round := range 25 {
		cmd := exec.Command(os.Args[0], "-test.run=^TestMemoryKilled$")
		cmd.Env = append(os.Environ(), memoryChild+"="+path)
		out, err := cmd.StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		lines, said := bufio.NewScanner(out), -1
		for range 3 + round%7 {
			if !lines.Scan() {
				t.Fatal("it ended by itself")
			}
			if _, err := fmt.Sscan(lines.Text(), &said); err != nil {
				t.Fatal(err)
			}
		}
		time.Sleep(time.Duration(round) * 40 * time.Microsecond) // another moment of the writing each time
		if err := cmd.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		for lines.Scan() { // what it said until then
			if _, err := fmt.Sscan(lines.Text(), &said); err != nil {
				t.Fatal(err)
			}
		}
		cmd.Wait() // killed, as it should be

		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if !json.Valid(text) {
			t.Fatalf("half written: %q", text)
		}
		at := shell.OpenMemory(path).In("/b/shop.keeperbook")
		var n int
		if _, err := fmt.Sscan(at.Setup, &n); err != nil || at.Leaf != at.Setup || at.Cell != at.Setup {
			t.Fatalf("a mixture of states: %+v", at)
		}
		if n != said && n != said+1 {
			t.Errorf("state %d, where %d was said to be written last", n, said)
		}
	}
}

// A disk that does not answer keeps nobody from going on: only what is written waits for it.
func TestMemoryDoesNotWait(t *testing.T) {
	path := filepath.Join(t.TempDir(), "window.json")
	m := shell.OpenMemory(path)
	// Whoever reads a pipe waits until somebody has written into it.
	if err := syscall.Mkfifo(path, 0o600); err != nil {
		t.Skip("no pipes here:", err)
	}
	m.Work(shell.Place{Book: "/b/shop.keeperbook", Cell: "1/in/1 base"})
	hang, err := os.OpenFile(path, os.O_WRONLY, 0) // once it is being read
	if err != nil {
		t.Fatal(err)
	}
	for i := range 100 {
		m.Work(shell.Place{Book: "/b/shop.keeperbook", Cell: fmt.Sprintf("%d/in/1 base", i)})
	}
	if got := m.In("/b/shop.keeperbook").Cell; got != "99/in/1 base" {
		t.Errorf("at %q", got)
	}
	if err := hang.Close(); err != nil {
		t.Fatal(err)
	}
	shut(t, m)
	if got := shell.OpenMemory(path).In("/b/shop.keeperbook").Cell; got != "99/in/1 base" {
		t.Errorf("kept %q", got)
	}
}
