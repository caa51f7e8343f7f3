package signer

import (
	"bytes"
	"errors"
	"image"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"keeperbook/model/say"
	"keeperbook/pdf/seal"
)

const secret = "grinding paste"

var now = time.Date(2026, 3, 2, 12, 0, 0, 0, time.UTC)

func ring(t testing.TB) Ring {
	return Ring{Folder: filepath.Join(t.TempDir(), "keeperbook", "signers"), Clock: func() time.Time { return now }, Rounds: 1}
}

func made(t testing.TB, r Ring, name string) Signer {
	t.Helper()
	s, err := r.Make(New{Name: name, Role: "head porter", Shop: "Lantern Yard Head Works", Secret: secret, Again: secret})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func keyOf(err error) string {
	var e *say.Error
	if !errors.As(err, &e) {
		return ""
	}
	return e.Line.Key
}

func drawing() [][]image.Point {
	return [][]image.Point{{{100, 500}, {900, 200}, {1700, 800}}, {{5800, 990}}}
}

// outside runs a program that is not ours.
func outside(t *testing.T, program string, args ...string) (string, error) {
	t.Helper()
	if _, err := exec.LookPath(program); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatalf("%s is missing; app/setup.sh installs it under CI", program)
		}
		t.Skipf("%s is not installed; sh app/setup.sh with CI=true installs it", program)
	}
	out, err := exec.Command(program, args...).CombinedOutput()
	return string(out), err
}

// A signer is there with everything that others may know, by whatever name, and nobody but the owner reads the files.
func TestMake(t *testing.T) {
	r := ring(t)
	if all, err := r.List(); err != nil || len(all) != 0 {
		t.Errorf("before there is a folder: %v, %v", all, err)
	}
	for _, name := range []string{"M. Ashlock", "Jürgen Öst (senior) \\ Söhne", "../../etc/Ödegård", "שלום כהן", "E. Tolliver 👍"} {
		s := made(t, r, name)
		if s.Name != name || s.Role != "head porter" || s.Shop != "Lantern Yard Head Works" || s.Kind != "ECDSA P-256" || s.Holds != Good || s.Drawn ||
			!s.From.Equal(now) || s.Until.Year() != 2030 {
			t.Errorf("%+v", s)
		}
		k, err := r.Unlock(s.ID, secret)
		if err != nil || k.Name != name || k.Ink != nil {
			t.Errorf("%s: %v, %+v", name, err, k.Ink)
		}
		if _, err := r.Unlock(s.ID, "grinding wheel"); keyOf(err) != "seal.secret" {
			t.Errorf("%s with another passphrase: %v", name, err)
		}
	}
	all, err := r.List()
	if err != nil || len(all) != 5 || all[0].Name != "../../etc/Ödegård" {
		t.Errorf("%v, %+v", err, all)
	}
	entries, err := os.ReadDir(r.Folder)
	if err != nil || len(entries) != 10 {
		t.Errorf("%v, %d files", err, len(entries))
	}
	for _, e := range entries {
		if info, err := e.Info(); err != nil || runtime.GOOS != "windows" && info.Mode().Perm() != 0o600 {
			t.Errorf("%s: %v, %v", e.Name(), info.Mode(), err)
		}
	}
	for _, c := range []struct {
		n   New
		key string
	}{
		{New{Secret: secret, Again: secret}, "seal.no-name"},
		{New{Name: "M. Ashlock", Secret: secret, Again: "grinding wheel"}, "signers.differ"},
		{New{Name: "M. Ashlock", Secret: "short", Again: "short"}, "seal.short-secret"},
	} {
		if _, err := r.Make(c.n); keyOf(err) != c.key {
			t.Errorf("%+v: %v, want %s", c.n, err, c.key)
		}
	}
	for text, want := range map[string]string{"m. a": "M. Ashlock", "E. Tolliver 👍": "E. Tolliver 👍", all[0].ID[:8]: all[0].Name} {
		if s, err := r.Find(text); err != nil || s.Name != want {
			t.Errorf("%q finds %q, %v", text, s.Name, err)
		}
	}
	made(t, r, "M. Ashlock junior")
	for text, key := range map[string]string{"nobody": "signers.nobody", "": "signers.nobody", "m.": "signers.several"} {
		if _, err := r.Find(text); keyOf(err) != key {
			t.Errorf("%q: %v, want %s", text, err, key)
		}
	}
	if s, err := r.Find("M. Ashlock"); err != nil || s.Name != "M. Ashlock" {
		t.Errorf("the whole name finds %q, %v", s.Name, err)
	}
}

