package shell_test

import (
	"context"
	"fmt"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/shell"
	"keeperbook/app/internal/task"
	"keeperbook/assets"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// clock stands still.
func clock() time.Time { return time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC) }

// slow returns a clock by which somebody types one key a second, and not as fast as a gauge. It is read beside the window too, by
// work that takes long.
func slow() func() time.Time {
	var seconds atomic.Int64
	return func() time.Time { return clock().Add(time.Duration(seconds.Add(1)) * time.Second) }
}

// standIn is a leaf in the place of the real ones, which the window does not know either.
type standIn struct {
	name      string
	open      int
	field     *widget.Entry
	refreshed int
	place     string
	unkept    []say.Line
	large     bool
}

func (l *standIn) Object() fyne.CanvasObject {
	return container.NewVBox(widget.NewLabel(l.name), l.field)
}
func (l *standIn) Refresh()          { l.refreshed++ }
func (l *standIn) Open() int         { return l.open }
func (l *standIn) Place() string     { return l.field.Text }
func (l *standIn) GoTo(place string) { l.place = place; l.field.SetText(place) }

func (l *standIn) Unkept() []say.Line { return l.unkept }
func (l *standIn) Large() bool        { return l.large }
func (l *standIn) SetLarge(on bool)   { l.large = on }

func (l *standIn) Focus() {
	if c := fyne.CurrentApp().Driver().CanvasForObject(l.field); c != nil {
		c.Focus(l.field)
	}
}

// stage is a window without a screen, and what is behind it.
type stage struct {
	*shell.Shell
	t      *testing.T
	app    fyne.App
	folder string
	leaves map[string]*standIn
	host   kit.Host
	bench  *task.Bench
	memory *shell.Memory
	shop   kit.Host // of the shop's pages
	pages  *pages
	view   func(path string) error // opens a file in the program that the system has for it
}

// newStage makes the window of an application that remembers what the one before it in the folder did.
func newStage(t *testing.T, app fyne.App, folder, book string) *stage {
	t.Helper()
	return newStageWith(t, app, folder, book, func(*shell.Config) {})
}

// newStageWith is newStage with something changed of what the window needs from outside.
func newStageWith(t *testing.T, app fyne.App, folder, book string, change func(*shell.Config)) *stage {
	t.Helper()
	st := &stage{t: t, app: app, folder: folder, memory: shell.OpenMemory(filepath.Join(folder, "window.json"))}
	t.Cleanup(func() {
		if err := st.memory.Close(); err != nil {
			t.Error(err)
		}
	})
	cfg := shell.Config{
		Book: book, Who: "test", Clock: slow(), Demo: assets.Demo(), Version: "0.0.0", Memory: st.memory,
		Folder:     func() (string, error) { return folder, nil },
		Background: func(work func()) { work() },
		History:    historyStand, Check: checkStand,
		Leaves: func(host *shell.Shell, desk *task.Desk, bench *task.Bench) []shell.Tab {
			st.host, st.bench, st.leaves = host, bench, map[string]*standIn{}
			var tabs []shell.Tab
			for i, title := range []string{"Needs", "Parts", "Valves", "Sheet"} {
				l := &standIn{name: title, field: widget.NewEntry(), open: []int{4, 0, 12, 0}[i]}
				st.leaves[title] = l
				tabs = append(tabs, shell.Tab{Key: title, Title: title, Leaf: l})
			}
			return tabs
		},
		Shop: func(host kit.Host, _ *task.Desk, _ func(func())) (shell.Pages, error) {
			st.shop = host
			st.pages = &pages{label: widget.NewLabel("what the shop has")}
			return st.pages, nil
		},
	}
	change(&cfg)
	st.Shell = shell.New(context.Background(), app, cfg)
	st.Start()
	return st
}

// fill makes a book with so many heads in it.
func fill(t *testing.T, path string, heads int) {
	t.Helper()
	ctx := context.Background()
	now := clock()
	desk, err := task.MakeBook(ctx, path, "test", func() time.Time { now = now.Add(time.Minute); return now })
	if err != nil {
		t.Fatal(err)
	}
	for i := range heads {
		_, err := desk.Begin(ctx, task.NewHead{
			Owner: fmt.Sprintf("Owner %d", i%37), Engine: fmt.Sprintf("Engine %d", i%91), Tag: fmt.Sprintf("KB-%04d", i+1),
			WorkOrder: fmt.Sprintf("W%d", 7000+i), Cylinders: []string{"1", "3", "5"}, Intakes: 1, Exhausts: 1,
			Kind: record.AsFound, Units: record.Units{Length: unit.In, Load: unit.Lbf},
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := desk.Close(); err != nil {
		t.Fatal(err)
	}
}

// write types text into what has the keyboard.
func (st *stage) write(text string) {
	for _, r := range text {
		if f := st.Window().Canvas().Focused(); f != nil {
			f.TypedRune(r)
		}
	}
}

// press presses keys on what has the keyboard.
func (st *stage) press(keys ...fyne.KeyName) {
	for _, k := range keys {
		if f := st.Window().Canvas().Focused(); f != nil {
			f.TypedKey(&fyne.KeyEvent{Name: k})
		} else if on := st.Window().Canvas().OnTypedKey(); on != nil {
			on(&fyne.KeyEvent{Name: k})
		}
	}
}

// menu does what a name in the main menu does, and says whether it can be done.
func (st *stage) menu(label string) bool {
	for _, m := range st.Window().MainMenu().Items {
		for _, i := range m.Items {
			if name, _, _ := strings.Cut(i.Label, "  ("); name == label && !i.Disabled {
				i.Action()
				return true
			}
		}
	}
	return false
}

func newApp(t *testing.T) fyne.App {
	t.Helper()
	app := test.NewApp()
	t.Cleanup(func() { app.Quit() })
	return app
}
