package shell_test

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"keeperbook/app/internal/shell"
	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

func newPresenter(t *testing.T, m *shell.Memory) *shell.Presenter {
	t.Helper()
	p := shell.NewPresenter(context.Background(), "test", clock, m)
	t.Cleanup(func() {
		if err := p.CloseBook(); err != nil {
			t.Error(err)
		}
	})
	return p
}

var inches = record.Units{Length: unit.In, Load: unit.Lbf}

func TestBooks(t *testing.T) {
	folder := t.TempDir()
	at := func(name string) string { return filepath.Join(folder, name) }
	m := shell.OpenMemory("")
	p := newPresenter(t, m)
	t.Run("a new book gets its ending and is open", func(t *testing.T) {
		if err := p.MakeBook(at("shop")); err != nil {
			t.Fatal(err)
		}
		if p.Desk() == nil || p.Desk().Path() != at("shop.keeperbook") || p.ReadingOnly() {
			t.Errorf("open is %+v", p.Desk())
		}
	})
	t.Run("a name that is taken is refused and the open book stays", func(t *testing.T) {
		if err := p.MakeBook(at("shop.keeperbook")); say.CodeOf(err) != say.Conflict {
			t.Errorf("got %v", err)
		}
		if p.Desk() == nil {
			t.Error("the open book was closed")
		}
	})
	t.Run("the book that is open is open already", func(t *testing.T) {
		if err := p.OpenBook(at("shop.keeperbook")); err != nil {
			t.Error(err)
		}
	})
	t.Run("somebody else may read it and not write it", func(t *testing.T) {
		q := newPresenter(t, shell.OpenMemory(""))
		if err := q.OpenBook(at("shop.keeperbook")); say.CodeOf(err) != say.Busy {
			t.Fatalf("got %v", err)
		}
		if err := q.ReadBook(at("shop.keeperbook")); err != nil {
			t.Fatal(err)
		}
		if !q.ReadingOnly() {
			t.Error("it is said to take entries")
		}
		err := q.Begin(task.NewHead{Tag: "T", Cylinders: []string{"1"}, Intakes: 1, Exhausts: 1, Kind: record.AsFound, Units: inches})
		if say.CodeOf(err) != say.ReadOnly {
			t.Errorf("an entry: %v", err)
		}
		if got := say.English().Line(q.Title()); got != "shop.keeperbook, to read only – Keeperbook" {
			t.Errorf("title %q", got)
		}
	})
	t.Run("a file that is no book changes nothing", func(t *testing.T) {
		if err := os.WriteFile(at("list.keeperbook"), []byte("a shopping list"), 0o644); err != nil {
			t.Fatal(err)
		}
		if err := p.OpenBook(at("list.keeperbook")); say.CodeOf(err) != say.Foreign {
			t.Errorf("got %v", err)
		}
		if p.Desk().Path() != at("shop.keeperbook") {
			t.Error("the open book was closed")
		}
	})
	t.Run("a book that is gone is forgotten", func(t *testing.T) {
		m.Work(shell.Place{Book: at("gone.keeperbook")})
		if err := p.OpenBook(at("gone.keeperbook")); say.CodeOf(err) != say.NotFound {
			t.Errorf("got %v", err)
		}
		if want := []string{at("shop.keeperbook")}; !slices.Equal(p.Recent(), want) {
			t.Errorf("recent %q", p.Recent())
		}
	})
	t.Run("another book closes the one before", func(t *testing.T) {
		if err := p.MakeBook(at("second")); err != nil {
			t.Fatal(err)
		}
		if want := []string{at("second.keeperbook"), at("shop.keeperbook")}; !slices.Equal(p.Recent(), want) {
			t.Errorf("recent %q", p.Recent())
		}
		if err := newPresenter(t, shell.OpenMemory("")).OpenBook(at("shop.keeperbook")); err != nil {
			t.Errorf("the book before is still held: %v", err)
		}
	})
	t.Run("a copy", func(t *testing.T) {
		path, err := p.SaveCopy(at("copy"))
		if err != nil || path != at("copy.keeperbook") {
			t.Fatal(path, err)
		}
		if _, err := p.SaveCopy(at("copy")); say.CodeOf(err) != say.Conflict {
			t.Errorf("over a copy: %v", err)
		}
	})
	t.Run("left, nothing is open and none is opened by itself", func(t *testing.T) {
		if err := p.LeaveBook(); err != nil {
			t.Fatal(err)
		}
		if p.Desk() != nil || p.LastBook() != "" || len(p.Recent()) != 2 {
			t.Errorf("desk %v, last %q, recent %q", p.Desk(), p.LastBook(), p.Recent())
		}
		if got := say.English().Line(p.Title()); got != "Keeperbook" {
			t.Errorf("title %q", got)
		}
	})
}

