package verify_test

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/screen/verify"
	"keeperbook/app/internal/task"
	"keeperbook/assets"
	"keeperbook/model/say"
)

func clock() time.Time { return time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC) }

// books are the demonstration's, with its signed sheet beside it, and an empty one of another shop.
func books(t *testing.T) (ours, theirs *task.Desk, sheet string) {
	t.Helper()
	ctx := context.Background()
	path, err := task.DemoBook(ctx, t.TempDir(), assets.Demo(), clock)
	if err != nil {
		t.Fatal(err)
	}
	if ours, err = task.OpenBook(ctx, path, "test", clock); err != nil {
		t.Fatal(err)
	}
	if theirs, err = task.MakeBook(ctx, filepath.Join(t.TempDir(), "other.keeperbook"), "test", clock); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { ours.Close(); theirs.Close() })
	return ours, theirs, strings.TrimSuffix(path, ".keeperbook") + "-DR-1L-as-found.pdf"
}

func looked(t *testing.T, desk *task.Desk, path string) *verify.Presenter {
	t.Helper()
	p := verify.NewPresenter(desk, false, path)
	p.Look(context.Background())()
	return p
}

// Another shop's sheet is whole, its signer is trusted once somebody compared the fingerprint, and its record comes in once.
func TestCheck(t *testing.T) {
	ctx := context.Background()
	ours, theirs, sheet := books(t)
	p := looked(t, theirs, sheet)
	if p.Fault() != nil || p.Verdict() != "Whole: every byte is as it was signed." {
		t.Fatalf("%v, %s", p.Fault(), p.Verdict())
	}
	hands := p.Hands()
	if len(hands) != 1 || hands[0].Name != "M. Ashlock" || hands[0].Role != "head porter" || len(hands[0].Root) != 64 {
		t.Fatalf("%+v", hands)
	}
	if pages := p.Pages(); len(pages) < 3 {
		t.Errorf("%d pages", len(pages))
	}
	if err := p.Trust(ctx, hands[0].Root, "", "on paper"); err == nil {
		t.Error("trust was given to nobody")
	}
	if err := p.Trust(ctx, hands[0].Root, "M. Ashlock", "on paper"); err != nil {
		t.Fatal(err)
	}
	if !p.CanTakeIn() || p.CanOpen() != "" {
		t.Error("it cannot be taken in")
	}
	told, err := p.TakeIn(ctx)
	if err != nil || len(told) != 1 || !strings.Contains(told[0], "setup-launch-found") {
		t.Errorf("%v, %v", told, err)
	}
	p.Look(ctx)()
	if p.CanTakeIn() || p.CanOpen() != "setup-launch-found" || p.Hands()[0].Root != "" || len(p.Trusted()) != 1 {
		t.Errorf("afterwards: %+v, %+v", p.Hands(), p.Trusted())
	}
	if err := p.Withdraw(ctx, hands[0].Root); err != nil {
		t.Error(err)
	}
	p.Look(ctx)()
	if len(p.Trusted()) != 0 || p.Hands()[0].Root == "" {
		t.Error("the trust is not taken back")
	}
	// The book that it comes from holds it; one that is only read keeps nothing.
	if p := looked(t, ours, sheet); p.CanTakeIn() || p.CanOpen() == "" {
		t.Error("the book does not know its own sheet")
	}
	reading := verify.NewPresenter(theirs, true, sheet)
	reading.Look(ctx)()
	if reading.CanTakeIn() || reading.Hands()[0].Root != "" || reading.CanWithdraw() {
		t.Error("a book that is only read would be written in")
	}
	// Without a book the sheet itself is looked at.
	if p := looked(t, nil, sheet); p.Fault() != nil || p.CanTakeIn() || len(p.Record()) != 3 {
		t.Errorf("%v, %q", p.Fault(), p.Record())
	}
}

