//go:build linux

package store

import (
	"bufio"
	"bytes"
	"context"
	"encoding/hex"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

var cuts = flag.Int("cuts", 40, "how many power cuts are played")

func init() { moreChildren["some"] = func(args []string) { childKeepsSome(args[0], args[1]) } }

// childKeepsSome keeps so many readings, and says the number of each once it is kept.
func childKeepsSome(path, count string) {
	ctx := context.Background()
	b, err := Open(ctx, path, options())
	must(err)
	most, err := strconv.Atoi(count)
	must(err)
	for n := 1; n <= most; n++ {
		_, err := b.Keep(ctx, entry(n))
		must(err)
		fmt.Println(n)
	}
	must(b.Close())
}

// call is one thing that a program asked of the system: a write, a cut to a length, a flush, a word on its output.
type call struct {
	file string // path; "" of a word
	kind string // write, truncate, sync, remove, say
	at   int64
	data []byte
	said int
}

var traced = regexp.MustCompile(`^\d+\s+(\w+)\((.*)\)\s+= (-?\d+)`)

// traceOf runs a child under strace and returns what it asked of the system for the book and its log, in order.
func traceOf(t *testing.T, book string, entries int) (calls []call) {
	t.Helper()
	if _, err := exec.LookPath("strace"); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("strace is missing; app/setup.sh installs it under CI")
		}
		t.Skip("strace is not installed; sh app/setup.sh with CI=true installs it")
	}
	out := filepath.Join(t.TempDir(), "trace")
	c := exec.Command("strace", "-f", "-y", "-xx", "-s", "2000000", "-o", out,
		"-e", "trace=write,pwrite64,fsync,fdatasync,ftruncate,unlink,unlinkat", os.Args[0], book, strconv.Itoa(entries))
	c.Env = append(os.Environ(), childMode+"=some")
	if text, err := c.CombinedOutput(); err != nil {
		if bytes.Contains(text, []byte("PTRACE")) || bytes.Contains(text, []byte("ptrace")) {
			t.Skipf("this machine lets no program be traced: %s", bytes.TrimSpace(text))
		}
		t.Fatalf("%v: %s", err, text)
	}
	f, err := os.Open(out)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	lines := bufio.NewScanner(f)
	lines.Buffer(nil, 64<<20)
	open := map[string]string{} // calls that another thread came between, by thread
	for lines.Scan() {
		line := lines.Text()
		pid, rest, _ := strings.Cut(line, " ")
		if head, ok := strings.CutSuffix(line, " <unfinished ...>"); ok {
			open[pid] = head
			continue
		}
		if i := strings.Index(rest, " resumed>"); i >= 0 && strings.Contains(rest[:i], "<... ") {
			line = open[pid] + rest[i+len(" resumed>"):]
		}
		if one, ok := callOf(book, line); ok {
			calls = append(calls, one)
		}
	}
	if err := lines.Err(); err != nil {
		t.Fatal(err)
	}
	return calls
}

// callOf reads a line of a trace; false where it is of no file of the book.
func callOf(book, line string) (one call, ok bool) {
	m := traced.FindStringSubmatch(line)
	if m == nil || strings.HasPrefix(m[3], "-") {
		return one, false
	}
	name, args := m[1], m[2]
	path := ""
	if i, j := strings.IndexByte(args, '<'), strings.IndexByte(args, '>'); i >= 0 && j > i {
		path = unhex(args[i+1 : j])
	}
	done, _ := strconv.ParseInt(m[3], 10, 64)
	var data []byte
	if i, j := strings.IndexByte(args, '"'), strings.LastIndexByte(args, '"'); i >= 0 && j > i {
		data = []byte(unhex(args[i+1 : j]))
	}
	tail := args[strings.LastIndexByte(args, ' ')+1:]
	switch {
	case name == "write" && strings.HasPrefix(args, "1<"):
		n, err := strconv.Atoi(strings.TrimSpace(string(data)))
		return call{kind: "say", said: n}, err == nil
	case strings.HasPrefix(name, "unlink"):
		if i := strings.LastIndexByte(string(data), 0); i >= 0 {
			data = data[:i]
		}
		return call{file: string(data), kind: "remove"}, string(data) == book+"-wal"
	case path != book && path != book+"-wal":
		return one, false
	case name == "pwrite64":
		at, err := strconv.ParseInt(tail, 10, 64)
		return call{file: path, kind: "write", at: at, data: data[:done]}, err == nil
	case name == "ftruncate":
		at, err := strconv.ParseInt(tail, 10, 64)
		return call{file: path, kind: "truncate", at: at}, err == nil
	case name == "fsync" || name == "fdatasync":
		return call{file: path, kind: "sync"}, true
	}
	return one, false
}

