package store

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"syscall"
	"testing"

	"keeperbook/model/say"
)

func init() {
	moreChildren["limited"] = func(args []string) { childFills(args[0], args[1]) }
}

// smallDisk mounts a file system of so many bytes, where the test may.
func smallDisk(t *testing.T, size int) string {
	t.Helper()
	folder := t.TempDir()
	if err := syscall.Mount("none", folder, "tmpfs", 0, fmt.Sprint("size=", size)); err != nil {
		t.Skip("no file system can be mounted here: ", err)
	}
	t.Cleanup(func() {
		if err := syscall.Unmount(folder, 0); err != nil {
			t.Error(err)
		}
	})
	return folder
}

// On a disk that is really full an entry is refused in a sentence, what was acknowledged stays, the same open book goes on
// once there is room, and a copy that found no room leaves nothing.
func TestSmallDisk(t *testing.T) {
	ctx := context.Background()
	folder := smallDisk(t, 2<<20)
	b, err := Create(ctx, filepath.Join(folder, "book.keeperbook"), options())
	if err != nil {
		t.Fatal(err)
	}
	keepRecord(t, b, small("1"))
	stuffing := filepath.Join(folder, "stuffing")
	fill(t, stuffing)
	kept := 0
	for ; ; kept++ {
		if _, err = b.Keep(ctx, entry(kept+1)); err != nil {
			break
		}
	}
	refused(t, err, say.Full, b.Path(), "no room left", "Make room")
	refused(t, b.Copy(ctx, filepath.Join(folder, "copy.keeperbook")), say.Full)
	if found, err := filepath.Glob(filepath.Join(folder, "copy*")); err != nil || len(found) > 0 {
		t.Error("a copy without room left something: ", found, err)
	}
	if r, err := b.Record(ctx, "S-1"); err != nil || len(r.Setup.Readings) != kept {
		t.Fatalf("reading on a full disk: %v", err)
	}
	remove(t, stuffing)
	if k, err := b.Keep(ctx, entry(kept+1)); err != nil || k.Repeated {
		t.Fatalf("with room again: %+v, %v", k, err)
	}
	sound(t, b)
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	again := reopened(t, b.Path())
	if r, err := again.Record(ctx, "S-1"); err != nil || len(r.Setup.Readings) != kept+1 {
		t.Fatalf("opened again: %v", err)
	}
	if err := again.Close(); err != nil {
		t.Fatal(err)
	}
}

// fill writes a file until its disk has no room left.
func fill(t *testing.T, path string) {
	t.Helper()
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	for block := make([]byte, 4096); ; {
		if _, err := f.Write(block); err != nil {
			return
		}
	}
}

// childFills keeps until no file may grow any more, says how much it kept and what it was told, lifts the limit and keeps on.
func childFills(path, most string) {
	ctx := context.Background()
	b, err := Open(ctx, path, options())
	must(err)
	size, err := strconv.ParseUint(most, 10, 64)
	must(err)
	var was syscall.Rlimit
	must(syscall.Getrlimit(syscall.RLIMIT_FSIZE, &was))
	must(syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: size, Max: was.Max}))
	kept := 0
	for ; ; kept++ {
		if _, err = b.Keep(ctx, entry(kept+1)); err != nil {
			break
		}
	}
	fmt.Println(kept)
	fmt.Println(say.CodeOf(err))
	must(syscall.Setrlimit(syscall.RLIMIT_FSIZE, &was))
	k, err := b.Keep(ctx, entry(kept+1))
	must(err)
	fmt.Println(k.Repeated)
	must(b.Close())
}

// Where the system lets no file grow beyond a size, it signals the process as well; that must not end it.
func TestFileSizeLimit(t *testing.T) {
	ctx := context.Background()
	b := newBook(t)
	keepRecord(t, b, small("1"))
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	info, err := os.Stat(b.Path())
	if err != nil {
		t.Fatal(err)
	}
	c, lines, _ := child(t, "limited", b.Path(), fmt.Sprint(info.Size()))
	var said []string
	for lines.Scan() {
		said = append(said, lines.Text())
	}
	if err := c.Wait(); err != nil || len(said) != 3 {
		t.Fatal(err, said)
	}
	kept, err := strconv.Atoi(said[0])
	if err != nil || said[1] != fmt.Sprint(say.Damaged) || said[2] != "false" {
		t.Fatal(said, err)
	}
	again := reopened(t, b.Path())
	r, err := again.Record(ctx, "S-1")
	if err != nil || len(r.Setup.Readings) != kept+1 {
		t.Fatalf("%d of %d, %v", len(r.Setup.Readings), kept+1, err)
	}
	if err := again.Close(); err != nil {
		t.Fatal(err)
	}
}
