package sheet_test

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"keeperbook/app/internal/screen/sheet"
	"keeperbook/app/internal/signer"
	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

func keyOf(err error) string {
	var e *say.Error
	if !errors.As(err, &e) {
		return ""
	}
	return e.Line.Key
}

// signing gives a desk two signers: a porter, and one whose certificate has ended.
func signing(t *testing.T, desk *task.Desk) {
	t.Helper()
	desk.Signers = signer.Ring{Folder: t.TempDir(), Rounds: 1, Clock: clock}
	desk.Held = &signer.Held{Clock: clock}
	past := desk.Signers
	past.Clock = func() time.Time { return clock().AddDate(-5, 0, 0) }
	for _, c := range []struct {
		ring signer.Ring
		name string
	}{{past, "A. Tolliver"}, {desk.Signers, "J. Peverel"}} {
		if _, err := c.ring.Make(signer.New{Name: c.name, Role: "head porter", Secret: secret, Again: secret}); err != nil {
			t.Fatal(err)
		}
	}
}

const secret = "grinding paste"

// key opens the key of a signer by name.
func key(t *testing.T, p *sheet.Presenter, name string) task.Key {
	t.Helper()
	all, _, err := p.Signers()
	if err != nil {
		t.Fatal(err)
	}
	p.Choose(slices.IndexFunc(all, func(w sheet.Who) bool { return w.Name == name }))
	who, ok := p.Chosen()
	if !ok {
		t.Fatalf("%s is not there", name)
	}
	k, err := p.Unlock(who.ID, secret)
	if err != nil {
		t.Fatal(err)
	}
	return k
}

func saved(t *testing.T, p *sheet.Presenter) []byte {
	t.Helper()
	path := filepath.Join(t.TempDir(), "signed.pdf")
	if _, err := p.Save(task.OutSheet, path, false); err != nil {
		t.Fatal(err)
	}
	file, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return file
}

// A set-up is signed by two, and what leaves the book from then on is the signed sheet, whole, on whatever paper is in sight.
func TestSign(t *testing.T) {
	ctx := context.Background()
	desk := demonstration(t)
	signing(t, desk)
	b := bench(t, desk, "setup-hill-built")
	p := sheet.NewPresenter(b)
	p.On(task.Letter)
	if err := p.Begin(); err != nil {
		t.Fatal(err)
	}
	k := key(t, p, "A. Tolliver")
	if _, err := p.Sign(ctx, k); keyOf(err) != "seal.expired" || len(p.Signed()) > 0 || b.Record().Setup.State != record.Open {
		t.Errorf("with a certificate that ended: %v", err)
	}
	k = key(t, p, "J. Peverel")
	who, _ := p.Chosen()
	if _, err := p.Unlock(who.ID, "grinding wheel"); keyOf(err) != "seal.secret" {
		t.Errorf("with another passphrase: %v", err)
	}
	p.AskSecond(true)
	asTold, err := p.Pages()
	if err != nil {
		t.Fatal(err)
	}
	if _, err := p.Sign(ctx, k); err != nil {
		t.Fatal(err)
	}
	if got := p.Signed(); !slices.Equal(got, []string{"J. Peverel, head porter, on 2026-06-01"}) || b.Record().Setup.State != record.Closed || p.Signing() {
		t.Errorf("signed by %q, it is %s", got, b.Record().Setup.State)
	}
	asSigned, err := p.Pages()
	if err != nil || len(asSigned) != len(asTold) {
		t.Errorf("%d pages were shown, %d were signed (%v)", len(asTold), len(asSigned), err)
	}
	first := saved(t, p)
	p.On(task.A4)
	if !bytes.Equal(first, saved(t, p)) {
		t.Error("the signed sheet depends on the paper in sight")
	}
	v, err := task.Verify(context.Background(), first)
	if err != nil || !v.Whole || v.Pages != task.PagesAgree || v.Signatures[0].Reason != "head porter" {
		t.Errorf("%v, %+v", err, v)
	}

	if err := p.Begin(); err != nil || p.First() {
		t.Fatalf("no second signature is asked for: %v", err)
	}
	key(t, p, "J. Peverel")
	p.As("inspector")
	if _, err := p.Sign(ctx, k); err != nil {
		t.Fatal(err)
	}
	if got := p.Signed(); len(got) != 2 || got[1] != "J. Peverel, inspector, on 2026-06-01" {
		t.Errorf("signed by %q", got)
	}
	both := saved(t, p)
	v, err = task.Verify(context.Background(), both)
	if err != nil || !v.Whole || v.Pages != task.PagesAgree || len(v.Signatures) != 2 || !bytes.HasPrefix(both, first) {
		t.Errorf("%v, %+v", err, v)
	}
	if err := p.Begin(); keyOf(err) != "sign.already" {
		t.Errorf("a third signature: %v", err)
	}

	// Nothing is kept for it any more, and a changed copy of the sheet is not taken in.
	note := b.Record().Setup.Valves[0]
	note.Note = "later"
	if err := b.Keep(ctx, note); say.CodeOf(err) != say.ReadOnly {
		t.Errorf("kept: %v", err)
	}
	changed := bytes.Clone(first)
	changed[len(changed)/2] ^= 1
	if _, err := desk.TakeInSheet(ctx, changed); keyOf(err) != "sign.not-whole" && keyOf(err) != "seal.foreign" {
		t.Errorf("taken in: %v", err)
	}
	// A set-up that follows goes on from it.
	if _, err := desk.Follow(ctx, "setup-hill-built", record.AsBuilt); err != nil {
		t.Error(err)
	}
}

