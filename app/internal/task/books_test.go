package task_test

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"keeperbook/app/internal/task"
	"keeperbook/assets"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Words of the state narrow the register, and still find a name that they stand in.
func TestHeadsByState(t *testing.T) {
	ctx := context.Background()
	now := clock()
	d, err := task.MakeBook(ctx, filepath.Join(t.TempDir(), "shop"), "test", func() time.Time { now = now.Add(time.Hour); return now })
	if err != nil {
		t.Fatal(err)
	}
	defer d.Close()
	for _, h := range []struct {
		tag, owner string
		kind       record.SetupKind
	}{
		{"A-1", "Open Water Club", record.AsFound}, {"A-2", "Fennick", record.AsBuilt}, {"B-1", "Fennick", record.AsFound},
	} {
		n := newHead
		n.Tag, n.Owner, n.Kind = h.tag, h.owner, h.kind
		if _, err := d.Begin(ctx, n); err != nil {
			t.Fatal(err)
		}
	}
	day := string(task.StampOf(clock()))[:7]
	for text, want := range map[string][]string{
		"":               {"B-1", "A-2", "A-1"},
		"built":          {"A-2"},
		"as found":       {"B-1", "A-1"},
		"fou":            {"B-1", "A-1"},
		"fennick found":  {"B-1"},
		"FENNICK Built":  {"A-2"},
		"open":           {"B-1", "A-2", "A-1"},
		"closed":         nil,
		"open water":     {"A-1"},
		day:              {"B-1", "A-2", "A-1"},
		day + " b-1":     {"B-1"},
		"2019-01":        nil,
		"a":              {"A-2", "A-1"},
		"as built found": nil,
	} {
		lines, err := d.Heads(ctx, text)
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, l := range lines {
			got = append(got, l.Tag)
		}
		if !slices.Equal(got, want) {
			t.Errorf("%q: got %q, want %q", text, got, want)
		}
	}
}

func TestBookOpenedReadMadeCopied(t *testing.T) {
	ctx, folder := context.Background(), t.TempDir()
	d, err := task.MakeBook(ctx, filepath.Join(folder, "shop"), "test", clock)
	if err != nil {
		t.Fatal(err)
	}
	if d.Path() != filepath.Join(folder, "shop.keeperbook") {
		t.Errorf("the book lies at %s", d.Path())
	}
	if _, err := task.OpenBook(ctx, d.Path(), "other", clock); say.CodeOf(err) != say.Busy {
		t.Errorf("opened twice: %v", err)
	}
	r, err := task.ReadBook(ctx, d.Path(), "other", clock)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := r.Begin(ctx, newHead); say.CodeOf(err) != say.ReadOnly {
		t.Errorf("written while reading: %v", err)
	}
	if err := r.Close(); err != nil {
		t.Error(err)
	}
	setup, err := d.Begin(ctx, newHead)
	if err != nil {
		t.Fatal(err)
	}
	copied, err := d.SaveCopy(ctx, filepath.Join(folder, "copy"))
	if err != nil {
		t.Fatal(err)
	}
	if err := d.Close(); err != nil {
		t.Fatal(err)
	}
	c, err := task.OpenBook(ctx, copied, "test", clock)
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	if _, err := c.OpenBench(ctx, setup); err != nil {
		t.Errorf("the copy lacks the set-up: %v", err)
	}
}

// The demonstration book goes into a folder that need not be there, and is left alone the second time.
func TestDemoBook(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "data", "keeperbook")
	path, err := task.DemoBook(context.Background(), folder, assets.Demo(), clock)
	if err != nil {
		t.Fatal(err)
	}
	before, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	again, err := task.DemoBook(context.Background(), folder, assets.Demo(), clock)
	if err != nil || again != path {
		t.Fatal(again, err)
	}
	if after, err := os.Stat(path); err != nil || !os.SameFile(before, after) || !after.ModTime().Equal(before.ModTime()) {
		t.Error("it was written again")
	}
	if err := os.WriteFile(filepath.Join(folder, "file"), nil, 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := task.DemoBook(context.Background(), filepath.Join(folder, "file"), assets.Demo(), clock); err == nil {
		t.Error("a file was taken for a folder")
	}
}