func TestHeads(t *testing.T) {
	m := shell.OpenMemory("")
	p := newPresenter(t, m)
	path := filepath.Join(t.TempDir(), "shop.keeperbook")
	if err := p.MakeBook(path); err != nil {
		t.Fatal(err)
	}
	if p.Resume() || p.Folded() {
		t.Error("a head is open in an empty book")
	}
	head := task.NewHead{
		Owner: "Somebody", Engine: "Engine one", Tag: "T-1", WorkOrder: "W-7", Cylinders: []string{"1", "3"}, Intakes: 1, Exhausts: 1,
		Kind: record.AsFound, Units: inches,
	}
	if err := p.Begin(head); err != nil {
		t.Fatal(err)
	}
	first := p.Bench().Record().Setup.ID
	if !p.Folded() {
		t.Error("the register is not folded beside an open head")
	}
	h := p.Heading()
	if h.Tag != "T-1" || !slices.Equal(h.Whose, []string{"Engine one", "Somebody", "W-7"}) {
		t.Errorf("heading %+v", h)
	}
	if got := say.English().Line(h.Setup); got != "as found, begun 2026-06-01" {
		t.Errorf("set-up %q", got)
	}
	if b := p.Bottom(); b.Summary == "" || b.Next == "" {
		t.Errorf("bottom line %+v", b)
	}
	p.Leave("valves", "1/in/1 base")
	if err := p.Follow(record.AsBuilt); err != nil {
		t.Fatal(err)
	}
	if _, place := p.Leaf(); place != "" {
		t.Errorf("another set-up begins at the place of the one before, %q", place)
	}
	setups, open, err := p.Setups()
	if err != nil || len(setups) != 2 || setups[open].ID != p.Bench().Record().Setup.ID {
		t.Errorf("set-ups %v, open %d, %v", setups, open, err)
	}
	if err := p.OpenSetup("nothing"); err == nil || p.Bench().Record().Setup.Kind != record.AsBuilt {
		t.Errorf("a set-up that is not there: %v", err)
	}
	if err := p.OpenSetup(first); err != nil {
		t.Fatal(err)
	}
	p.Leave("valves", "3/ex/1 bind")
	t.Run("the next day goes on where this one ended", func(t *testing.T) {
		if err := p.CloseBook(); err != nil {
			t.Fatal(err)
		}
		q := newPresenter(t, m)
		if err := q.OpenBook(q.LastBook()); err != nil {
			t.Fatal(err)
		}
		if !q.Resume() || q.Bench().Record().Setup.ID != first {
			t.Fatal("the head is not open")
		}
		if key, place := q.Leaf(); key != "valves" || place != "3/ex/1 bind" {
			t.Errorf("at %q %q", key, place)
		}
	})
}