// What is not within is signed with a reason for each, which then stands on the sheet; what binds only as it was found.
func TestReasons(t *testing.T) {
	ctx := context.Background()
	desk := demonstration(t)
	signing(t, desk)
	b := bench(t, desk, "setup-ferry-built")
	p := sheet.NewPresenter(b)
	if err := p.Begin(); err != nil {
		t.Fatal(err)
	}
	want := []string{
		"1 ex unproven: inner coil .061 ± .0042, least .060", "2 ex unproven: inner coil .063 ± .0042, least .060",
		"3 ex short: inner coil .053 < .060", "4 in missing: base height",
	}
	if got := p.Asks(); !slices.Equal(got, want) {
		t.Errorf("it asks %q", got)
	}
	k := key(t, p, "J. Peverel")
	if _, err := p.Sign(ctx, k); keyOf(err) != "sign.no-reason" || p.Unexplained() != 0 {
		t.Errorf("without reasons: %v", err)
	}
	accepted := len(b.Record().Setup.Deviations)
	p.Explain(2, "until the new springs are there")
	p.Leave()
	if err := p.Begin(); err != nil || p.Reason(2) != "until the new springs are there" {
		t.Errorf("going back lost %q (%v)", p.Reason(2), err)
	}
	if sheet.NewPresenter(b).Explained() || !p.Explained() {
		t.Error("reasons are not told from none")
	}
	p.ExplainRest("as the owner wants it")
	old := key(t, p, "A. Tolliver")
	if _, err := p.Sign(ctx, old); keyOf(err) != "seal.expired" || len(b.Record().Setup.Deviations) != accepted {
		t.Errorf("reasons were kept for a certificate that ended: %v", err)
	}
	key(t, p, "J. Peverel")
	if p.Unexplained() >= 0 || p.Reason(0) != "as the owner wants it" || p.Reason(2) != "until the new springs are there" {
		t.Error("one reason for the rest is not kept")
	}
	if _, err := p.Sign(ctx, k); err != nil {
		t.Fatal(err)
	}
	if p.Explained() {
		t.Error("signed, and there are reasons to lose")
	}
	v, err := task.Verify(context.Background(), saved(t, p))
	if err != nil || !v.Whole || v.Pages != task.PagesAgree || len(v.Record.Setup.Deviations) != accepted+4 {
		t.Errorf("%v, %+v", err, v)
	}
	for setup, want := range map[record.SetupKind]string{record.AsBuilt: "sign.binds", record.AsFound: ""} {
		b := bench(t, desk, "setup-ferry-found")
		s := b.Record().Setup
		s.Kind = setup
		if err := b.Keep(ctx, s); err != nil {
			t.Fatal(err)
		}
		if err := sheet.NewPresenter(b).Begin(); keyOf(err) != want {
			t.Errorf("%s: %v, want %q", setup, err, want)
		}
		// Nobody can accept that coils touch, and sign it as built.
		for _, u := range b.Evaluation().Unsettled() {
			for _, at := range u.At {
				if err := b.Accept(ctx, at, u.Finding, "accepted"); err != nil {
					t.Fatal(err)
				}
			}
		}
		p := sheet.NewPresenter(b)
		if err := p.Begin(); keyOf(err) != want {
			t.Errorf("%s, accepted: %v, want %q", setup, err, want)
		}
		if want != "" {
			if err := b.Sign(ctx, k, task.Signing{Paper: task.A4}); keyOf(err) != want {
				t.Errorf("%s, accepted: signed: %v, want %q", setup, err, want)
			}
		}
	}
}

