// Package wire puts the program together: what main starts, and what a test starts in its place.
package wire

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"time"

	"keeperbook/app/internal/command"
	"keeperbook/app/internal/task"
	"keeperbook/assets"
	"keeperbook/model/say"
)

// Main is the program with everything it needs from outside.
type Main struct {
	Args   []string // without the program's name
	Out    io.Writer
	Err    io.Writer
	Clock  func() time.Time
	Who    string                 // who is at the keyboard
	Folder func() (string, error) // for a user's data
}

// Run runs the program and returns its exit status.
//
// Without an argument it writes the demonstration book into the user's data folder.
func (m Main) Run(ctx context.Context) int {
	env := command.Env{Out: m.Out, Err: m.Err, Clock: m.Clock, Who: m.Who}
	switch {
	case len(m.Args) == 0:
		return m.demonstrate(ctx)
	case len(m.Args) == 1 && filepath.Ext(m.Args[0]) == ".keeperbook":
		fmt.Fprintf(m.Err, "%s\n%s", say.Fail(say.Invalid, "command.no-window", m.Args[0]), command.Usage())
		return command.Wrong
	}
	return command.Run(ctx, env, m.Args)
}

// demonstrate writes the demonstration book where a new user finds it, or says where it is already.
func (m Main) demonstrate(ctx context.Context) int {
	folder, err := m.Folder()
	if err == nil {
		err = os.MkdirAll(folder, 0o755)
	}
	if err != nil {
		fmt.Fprintln(m.Err, say.Fail(say.NotFound, "command.data-folder", err.Error()))
		return command.Failed
	}
	book := filepath.Join(folder, "demonstration.keeperbook")
	paths, err := task.Demo(ctx, book, assets.Demo(), m.Clock)
	var e *say.Error
	switch {
	case err == nil:
		fmt.Fprintln(m.Out, say.English().Line(say.New("command.demo-made")))
		for _, p := range paths {
			fmt.Fprintln(m.Out, p)
		}
		return command.OK
	case errors.As(err, &e) && e.Code == say.Conflict:
		fmt.Fprintln(m.Out, say.English().Line(say.New("command.demo-there", book)))
		return command.OK
	}
	fmt.Fprintln(m.Err, err)
	return command.Failed
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