// What is no sheet, or not as it was signed, says so and offers nothing.
func TestNoSheet(t *testing.T) {
	_, theirs, sheet := books(t)
	file, err := os.ReadFile(sheet)
	if err != nil {
		t.Fatal(err)
	}
	write := func(name string, data []byte) string {
		path := filepath.Join(t.TempDir(), name)
		if err := os.WriteFile(path, data, 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	unsigned := strings.Replace(sheet, "as-found", "as-built", 1)
	for path, key := range map[string]string{
		filepath.Join(t.TempDir(), "gone.pdf"): "files.not-there", t.TempDir(): "files.folder", write("notes.pdf", []byte("notes")): "seal.foreign",
		unsigned: "seal.unsigned", write("half.pdf", file[:len(file)/2]): "seal.foreign",
	} {
		p := looked(t, theirs, path)
		var e *say.Error
		if !errors.As(p.Fault(), &e) || e.Line.Key != key {
			t.Errorf("%s: %v, want %s", filepath.Base(path), p.Fault(), key)
		}
	}
	p := looked(t, theirs, write("added.pdf", append(file[:len(file):len(file)], []byte("1 0 obj\n<<>>\nendobj\n")...)))
	if p.Fault() != nil || !strings.HasPrefix(p.Verdict(), "Added to:") || p.CanTakeIn() {
		t.Errorf("%v, %s", p.Fault(), p.Verdict())
	}
	changed := append([]byte(nil), file...)
	changed[strings.Index(string(file), "stream\n")+40] ^= 1
	if p := looked(t, theirs, write("changed.pdf", changed)); p.Fault() == nil && (!strings.HasPrefix(p.Verdict(), "Changed:") || p.CanTakeIn() || p.Hands()[0].Root != "") {
		t.Errorf("%v, %s", p.Fault(), p.Verdict())
	}
}

// host is a window around the page.
type host struct {
	win    fyne.Window
	told   string
	failed error
	setup  string
}

func (h *host) Window() fyne.Window { return h.win }
func (h *host) Tell(l say.Line)     { h.told = say.English().Line(l) }
func (h *host) Fail(err error)      { h.failed = errors.Join(h.failed, err) }
func (h *host) Changed()            {}
func (h *host) Show(string)         {}
func (h *host) OpenSetup(id string) { h.setup = id }

// By the keyboard: Enter on the first button asks how the fingerprint was compared, and the next one takes the record in.
func TestByKeyboard(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(kit.NewTheme(false, 1))
	_, theirs, sheet := books(t)
	h := &host{win: test.NewTempWindow(t, nil)}
	v := verify.New(h, verify.NewPresenter(theirs, false, sheet), func(work func()) { work() })
	h.win.SetContent(v.Object())
	h.win.Resize(fyne.NewSize(1180, 780))
	v.Refresh()
	key := func(name fyne.KeyName) { h.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: name}) }
	types := func(text string) {
		for _, r := range text {
			h.win.Canvas().Focused().TypedRune(r)
		}
		time.Sleep(300 * time.Millisecond) // what ends at once was a gauge
	}
	key(fyne.KeyReturn)
	key(fyne.KeyReturn) // whose it is, as it is proposed
	types("by telephone")
	key(fyne.KeyReturn)
	if trusted, err := theirs.Trusted(context.Background()); err != nil || len(trusted) != 1 || h.failed != nil {
		t.Fatalf("%v, %v, failed %v", trusted, err, h.failed)
	}
	key(fyne.KeyReturn)
	if heads, err := theirs.Book.Record(context.Background(), "setup-launch-found"); err != nil || heads.Head.Tag != "DR-1L" {
		t.Fatalf("it was not taken in: %v, failed %v", err, h.failed)
	}
	key(fyne.KeyReturn)
	if h.setup != "setup-launch-found" || h.failed != nil {
		t.Errorf("opened %q, failed %v", h.setup, h.failed)
	}
}

// A check that is stopped says that nothing is known, keeps what was known before, and can be begun again.
func TestCheckIsStopped(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(kit.NewTheme(false, 1))
	_, theirs, sheet := books(t)
	gone, stop := context.WithCancel(context.Background())
	stop()
	p := verify.NewPresenter(theirs, false, sheet)
	p.Look(gone)()
	if p.Looked() || p.Fault() != nil || len(p.Hands()) != 0 || len(p.Pages()) != 0 {
		t.Errorf("looked %v, fault %v", p.Looked(), p.Fault())
	}
	if _, err := p.TakeIn(gone); !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
	h := &host{win: test.NewTempWindow(t, nil)}
	var work func()
	v := verify.New(h, p, func(w func()) { work = w })
	h.win.SetContent(v.Object())
	h.win.Resize(fyne.NewSize(1180, 780))
	key := func(name fyne.KeyName) { h.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: name}) }
	v.Refresh()
	if testing.Short() {
		t.Skip("two goroutines draw: a test has no loop of a window")
	}
	time.Sleep(450 * time.Millisecond) // until the window says what it does
	key(fyne.KeyEscape)
	work()
	if p.Looked() || kit.Busy(h.win) {
		t.Error("it was not stopped")
	}
	time.Sleep(300 * time.Millisecond) // what ends at once was a gauge
	key(fyne.KeyReturn)                // check it
	work()
	if !p.Looked() || p.Verdict() != "Whole: every byte is as it was signed." {
		t.Errorf("looked %v, %v", p.Looked(), p.Fault())
	}
	p.Look(gone)()
	if !p.Looked() || len(p.Hands()) != 1 {
		t.Error("what was known is forgotten")
	}
}
