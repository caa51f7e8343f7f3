package pdf_test

import (
	"bytes"
	"errors"
	"image"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"keeperbook/model/exchange"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/pdf"
	"keeperbook/pdf/seal"
)

// scribble is a signature drawn by hand: waves that get smaller, a stroke under them, and a dot.
func scribble() seal.Ink {
	var wave, under seal.Stroke
	for i := range 240 {
		t := float64(i) / 239
		wave = append(wave, seal.Dot{X: 250 + int(4600*t), Y: 520 - int(380*(1-0.7*t)*math.Sin(38*t+2*t*t))})
	}
	for i := range 40 {
		t := float64(i) / 39
		under = append(under, seal.Dot{X: 400 + int(5000*t), Y: 900 - int(120*t*t)})
	}
	return seal.Ink{wave, under, {{X: 5200, Y: 300}}}
}

var signedAt = time.Date(2026, 3, 2, 12, 0, 0, 0, time.UTC)

func keyFor(t testing.TB, name string) seal.Signer {
	t.Helper()
	key, err := seal.NewKey(seal.Person{Name: name}, signedAt.Add(-time.Hour))
	if err != nil {
		t.Fatal(err)
	}
	return key
}

// signedBy seals a sheet of a few valves.
func signedBy(t testing.TB, by *pdf.Signed, key seal.Signer) (pdf.Sheet, []byte) {
	t.Helper()
	r := many(t, 2, 1, 1)
	r.Setup.State = record.Closed
	r.Gauges = append(r.Gauges, record.Gauge{ID: "g1", Name: "height gauge", Kind: record.HeightGauge})
	s := sheet(r, pdf.A4)
	s.Signed = by
	document, err := exchange.Export(r, s.Figures)
	if err != nil {
		t.Fatal(err)
	}
	file, err := pdf.Seal(s, key, document)
	if err != nil {
		t.Fatal(err)
	}
	return s, file
}

// pictures has another reader draw the pages of a file, at 144 dots an inch.
func pictures(t *testing.T, file []byte) []image.Image {
	t.Helper()
	folder := t.TempDir()
	path := filepath.Join(folder, "sheet.pdf")
	if err := os.WriteFile(path, file, 0o600); err != nil {
		t.Fatal(err)
	}
	outside(t, "pdftoppm", "-r", "144", "-png", path, filepath.Join(folder, "page"))
	all, err := filepath.Glob(filepath.Join(folder, "page*.png"))
	if err != nil || len(all) == 0 {
		t.Fatal("no page was drawn")
	}
	if keep := os.Getenv("KEEP_PICTURES"); keep != "" {
		for i, p := range all {
			data, _ := os.ReadFile(p)
			os.WriteFile(filepath.Join(keep, t.Name()+strconv.Itoa(i)+".png"), data, 0o644)
		}
	}
	var pages []image.Image
	for _, p := range all {
		f, err := os.Open(p)
		if err != nil {
			t.Fatal(err)
		}
		img, err := png.Decode(f)
		f.Close()
		if err != nil {
			t.Fatal(err)
		}
		pages = append(pages, img)
	}
	return pages
}

// dark counts the dark dots of a page in a rectangle of points from the lower left corner.
func dark(page image.Image, rect [4]float64) (n int) {
	high := page.Bounds().Dy()
	for y := high - int(2*rect[3]); y < high-int(2*rect[1]); y++ {
		for x := int(2 * rect[0]); x < int(2*rect[2]); x++ {
			if r, _, _, _ := page.At(x, y).RGBA(); r < 0x6000 {
				n++
			}
		}
	}
	return n
}

