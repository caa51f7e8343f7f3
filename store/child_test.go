package store

import (
	"bufio"
	"context"
	"flag"
	"fmt"
	"io"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// childMode says in the environment that this process is not the test but one that a test started.
const childMode = "KEEPERBOOK_TEST_CHILD"

// moreChildren are those of one system alone.
var moreChildren = map[string]func(args []string){}

func TestMain(m *testing.M) {
	switch os.Getenv(childMode) {
	case "":
		// Thirty games of undo take two seconds, and twenty times that under the race detector. A number
		// on the command line comes after this and wins.
		must(flag.Set("rapid.checks", "30"))
		os.Exit(m.Run())
	case "keep":
		childKeeps(os.Args[len(os.Args)-2], os.Args[len(os.Args)-1])
	case "copy":
		childCopies(os.Args[len(os.Args)-2], os.Args[len(os.Args)-1])
	case "sign":
		childSigns(os.Args[len(os.Args)-2], os.Args[len(os.Args)-1])
	case "plan":
		childPlans(os.Args[len(os.Args)-1])
	case "migrate":
		childMigrates(os.Args[len(os.Args)-1])
	case "hold":
		childHolds(os.Args[len(os.Args)-1])
	default:
		moreChildren[os.Getenv(childMode)](os.Args[len(os.Args)-2:])
	}
}

// childKeeps keeps one reading after another and says the number of each once it is kept.
func childKeeps(path, from string) {
	ctx := context.Background()
	b, err := Open(ctx, path, options())
	must(err)
	n, err := strconv.Atoi(from)
	must(err)
	for ; ; n++ {
		_, err := b.Keep(ctx, entry(n))
		must(err)
		fmt.Println(n)
	}
}

// entry is the n-th thing that childKeeps keeps.
func entry(n int) record.Action {
	r := height(record.Position{Cylinder: "1", Role: record.Intake, N: 1}, 1800+n%100)
	r.N = n
	return record.Action{
		Token: fmt.Sprint("entry ", n), Setup: "S-1", By: "Tamsin", At: noon, Edits: []record.Edit{record.Put("S-1", r)},
	}
}

// childHolds opens a book and waits until its input ends.
func childHolds(path string) {
	b, err := Open(context.Background(), path, options())
	must(err)
	fmt.Println("open")
	_, err = io.Copy(io.Discard, os.Stdin)
	must(err)
	must(b.Close())
}

func must(err error) {
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(3)
	}
}

// child starts this test program again as another process, and returns the lines it writes.
func child(t *testing.T, mode string, args ...string) (*exec.Cmd, *bufio.Scanner, io.WriteCloser) {
	t.Helper()
	c := exec.Command(os.Args[0], args...)
	c.Env = append(os.Environ(), childMode+"="+mode)
	var errs strings.Builder
	c.Stderr = &errs
	in, err := c.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	out, err := c.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if errs.Len() > 0 {
			t.Error("the other process said: ", errs.String())
		}
	})
	return c, bufio.NewScanner(out), in
}

// thousandths is what a base height was read as, in thousandths of an inch.
func thousandths(r record.Reading) int { return int(r.Quantity.Length() / unit.Thou) }
