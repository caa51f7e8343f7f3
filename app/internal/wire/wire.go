// Package wire puts the program together: what main starts, and what a test starts in its place.
package wire

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"time"

	"keeperbook/app/internal/command"
	"keeperbook/app/internal/signer"
	"keeperbook/app/internal/task"
	"keeperbook/model/say"
)

// version is the program's, as FyneApp.toml has it.
const version = "0.1.0"

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

// commands says why there is no window, and what there is instead.
func (m Main) commands(why say.Line) int {
	fmt.Fprintf(m.Err, "%s\n%s", say.English().Line(why), command.Usage())
	return command.Failed
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