// The certificate says how it stands to today, sixty days before its end.
func TestHolds(t *testing.T) {
	r := ring(t)
	s := made(t, r, "M. Ashlock")
	for day, want := range map[time.Time]Holding{
		now.Add(-time.Hour): NotYet, now: Good, s.Until.AddDate(0, 0, -61): Good, s.Until.AddDate(0, 0, -59): Ends, s.Until: Ends, s.Until.Add(time.Second): Ended,
	} {
		r.Clock = func() time.Time { return day }
		if all, err := r.List(); err != nil || all[0].Holds != want {
			t.Errorf("on %v it is %s, want %s (%v)", day, all[0].Holds, want, err)
		}
	}
}

// A drawn signature comes back as it was drawn, to whoever has the passphrase; it is another's for nobody, and a damaged one is
// never guessed at.
func TestDraw(t *testing.T) {
	r := ring(t)
	s, other := made(t, r, "M. Ashlock"), made(t, r, "J. Peverel")
	for _, c := range []struct {
		strokes [][]image.Point
		secret  string
		key     string
	}{
		{nil, secret, "signers.nothing-drawn"}, {[][]image.Point{{}}, secret, "seal.ink"}, {[][]image.Point{{{-1, 0}}}, secret, "seal.ink"},
		{[][]image.Point{make([]image.Point, 5000)}, secret, "seal.ink-much"}, {drawing(), "grinding wheel", "seal.secret"},
	} {
		if err := r.Draw(s.ID, c.secret, c.strokes); keyOf(err) != c.key {
			t.Errorf("%v, want %s", err, c.key)
		}
	}
	if err := r.Draw(s.ID, secret, drawing()); err != nil {
		t.Fatal(err)
	}
	got, err := r.Drawn(s.ID, secret)
	if d := cmp.Diff(drawing(), got); d != "" || err != nil {
		t.Error(d, err)
	}
	path := r.path(s.ID, handEnding)
	data, err := os.ReadFile(path)
	if err != nil || bytes.Contains(data, []byte("5800")) {
		t.Errorf("it lies there to be read: %v", err)
	}
	if err := os.WriteFile(r.path(other.ID, handEnding), data, 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := r.Unlock(other.ID, secret); keyOf(err) != "signers.hand-damaged" {
		t.Errorf("the hand of one opens as another's: %v", err)
	}
	for i := range data {
		bad := bytes.Clone(data)
		bad[i] ^= 1
		k, err := r.Unlock(s.ID, secret)
		if err != nil {
			t.Fatal(err)
		}
		if ink, err := opened(bad, k); err == nil {
			t.Fatalf("byte %d changed, and it opens: %v", i, ink)
		}
		if i > 80 {
			break // from here on it is the sealed part, of which one byte is as good as another
		}
	}
	if err := r.Erase(s.ID); err != nil {
		t.Fatal(err)
	}
	if k, err := r.Unlock(s.ID, secret); err != nil || k.Ink != nil {
		t.Errorf("taken away: %v, %v", err, k.Ink)
	}
}

// A changed passphrase opens the key, here and in OpenSSL, with the drawn signature; the old one opens neither.
func TestChange(t *testing.T) {
	if testing.Short() {
		t.Skip("once a run is enough: a passphrase is stirred long, on one goroutine")
	}
	r := ring(t)
	r.Rounds = 0 // as it is kept for people
	s := made(t, r, "M. Ashlock")
	if err := r.Draw(s.ID, secret, drawing()); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ old, next, again, key string }{
		{secret, "linseed oil", "linseed soap", "signers.differ"}, {secret, "oil", "oil", "seal.short-secret"}, {"linseed oil", "linseed oil", "linseed oil", "seal.secret"},
	} {
		if err := r.Change(s.ID, c.old, c.next, c.again); keyOf(err) != c.key {
			t.Errorf("%v, want %s", err, c.key)
		}
	}
	if err := r.Change(s.ID, secret, "linseed oil", "linseed oil"); err != nil {
		t.Fatal(err)
	}
	if _, err := r.Unlock(s.ID, secret); keyOf(err) != "seal.secret" {
		t.Errorf("the old passphrase opens it: %v", err)
	}
	if got, err := r.Drawn(s.ID, "linseed oil"); err != nil || len(got) != 2 {
		t.Errorf("the hand is gone: %v, %v", got, err)
	}
	path := r.path(s.ID, keyEnding)
	said, err := outside(t, "openssl", "pkcs12", "-in", path, "-passin", "pass:linseed oil", "-nodes", "-info")
	if err != nil || !strings.Contains(said, "Iteration 600000") || !strings.Contains(said, "BEGIN PRIVATE KEY") {
		t.Errorf("%v\n%s", err, said)
	}
	if said, err := outside(t, "openssl", "pkcs12", "-in", path, "-passin", "pass:"+secret, "-nodes"); err == nil {
		t.Errorf("OpenSSL opens it with the old passphrase:\n%s", said)
	}
	pem, err := r.Certificate(s.ID)
	if err != nil {
		t.Fatal(err)
	}
	out := filepath.Join(t.TempDir(), "signer.pem")
	if err := os.WriteFile(out, pem, 0o600); err != nil {
		t.Fatal(err)
	}
	said, err = outside(t, "openssl", "x509", "-in", out, "-noout", "-subject", "-fingerprint", "-sha256")
	if err != nil || !strings.Contains(said, "M. Ashlock") || bytes.Contains(pem, []byte("PRIVATE")) {
		t.Errorf("%v\n%s", err, said)
	}
}

