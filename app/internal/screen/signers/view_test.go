package signers_test

import (
	"errors"
	"image"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/screen/signers"
	"keeperbook/app/internal/signer"
	"keeperbook/model/say"
)

func clock() time.Time { return time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC) }

const secret = "grinding paste"

func keyOf(err error) string {
	var e *say.Error
	if !errors.As(err, &e) {
		return ""
	}
	return e.Line.Key
}

func presenter(t *testing.T) (*signers.Presenter, signer.Ring, string) {
	t.Helper()
	ring := signer.Ring{Folder: filepath.Join(t.TempDir(), "signers"), Clock: clock, Rounds: 1}
	folder := t.TempDir()
	p := signers.NewPresenter(ring, &signer.Held{Clock: clock}, "Lantern Yard Head Works", folder)
	if err := p.Load(); err != nil {
		t.Fatal(err)
	}
	return p, ring, folder
}

// A signer is made, draws, changes the passphrase and lets the certificate out; what is known of them stands on the page.
func TestPage(t *testing.T) {
	p, ring, folder := presenter(t)
	if _, ok := p.Chosen(); ok || len(p.Lines()) != 0 || p.Facts() != nil || p.Warn() != "" {
		t.Error("somebody is there before anybody was made")
	}
	make := func(name string) {
		t.Helper()
		then, err := p.Make(signer.New{Name: name, Role: "head porter", Shop: p.Shop(), Secret: secret, Again: secret})
		if err == nil {
			err = then()
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if _, err := p.Make(signer.New{Name: "M. Ashlock 👍", Secret: secret, Again: secret}); keyOf(err) != "pdf.no-letters" {
		t.Errorf("a signer who can never be named: %v", err)
	}
	make("M. Ashlock")
	make("J. Peverel")
	if got := p.Lines(); len(got) != 2 || got[0] != (signers.Line{Name: "J. Peverel", More: "head porter, until 2030-06-01"}) || p.Open() != 0 {
		t.Errorf("%+v, open is %d", got, p.Open())
	}
	facts := p.Facts()
	if len(facts) != 5 || facts[1].Value != "Lantern Yard Head Works" || len(strings.Fields(facts[4].Value)) != 16 {
		t.Errorf("%+v", facts)
	}
	if err := p.As(" inspector "); err != nil || p.Role() != "inspector" {
		t.Errorf("%q, %v", p.Role(), err)
	}
	ink := signers.Ink{{image.Pt(1, 2), image.Pt(900, 400)}}
	if _, err := p.Draw(ink, "grinding wheel"); keyOf(err) != "seal.secret" {
		t.Errorf("%v", err)
	}
	then, err := p.Draw(ink, secret)
	if err != nil || then() != nil {
		t.Fatal(err)
	}
	if got, there := p.Drawn(); !there || len(got) != 1 {
		t.Errorf("%v, %v", got, there)
	}
	if err := p.Change(secret, "linseed oil", "linseed oil"); err != nil {
		t.Fatal(err)
	}
	again := signers.NewPresenter(ring, nil, "", folder)
	if err := again.Load(); err != nil {
		t.Fatal(err)
	}
	if got, there := again.Drawn(); !there || got != nil {
		t.Errorf("without a passphrase it shows %v, %v", got, there)
	}
	then, err = again.Unveil("linseed oil")
	if err != nil || then() != nil {
		t.Fatal(err)
	}
	if got, _ := again.Drawn(); len(got) != 1 || got[0][1] != image.Pt(900, 400) {
		t.Errorf("%v", got)
	}
	if _, err := p.SaveCertificate("", false); keyOf(err) != "files.no-name" {
		t.Errorf("%v", err)
	}
	if told, err := p.SaveCertificate("peverel", false); err != nil || told.Args[0] != filepath.Join(folder, "peverel.pem") {
		t.Errorf("%v, %v", told, err)
	}
	if _, err := p.SaveCertificate("peverel", false); say.CodeOf(err) != say.Conflict {
		t.Errorf("written over: %v", err)
	}
	data, err := os.ReadFile(filepath.Join(folder, "peverel.pem"))
	if err != nil || strings.Contains(string(data), "PRIVATE") || strings.Count(string(data), "BEGIN CERTIFICATE") != 2 {
		t.Errorf("%v\n%s", err, data)
	}
	if err := p.Erase(); err != nil {
		t.Error(err)
	}
	if _, there := p.Drawn(); there {
		t.Error("it is there after it was taken away")
	}
	if err := p.Forget(); err != nil || len(p.Lines()) != 1 || p.Open() != 0 {
		t.Errorf("%v, %+v", err, p.Lines())
	}
	if _, err := p.Bring("gone.p12", "", secret); keyOf(err) != "files.not-there" {
		t.Errorf("%v", err)
	}
	if _, err := p.Bring(" ", "", secret); keyOf(err) != "files.no-name" {
		t.Errorf("%v", err)
	}
	words, at := p.Minutes()
	if len(words) != 4 || at != 0 || p.Allow(2) != nil {
		t.Errorf("%v, %d", words, at)
	}
	if _, at := p.Minutes(); at != 2 {
		t.Errorf("allowed is %d", at)
	}
}

// host is a window around the page.
type host struct {
	win    fyne.Window
	told   string
	failed error
}

func (h *host) Window() fyne.Window { return h.win }
func (h *host) Tell(l say.Line)     { h.told = say.English().Line(l) }
func (h *host) Fail(err error)      { h.failed = err }
func (h *host) Changed()            {}
func (h *host) Show(string)         {}

// A drawing that was begun is named before it would be lost.
func TestUnkept(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(kit.NewTheme(false, 1))
	p, _, _ := presenter(t)
	then, err := p.Make(signer.New{Name: "M. Ashlock", Secret: secret, Again: secret})
	if err != nil || then() != nil {
		t.Fatal(err)
	}
	h := &host{win: test.NewTempWindow(t, nil)}
	v := signers.New(h, p, func(work func()) { work() })
	h.win.SetContent(v.Object())
	h.win.Resize(fyne.NewSize(1180, 780))
	v.Refresh()
	if len(v.Unkept()) != 0 {
		t.Error("nothing was drawn")
	}
	v.Begin()
	if len(v.Unkept()) != 0 {
		t.Error("paper alone is nothing to lose")
	}
	v.Pad().Set([][]image.Point{{{1, 1}}})
	if len(v.Unkept()) != 1 {
		t.Error("the drawing would be lost")
	}
	v.Keep()
	for _, r := range secret {
		h.win.Canvas().Focused().TypedRune(r)
	}
	time.Sleep(300 * time.Millisecond) // what ends at once was a gauge
	h.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if len(v.Unkept()) != 0 || h.failed != nil || h.told != "The signature is kept." {
		t.Errorf("told %q, failed %v", h.told, h.failed)
	}
}
