package store

import (
	"bytes"
	"context"
	"database/sql"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"keeperbook/model/say"
)

// folderState reads every file of a folder.
func folderState(t *testing.T, folder string) map[string][]byte {
	t.Helper()
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	files := map[string][]byte{}
	for _, e := range entries {
		if e.IsDir() {
			continue
		}
		if files[e.Name()], err = os.ReadFile(filepath.Join(folder, e.Name())); err != nil {
			t.Fatal(err)
		}
	}
	return files
}

// untouched runs something and fails the test where a file of the folder changed, came or went.
func untouched(t *testing.T, folder string, do func()) {
	t.Helper()
	before := folderState(t, folder)
	do()
	after := folderState(t, folder)
	for name := range after {
		if _, was := before[name]; !was {
			t.Errorf("%s was not there before", name)
		}
	}
	for name, bytesBefore := range before {
		if !bytes.Equal(after[name], bytesBefore) {
			t.Errorf("%s is not as it was", name)
		}
	}
}

// refused checks code and sentence of an error.
func refused(t *testing.T, err error, code say.Code, words ...string) {
	t.Helper()
	if say.CodeOf(err) != code {
		t.Fatalf("code %q, want %q: %v", say.CodeOf(err), code, err)
	}
	for _, w := range words {
		if !strings.Contains(err.Error(), w) {
			t.Errorf("%q does not say %q", err, w)
		}
	}
}

// raw runs SQL on a file outside of the package's ways.
func raw(t *testing.T, path string, statements ...string) {
	t.Helper()
	db, err := sql.Open("sqlite", dsnPlain(path))
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	db.SetMaxOpenConns(1)
	for _, s := range statements {
		if _, err := db.Exec(s); err != nil {
			t.Fatal(s, err)
		}
	}
}

func dsnPlain(path string) string { return "file:" + filepath.ToSlash(path) }

// closedBook makes a book with something in it and closes it.
func closedBook(t *testing.T) string {
	t.Helper()
	b := newBook(t)
	keepRecord(t, b, rich())
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Path()
}

func TestWhatIsNoBookIsRefusedAsItIs(t *testing.T) {
	ctx := context.Background()
	if err := lockPerFile(); err != nil {
		t.Fatal(err)
	}
	cases := []struct {
		name  string
		make  func(path string)
		code  say.Code
		words []string
	}{
		{"text", func(path string) { writeFile(t, path, "valve, height\n1 in, 1.842\n") }, say.Foreign, []string{"not a book", "left as it is"}},
		{"long text", func(path string) { writeFile(t, path, strings.Repeat("1.842 ", 4000)) }, say.Foreign, []string{"not a book"}},
		{"empty", func(path string) { writeFile(t, path, "") }, say.Foreign, []string{"is empty", "left as it is"}},
		{"other database", func(path string) { raw(t, path, `CREATE TABLE reading (x)`) }, say.Foreign, []string{"not a book"}},
		{"other database with a version", func(path string) {
			raw(t, path, `CREATE TABLE x (x)`, `PRAGMA user_version = 1`, `PRAGMA application_id = 1`)
		}, say.Foreign, []string{"not a book"}},
		{"newer", func(path string) { copyTo(t, closedBook(t), path); raw(t, path, `PRAGMA user_version = 9`) }, say.Newer, []string{"form is 9", "up to 7"}},
		{"folder", func(path string) {
			if err := os.Mkdir(path, 0o755); err != nil {
				t.Fatal(err)
			}
		}, say.Foreign, []string{"not a book"}},
		{"nothing", func(string) {}, say.NotFound, []string{"no file"}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			folder := t.TempDir()
			path := filepath.Join(folder, "x.keeperbook")
			c.make(path)
			untouched(t, folder, func() {
				_, err := Open(ctx, path, options())
				refused(t, err, c.code, append(c.words, path)...)
				_, err = OpenReadOnly(ctx, path, options())
				refused(t, err, c.code, c.words...)
				_, err = Examine(ctx, path)
				refused(t, err, c.code, c.words...)
				if c.name != "nothing" {
					_, err = Create(ctx, path, options())
					refused(t, err, say.Conflict, "already there")
				}
			})
		})
	}
}

// A log left by an earlier book would be read into a new one of that name.
func TestCreateRefusesALogOfAnotherBook(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "x.keeperbook")
	writeFile(t, path+"-wal", "whatever")
	untouched(t, folder, func() {
		_, err := Create(context.Background(), path, options())
		refused(t, err, say.Conflict, path+"-wal")
	})
}

