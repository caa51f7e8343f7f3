package shell_test

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"keeperbook/app/internal/shell"
)

// shut writes a memory out and fails where that does.
func shut(t *testing.T, m *shell.Memory) {
	t.Helper()
	if err := m.Close(); err != nil {
		t.Fatal(err)
	}
}

func TestMemoryLasts(t *testing.T) {
	path := filepath.Join(t.TempDir(), "not", "there", "yet", "window.json")
	m := shell.OpenMemory(path)
	at := shell.Place{Book: "/b/shop.keeperbook", Setup: "setup-1", Leaf: "valves", Cell: "3/ex/1 base"}
	m.Work(shell.Place{Book: "/b/old.keeperbook", Setup: "setup-9"})
	m.Work(at)
	m.Show(func(l *shell.Look) { l.Dark, l.Large, l.Silent, l.Scale = true, true, true, 1.25 })
	m.Show(func(l *shell.Look) { l.Width, l.Height = 1180, 780 })
	shut(t, m)

	m = shell.OpenMemory(path)
	if m.Last() != at.Book || m.In(at.Book) != at {
		t.Errorf("last %q, at %+v", m.Last(), m.In(at.Book))
	}
	if got := m.In("/b/old.keeperbook").Setup; got != "setup-9" {
		t.Errorf("the book before is at %q", got)
	}
	if got := m.In("/b/never.keeperbook"); got != (shell.Place{Book: "/b/never.keeperbook"}) {
		t.Errorf("of a book that was never open it says %+v", got)
	}
	if got, want := m.Look(), (shell.Look{Dark: true, Large: true, Silent: true, Scale: 1.25, Width: 1180, Height: 780}); got != want {
		t.Errorf("shown as %+v, want %+v", got, want)
	}
	m.Leave()
	m.Forget("/b/old.keeperbook")
	shut(t, m)
	m = shell.OpenMemory(path)
	if m.Last() != "" || !slices.Equal(m.Books(), []string{at.Book}) {
		t.Errorf("last %q of %q", m.Last(), m.Books())
	}
}

func TestMemoryOfManyBooks(t *testing.T) {
	m := shell.OpenMemory("")
	for i := range 12 {
		m.Work(shell.Place{Book: fmt.Sprintf("/b/%d.keeperbook", i)})
	}
	m.Work(shell.Place{Book: "/b/9.keeperbook"})
	want := []string{"9", "11", "10", "8", "7", "6", "5", "4"}
	for i := range want {
		want[i] = "/b/" + want[i] + ".keeperbook"
	}
	if got := m.Books(); !slices.Equal(got, want) {
		t.Errorf("remembers %q", got)
	}
}

// Whatever lies where the memory should, the window starts: with what can be understood of it, and
// afresh where that is nothing.
func TestMemoryOfAnyFile(t *testing.T) {
	const good = `"open":"/b/shop.keeperbook","books":[{"book":"/b/shop.keeperbook","leaf":"parts"}],"dark":true`
	fresh, kept := shell.Look{Scale: 1}, shell.Look{Scale: 1, Dark: true}
	for _, c := range []struct {
		name, text string
		last       string
		look       shell.Look
	}{
		{"empty", "", "", fresh},
		{"nothing in it", "{}", "", fresh},
		{"cut off", "{" + good, "", fresh},
		{"cut off in a word", `{"open":"/b/sh`, "", fresh},
		{"no object", `["open"]`, "", fresh},
		{"noise", "\x00\x00\xff\xfe\x00", "", fresh},
		{"nothing but spaces, many of them", strings.Repeat(" ", 2<<20), "", fresh},
		{"whole", "{" + good + "}", "/b/shop.keeperbook", kept},
		{"a key that nobody knows", `{"sheets":{"paper":"a4"},` + good + "}", "/b/shop.keeperbook", kept},
		{"a key in a later version's form", `{"scale":{"x":2},` + good + "}", "/b/shop.keeperbook", kept},
		{"a size beyond all", `{"scale":1e9,"width":5,"height":1e12,` + good + "}", "/b/shop.keeperbook", kept},
		{"a book without a name", `{"books":[{}],"dark":true}`, "", kept},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "window.json")
			if err := os.WriteFile(path, []byte(c.text), 0o644); err != nil {
				t.Fatal(err)
			}
			m := shell.OpenMemory(path)
			if m.Last() != c.last || m.Look() != c.look {
				t.Errorf("last %q, shown as %+v", m.Last(), m.Look())
			}
			m.Work(shell.Place{Book: "/b/next.keeperbook"})
			shut(t, m)
			if got := shell.OpenMemory(path); got.Last() != "/b/next.keeperbook" || got.Look() != c.look {
				t.Errorf("afterwards last %q, shown as %+v", got.Last(), got.Look())
			}
		})
	}
}

// Where it cannot be written it says so at the end, and it is written as soon as it can be.
func TestMemoryUnwritten(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "settings")
	if err := os.WriteFile(folder, nil, 0o644); err != nil { // a file where the folder should be
		t.Fatal(err)
	}
	path := filepath.Join(folder, "window.json")
	m := shell.OpenMemory(path)
	m.Work(shell.Place{Book: "/b/shop.keeperbook"})
	if err := m.Close(); err == nil {
		t.Error("it is said to be written")
	}
	if err := os.Remove(folder); err != nil {
		t.Fatal(err)
	}
	shut(t, m)
	if got := shell.OpenMemory(path).Last(); got != "/b/shop.keeperbook" {
		t.Errorf("last %q", got)
	}
}

// What two windows remember is put together: the later one does not write over what it never changed.
func TestMemoryOfTwoWindows(t *testing.T) {
	path := filepath.Join(t.TempDir(), "window.json")
	a, b := shell.OpenMemory(path), shell.OpenMemory(path)
	a.Work(shell.Place{Book: "/b/a.keeperbook", Setup: "setup-a"})
	a.Show(func(l *shell.Look) { l.Dark = true })
	shut(t, a)
	b.Work(shell.Place{Book: "/b/b.keeperbook", Setup: "setup-b"})
	b.Show(func(l *shell.Look) { l.Scale = 1.5 })
	shut(t, b)
	m := shell.OpenMemory(path)
	if got := m.Books(); !slices.Equal(got, []string{"/b/b.keeperbook", "/b/a.keeperbook"}) {
		t.Errorf("remembers %q", got)
	}
	if got := m.In("/b/a.keeperbook").Setup; got != "setup-a" {
		t.Errorf("a is at %q", got)
	}
	if l := m.Look(); !l.Dark || l.Scale != 1.5 {
		t.Errorf("shown as %+v", l)
	}
}