// A signature drawn by hand stands in its place and nowhere else, and comes back out of the file as it was drawn. So does
// that of a second signer, who is named there too, and both signatures hold.
func TestDrawnByHand(t *testing.T) {
	by := &pdf.Signed{Name: "Jürgen Ashlock (senior)", Role: "head porter", When: signedAt, Second: true}
	key := keyFor(t, by.Name)
	s, plain := signedBy(t, by, key)
	inked := *by
	inked.Ink = scribble()
	_, first := signedBy(t, &inked, key)
	_, places, err := pdf.Draw(s, pdf.Begin(s.Paper), true)
	if err != nil || len(places) != 2 {
		t.Fatal(err, places)
	}
	if w, h := places[0].Rect[2]-places[0].Rect[0], places[0].Rect[3]-places[0].Rect[1]; math.Abs(w-6*h) > 1e-9 {
		t.Errorf("the place of a hand is %g wide and %g high", w, h)
	}
	second := &pdf.Signed{Name: "Ødegård \\ Söhne) שלום", Role: "inspector (second)", When: signedAt.Add(time.Hour), Ink: scribble()}
	file, err := pdf.Countersign(first, keyFor(t, "M. Ashlock"), second)
	if err != nil {
		t.Fatal(err)
	}
	if again, err := pdf.Countersign(first, keyFor(t, "M. Ashlock"), second); err != nil || len(again) != len(file) {
		t.Errorf("%v, %d bytes and %d", err, len(again), len(file))
	}
	r, err := seal.Check(file)
	if err != nil || !r.Whole() || r.Places != 2 || len(r.Signatures) != 2 {
		t.Fatalf("%v, %+v", err, r)
	}
	for i, want := range []*pdf.Signed{&inked, second} {
		got := r.Signatures[i]
		if d := cmp.Diff(want.Ink, got.Ink); d != "" || got.Name != want.Name || got.Reason != want.Role {
			t.Errorf("%d: %s %s\n%s", i, got.Name, got.Reason, d)
		}
	}
	before, one, two := pictures(t, plain), pictures(t, first), pictures(t, file)
	page := places[0].Page - 1
	for i, c := range []struct {
		more, less image.Image
		at         [4]float64
	}{{one[page], before[page], places[0].Rect}, {two[page], one[page], places[1].Rect}} {
		in := dark(c.more, c.at) - dark(c.less, c.at)
		whole := [4]float64{0, 0, 595, 841}
		if all := dark(c.more, whole) - dark(c.less, whole); in < 900 || all < in-40 || all > in+40 {
			t.Errorf("signature %d: %d dark dots more in its place, %d on the page", i+1, in, all)
		}
	}
	if said := outside(t, "qpdf", "--check", put(t, file)); !bytes.Contains([]byte(said), []byte("No syntax or stream encoding errors")) {
		t.Error(said)
	}
	// What the pages draw is the same with ink and without: it is drawn beside them.
	is, err := seal.Contents(file)
	if err != nil {
		t.Fatal(err)
	}
	was, err := seal.Contents(first)
	if err != nil || !cmp.Equal(is, was) {
		t.Error("the second signature changed a page", err)
	}
}

// Without somebody who asked for it no place is kept for a second signature, and nobody can sign there.
func TestNoPlaceForASecond(t *testing.T) {
	_, file := signedBy(t, &pdf.Signed{Name: "M. Ashlock", When: signedAt}, keyFor(t, "M. Ashlock"))
	if r, err := seal.Check(file); err != nil || r.Places != 1 {
		t.Errorf("%v, %d places", err, r.Places)
	}
	_, err := pdf.Countersign(file, keyFor(t, "J. Peverel"), &pdf.Signed{Name: "J. Peverel", When: signedAt})
	if keyOf(err) != "seal.no-field" {
		t.Errorf("%v", err)
	}
}

// Whoever signs is named as they are, or not at all.
func TestNamesStandAsTheyAre(t *testing.T) {
	key := keyFor(t, "M. Ashlock")
	for name, printed := range map[string]bool{
		"Jürgen Ødegård": true, `(M.) Ash\\lock)`: true, "שלום כהן": true, "e\u0301": true, "□": true, "M. Ashlock 👍": false, "\U000130B8": false,
	} {
		by := &pdf.Signed{Name: name, When: signedAt, Second: true}
		if err := by.Check(); (err == nil) != printed || err != nil && keyOf(err) != "pdf.no-letters" {
			t.Errorf("%q: %v", name, err)
		}
		if printed {
			_, file := signedBy(t, by, key)
			if r, err := seal.Check(file); err != nil || !r.Whole() || r.Signatures[0].Name != name {
				t.Errorf("%q: %v, %+v", name, err, r)
			}
			continue
		}
		r := many(t, 2, 1, 1)
		s := sheet(r, pdf.A4)
		s.Signed = by
		if _, err := pdf.Seal(s, key, []byte("{}")); keyOf(err) != "pdf.no-letters" {
			t.Errorf("%q is signed: %v", name, err)
		}
		_, first := signedBy(t, &pdf.Signed{Name: "M. Ashlock", When: signedAt, Second: true}, key)
		if _, err := pdf.Countersign(first, key, &pdf.Signed{Name: "M. Ashlock", Role: name, When: signedAt}); keyOf(err) != "pdf.no-letters" {
			t.Errorf("%q is signed as the second: %v", name, err)
		}
	}
}

// outside runs a reader that is not ours.
func outside(t *testing.T, program string, args ...string) string {
	t.Helper()
	if _, err := exec.LookPath(program); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatalf("%s is missing; app/setup.sh installs it under CI", program)
		}
		t.Skipf("%s is not installed; sh app/setup.sh with CI=true installs it", program)
	}
	out, err := exec.Command(program, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v\n%s", program, err, out)
	}
	return string(out)
}

func put(t *testing.T, file []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "sheet.pdf")
	if err := os.WriteFile(path, file, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func keyOf(err error) string {
	var e *say.Error
	if !errors.As(err, &e) {
		return ""
	}
	return e.Line.Key
}
