package history_test

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/screen/history"
	"keeperbook/app/internal/task"
	"keeperbook/assets"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

func clock() time.Time { return time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC) }

func bench(t *testing.T, setup string) *task.Bench {
	t.Helper()
	ctx := context.Background()
	path, err := task.DemoBook(ctx, t.TempDir(), assets.Demo(), clock)
	if err != nil {
		t.Fatal(err)
	}
	desk, err := task.OpenBook(ctx, path, "M. Ashlock", clock)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { desk.Close() })
	b, err := desk.OpenBench(ctx, setup)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func loaded(t *testing.T, b *task.Bench) *history.Presenter {
	t.Helper()
	p := history.NewPresenter(b)
	take, err := p.Load()(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	take()
	return p
}

// What is read beside the window does not look at the bench, which may be in another language or hold more by then.
func TestHistoryIsReadBesideTheBench(t *testing.T) {
	defer say.Speak("en")
	p := history.NewPresenter(bench(t, "setup-ferry-built"))
	read := p.Load()
	say.Speak("de")
	take, err := read(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	take()
	p.Filter("base height")
	if rows, _ := p.Rows(); len(rows) == 0 {
		t.Error("it was read in the language that was chosen while it was read")
	}
}

// What was entered, replaced and taken back stands there, the newest first, and is found by any of its words.
func TestHistory(t *testing.T) {
	ctx := context.Background()
	b := bench(t, "setup-ferry-built")
	at := record.Position{Cylinder: "4", Role: record.Intake, N: 1}
	enter := func(text string, how task.Taking) {
		t.Helper()
		if err := b.Take(ctx, task.Cell{Entry: task.Entry{At: at, Kind: record.BaseHeight, Text: text}}, how); err != nil {
			t.Fatal(err)
		}
	}
	enter("1850", task.First)
	enter("1845", task.Instead)
	if _, err := b.Undo(ctx); err != nil {
		t.Fatal(err)
	}
	p := loaded(t, b)
	rows, _ := p.Rows()
	var got []string
	for _, r := range rows[:5] {
		got = append(got, strings.Join(r, " | "))
	}
	for i, want := range []string{"taken back: 4 in, base height", "taken back: 4 in, base height", "4 in, base height | ", "4 in, base height | ", "4 in, base height |  | 1.850"} {
		if !strings.Contains(got[i], "M. Ashlock | "+want) {
			t.Errorf("row %d is %q, want %q", i, got[i], want)
		}
	}
	p.Filter("4 IN ashlock 1.850")
	if rows, more := p.Rows(); len(rows) < 1 || more != 0 || !strings.HasPrefix(rows[0][2], "taken back") && rows[0][2] != "4 in, base height" {
		t.Errorf("found %v", rows)
	}
	p.Filter("nothing has this")
	if rows, _ := p.Rows(); len(rows) != 0 {
		t.Errorf("found %v", rows)
	}
	if !strings.HasPrefix(p.Title(), "OF-2P: ") || !strings.Contains(p.End(), "events") || p.Text() != "" {
		t.Errorf("%q, %q", p.Title(), p.End())
	}
}

// Of a signed set-up the signature stands there too; of a long one as much as can be read, and the rest is found.
func TestSignedAndLong(t *testing.T) {
	p := loaded(t, bench(t, "setup-launch-found"))
	rows, _ := p.Rows()
	found := false
	for _, r := range rows {
		found = found || r[2] == "signature 1" && r[4] == "M. Ashlock, head porter, on 2026-05-11"
	}
	if !found {
		t.Errorf("nobody signed: %v", rows[:3])
	}
	b := bench(t, "setup-ferry-built")
	v := b.Record().Setup.Valves[0]
	for i := range 230 {
		v.Note = fmt.Sprintf("note %d", i)
		if err := b.Keep(context.Background(), v); err != nil {
			t.Fatal(err)
		}
	}
	p = loaded(t, b)
	if rows, more := p.Rows(); len(rows) != 200 || more < 30 || strings.Count(p.Text(), "\n") != 200+more {
		t.Errorf("%d rows and %d more", len(rows), more)
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

// Typing finds, and what is found is copied.
func TestFind(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(kit.NewTheme(false, 1))
	h := &host{win: test.NewTempWindow(t, nil)}
	v := history.New(h, bench(t, "setup-ferry-built"), func(work func()) { work() })
	h.win.SetContent(v.Object())
	h.win.Resize(fyne.NewSize(1180, 780))
	v.Refresh()
	v.Focus()
	for _, r := range "3 EX 1.740" {
		h.win.Canvas().Focused().TypedRune(r)
	}
	v.Copy()
	text := fyne.CurrentApp().Clipboard().Content()
	if n := strings.Count(text, "\n"); n != 1 || !strings.Contains(text, "3 ex, check height\t\t1.740") || h.failed != nil || h.told == "" {
		t.Errorf("%d lines, told %q, failed %v\n%s", n, h.told, h.failed, text)
	}
}
