package shell_test

import (
	"bytes"
	"image"
	"math"
	"os"
	"path/filepath"
	"testing"
	"time"

	"keeperbook/app/internal/signer"
)

// signersHere are two signers in a folder of the test: one with a drawn signature, and one whose certificate ends soon.
func signersHere(t testing.TB) string {
	t.Helper()
	folder := t.TempDir()
	for _, c := range []struct {
		n     signer.New
		since time.Time
		drawn bool
	}{
		{signer.New{Name: "M. Ashlock", Role: "head porter", Shop: "Lantern Yard Head Works"}, clock().AddDate(0, -3, 0), true},
		{signer.New{Name: "J. Peverel", Role: "inspector", Shop: "Lantern Yard Head Works"}, clock().AddDate(-4, 1, 0), false},
	} {
		ring := signer.Ring{Folder: folder, Rounds: 1, Clock: func() time.Time { return c.since }}
		c.n.Secret, c.n.Again = "grinding paste", "grinding paste"
		s, err := ring.Make(c.n)
		if err != nil {
			t.Fatal(err)
		}
		if c.drawn {
			if err := ring.Draw(s.ID, c.n.Secret, scribble()); err != nil {
				t.Fatal(err)
			}
		}
	}
	return folder
}

// scribble is a signature drawn by hand: waves that get smaller, and a stroke under them.
func scribble() [][]image.Point {
	var wave, under []image.Point
	for i := range 160 {
		x := float64(i) / 159
		wave = append(wave, image.Pt(250+int(4600*x), 520-int(380*(1-0.7*x)*math.Sin(38*x+2*x*x))))
	}
	for i := range 20 {
		x := float64(i) / 19
		under = append(under, image.Pt(400+int(5000*x), 900-int(120*x*x)))
	}
	return [][]image.Point{wave, under}
}

// signedSheet is the signed sheet that the demonstration writes beside its book, or a copy of it with one byte changed.
func signedSheet(t testing.TB, folder string, changed bool) string {
	t.Helper()
	all, err := filepath.Glob(filepath.Join(folder, "*DR-1L-as-found.pdf"))
	if err != nil || len(all) != 1 {
		t.Fatalf("%v, %v", all, err)
	}
	if !changed {
		return all[0]
	}
	file, err := os.ReadFile(all[0])
	if err != nil {
		t.Fatal(err)
	}
	at := bytes.Index(file, []byte("stream\n")) + 40 // in what the first page draws
	file[at] ^= 1
	path := filepath.Join(t.TempDir(), "changed.pdf")
	if err := os.WriteFile(path, file, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}
