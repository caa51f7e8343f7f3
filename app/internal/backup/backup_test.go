package backup_test

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"keeperbook/app/internal/backup"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/store"
)

var noon = time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC)

func made(t *testing.T) *store.Book {
	t.Helper()
	book, err := store.Create(context.Background(), filepath.Join(t.TempDir(), "bench.keeperbook"), store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { book.Close() })
	return book
}

func keep(t *testing.T, book *store.Book, owner string) {
	t.Helper()
	_, err := book.Keep(context.Background(), record.Action{
		Token: owner, By: "x", At: "2026-06-01T12:00:00Z", Edits: []record.Edit{record.Put("", record.Owner{ID: owner, Name: owner})},
	})
	if err != nil {
		t.Fatal(err)
	}
}

// A copy is due where something was kept since the newest one, once that is old enough, and each copy holds what the book held.
func TestCopiesAreTakenWhereSomethingChanged(t *testing.T) {
	ctx := context.Background()
	book := made(t)
	folder := backup.Folder(book.Path())
	due := func(now time.Time, age time.Duration) bool {
		t.Helper()
		is, err := backup.Due(ctx, book, folder, now, age)
		if err != nil {
			t.Fatal(err)
		}
		return is
	}
	if all, err := backup.List(folder, book.Path()); err != nil || len(all) != 0 {
		t.Fatal(all, err)
	}
	keep(t, book, "first")
	if !due(noon, 0) || !due(noon, time.Hour) {
		t.Error("what was never copied is not due")
	}
	first, err := backup.Take(ctx, book, folder, noon)
	if err != nil {
		t.Fatal(err)
	}
	if again, err := backup.Take(ctx, book, folder, noon.Add(time.Millisecond)); err != nil || again != first {
		t.Errorf("the same second: %+v, %v", again, err)
	}
	if due(noon.Add(2*time.Hour), 0) {
		t.Error("nothing was kept since, and it is due")
	}
	keep(t, book, "second")
	if due(noon.Add(30*time.Minute), time.Hour) || !due(noon.Add(61*time.Minute), time.Hour) || !due(noon.Add(time.Minute), 0) {
		t.Error("it is due at another time than an hour after")
	}
	second, err := backup.Take(ctx, book, folder, noon.Add(time.Hour))
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(folder, "letter.txt"), nil, 0o600); err != nil {
		t.Fatal(err)
	}
	all, err := backup.List(folder, book.Path())
	if err != nil || !slices.Equal(all, []backup.Copy{second, first}) {
		t.Fatal(all, err)
	}
	for i, want := range []int64{2, 1} {
		if s, err := store.Summarize(ctx, all[i].Path); err != nil || s.Seq < want || s.Last == "" {
			t.Errorf("%+v, %v", s, err)
		}
	}
	// A copy that rotted is no copy.
	if err := os.WriteFile(second.Path, []byte("rotten"), 0o600); err != nil {
		t.Fatal(err)
	}
	if !due(noon.Add(3*time.Hour), 0) {
		t.Error("a rotten copy is taken for one")
	}
}

// 24 hours, 14 days and 12 months keep their newest copy, and nothing else is kept; the newest copy never goes.
func TestWhatIsKept(t *testing.T) {
	var all []time.Time
	for i := range 24 * 400 * 2 { // every half hour of 400 days
		all = append(all, noon.Add(-time.Duration(i)*30*time.Minute))
	}
	spare := backup.Spare(all)
	var left []time.Time
	for i, at := range all {
		if !slices.Contains(spare, i) {
			left = append(left, at)
		}
	}
	// Of the days and months the newest copies are among those of the hours already.
	if want := 24 + 14 - 2 + 12 - 2; len(left) < want || len(left) > want+1 {
		t.Errorf("%d are left, want about %d: %v", len(left), want, left)
	}
	if left[0] != noon || noon.Sub(left[len(left)-1]) < 300*24*time.Hour {
		t.Errorf("from %v to %v", left[0], left[len(left)-1])
	}
	// What is kept stays kept: an hour later no gap is torn.
	again := backup.Spare(left)
	if len(again) != 0 {
		t.Errorf("%d of those left go the next time", len(again))
	}
	if got := backup.Spare(nil); len(got) != 0 {
		t.Error(got)
	}
	if got := backup.Spare([]time.Time{noon}); len(got) != 0 {
		t.Error("the only copy goes")
	}
}