func TestCreateInAFolderThatIsNotThere(t *testing.T) {
	_, err := Create(context.Background(), filepath.Join(t.TempDir(), "no", "x.keeperbook"), options())
	refused(t, err, say.NotFound, "no file")
}

// A name is never taken for part of the way a book is named to the driver.
func TestNamesThatLookLikeParameters(t *testing.T) {
	ctx := context.Background()
	for _, name := range []string{"a?mode=memory&x=.keeperbook", "50%20#2;.keeperbook", "ä 'b\".keeperbook"} {
		if runtime.GOOS == "windows" && strings.ContainsAny(name, `?"`) {
			continue // no file may be called so there
		}
		folder := t.TempDir()
		path := filepath.Join(folder, name)
		b, err := Create(ctx, path, options())
		if err != nil {
			t.Fatal(name, err)
		}
		keepRecord(t, b, small("1"))
		if err := b.Copy(ctx, path+"2"); err != nil {
			t.Error(name, err)
		}
		if err := b.Close(); err != nil {
			t.Error(name, err)
		}
		if files := folderState(t, folder); len(files) != 2 || len(files[name]) == 0 || len(files[name+"2"]) == 0 {
			t.Errorf("%s: the folder holds %d files", name, len(files))
		}
	}
}

func TestBookInUse(t *testing.T) {
	ctx := context.Background()
	path := closedBook(t)
	c, lines, in := child(t, "hold", path)
	if !lines.Scan() || lines.Text() != "open" {
		t.Fatal("the other process did not open the book")
	}
	_, err := Open(ctx, path, options())
	host, _ := os.Hostname()
	refused(t, err, say.Busy, path, host, fmt.Sprint("process ", c.Process.Pid), string(noon))
	if runtime.GOOS != "windows" {
		link := filepath.Join(t.TempDir(), "other name")
		if err := os.Symlink(path, link); err != nil {
			t.Fatal(err)
		}
		_, err = Open(ctx, link, options())
		refused(t, err, say.Busy, path)
	}
	// Reading goes on beside it.
	r, err := OpenReadOnly(ctx, path, options())
	if err != nil {
		t.Fatal(err)
	}
	if _, err := r.Record(ctx, "S-1"); err != nil {
		t.Error(err)
	}
	sound(t, r)
	_, err = r.Keep(ctx, entry(1))
	refused(t, err, say.ReadOnly, "for reading only")
	if err := r.Close(); err != nil {
		t.Error(err)
	}
	in.Close()
	if err := c.Wait(); err != nil {
		t.Fatal(err)
	}
	b, err := Open(ctx, path, options())
	if err != nil {
		t.Fatal(err)
	}
	_, err = Open(ctx, path, options())
	refused(t, err, say.Busy, fmt.Sprint("process ", os.Getpid()))
	if err := b.Close(); err != nil {
		t.Error(err)
	}
	if files := folderState(t, filepath.Dir(path)); len(files) != 1 {
		t.Errorf("%d files are left where the book alone should be", len(files))
	}
}

// A lock that a crash left behind keeps nobody out.
func TestLockLeftBehind(t *testing.T) {
	path := closedBook(t)
	writeFile(t, lockPath(path), `{"host":"elsewhere","user":"nobody","pid":1}`)
	b, err := Open(context.Background(), path, options())
	if err != nil {
		t.Fatal(err)
	}
	if err := b.Close(); err != nil {
		t.Error(err)
	}
}

// A reader in another process sees what is kept here, each time it looks.
func TestTwoProcesses(t *testing.T) {
	ctx := context.Background()
	b := newBook(t)
	keepRecord(t, b, small("1"))
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	c, lines, _ := child(t, "keep", b.Path(), "1")
	r := (*Book)(nil)
	seen := 0
	for lines.Scan() && seen < 30 {
		seen++
		if r == nil {
			var err error
			if r, err = OpenReadOnly(ctx, b.Path(), options()); err != nil {
				t.Fatal(err)
			}
		}
		got, err := r.Record(ctx, "S-1")
		if err != nil {
			t.Fatal(err)
		}
		if len(got.Setup.Readings) < seen {
			t.Fatalf("%d readings where %d are acknowledged", len(got.Setup.Readings), seen)
		}
	}
	c.Process.Kill()
	c.Wait()
	if err := r.Close(); err != nil {
		t.Error(err)
	}
}

