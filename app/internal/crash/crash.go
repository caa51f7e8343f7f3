// Package crash writes down that the program ended by a fault of its own: where in the program it was, and nothing of what
// anybody entered.
package crash

import (
	"fmt"
	"os"
	"os/user"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"time"

	"keeperbook/app/internal/files"
)

const (
	prefix = "fault "
	ending = ".txt"
	told   = "-told" + ending // of a note that was spoken of
	stamp  = "20060102T150405Z"
	most   = 20 // notes; older ones go
)

// Fault is a fault with the place where it happened, for one that is handed on from another goroutine.
type Fault struct {
	What  any
	Stack []byte
}

// Of is a fault as it was recovered, with the stack of now where it brings none.
func Of(recovered any, stack []byte) Fault {
	if f, ok := recovered.(Fault); ok {
		return f
	}
	return Fault{recovered, stack}
}

// Write writes a note into a folder, which is made where it is missing, and returns its path.
func Write(folder, version string, now time.Time, f Fault) (string, error) {
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return "", files.Fault(folder, err)
	}
	path := filepath.Join(folder, prefix+now.UTC().Format(stamp)+ending)
	text := fmt.Sprintf("keeperbook %s, %s, %s %s\n%s\n%s\n\n%s", version, runtime.Version(), runtime.GOOS, runtime.GOARCH,
		now.UTC().Format(time.RFC3339), kind(f.What), nameless(string(f.Stack)))
	if err := files.WritePrivate(path, []byte(text)); err != nil {
		return "", err
	}
	for i, old := range notes(folder) {
		if i >= most {
			os.Remove(old)
		}
	}
	return path, nil
}

// kind says what sort of fault it is. Its own words may hold what somebody typed, but for those of the language itself.
func kind(what any) string {
	if e, ok := what.(runtime.Error); ok {
		return e.Error()
	}
	return fmt.Sprintf("a fault of the type %T", what)
}

// nameless takes whose machine it is out of a text.
func nameless(text string) string {
	var names []string
	if home, err := os.UserHomeDir(); err == nil && len(home) > 1 {
		names = append(names, home)
	}
	if u, err := user.Current(); err == nil {
		names = append(names, u.Username, u.Name)
	}
	if host, err := os.Hostname(); err == nil {
		names = append(names, host)
	}
	for _, n := range names {
		// What is as short as root or a word of the language would tear holes into the rest.
		if len(n) > 4 {
			text = strings.ReplaceAll(text, n, "~")
		}
	}
	return text
}

// notes are those in a folder, the newest first.
func notes(folder string) (all []string) {
	found, err := os.ReadDir(folder)
	if err != nil {
		return nil
	}
	for _, f := range found {
		if strings.HasPrefix(f.Name(), prefix) && strings.HasSuffix(f.Name(), ending) {
			all = append(all, filepath.Join(folder, f.Name()))
		}
	}
	slices.Sort(all)
	slices.Reverse(all)
	return all
}

// Untold returns the newest note if nobody was told of it, and counts it as told from now on; "" where there is none.
func Untold(folder string) string {
	all := notes(folder)
	if len(all) == 0 || strings.HasSuffix(all[0], told) {
		return ""
	}
	to := strings.TrimSuffix(all[0], ending) + told
	if os.Rename(all[0], to) != nil {
		return all[0]
	}
	return to
}