// One's own key is taken in as it is; what signs nothing, or lies open to others, is refused.
func TestBring(t *testing.T) {
	r := ring(t)
	k, err := seal.NewKey(seal.Person{Name: "A. Tolliver"}, now)
	if err != nil {
		t.Fatal(err)
	}
	folder := t.TempDir()
	write := func(name string, data []byte, mode os.FileMode) string {
		path := filepath.Join(folder, name)
		if err := os.WriteFile(path, data, mode); err != nil {
			t.Fatal(err)
		}
		return path
	}
	locked, err := k.Lock(secret, 3)
	if err != nil {
		t.Fatal(err)
	}
	path := write("own.p12", locked, 0o600)
	s, err := r.Bring(path, "inspector", secret)
	if err != nil || s.Name != "A. Tolliver" || s.Role != "inspector" {
		t.Fatalf("%v, %+v", err, s)
	}
	if still, err := os.ReadFile(path); err != nil || !bytes.Equal(still, locked) {
		t.Error("the file was touched")
	}
	for _, c := range []struct{ path, secret, key string }{
		{path, secret, "signers.there"}, {path, "grinding wheel", "seal.secret"}, {filepath.Join(folder, "gone.p12"), secret, "files.not-there"},
		{folder, secret, "files.folder"}, {write("noise.p12", []byte("no key"), 0o600), secret, "seal.key-file"},
		{write("open.p12", locked, 0o644), secret, "signers.key-open"},
	} {
		if runtime.GOOS == "windows" && c.key == "signers.key-open" {
			continue
		}
		if _, err := r.Bring(c.path, "", c.secret); keyOf(err) != c.key {
			t.Errorf("%s: %v, want %s", filepath.Base(c.path), err, c.key)
		}
	}
	if all, err := r.List(); err != nil || len(all) != 1 {
		t.Errorf("%v, %d signers", err, len(all))
	}
}

