package shell_test

import (
	"image"
	"math"
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
