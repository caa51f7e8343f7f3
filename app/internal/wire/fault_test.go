package wire_test

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"keeperbook/app/internal/command"
	"keeperbook/app/internal/shell"
	"keeperbook/app/internal/task"
	"keeperbook/app/internal/wire"
	"keeperbook/assets"
)

// A fault of the program is caught at the top: what was entered is in the book, a report without any of it is written, and the next
// start says so once, where work went on.
func TestAFaultIsCaughtAtTheTop(t *testing.T) {
	t.Setenv("DISPLAY", ":0") // never opened: the test's own driver draws
	folder := t.TempDir()
	memory := filepath.Join(folder, "settings", "window.json")
	path, err := task.DemoBook(context.Background(), folder, assets.Demo(), clock)
	if err != nil {
		t.Fatal(err)
	}
	var said bytes.Buffer
	broken, place := "", shell.Place{}
	run := func(window func(s *shell.Shell)) int {
		app := test.NewTempApp(t)
		return wire.Main{
			Clock: clock, Who: "test", Out: &said, Err: &said, Folder: func() (string, error) { return folder, nil },
			Memory: func() (string, error) { return memory, nil },
			Window: func(ctx context.Context, cfg shell.Config) error {
				broken, place = cfg.Broken, cfg.Memory.In(path)
				cfg.Book, cfg.Background = path, func(work func()) { work() }
				s := shell.New(ctx, app, cfg)
				s.Start()
				window(s)
				s.CloseBook()
				return nil
			},
		}.Run(context.Background())
	}
	status := run(func(s *shell.Shell) {
		s.OpenSetup("setup-ferry-built")
		s.Show("valves")
		table := s.Window().Canvas().Focused()
		for _, key := range []fyne.KeyName{fyne.KeyHome, fyne.KeyDown, fyne.KeyRight, fyne.KeyRight} {
			table.TypedKey(&fyne.KeyEvent{Name: key})
		}
		var none []string
		_ = none[len("Oakhollow")]
	})
	if status != command.Failed || !strings.Contains(said.String(), "The program ended by a fault of its own. What was entered is in the book.") {
		t.Fatalf("%d, %q", status, said.String())
	}
	notes, err := filepath.Glob(filepath.Join(folder, "settings", "faults", "*.txt"))
	if err != nil || len(notes) != 1 {
		t.Fatal(notes, err)
	}
	text, err := os.ReadFile(notes[0])
	if err != nil || !strings.Contains(string(text), "index out of range [9]") || !strings.Contains(string(text), "TestAFaultIsCaughtAtTheTop") {
		t.Errorf("%s, %v", text, err)
	}
	for _, private := range []string{"OF-2P", "ferry", folder} {
		if strings.Contains(string(text), private) {
			t.Errorf("%q stands in the report:\n%s", private, text)
		}
	}
	// The book was not closed, and its lock died with the program; here the process lives on and has it still.
	os.Remove(path + ".lock")
	if status := run(func(*shell.Shell) {}); status != command.OK || broken == "" {
		t.Errorf("%d, %q", status, broken)
	}
	want := shell.Place{Book: path, Setup: "setup-ferry-built", Leaf: "valves", Cell: "4/ex/1 margin"}
	if place != want {
		t.Errorf("work goes on at %+v, want %+v", place, want)
	}
	os.Remove(path + ".lock")
	if run(func(*shell.Shell) {}); broken != "" {
		t.Error("it is said a second time")
	}
	if place != want { // the run before began there, and left it there
		t.Errorf("the window began at %+v, want %+v", place, want)
	}
}

// The program opens no socket of its own, whatever is shown.
func TestNoSocket(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("open files are listed by Linux alone")
	}
	if testing.Short() {
		t.Skip("a whole run looks at every page: pixels take long under -race")
	}
	t.Setenv("DISPLAY", ":0")
	before := sockets(t)
	folder := t.TempDir()
	app := test.NewTempApp(t)
	wire.Main{
		Clock: clock, Who: "test", Out: &bytes.Buffer{}, Err: os.Stderr, Folder: func() (string, error) { return folder, nil },
		Window: func(ctx context.Context, cfg shell.Config) error {
			cfg.Background = func(work func()) { work() }
			s := shell.New(ctx, app, cfg)
			s.Start()
			s.DemoBook()
			for _, setup := range []string{"setup-ferry-built", "setup-racer-built"} {
				s.OpenSetup(setup)
				for _, leaf := range []string{"needs", "choose", "parts", "valves", "plan", "sheet", "life"} {
					s.Show(leaf)
				}
			}
			s.ShopPages()
			s.Due()
			s.Copies()
			if now := sockets(t); now != before {
				t.Errorf("%d sockets are open, before there were %d", now, before)
			}
			s.CloseBook()
			return nil
		},
	}.Run(context.Background())
}

// sockets counts the sockets of this process.
func sockets(t *testing.T) (n int) {
	t.Helper()
	all, err := os.ReadDir("/proc/self/fd")
	if err != nil {
		t.Skip(err)
	}
	for _, f := range all {
		if to, err := os.Readlink(filepath.Join("/proc/self/fd", f.Name())); err == nil && strings.HasPrefix(to, "socket:") {
			n++
		}
	}
	return n
}