// What lies in the folder and is not ours is left alone, and a broken card hides nobody else.
func TestBrokenFolder(t *testing.T) {
	r := ring(t)
	s, other := made(t, r, "M. Ashlock"), made(t, r, "J. Peverel")
	for name, text := range map[string]string{"notes.txt": "x", "0123456789abcdef.json": "{}", s.ID + ".json": `{"role":"x","chain":"none"}`} {
		if err := os.WriteFile(filepath.Join(r.Folder, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	all, err := r.List()
	if keyOf(err) != "signers.card" || len(all) != 1 || all[0].ID != other.ID {
		t.Errorf("%v, %+v", err, all)
	}
	if _, err := r.Unlock(s.ID, secret); keyOf(err) != "signers.card" {
		t.Errorf("%v", err)
	}
	mine, err := os.ReadFile(r.path(other.ID, cardEnding))
	if err != nil {
		t.Fatal(err)
	}
	// A key under another's card is nobody's.
	third := made(t, r, "E. Tolliver")
	if err := os.Rename(r.path(third.ID, keyEnding), r.path(other.ID, keyEnding)); err != nil {
		t.Fatal(err)
	}
	if _, err := r.Unlock(other.ID, secret); keyOf(err) != "signers.other-key" || len(mine) == 0 {
		t.Errorf("%v", err)
	}
	if err := r.Forget(other.ID); err != nil {
		t.Error(err)
	}
	if _, err := r.Find("J. Peverel"); err == nil {
		t.Error("taken away, and found")
	}
}

// On a full disk no half key is left, and what was there before stays.
func TestFullDisk(t *testing.T) {
	folder := t.TempDir()
	if out, err := exec.Command("mount", "-t", "tmpfs", "-o", "size=32k", "tmpfs", folder).CombinedOutput(); err != nil {
		t.Skipf("a small disk to fill cannot be mounted here: %s", bytes.TrimSpace(out))
	}
	t.Cleanup(func() { exec.Command("umount", folder).Run() })
	r := ring(t)
	r.Folder = filepath.Join(folder, "signers")
	s := made(t, r, "M. Ashlock")
	full, err := os.Create(filepath.Join(folder, "full"))
	if err != nil {
		t.Fatal(err)
	}
	for err == nil {
		_, err = full.Write(make([]byte, 4096))
	}
	full.Close()
	if _, err := r.Make(New{Name: "J. Peverel", Secret: secret, Again: secret}); say.CodeOf(err) != say.Full {
		t.Errorf("%v", err)
	}
	if err := r.Change(s.ID, secret, "linseed oil", "linseed oil"); say.CodeOf(err) != say.Full {
		t.Errorf("%v", err)
	}
	if _, err := r.Unlock(s.ID, secret); err != nil {
		t.Errorf("the old passphrase does not open it any more: %v", err)
	}
	if all, err := r.List(); err != nil || len(all) != 1 {
		t.Errorf("%v, %d signers", err, len(all))
	}
}

// Whatever lies in the place of a card or a drawing, it is read or refused.
func FuzzFiles(f *testing.F) {
	r := Ring{Folder: f.TempDir(), Clock: func() time.Time { return now }, Rounds: 1}
	s := made(f, r, "M. Ashlock")
	if err := r.Draw(s.ID, secret, drawing()); err != nil {
		f.Fatal(err)
	}
	k, err := r.Unlock(s.ID, secret)
	if err != nil {
		f.Fatal(err)
	}
	for _, ending := range []string{cardEnding, handEnding} {
		data, err := os.ReadFile(r.path(s.ID, ending))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Add([]byte(handLine))
	f.Add([]byte(`{"role":"","chain":"-----BEGIN CERTIFICATE-----\nAA==\n-----END CERTIFICATE-----\n"}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		if _, chain, err := parse(data); err == nil && len(chain) == 0 {
			t.Error("a card without a certificate was read")
		}
		if ink, err := opened(data, k); err == nil && ink.Check() != nil {
			t.Error("what nobody draws was opened")
		}
	})
}
