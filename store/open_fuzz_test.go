package store

import (
	"context"
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
	})
}

// wordless reports whether a sentence, or one within it, is that of a fault for which nothing better was found.
func wordless(l say.Line) bool {
	return l.Key == "store.fault" || slices.ContainsFunc(l.Args, func(a any) bool {
		inner, ok := a.(say.Line)
		return ok && wordless(inner)
	})
}
