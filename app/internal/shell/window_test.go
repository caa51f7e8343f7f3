package shell_test

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/task"
	"keeperbook/model/say"
)

// words are all texts that stand in the window, overlays included.
func (st *stage) words() string {
	var all []string
	var walk func(o fyne.CanvasObject)
	walk = func(o fyne.CanvasObject) {
		if o == nil || !o.Visible() {
			return
		}
		switch o := o.(type) {
		case *fyne.Container:
			for _, c := range o.Objects {
				walk(c)
			}
		case *kit.Text:
			all = append(all, o.Text())
		case *widget.Label:
			all = append(all, o.Text)
		case *canvas.Text:
			all = append(all, o.Text)
		case fyne.Widget:
			for _, c := range test.WidgetRenderer(o).Objects() {
				walk(c)
			}
		}
	}
	walk(st.Window().Canvas().Content())
	for _, o := range st.Window().Canvas().Overlays().List() {
		walk(o)
	}
	return strings.Join(all, "\n")
}

// silent is the contrary of sees.
func (st *stage) silent(text string) {
	st.t.Helper()
	if all := st.words(); strings.Contains(all, text) {
		st.t.Errorf("the window says %q", text)
	}
}

func (st *stage) sees(text string) {
	st.t.Helper()
	if all := st.words(); !strings.Contains(all, text) {
		st.t.Errorf("the window does not say %q; it says:\n%s", text, all)
	}
}

// From the first start to an open head by keys alone.
func TestFirstStart(t *testing.T) {
	app, folder := newApp(t), t.TempDir()
	t.Setenv("HOME", folder)
	st := newStage(t, app, folder, "")
	keys := 0
	write := func(text string) { st.write(text); keys++ }
	press := func(names ...fyne.KeyName) { st.press(names...); keys += len(names) }

	write("n")
	press(fyne.KeyReturn) // the proposed place
	st.sees("Press Ctrl+N for the first one")
	if _, err := os.Stat(filepath.Join(folder, "heads.keeperbook")); err != nil {
		t.Fatal(err)
	}
	opened := keys
	if st.menu("New head…") {
		keys++
	}
	st.write("H7")
	keys += 2
	press(fyne.KeyReturn)
	write("6")
	for range 9 {
		press(fyne.KeyReturn)
	}
	if st.bench == nil {
		t.Fatalf("no head is open; the window says:\n%s", st.words())
	}
	if h := st.bench.Record().Head; h.Tag != "H7" || len(h.Positions()) != 12 {
		t.Errorf("got %+v", h)
	}
	if n := keys - opened; n >= 15 {
		t.Errorf("a common head took %d keys", n)
	}
	st.sees("H7")
	st.sees("Next: ")
	if f := st.Window().Canvas().Focused(); f != fyne.Focusable(st.leaves["Needs"].field) {
		t.Errorf("the keyboard is on %T, not in the first leaf", f)
	}
}

