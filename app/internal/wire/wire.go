// Package wire puts the program together: what main starts, and what a test starts in its place.
package wire

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"time"

	"keeperbook/app/internal/command"
	"keeperbook/app/internal/crash"
	"keeperbook/app/internal/shell"
	"keeperbook/app/internal/signer"
	"keeperbook/app/internal/task"
	"keeperbook/assets"
	"keeperbook/model/say"
)

// version is the program's, as FyneApp.toml has it.
const version = "0.1.0"

// ReadyLine is said on standard error once the window stands, where the environment asks for it with
// KEEPERBOOK_READY: whoever drives the window from outside waits for it.
const ReadyLine = "keeperbook: ready"

// Window opens the window and returns when it is closed. It returns an error where the display that is
// named does not answer.
type Window func(context.Context, shell.Config) error

// Main is the program with everything it needs from outside.
type Main struct {
	Args     []string // without the program's name
	Out      io.Writer
	Err      io.Writer
	Clock    func() time.Time
	Who      string                           // who is at the keyboard
	Folder   func() (string, error)           // for a user's data
	Memory   func() (string, error)           // the file of what the window remembers; nil remembers nothing
	Secret   func(who string) (string, error) // asks for the passphrase of somebody's key
	Signers  func() (string, error)           // the folder of the keys of whoever signs; nil where nobody can
	Language string                           // tag of the system's language; "" is English
	Window   Window                           // nil in a program that was built without one
}

// Run runs the program and returns its exit status.
//
// Without an argument, or with a book alone, it opens the window.
func (m Main) Run(ctx context.Context) int {
	env := command.Env{Out: m.Out, Err: m.Err, Clock: m.Clock, Who: m.Who, Secret: m.Secret, Signers: m.ring(), Watched: watched(m.Err)}
	switch {
	case len(m.Args) == 0:
		return m.open(ctx, "")
	case len(m.Args) == 1 && filepath.Ext(m.Args[0]) == task.BookEnding:
		return m.open(ctx, m.Args[0])
	}
	return command.Run(ctx, env, m.Args)
}

// ring is the signers of this machine; none where the user has no folder for settings.
func (m Main) ring() signer.Ring {
	ring := signer.Ring{Clock: m.Clock}
	if m.Signers != nil {
		if folder, err := m.Signers(); err == nil {
			ring.Folder = folder
		}
	}
	return ring
}

// open opens the window where there can be one.
func (m Main) open(ctx context.Context, book string) int {
	switch {
	case m.Window == nil:
		return m.commands(say.New("command.no-window"))
	case !display():
		return m.commands(say.New("command.no-display"))
	}
	cfg := shell.Config{
		Book: book, Who: m.Who, Clock: m.Clock, Folder: m.Folder, Demo: assets.Demo(), Help: assets.Help(), Leaves: leaves, Shop: shopPages, Version: version, Language: m.Language, Signers: m.ring(),
		History: historyPage, Due: duePage, Copies: copiesPage, Check: checkPage, Table: tablePage,
	}
	if os.Getenv("KEEPERBOOK_READY") != "" {
		cfg.Ready = func() { fmt.Fprintln(m.Err, ReadyLine) }
	}
	if m.Memory != nil {
		// Without a folder of the user's own nothing is remembered, and everything else works.
		if path, err := m.Memory(); err == nil {
			cfg.Memory = shell.OpenMemory(path)
		}
	}
	notes := m.notes()
	if notes != "" {
		cfg.Broken = crash.Untold(notes)
	}
	broken, err := m.guarded(ctx, cfg)
	if err != nil {
		return m.commands(say.New("command.no-display"))
	}
	if broken != nil {
		m.note(notes, *broken)
	}
	if cfg.Memory != nil {
		if err := cfg.Memory.Close(); err != nil {
			fmt.Fprintln(m.Err, say.English().Line(say.New("shell.forgotten", err.Error())))
		}
	}
	if broken != nil {
		return command.Failed
	}
	return command.OK
}

// guarded opens the window, and returns the fault that ended it, if one did. What was kept is on the disk since it was kept.
func (m Main) guarded(ctx context.Context, cfg shell.Config) (broken *crash.Fault, err error) {
	defer func() {
		if r := recover(); r != nil {
			f := crash.Of(r, debug.Stack())
			broken = &f
		}
	}()
	return nil, m.Window(ctx, cfg)
}

// notes is the folder of the notes of faults, beside what the window remembers; "" where there is none.
func (m Main) notes() string {
	if m.Memory == nil {
		return ""
	}
	file, err := m.Memory()
	if err != nil {
		return ""
	}
	return filepath.Join(filepath.Dir(file), "faults")
}

// note writes a fault down and says where.
func (m Main) note(folder string, f crash.Fault) {
	line := say.New("shell.broken-bare")
	if folder != "" {
		if path, err := crash.Write(folder, version, m.Clock(), f); err == nil {
			line = say.New("shell.broken", path)
		}
	}
	fmt.Fprintln(m.Err, say.English().Line(line))
}

// commands says why there is no window, and what there is instead.
func (m Main) commands(why say.Line) int {
	fmt.Fprintf(m.Err, "%s\n%s", say.English().Line(why), command.Usage())
	return command.Failed
}

// display reports whether there is a display to open a window on.
func display() bool {
	switch runtime.GOOS {
	case "windows", "darwin":
		return true
	}
	return os.Getenv("DISPLAY") != "" || os.Getenv("WAYLAND_DISPLAY") != ""
}

// SignersFolder is where the keys lie of whoever signs on this machine, beside what the window remembers.
func SignersFolder() (string, error) {
	file, err := MemoryFile()
	return filepath.Join(filepath.Dir(file), "signers"), err
}

// MemoryFile is the file in which the window of the current user remembers how it stood, in the folder
// that the system has for the settings of programs.
func MemoryFile() (string, error) {
	folder, err := os.UserConfigDir()
	if err != nil {
		return "", err
	}
	return filepath.Join(folder, "keeperbook", "window.json"), nil
}

// DataFolder is the current user's folder for data of this program, as the system has it.
func DataFolder() (string, error) {
	switch runtime.GOOS {
	case "windows", "darwin", "ios", "plan9":
		folder, err := os.UserConfigDir()
		return filepath.Join(folder, "Keeperbook"), err
	}
	if folder := os.Getenv("XDG_DATA_HOME"); filepath.IsAbs(folder) {
		return filepath.Join(folder, "keeperbook"), nil
	}
	home, err := os.UserHomeDir()
	return filepath.Join(home, ".local", "share", "keeperbook"), err
}