// A copy comes into the place of the book, which is kept with everything beside it; what cannot be put back changes nothing.
func TestRestore(t *testing.T) {
	ctx := context.Background()
	book := made(t)
	path, folder := book.Path(), backup.Folder(book.Path())
	keep(t, book, "first")
	c, err := backup.Take(ctx, book, folder, noon)
	if err != nil {
		t.Fatal(err)
	}
	keep(t, book, "second")
	if _, err := backup.Restore(ctx, path, c.Path, noon); say.CodeOf(err) != say.Busy {
		t.Fatalf("an open book: %v", err)
	}
	if err := book.Close(); err != nil {
		t.Fatal(err)
	}
	whole, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	// A log of another book beside it would change what stands in it.
	if err := os.WriteFile(path+"-wal", []byte("of another book"), 0o600); err != nil {
		t.Fatal(err)
	}
	rotten := filepath.Join(folder, "rotten.keeperbook")
	if err := os.WriteFile(rotten, whole[:len(whole)/2], 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := backup.Restore(ctx, path, rotten, noon); err == nil {
		t.Error("half a book was put back")
	}
	if now, err := os.ReadFile(path); err != nil || string(now) != string(whole) {
		t.Error("a copy that was refused changed the book")
	}
	before, err := backup.Restore(ctx, path, c.Path, noon)
	if err != nil {
		t.Fatal(err)
	}
	if was, err := os.ReadFile(before); err != nil || string(was) != string(whole) {
		t.Errorf("the book of before is not %s: %v", before, err)
	}
	if _, err := os.Stat(path + "-wal"); err == nil {
		t.Error("the log of another book lies beside it still")
	}
	again, err := store.Open(ctx, path, store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if n, err := again.Seq(ctx); err != nil || n != 1 {
		s, _ := store.Summarize(ctx, c.Path)
		if n != s.Seq {
			t.Errorf("%d events, %v, want %d", n, err, s.Seq)
		}
	}
	again.Close()
	// A book that was deleted comes back, and the same second again is no trouble.
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	if before, err := backup.Restore(ctx, path, c.Path, noon.Add(time.Second)); err != nil || before != "" {
		t.Errorf("%q, %v", before, err)
	}
	if _, err := store.Summarize(ctx, path); err != nil {
		t.Error(err)
	}
}

// Only a file gives its place to a copy, and only to another file; what is refused lies as it lay.
func TestRestoreRefused(t *testing.T) {
	ctx := context.Background()
	book := made(t)
	keep(t, book, "first")
	c, err := backup.Take(ctx, book, backup.Folder(book.Path()), noon)
	if err != nil {
		t.Fatal(err)
	}
	path := book.Path()
	if err := book.Close(); err != nil {
		t.Fatal(err)
	}
	within := filepath.Dir(path)
	folder, linked := filepath.Join(within, "papers"), filepath.Join(within, "linked.keeperbook")
	if err := errors.Join(os.Mkdir(folder, 0o755), os.Link(path, linked)); err != nil {
		t.Fatal(err)
	}
	before := names(t, within)
	for _, from := range []string{path, linked} {
		var e *say.Error
		if _, err := backup.Restore(ctx, path, from, noon); !errors.As(err, &e) || e.Line.Key != "copies.same-file" {
			t.Errorf("%s from itself: %v", from, err)
		}
	}
	var e *say.Error
	if _, err := backup.Restore(ctx, folder, c.Path, noon); !errors.As(err, &e) || e.Line.Key != "copies.no-book" {
		t.Errorf("a folder: %v", err)
	}
	if after := names(t, within); !slices.Equal(after, before) {
		t.Errorf("there are %q, before there were %q", after, before)
	}
}

func names(t *testing.T, folder string) (all []string) {
	t.Helper()
	found, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range found {
		all = append(all, f.Name())
	}
	return all
}