func TestDemonstration(t *testing.T) {
	app, folder := newApp(t), t.TempDir()
	st := newStage(t, app, folder, "")
	st.write("d")
	st.sees("DR-1L")
	st.sees("4 heads")
	t.Run("a scanned label opens its head", func(t *testing.T) {
		st.write("QH-3")
		st.press(fyne.KeyReturn)
		if st.bench == nil || st.bench.Record().Head.Tag != "QH-3" {
			t.Fatal("it is not open")
		}
	})
	t.Run("leaves by their keys, refreshed when they come into sight", func(t *testing.T) {
		valves := st.leaves["Valves"]
		st.host.Changed()
		if valves.refreshed != 0 || st.leaves["Needs"].refreshed != 1 {
			t.Errorf("drawn: valves %d times, needs %d times", valves.refreshed, st.leaves["Needs"].refreshed)
		}
		for range 2 {
			st.menu("Valves")
		}
		if valves.refreshed != 1 {
			t.Errorf("drawn %d times", valves.refreshed)
		}
		if f := st.Window().Canvas().Focused(); f != fyne.Focusable(valves.field) {
			t.Errorf("the keyboard is on %T", f)
		}
		st.host.Show("Sheet")
		st.sees("Sheet")
		st.menu("Valves")
	})
	t.Run("where the cursor is is remembered at once", func(t *testing.T) {
		st.leaves["Valves"].field.SetText("2/ex/1 check")
		st.host.(interface{ Moved() }).Moved()
		if at := st.memory.In(st.memory.Last()); at.Leaf != "Valves" || at.Cell != "2/ex/1 check" || at.Setup == "" {
			t.Errorf("remembered is %+v", at)
		}
	})
	t.Run("a sentence stays over the change it is about", func(t *testing.T) {
		st.host.Tell(say.New("shell.scale", 100))
		st.host.Changed()
		st.sees("Everything is shown at 100 %.")
		st.host.Changed()
		if strings.Contains(st.words(), "Everything is shown") {
			t.Error("it stays for ever")
		}
	})
	t.Run("an error stands until it is put away", func(t *testing.T) {
		st.host.Fail(say.Fail(say.Moved, "store.moved", "shop.keeperbook"))
		st.sees("shop.keeperbook was renamed")
		st.host.Changed()
		st.sees("shop.keeperbook was renamed")
	})
	t.Run("the register unfolds with the open head chosen", func(t *testing.T) {
		st.menu("Find head")
		st.sees("OF-2P")
		st.press(fyne.KeyReturn)
		if st.bench.Record().Head.Tag != "QH-3" {
			t.Errorf("Enter opened %s", st.bench.Record().Head.Tag)
		}
		for _, k := range []fyne.KeyName{fyne.KeyF9, fyne.KeyEscape} {
			st.menu("Find head")
			st.sees("OF-2P")
			st.press(k)
			if strings.Contains(st.words(), "OF-2P") {
				t.Errorf("%s does not fold it", k)
			}
		}
	})
	t.Run("the other set-up of a head by its letter", func(t *testing.T) {
		st.menu("Find head")
		st.write("of-2p")
		st.press(fyne.KeyReturn)
		st.menu("Set-ups of this head…")
		st.write("b")
		if k := st.bench.Record().Setup.Kind; k != "as-found" {
			t.Errorf("open is the one %s", k)
		}
	})
	t.Run("a new set-up is asked about first", func(t *testing.T) {
		before := st.bench.Record().Setup.ID
		st.menu("New set-up, as built…")
		st.press(fyne.KeyEscape)
		if st.bench.Record().Setup.ID != before {
			t.Error("Esc began one")
		}
		st.menu("New set-up, as built…")
		st.press(fyne.KeyReturn)
		s := st.bench.Record().Setup
		if s.Replaces != before || s.Kind != "as-built" || len(s.Readings) != 0 {
			t.Errorf("open is %+v", s)
		}
	})
	t.Run("the next start goes on where this one ended", func(t *testing.T) {
		st.menu("Valves")
		st.leaves["Valves"].field.SetText("3/in/1 base")
		st.menu("Dark")
		st.menu("Larger")
		st.leaves["Valves"].large = true // as a button of the leaf has it
		want := st.bench.Record().Setup.ID
		st.Quit()
		if err := st.memory.Close(); err != nil {
			t.Fatal(err)
		}
		again := newStage(t, app, folder, "")
		if again.bench == nil || again.bench.Record().Setup.ID != want {
			t.Fatal("the set-up is not open")
		}
		if got := again.leaves["Valves"].place; got != "3/in/1 base" {
			t.Errorf("at %q", got)
		}
		if f := again.Window().Canvas().Focused(); f != fyne.Focusable(again.leaves["Valves"].field) {
			t.Errorf("the keyboard is on %T", f)
		}
		if !again.leaves["Valves"].large {
			t.Error("the table is not large any more")
		}
		if look := again.memory.Look(); !look.Dark || look.Scale != 1.1 {
			t.Error("light and size are forgotten")
		}
		again.menu("Close book")
		again.sees("Demonstration book")
		again.Quit()
	})
}

