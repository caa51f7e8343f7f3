//go:build cgo || !darwin

package wire

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"

	"keeperbook/app/internal/command"
	"keeperbook/app/internal/crash"
	"keeperbook/app/internal/shell"
	"keeperbook/assets"
	"keeperbook/model/say"
)

// ReadyLine is said on standard error once the window stands, where the environment asks for it with
// KEEPERBOOK_READY: whoever drives the window from outside waits for it.
const ReadyLine = "keeperbook: ready"

// Window opens the window and returns when it is closed. It returns an error where the display that is
// named does not answer.
type Window func(context.Context, shell.Config) error

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

// display reports whether there is a display to open a window on.
func display() bool {
	switch runtime.GOOS {
	case "windows", "darwin":
		return true
	}
	return os.Getenv("DISPLAY") != "" || os.Getenv("WAYLAND_DISPLAY") != ""
}
