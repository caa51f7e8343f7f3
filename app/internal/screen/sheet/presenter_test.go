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

	"keeperbook/app/internal/screen/sheet"
	"keeperbook/app/internal/task"
	"keeperbook/assets"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

func clock() time.Time { return time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC) }

// demonstration opens a fresh demonstration book.
func demonstration(t testing.TB) *task.Desk {
	t.Helper()
	path, err := task.DemoBook(context.Background(), t.TempDir(), assets.Demo(), clock)
	if err != nil {
		t.Fatal(err)
	}
	desk, err := task.OpenBook(context.Background(), path, "test", clock)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { desk.Close() })
	return desk
}

func bench(t testing.TB, desk *task.Desk, setup string) *task.Bench {
	t.Helper()
	b, err := desk.OpenBench(context.Background(), setup)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func code(err error) say.Code { return say.CodeOf(err) }

// What the demonstration heads have open: their numbers are in the demonstration book's own golden texts.
func TestPoints(t *testing.T) {
	desk := demonstration(t)
	for setup, want := range map[string][]string{
		"setup-ferry-built": {
			"1 ex unproven: inner coil .061 ± .0042, least .060", "2 ex unproven: inner coil .063 ± .0042, least .060",
			"3 ex short: inner coil .053 < .060", "4 in missing: base height", "6 ex up to .571: inner coil near bind",
		},
		"setup-ferry-found": {"5 in binds: inner coil −.017"},
		"setup-hill-built":  nil,
	} {
		p := sheet.NewPresenter(bench(t, desk, setup))
		var got []string
		for _, point := range p.Points() {
			got = append(got, point.Valve+" "+p.Words().Line(point.Line))
		}
		if !slices.Equal(got, want) {
			t.Errorf("%s: %q, want %q", setup, got, want)
		}
		if p.Open() != len(want) {
			t.Errorf("%s: %d open, want %d", setup, p.Open(), len(want))
		}
	}
}

// What somebody accepted with a reason is settled, and counts no more.
func TestAcceptedIsSettled(t *testing.T) {
	b := bench(t, demonstration(t), "setup-ferry-built")
	p := sheet.NewPresenter(b)
	if err := b.Accept(context.Background(), record.Position{Cylinder: "3", Role: record.Exhaust, N: 1}, "bind", "thinner shim on order"); err != nil {
		t.Fatal(err)
	}
	if p.Open() != 4 || p.Words().Line(p.Title()) != "4 open" {
		t.Errorf("%d open, titled %q", p.Open(), p.Words().Line(p.Title()))
	}
}

func TestPagesAndPaper(t *testing.T) {
	p := sheet.NewPresenter(bench(t, demonstration(t), "setup-ferry-built"))
	for _, c := range []struct {
		what   task.Out
		paper  task.Paper
		height float64
		one    bool
	}{
		{task.OutSheet, task.A4, 841.89, false}, {task.OutSheet, task.Letter, 792, false},
		{task.OutForm, task.A4, 841.89, true}, {task.OutForm, task.Letter, 792, true},
	} {
		p.Show(c.what)
		p.On(c.paper)
		pages, err := p.Pages()
		if err != nil {
			t.Fatal(err)
		}
		if pages[0].Height != c.height || (len(pages) == 1) != c.one {
			t.Errorf("%s on %s: %d pages of height %g", c.what, c.paper, len(pages), pages[0].Height)
		}
	}
}

// The pages and the table that is copied are in the chosen language, whatever the window speaks.
func TestLanguageOfThePages(t *testing.T) {
	desk := demonstration(t)
	p := sheet.NewPresenter(bench(t, desk, "setup-ferry-built"))
	if p.Language() != "en" {
		t.Errorf("at first in %s", p.Language())
	}
	p.In("de")
	if head, _, _ := strings.Cut(p.Table(), "\n"); !strings.HasPrefix(head, "Ventil\tUrteil\tGrundh. in\t") {
		t.Errorf("headed %q", head)
	}
	if !strings.Contains(p.Table(), "\t1,838\t") {
		t.Error("no decimal comma in the table")
	}
	path := filepath.Join(filepath.Dir(desk.Path()), "de.pdf")
	if _, err := p.Save(task.OutSheet, path, false); err != nil {
		t.Fatal(err)
	}
	got, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	say.Speak("de")
	defer say.Speak("en")
	want, err := task.Sheet(context.Background(), desk.Book, "setup-ferry-built", task.A4)
	if err != nil || !bytes.Equal(got, want) {
		t.Errorf("the sheet that was let out is not the German one (%v)", err)
	}
}

func TestSave(t *testing.T) {
	desk := demonstration(t)
	b := bench(t, desk, "setup-ferry-built")
	p := sheet.NewPresenter(b)
	folder := filepath.Dir(desk.Path())
	if want := filepath.Join(folder, "OF-2P-as-built.pdf"); p.Path(task.OutSheet) != want {
		t.Errorf("proposed %s, want %s", p.Path(task.OutSheet), want)
	}
	for _, c := range []struct {
		out         task.Out
		path, where string
		begins      string
	}{
		{task.OutSheet, p.Path(task.OutSheet), "OF-2P-as-built.pdf", "%PDF-"},
		{task.OutForm, " blank ", "blank.pdf", "%PDF-"},
		{task.OutRecord, "OF.json", "OF.json", `{"`},
	} {
		told, err := p.Save(c.out, c.path, false)
		if err != nil {
			t.Fatal(err)
		}
		where := filepath.Join(folder, c.where)
		if line := p.Words().Line(told); !strings.Contains(line, where) {
			t.Errorf("told %q, want the path %s in it", line, where)
		}
		data, err := os.ReadFile(where)
		if err != nil || !strings.HasPrefix(string(data), c.begins) {
			t.Errorf("%s begins %.10q, %v", where, data, err)
		}
		if _, err := p.Save(c.out, c.path, false); code(err) != say.Conflict {
			t.Errorf("a second %s over the first: %v", c.out, err)
		}
		if _, err := p.Save(c.out, c.path, true); err != nil {
			t.Errorf("replacing %s: %v", c.out, err)
		}
	}
	// The file is the one that the command prints.
	want, err := task.Sheet(context.Background(), desk.Book, "setup-ferry-built", task.A4)
	if err != nil {
		t.Fatal(err)
	}
	if got, err := os.ReadFile(p.Path(task.OutSheet)); err != nil || string(got) != string(want) {
		t.Errorf("the exported sheet differs from the printed one (%v)", err)
	}
}

func TestSaveRefuses(t *testing.T) {
	desk := demonstration(t)
	p := sheet.NewPresenter(bench(t, desk, "setup-ferry-built"))
	folder := filepath.Dir(desk.Path())
	for path, want := range map[string]struct {
		code  say.Code
		words string
	}{
		"  ":            {say.Invalid, "No name was given"},
		folder:          {say.Invalid, "is a folder"},
		"nowhere/a.pdf": {say.NotFound, "no such file or folder"},
		desk.Path():     {say.Invalid, "is a book, and nothing else is written over it"},
		"a\x00b.pdf":    {say.Internal, "nothing was written"},
	} {
		before, err := os.ReadDir(folder)
		if err != nil {
			t.Fatal(err)
		}
		_, err = p.Save(task.OutSheet, path, false)
		var e *say.Error
		if !errors.As(err, &e) || e.Code != want.code || !strings.Contains(e.Error(), want.words) {
			t.Errorf("%q: %v, want %s with %q", path, err, want.code, want.words)
		}
		after, err := os.ReadDir(folder)
		if err != nil || len(after) != len(before) {
			t.Errorf("%q left %d files where %d were (%v)", path, len(after), len(before), err)
		}
	}
}

func TestTable(t *testing.T) {
	p := sheet.NewPresenter(bench(t, demonstration(t), "setup-ferry-built"))
	lines := strings.Split(strings.TrimSuffix(p.Table(), "\n"), "\n")
	if len(lines) != 13 {
		t.Fatalf("%d lines for 12 valves", len(lines))
	}
	cells := strings.Split(lines[0], "\t")
	if cells[0] != "valve" || cells[1] != "verdict" || !slices.Contains(cells, "base in") {
		t.Errorf("headed %q", cells)
	}
	for i, l := range lines {
		if n := len(strings.Split(l, "\t")); n != len(cells) {
			t.Errorf("line %d has %d cells, the head %d", i+1, n, len(cells))
		}
	}
	if first := strings.Split(lines[1], "\t"); first[0] != "1 ex" || first[2] != "1.838" {
		t.Errorf("first row %q", first)
	}
}
