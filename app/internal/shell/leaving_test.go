package shell_test

import (
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"keeperbook/app/internal/kit"
	"keeperbook/model/say"
)

// Whatever takes the open head out of sight asks first where something of it is not in the book: Enter and
// Esc stay, and only the letter goes on.
func TestLeavingAsks(t *testing.T) {
	for name, leave := range map[string]func(st *stage){
		"quit":           func(st *stage) { st.menu("Quit") },
		"close the book": func(st *stage) { st.menu("Close book") },
		"another head":   func(st *stage) { st.menu("Find head"); st.write("KB-0001"); st.press(fyne.KeyReturn) },
		"a new head":     func(st *stage) { st.menu("New head…") },
		"a new book":     func(st *stage) { st.menu("New book…") },
		"open a book":    func(st *stage) { st.menu("Open book…") },
		"demonstration":  func(st *stage) { st.menu("Demonstration book") },
		"a new set-up":   func(st *stage) { st.menu("New set-up, as built…") },
		"another set-up": func(st *stage) { st.menu("Set-ups of this head…"); st.press(fyne.KeyReturn) },
	} {
		t.Run(name, func(t *testing.T) {
			app, folder := newApp(t), t.TempDir()
			t.Setenv("HOME", folder)
			path := filepath.Join(folder, "shop.keeperbook")
			fill(t, path, 2)
			st := newStage(t, app, folder, path)
			st.press(fyne.KeyReturn)
			leaf := st.leaves["Valves"]
			leaf.unkept = []say.Line{say.New("task.draft-waits", ".612")}
			for _, stay := range []fyne.KeyName{fyne.KeyReturn, fyne.KeyEscape} {
				leave(st)
				st.sees("Not everything is in the book yet")
				st.sees(`".612" waits`)
				st.press(stay)
				if strings.Contains(st.words(), "Not everything is in the book yet") || st.leaves["Valves"] != leaf {
					t.Fatalf("%s did not stay", stay)
				}
				putAway(st.Shell)
			}
			leave(st)
			st.write("l")
			if strings.Contains(st.words(), "Not everything is in the book yet") {
				t.Error("the letter does not go on")
			}
			if err := st.memory.Close(); err != nil {
				t.Error(err)
			}
		})
	}
}

// A second wish to close does not lay a second question over the first.
func TestLeavingAsksOnce(t *testing.T) {
	app, folder := newApp(t), t.TempDir()
	path := filepath.Join(folder, "shop.keeperbook")
	fill(t, path, 1)
	st := newStage(t, app, folder, path)
	st.press(fyne.KeyReturn)
	st.leaves["Valves"].unkept = []say.Line{say.New("task.draft-waits", ".612")}
	st.Quit()
	st.Quit()
	if n := len(st.Window().Canvas().Overlays().List()); n != 1 {
		t.Errorf("%d questions are open", n)
	}
	st.press(fyne.KeyEscape)
	st.Quit()
	st.sees("Not everything is in the book yet")
	// The end of the session asks nobody.
	st.End()
}

// What is typed into a field is kept before the window closes, and what stands in a dialog is asked about.
func TestLeavingKeepsFields(t *testing.T) {
	app, folder := newApp(t), t.TempDir()
	path := filepath.Join(folder, "shop.keeperbook")
	fill(t, path, 1)
	st := newStage(t, app, folder, path)
	st.press(fyne.KeyReturn)
	kept := ""
	field := kit.NewField("lift", "", func(text string) error { kept = text; return nil })
	st.Window().SetContent(container.NewStack(field))
	field.Focus()
	st.write(".612")
	st.NewHead()
	if kept != ".612" {
		t.Errorf("kept %q", kept)
	}
	st.sees("Tag")
	st.write("H")
	st.Quit()
	st.sees("What you typed into the open dialog is not kept.")
	st.press(fyne.KeyEscape)
	st.write("9")
	st.Quit()
	st.press(fyne.KeyReturn, fyne.KeyEscape)
	if n := len(st.Window().Canvas().Overlays().List()); n != 0 {
		t.Errorf("%d dialogs are open", n)
	}
	st.End()
}

// What the register complained of goes away with its reason, and nothing else does.
func TestRegisterComplains(t *testing.T) {
	app, folder := newApp(t), t.TempDir()
	t.Setenv("HOME", folder)
	st := newStage(t, app, folder, "")
	gone := func(text string) {
		t.Helper()
		if strings.Contains(st.words(), text) {
			t.Errorf("it still says %q", text)
		}
	}
	st.write("n")
	st.press(fyne.KeyReturn)
	st.menu("Find head") // the test's window gives nobody the keyboard after a dialog of paths
	st.press(fyne.KeyReturn)
	const none = "There is no head in this book yet."
	st.sees(none)
	st.menu("New head…")
	st.write("H7")
	for range 10 {
		st.press(fyne.KeyReturn)
	}
	if st.bench == nil {
		t.Fatal("no head is open")
	}
	gone(none)

	st.menu("Find head")
	st.write("west")
	st.press(fyne.KeyReturn)
	const unknown = `"west" is no head of this book`
	st.sees(unknown)
	st.press(fyne.KeyBackspace)
	gone(unknown)
	st.host.Fail(say.Fail(say.Moved, "store.moved", "heads.keeperbook"))
	st.press(fyne.KeyEscape)
	st.write("H7")
	st.press(fyne.KeyReturn)
	st.sees("heads.keeperbook was renamed")
}