// A key stays open for as long as is allowed, and no longer.
func TestHeldKey(t *testing.T) {
	now := clock()
	desk := demonstration(t)
	signing(t, desk)
	desk.Held = &signer.Held{Clock: func() time.Time { return now }}
	p := sheet.NewPresenter(bench(t, desk, "setup-hill-built"))
	if err := p.Begin(); err != nil {
		t.Fatal(err)
	}
	key(t, p, "J. Peverel")
	if _, ok := p.Held(); ok {
		t.Error("it is held though nobody allowed that")
	}
	if err := desk.Signers.Allow(5); err != nil {
		t.Fatal(err)
	}
	key(t, p, "J. Peverel")
	now = now.Add(5 * time.Minute)
	if _, ok := p.Held(); !ok {
		t.Error("it is not held")
	}
	now = now.Add(time.Second)
	if _, ok := p.Held(); ok {
		t.Error("it is held too long")
	}
}

// By the keyboard: S shows what is signed, Enter asks for the passphrase, a wrong one is asked for again, and nobody can
// press anything while the key is opened.
func TestSignByKeyboard(t *testing.T) {
	desk, b, h, v := shown(t, "setup-hill-built")
	signing(t, desk)
	types := func(text string) {
		for _, r := range text {
			h.win.Canvas().Focused().TypedRune(r)
		}
		time.Sleep(300 * time.Millisecond) // what ends at once was a gauge
	}
	var waits []func()
	v.Work(func(work func()) { waits = append(waits, work) })
	v.Focus()
	types("s")
	h.keys(t, fyne.KeyReturn)
	types("grinding wheel")
	h.keys(t, fyne.KeyReturn, fyne.KeyReturn, fyne.KeyEscape)
	if len(waits) != 1 || !h.asks() {
		t.Fatalf("%d times opened, a question stands: %v", len(waits), h.asks())
	}
	waits[0]()
	time.Sleep(50 * time.Millisecond)
	if !h.asks() || len(v.Signed()) > 0 {
		t.Fatal("a wrong passphrase is not asked for again")
	}
	types(secret)
	h.keys(t, fyne.KeyReturn)
	waits[1]()
	settled(t, func() bool { return !h.asks() && h.told != "" })
	if h.asks() || !strings.HasPrefix(h.told, "Signed.") || b.Record().Setup.State != record.Closed {
		t.Fatalf("told %q, failed %v, it is %s", h.told, h.failed, b.Record().Setup.State)
	}
	h.failed = nil
	v.Focus()
	types("s")
	if h.asks() || keyOf(errors.Unwrap(h.failed)) != "sign.already" && keyOf(h.failed) != "sign.already" {
		t.Errorf("asked again: %v", h.failed)
	}
}

// settled waits until what was done beside the window shows in it.
func settled(t *testing.T, is func() bool) {
	t.Helper()
	for end := time.Now().Add(10 * time.Second); !is(); time.Sleep(5 * time.Millisecond) {
		if time.Now().After(end) {
			t.Fatal("it never shows")
		}
	}
}

// Where nobody can sign yet the panel says where to begin, and Esc goes back.
func TestNobodySigns(t *testing.T) {
	_, _, h, v := shown(t, "setup-hill-built")
	v.Focus()
	h.win.Canvas().Focused().TypedRune('s')
	if !v.Asks() || h.failed != nil {
		t.Fatalf("nothing is asked: %v", h.failed)
	}
	h.keys(t, fyne.KeyEscape)
	if v.Asks() {
		t.Error("Esc does not go back")
	}
}

// A set-up that came in signed says from where, and shows the very pages that were signed.
func TestOrigin(t *testing.T) {
	ctx := context.Background()
	ours := demonstration(t)
	sheets, err := task.Sheet(ctx, ours.Book, "setup-launch-found", task.A4)
	if err != nil {
		t.Fatal(err)
	}
	theirs, err := task.MakeBook(ctx, filepath.Join(t.TempDir(), "other.keeperbook"), "test", clock)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { theirs.Close() })
	if _, err := theirs.TakeInSheet(ctx, sheets); err != nil {
		t.Fatal(err)
	}
	p := sheet.NewPresenter(bench(t, theirs, "setup-launch-found"))
	if got := p.Signed(); len(got) != 1 || got[0] != "M. Ashlock, head porter, on 2026-05-11, at Lantern Yard Head Works, whose sheet was taken in" {
		t.Errorf("%q", got)
	}
	if got := sheet.NewPresenter(bench(t, ours, "setup-launch-found")).Signed(); got[0] != "M. Ashlock, head porter, on 2026-05-11" {
		t.Errorf("at home %q", got)
	}
	if !p.CanSign() {
		t.Error("the place for a second signature is gone")
	}
	if !bytes.Equal(saved(t, p), sheets) {
		t.Error("another sheet leaves the book than came in")
	}
}
