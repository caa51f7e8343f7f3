package wire_test

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"

	"keeperbook/app/internal/shell"
	"keeperbook/app/internal/signer"
	"keeperbook/app/internal/wire"
	"keeperbook/pdf/seal"
)

// clock stands still, so that what the program writes is the same every time.
func clock() time.Time { return time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC) }

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"keeperbook": func() {
			os.Exit(wire.Main{
				Args: os.Args[1:], Out: os.Stdout, Err: os.Stderr, Clock: clock, Who: "test", Folder: wire.DataFolder, Secret: wire.AskSecret, Signers: wire.SignersFolder,
			}.Run(context.Background()))
		},
		// A signer of the machine: makesigner NAME ROLE PASSPHRASE.
		"makesigner": func() {
			if err := makeSigner(os.Args[1], os.Args[2], os.Args[3]); err != nil {
				fmt.Fprintln(os.Stderr, err)
				os.Exit(1)
			}
		},
		// A key of somebody's own: makekey OUT.p12 NAME PASSPHRASE YEAR.
		"makekey": func() {
			year, err := strconv.Atoi(os.Args[4])
			if err == nil {
				err = makeKey(os.Args[1], os.Args[2], os.Args[3], time.Date(year, 1, 1, 0, 0, 0, 0, time.UTC))
			}
			if err != nil {
				fmt.Fprintln(os.Stderr, err)
				os.Exit(1)
			}
		},
	})
}

// makeSigner makes a signer of the machine.
func makeSigner(name, role, secret string) error {
	folder, err := wire.SignersFolder()
	if err != nil {
		return err
	}
	_, err = signer.Ring{Folder: folder, Clock: clock, Rounds: 1}.Make(signer.New{Name: name, Role: role, Secret: secret, Again: secret})
	return err
}

// makeKey writes a key of somebody's own.
func makeKey(path, name, secret string, when time.Time) error {
	key, err := seal.NewKey(seal.Person{Name: name, Shop: "Lantern Yard Head Works"}, when)
	if err != nil {
		return err
	}
	file, err := key.Lock(secret, 1)
	if err != nil {
		return err
	}
	return os.WriteFile(path, file, 0o600)
}

// TestScripts runs the program as a person would, each command a process of its own.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir: "testdata/script",
		Setup: func(e *testscript.Env) error {
			e.Setenv("XDG_DATA_HOME", filepath.Join(e.WorkDir, "data"))
			e.Setenv("XDG_CONFIG_HOME", filepath.Join(e.WorkDir, "config"))
			e.Setenv("DISPLAY", "")
			e.Setenv("WAYLAND_DISPLAY", "")
			// A script cannot hold broken UTF-8 itself.
			broken := []byte("{\"kind\":\"keeperbook-record\",\"format\":1,\"record\":{\"shop\":{\"name\":\"\xff\"}}}")
			return os.WriteFile(filepath.Join(e.WorkDir, "bytes.json"), broken, 0o644)
		},
		UpdateScripts: os.Getenv("UPDATE") != "",
	})
}

// run runs the program inside the test.
func run(args ...string) (status int, out, err string) {
	var o, e bytes.Buffer
	status = wire.Main{
		Args: args, Out: &o, Err: &e, Clock: clock, Who: "test",
		Folder: func() (string, error) { return "", os.ErrNotExist },
	}.Run(context.Background())
	return status, o.String(), e.String()
}