// unhex reads a text in which strace writes each byte as \x41.
func unhex(text string) string {
	data, err := hex.DecodeString(strings.ReplaceAll(text, `\x`, ""))
	if err != nil {
		return text
	}
	return string(data)
}

// disk is what a disk holds: what is sure to be on it, and what was written and not flushed yet.
type disk struct {
	sure    map[string][]byte
	pending map[string][]call
}

func (d *disk) do(c call) {
	switch c.kind {
	case "write", "truncate", "remove":
		d.pending[c.file] = append(d.pending[c.file], c)
	case "sync":
		for _, p := range d.pending[c.file] {
			d.sure[c.file] = applied(d.sure[c.file], p)
		}
		d.pending[c.file] = nil
	}
}

// applied is a file after a call; nil is none.
func applied(file []byte, c call) []byte {
	switch c.kind {
	case "remove":
		return nil
	case "truncate":
		if int(c.at) <= len(file) {
			return append([]byte{}, file[:c.at]...)
		}
		return append(append([]byte{}, file...), make([]byte, int(c.at)-len(file))...)
	}
	out := append([]byte{}, file...)
	if need := int(c.at) + len(c.data); need > len(out) {
		out = append(out, make([]byte, need-len(out))...)
	}
	copy(out[c.at:], c.data)
	return out
}

// cut is what is found on the disk after a power cut: of what was not flushed each write is there, is not, or is there in part, as
// sectors of 512 bytes go.
func (d *disk) cut(dice *rand.Rand, how string) map[string][]byte {
	found := map[string][]byte{}
	for file, data := range d.sure {
		found[file] = data
	}
	for file, pending := range d.pending {
		for _, p := range pending {
			kind := how
			if how == "mixed" {
				kind = []string{"dropped", "kept", "torn"}[dice.IntN(3)]
			}
			switch {
			case kind == "dropped":
			case kind == "torn" && p.kind == "write" && len(p.data) > 512:
				p.data = p.data[:512*(1+dice.IntN(len(p.data)/512))]
				fallthrough
			default:
				found[file] = applied(found[file], p)
			}
		}
	}
	return found
}

// Whatever a power cut makes of what was not flushed, every entry that was acknowledged is in the book, and the book is sound.
func TestPowerCuts(t *testing.T) {
	ctx := context.Background()
	b := newBook(t)
	keepRecord(t, b, small("1"))
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	before, err := os.ReadFile(b.Path())
	if err != nil {
		t.Fatal(err)
	}
	const entries = 60
	calls := traceOf(t, b.Path(), entries)
	said, writes := 0, 0
	for _, c := range calls {
		if c.kind == "say" {
			said = c.said
		}
		if c.kind == "write" {
			writes++
		}
	}
	if said != entries || writes < entries {
		t.Fatalf("the trace has %d calls, %d writes, and the last word %d", len(calls), writes, said)
	}
	dice := rand.New(rand.NewPCG(8, 2))
	lost := 0
	for i := range fewer(*cuts, 4) {
		d := disk{map[string][]byte{b.Path(): before}, map[string][]call{}}
		last := 0
		for _, c := range calls[:dice.IntN(len(calls)+1)] {
			d.do(c)
			if c.kind == "say" {
				last = c.said
			}
		}
		how := []string{"dropped", "kept", "torn", "mixed"}[i%4]
		folder := t.TempDir()
		for file, data := range d.cut(dice, how) {
			if data != nil {
				writeFile(t, filepath.Join(folder, filepath.Base(file)), string(data))
			}
		}
		again, err := Open(ctx, filepath.Join(folder, filepath.Base(b.Path())), options())
		if err != nil {
			t.Fatalf("after %d, %s: %v", last, how, err)
		}
		r, err := again.Record(ctx, "S-1")
		if err != nil {
			t.Fatal(err)
		}
		if n := len(r.Setup.Readings); n < last {
			lost += last - n
			t.Errorf("%s: %d were acknowledged, %d are there", how, last, n)
		}
		sound(t, again)
		if err := again.Close(); err != nil {
			t.Fatal(err)
		}
	}
	t.Logf("%d power cuts over %d calls of %d entries: %d lost", *cuts, len(calls), entries, lost)
}