func TestHelpGoesBack(t *testing.T) {
	app, folder := newApp(t), t.TempDir()
	st := newStage(t, app, folder, "")
	for label, says := range map[string]string{
		"Cautions": "never press past solid", "About": "Keeperbook 0.0.0", "Keys": "Ctrl+F goes to the register",
	} {
		st.menu(label)
		st.sees(says)
		st.press(fyne.KeyDown, fyne.KeyPageDown, fyne.KeyEnd, fyne.KeyEscape)
		st.sees("New book")
	}
	st.menu("Cautions")
	st.menu("About")
	st.press(fyne.KeyReturn)
	st.sees("New book")
	st.write("o")
	st.sees("Where the book lies.")
}

func TestBookOpenElsewhere(t *testing.T) {
	app, folder := newApp(t), t.TempDir()
	path := filepath.Join(folder, "shop.keeperbook")
	fill(t, path, 2)
	other, err := task.OpenBook(context.Background(), path, "other", clock)
	if err != nil {
		t.Fatal(err)
	}
	defer other.Close()
	st := newStage(t, app, folder, path)
	st.sees("is already open: by")
	st.press(fyne.KeyEscape)
	st.sees("New book")
	st.Reopen(path)
	st.press(fyne.KeyReturn)
	st.sees("2 heads")
	st.press(fyne.KeyReturn)
	if st.bench == nil {
		t.Fatal("a head of it does not open")
	}
	if st.menu("New head…") || st.menu("New set-up, as built…") {
		t.Error("entries are offered in a book that takes none")
	}
	if got := st.Window().Title(); !strings.HasPrefix(got, "shop.keeperbook, to read only") {
		t.Errorf("title %q", got)
	}
}

// What was said of one book goes when another one is open.
func TestMissingBook(t *testing.T) {
	app, folder := newApp(t), t.TempDir()
	st := newStage(t, app, folder, filepath.Join(folder, "gone.keeperbook"))
	st.sees("There is no file")
	st.sees("New book")
	st.write("d")
	st.sees("4 heads")
	if strings.Contains(st.words(), "There is no file") {
		t.Error("it is still said")
	}
	st.press(fyne.KeyReturn)
	if st.bench == nil {
		t.Error("the keyboard is not in the register")
	}
}

func TestRefusedPathStays(t *testing.T) {
	app, folder := newApp(t), t.TempDir()
	t.Setenv("HOME", folder)
	if err := os.WriteFile(filepath.Join(folder, "list.keeperbook"), []byte("a shopping list"), 0o644); err != nil {
		t.Fatal(err)
	}
	st := newStage(t, app, folder, "")
	st.write("o")
	st.write("li")
	st.press(fyne.KeyTab, fyne.KeyReturn)
	st.sees("is not a book of this program")
	st.press(fyne.KeyBackspace)
	if strings.Contains(st.words(), "is not a book") {
		t.Error("the sentence stays over another text")
	}
	st.press(fyne.KeyDown)
	st.press(fyne.KeyEscape)
	st.sees("Demonstration book")
}

func TestNotListening(t *testing.T) {
	app, folder := newApp(t), t.TempDir()
	path := filepath.Join(folder, "shop.keeperbook")
	fill(t, path, 1)
	st := newStage(t, app, folder, path)
	st.press(fyne.KeyReturn)
	hooks := app.Lifecycle().(interface {
		OnExitedForeground() func()
		OnEnteredForeground() func()
	})
	hooks.OnExitedForeground()()
	st.sees("Not listening")
	hooks.OnEnteredForeground()()
	if strings.Contains(st.words(), "Not listening") {
		t.Error("it is said of a window that listens")
	}
}