func TestStatus(t *testing.T) {
	missing := filepath.Join(t.TempDir(), "no.keeperbook")
	for _, c := range []struct {
		args   string
		status int
		says   string
	}{
		{"help", 0, ""},
		{"--help", 0, ""},
		{"", 1, "was built without a window"},
		{missing, 1, "was built without a window"},
		{"polish", 2, "polish is no command"},
		{"heads", 2, "heads was given 0 arguments"},
		{"heads -loud " + missing, 2, "flag provided but not defined: -loud"},
		{"sheet " + missing + " head out.pdf -paper foolscap", 2, "Paper foolscap is not known"},
		{"life " + missing + " head -paper a5", 2, "Paper a5 is not known; it may be a4 or letter.\n  keeperbook life BOOK HEAD"},
		{"export " + missing + " head -language fr", 2, "Language fr is not known"},
		{"plan " + missing + " head -for x", 2, "\"x\" is nothing to plan for"},
		{"plan " + missing + " head -shims 0", 2, "0 shims under one spring is no limit"},
		{"plan " + missing + " head -shims 99", 2, "99 shims under one spring is no limit"},
		{"labels " + missing + " out.pdf -grid 4x4", 2, "\"4x4\" is no label sheet"},
		{"labels " + missing + " out.pdf -from 25", 2, "The first label is said to stand in place 25"},
		{"labels " + missing + " DR-01 DR-02", 2, "has to end in .pdf"},
		{"sheet " + missing + " head out.pdf -form -sign key.p12", 2, "leave out -form"},
		{"sheet " + missing + " head out.pdf -sign key.p12 -with-second -as-second", 2, "one of -with-second and -as-second"},
		{"sheet " + missing + " head out.pdf -role inspector", 2, "Nobody is named with -sign, so nothing is signed"},
		{"sheet " + missing + " head out.pdf -with-second", 2, "Nobody is named with -sign"},
		{"sheet " + missing + " head out.pdf -as-second", 2, "Nobody is named with -sign"},
		{"sheet " + missing + " head out.pdf -secret-from secret", 2, "Nobody is named with -sign"},
		{"sheet " + missing + " head out.pdf -sign=", 2, "Nobody is named with -sign"},
		{"sheet " + missing + " head out.pdf", 1, "no.keeperbook"},
		{"heads " + missing, 1, "no.keeperbook"},
	} {
		status, _, says := run(strings.Fields(c.args)...)
		if status != c.status || !strings.Contains(says, c.says) {
			t.Errorf("%q: status %d, said %q", c.args, status, says)
		}
		if usage := "\n  keeperbook "; c.status == 2 && !strings.Contains(says, usage) {
			t.Errorf("%q: how it is called is not said: %q", c.args, says)
		}
		if strings.Contains(says, "goroutine") {
			t.Errorf("%q: a stack trace: %s", c.args, says)
		}
	}
}

// The window is given what was named, or nothing, and is not opened where there is no display for it.
func TestWindow(t *testing.T) {
	if runtime.GOOS == "windows" || runtime.GOOS == "darwin" {
		t.Skip("a display is always there")
	}
	for _, c := range []struct {
		name, display, ready string
		args                 []string
		book                 string
		fails                error
		status               int
		says                 string
	}{
		{"alone", ":7", "", nil, "", nil, 0, ""},
		{"a book", ":7", "", []string{"shop.keeperbook"}, "shop.keeperbook", nil, 0, ""},
		{"ready", ":7", "1", nil, "", nil, 0, wire.ReadyLine + "\n"},
		{"no display", "", "1", nil, "none", nil, 1, "There is no display to open a window on"},
		{"a display that does not answer", ":7", "", nil, "", os.ErrClosed, 1, "There is no display to open a window on"},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Setenv("DISPLAY", c.display)
			t.Setenv("WAYLAND_DISPLAY", "")
			t.Setenv("KEEPERBOOK_READY", c.ready)
			var o, e bytes.Buffer
			book := "none"
			status := wire.Main{
				Args: c.args, Out: &o, Err: &e, Clock: clock, Who: "test",
				Folder: func() (string, error) { return "", os.ErrNotExist },
				Window: func(_ context.Context, cfg shell.Config) error {
					book = cfg.Book
					if cfg.Ready != nil {
						cfg.Ready()
					}
					return c.fails
				},
			}.Run(context.Background())
			if status != c.status || book != c.book {
				t.Errorf("status %d, book %q", status, book)
			}
			if !strings.HasPrefix(e.String(), c.says) || c.says == "" && e.Len() > 0 {
				t.Errorf("said %q", e.String())
			}
		})
	}
}

// The version that About shows is the one that packages carry.
func TestVersion(t *testing.T) {
	toml, err := os.ReadFile("../../../FyneApp.toml")
	if err != nil {
		t.Fatal(err)
	}
	t.Setenv("DISPLAY", ":7")
	wire.Main{
		Out: io.Discard, Err: io.Discard, Clock: clock,
		Window: func(_ context.Context, cfg shell.Config) error {
			if want := fmt.Sprintf("Version = %q\n", cfg.Version); !strings.Contains(string(toml), want) {
				t.Errorf("FyneApp.toml does not say %s", want)
			}
			return nil
		},
	}.Run(context.Background())
}