// Each book is opened where work went on in it, also after another one was open meanwhile.
func TestBooksKeepTheirPlaces(t *testing.T) {
	folder, m := t.TempDir(), shell.OpenMemory("")
	p := newPresenter(t, m)
	setups := map[string]string{}
	for _, name := range []string{"one.keeperbook", "two.keeperbook"} {
		path := filepath.Join(folder, name)
		fill(t, path, 2)
		if err := p.OpenBook(path); err != nil {
			t.Fatal(err)
		}
		if p.Resume() {
			t.Errorf("%s was never open before, and a head of it is", name)
		}
		lines, err := p.Desk().Heads(context.Background(), "")
		if err != nil {
			t.Fatal(err)
		}
		setups[path] = lines[1].Setup
		if err := p.OpenSetup(lines[1].Setup); err != nil {
			t.Fatal(err)
		}
		p.Leave("valves", name)
	}
	for path, setup := range setups {
		if err := p.OpenBook(path); err != nil {
			t.Fatal(err)
		}
		if !p.Resume() || p.Bench().Record().Setup.ID != setup {
			t.Fatalf("%s is not open where it was", path)
		}
		if leaf, place := p.Leaf(); leaf != "valves" || place != filepath.Base(path) {
			t.Errorf("at %q %q", leaf, place)
		}
	}
}

func TestPaths(t *testing.T) {
	folder := t.TempDir()
	for _, name := range []string{"North", "South", ".hidden"} {
		if err := os.Mkdir(filepath.Join(folder, name), 0o755); err != nil {
			t.Fatal(err)
		}
	}
	for _, name := range []string{"norma.keeperbook", "north.keeperbook", "notes.txt"} {
		if err := os.WriteFile(filepath.Join(folder, name), nil, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	s := string(filepath.Separator)
	for _, c := range []struct {
		name, typed string
		found       []string
		complete    string
	}{
		{"a folder: folders first, then books, nothing else", s, []string{s + "North" + s, s + "South" + s, s + "norma.keeperbook", s + "north.keeperbook"}, s},
		{"in either case", s + "nor", []string{s + "North" + s, s + "norma.keeperbook", s + "north.keeperbook"}, s + "Nor"},
		{"one remains", s + "so", []string{s + "South" + s}, s + "South" + s},
		{"nothing", s + "west", nil, s + "west"},
		{"hidden only where asked for", s + ".h", []string{s + ".hidden" + s}, s + ".hidden" + s},
		{"no such folder", s + "west" + s + "x", nil, s + "west" + s + "x"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := shell.NewPaths(folder+c.typed, ".keeperbook")
			var want []string
			for _, f := range c.found {
				want = append(want, folder+f)
			}
			if !slices.Equal(p.Found(), want) {
				t.Errorf("found %q", p.Found())
			}
			if got := p.Complete(); got != folder+c.complete {
				t.Errorf("completes to %q", got)
			}
		})
	}
	t.Run("choosing", func(t *testing.T) {
		p := shell.NewPaths(folder+s, ".keeperbook")
		if p.Folder() || p.Path() != folder+s {
			t.Errorf("nothing chosen: %q", p.Path())
		}
		p.Move(1)
		if !p.Folder() {
			t.Error("the first is a folder")
		}
		p.Move(9)
		if p.Folder() || p.Path() != filepath.Join(folder, "north.keeperbook") {
			t.Errorf("the last is %q", p.Path())
		}
		p.Move(-9)
		if p.Cursor() != 0 {
			t.Errorf("at %d", p.Cursor())
		}
	})
	t.Run("home", func(t *testing.T) {
		t.Setenv("HOME", folder)
		if got := shell.NewPaths("~/so", ".keeperbook").Found(); !slices.Equal(got, []string{"~/South/"}) {
			t.Errorf("found %q", got)
		}
		for typed, want := range map[string]string{"~": folder, "~/a b ": folder + "/a b", "~else": "~else"} {
			if got := shell.NewPaths(typed, ".keeperbook").Path(); got != want {
				t.Errorf("%q is %q, want %q", typed, got, want)
			}
		}
	})
}
