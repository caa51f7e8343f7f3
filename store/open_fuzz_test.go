package store

import (
	"context"
	"encoding/binary"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"keeperbook/model/say"
)

// Whatever was done to the bytes of a book, opening and examining it ends in a book or in a sentence.
func FuzzOpen(f *testing.F) {
	b, err := Create(context.Background(), filepath.Join(f.TempDir(), "book.keeperbook"), options())
	if err != nil {
		f.Fatal(err)
	}
	if err := b.Close(); err != nil {
		f.Fatal(err)
	}
	whole, err := os.ReadFile(b.Path())
	if err != nil {
		f.Fatal(err)
	}
	f.Add(0, []byte{}, len(whole))
	f.Add(20, []byte{255}, len(whole))
	f.Add(100, []byte{13, 0, 0, 255, 255}, len(whole))
	f.Add(4096*3, make([]byte, 600), len(whole))
	f.Add(0, []byte{}, 5000)
	f.Fuzz(func(t *testing.T, at int, over []byte, length int) {
		if at < 0 || at > len(whole) || length < 0 || length > len(whole) {
			t.Skip()
		}
		data := append([]byte{}, whole...)
		copy(data[at:], over)
		path := filepath.Join(t.TempDir(), "x.keeperbook")
		writeFile(t, path, string(data[:length]))
		openedOrTold(t, path)
	})
}

// The same of the bytes of the log beside a book whose power went. A byte changed breaks the log's sums, so the sums are made good
// again where fresh says so.
func FuzzLog(f *testing.F) {
	crashed := crashedBook(f, "1", 3)
	book, log := contents(f, crashed), []byte(contents(f, crashed+"-wal"))
	f.Add(0, []byte{}, len(log), false)
	f.Add(8, []byte{0, 0, 2, 0}, len(log), true)
	f.Add(logHead, []byte{0, 0, 0, 9}, len(log), true)
	f.Add(logHead+logFrameHead, []byte{13, 0, 0, 255, 255}, len(log), true)
	f.Add(logHead+logFrameHead+60, make([]byte, 300), len(log)-5000, true)
	f.Fuzz(func(t *testing.T, at int, over []byte, length int, fresh bool) {
		if at < 0 || at > len(log) || length < 0 || length > len(log) {
			t.Skip()
		}
		data := append([]byte{}, log...)
		copy(data[at:], over)
		if data = data[:length]; fresh {
			sumAnew(data)
		}
		path := filepath.Join(t.TempDir(), "x.keeperbook")
		writeFile(t, path, book)
		writeFile(t, path+"-wal", string(data))
		openedOrTold(t, path)
	})
}

// sumAnew works out the sums of a log of pages of 4096 bytes.
func sumAnew(log []byte) {
	if len(log) < logHead {
		return
	}
	sum := logSum{order: binary.LittleEndian}
	if log[3]&1 == 1 {
		sum.order = binary.BigEndian
	}
	put := func(at int) {
		binary.BigEndian.PutUint32(log[at:], sum.s0)
		binary.BigEndian.PutUint32(log[at+4:], sum.s1)
	}
	sum.add(log[:24])
	put(24)
	for at := logHead; at+logFrameHead+4096 <= len(log); at += logFrameHead + 4096 {
		copy(log[at+8:], log[16:24])
		sum.add(log[at : at+8])
		sum.add(log[at+logFrameHead : at+logFrameHead+4096])
		put(at + 16)
	}
}

// openedOrTold opens and examines a book: that ends in a book or in a sentence.
func openedOrTold(t *testing.T, path string) {
	t.Helper()
	ctx := context.Background()
	b, err := Open(ctx, path, options())
	if err != nil {
		if wordless(sentence(err, path)) {
			t.Error(err, causeOf(err))
		}
		return
	}
	defer b.Close()
	report, err := b.Examine(ctx)
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range report.Results {
		if wordless(r.Line) {
			t.Error(r)
		}
	}
}

// wordless reports whether a sentence, or one within it, is that of a fault for which nothing better was found.
func wordless(l say.Line) bool {
	return l.Key == "store.fault" || slices.ContainsFunc(l.Args, func(a any) bool {
		inner, ok := a.(say.Line)
		return ok && wordless(inner)
	})
}