func TestBookRenamedWhileOpen(t *testing.T) {
	ctx := context.Background()
	if runtime.GOOS == "windows" {
		t.Skip("an open file cannot be renamed there")
	}
	for _, replaced := range []bool{false, true} {
		b := newBook(t)
		keepRecord(t, b, small("1"))
		elsewhere := b.Path() + ".old"
		if err := os.Rename(b.Path(), elsewhere); err != nil {
			t.Fatal(err)
		}
		if replaced {
			writeFile(t, b.Path(), "something else")
		}
		_, err := b.Keep(ctx, entry(1))
		refused(t, err, say.Moved, "renamed, replaced or deleted")
		_, err = b.Undo(ctx, "S-1", "Tamsin", noon, "u")
		refused(t, err, say.Moved)

		saved := filepath.Join(t.TempDir(), "saved.keeperbook")
		if err := b.Copy(ctx, saved); err != nil {
			t.Fatal(err)
		}
		if err := b.Close(); err != nil {
			t.Fatal(err)
		}
		again, err := Open(ctx, saved, options())
		if err != nil {
			t.Fatal(err)
		}
		if _, err := again.Record(ctx, "S-1"); err != nil {
			t.Error(err)
		}
		sound(t, again)
		if err := again.Close(); err != nil {
			t.Error(err)
		}
		if replaced {
			if text, err := os.ReadFile(b.Path()); err != nil || string(text) != "something else" {
				t.Errorf("what took the book's name is %q, %v", text, err)
			}
		}
	}
}

// immovable makes a file or folder such that not even the superuser may change it, or that a user may
// not; it skips the test where neither can be had.
func immovable(t *testing.T, path string, mode os.FileMode) {
	t.Helper()
	if os.Geteuid() > 0 {
		if err := os.Chmod(path, mode); err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() { os.Chmod(path, 0o755) })
		return
	}
	if out, err := exec.Command("chattr", "+i", path).CombinedOutput(); err != nil {
		t.Skipf("the superuser may write everywhere here, and chattr is of no help: %v %s", err, out)
	}
	t.Cleanup(func() {
		if out, err := exec.Command("chattr", "-i", path).CombinedOutput(); err != nil {
			t.Errorf("%v %s", err, out)
		}
	})
}

func TestReadOnlyFile(t *testing.T) {
	path := closedBook(t)
	immovable(t, path, 0o444)
	untouched(t, filepath.Dir(path), func() {
		_, err := Open(context.Background(), path, options())
		refused(t, err, say.ReadOnly, path, "may be read but not written")
		readsEverything(t, path)
	})
}

func TestReadOnlyFolder(t *testing.T) {
	path := closedBook(t)
	immovable(t, filepath.Dir(path), 0o555)
	untouched(t, filepath.Dir(path), func() {
		_, err := Open(context.Background(), path, options())
		refused(t, err, say.ReadOnly, path, "may be read but not written")
		readsEverything(t, path)
	})
}

// What a crash left in the log is read, also where SQLite cannot write its index of the log.
func TestReadOnlyFolderWithALog(t *testing.T) {
	b := newBook(t)
	keepRecord(t, b, rich())
	crashed := filepath.Join(t.TempDir(), "crashed.keeperbook")
	copyTo(t, b.Path(), crashed)
	copyTo(t, b.Path()+"-wal", crashed+"-wal")
	immovable(t, filepath.Dir(crashed), 0o555)
	untouched(t, filepath.Dir(crashed), func() { readsEverything(t, crashed) })
}

func readsEverything(t *testing.T, path string) {
	t.Helper()
	r, err := OpenReadOnly(context.Background(), path, options())
	if err != nil {
		t.Fatal(err)
	}
	got, err := r.Record(context.Background(), "S-1")
	if err != nil {
		t.Fatal(err)
	}
	if len(got.Setup.Readings) != len(rich().Setup.Readings) {
		t.Errorf("%d readings", len(got.Setup.Readings))
	}
	sound(t, r)
	if err := r.Close(); err != nil {
		t.Error(err)
	}
}

func writeFile(t testing.TB, path, text string) {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

func copyTo(t testing.TB, from, to string) {
	t.Helper()
	text, err := os.ReadFile(from)
	if err != nil {
		t.Fatal(err)
	}
	writeFile(t, to, string(text))
}
