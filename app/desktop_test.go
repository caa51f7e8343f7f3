//go:build cgo && linux

package main

import (
	"bufio"
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
)

// asProgram makes the test binary run as the program itself, so that the window is built only once.
const asProgram = "KEEPERBOOK_TEST_AS_PROGRAM"

func TestMain(m *testing.M) {
	if os.Getenv(asProgram) != "" {
		main()
		return
	}
	os.Exit(m.Run())
}

// desktop is a display without a screen, with a hand for keys and pointer.
type desktop struct {
	t       *testing.T
	display string
	home    string
	locale  string // of the program
}

// newDesktop starts a display of its own for a test. Without the programs for it the test is skipped,
// and fails under CI, where app/setup.sh has installed them.
func newDesktop(t *testing.T) *desktop {
	t.Helper()
	for _, program := range []string{"Xvfb", "xdotool", "import", "xclip", "pdftotext"} {
		if _, err := exec.LookPath(program); err != nil {
			if os.Getenv("CI") == "true" {
				t.Fatalf("%s is missing; app/setup.sh installs it under CI", program)
			}
			t.Skipf("%s is not installed; CI=true sh app/setup.sh installs it", program)
		}
	}
	read, write, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	// The server chooses a free number itself and says which.
	server := exec.Command("Xvfb", "-displayfd", "3", "-screen", "0", "1280x860x24", "-nolisten", "tcp", "-noreset")
	server.ExtraFiles = []*os.File{write}
	if err := server.Start(); err != nil {
		t.Fatal(err)
	}
	write.Close()
	t.Cleanup(func() {
		server.Process.Kill()
		server.Wait()
		read.Close()
	})
	number, err := bufio.NewReader(read).ReadString('\n')
	if err != nil {
		t.Fatal("the display did not start")
	}
	return &desktop{t: t, display: ":" + strings.TrimSpace(number), home: t.TempDir(), locale: "en_US.UTF-8"}
}

// program is the program running on a desktop.
type program struct {
	*desktop
	cmd  *exec.Cmd
	mu   sync.Mutex
	said bytes.Buffer
}

// start runs the program and waits until its window says that it is ready.
func (d *desktop) start(args ...string) *program {
	d.t.Helper()
	self, err := os.Executable()
	if err != nil {
		d.t.Fatal(err)
	}
	p := &program{desktop: d, cmd: exec.Command(self, args...)}
	p.cmd.Env = append(os.Environ(), asProgram+"=1", "KEEPERBOOK_READY=1", "DISPLAY="+d.display, "LANG="+d.locale,
		"HOME="+d.home, "XDG_DATA_HOME="+filepath.Join(d.home, "data"), "XDG_CONFIG_HOME="+filepath.Join(d.home, "config"),
		"LIBGL_ALWAYS_SOFTWARE=1")
	p.cmd.Dir = d.home
	out, err := p.cmd.StderrPipe()
	if err != nil {
		d.t.Fatal(err)
	}
	if err := p.cmd.Start(); err != nil {
		d.t.Fatal(err)
	}
	d.t.Cleanup(p.stop)
	ready := make(chan bool, 1)
	go func() {
		lines := bufio.NewScanner(out)
		for lines.Scan() {
			p.mu.Lock()
			fmt.Fprintln(&p.said, lines.Text())
			p.mu.Unlock()
			if strings.Contains(lines.Text(), "keeperbook: ready") {
				select {
				case ready <- true:
				default:
				}
			}
		}
		close(ready)
	}()
	select {
	case ok := <-ready:
		if !ok {
			d.t.Fatalf("the program ended before its window was ready; it said:\n%s", p.words())
		}
	case <-time.After(60 * time.Second):
		d.t.Fatalf("no window after a minute; it said:\n%s", p.words())
	}
	return p
}

func (p *program) words() string {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.said.String()
}

func (p *program) stop() {
	p.cmd.Process.Signal(os.Interrupt)
	done := make(chan struct{})
	go func() { p.cmd.Wait(); close(done) }()
	select {
	case <-done:
	case <-time.After(10 * time.Second):
		p.cmd.Process.Kill()
		<-done
	}
}

// xdotool acts as hand and eye of the person in front of the desktop.
func (d *desktop) xdotool(args ...string) string {
	d.t.Helper()
	cmd := exec.Command("xdotool", args...)
	cmd.Env = append(os.Environ(), "DISPLAY="+d.display)
	out, err := cmd.CombinedOutput()
	if err != nil {
		d.t.Fatalf("xdotool %v: %v: %s", args, err, out)
	}
	return string(out)
}

// write types characters, as fast as they go.
func (d *desktop) write(text string) { d.xdotool("type", "--delay", "0", text) }

// press presses keys, one after the other: "Return", "ctrl+n", "Tab".
func (d *desktop) press(keys ...string) {
	d.xdotool(append([]string{"key", "--delay", "5"}, keys...)...)
}

// shot keeps a picture of the whole desktop.
func (d *desktop) shot(path string) {
	d.t.Helper()
	cmd := exec.Command("import", "-window", "root", path)
	cmd.Env = append(os.Environ(), "DISPLAY="+d.display)
	if out, err := cmd.CombinedOutput(); err != nil {
		d.t.Fatalf("import: %v: %s", err, out)
	}
}

// until waits for something to become so, and fails with what it was waiting for.
func (d *desktop) until(what string, so func() bool) {
	d.t.Helper()
	// Under -race beside other packages a window takes many times as long as it does alone.
	for end := time.Now().Add(90 * time.Second); time.Now().Before(end); time.Sleep(20 * time.Millisecond) {
		if so() {
			return
		}
	}
	picture := filepath.Join(os.TempDir(), "keeperbook-waited.png")
	d.shot(picture)
	d.t.Fatalf("waited in vain for %s; %s shows what was there instead", what, picture)
}

// onceARun passes over a test of the window in short runs, which are those under -race: drawing takes long there, and a few of
// these tests are enough to see what the window does at once.
func onceARun(t *testing.T) {
	t.Helper()
	if testing.Short() {
		t.Skip("once a run is enough")
	}
}
