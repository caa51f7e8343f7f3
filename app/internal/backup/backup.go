// Package backup keeps copies of a book beside it, and puts one back in its place.
//
// Each copy was looked through before it got its name, so that every file in the folder is a whole book. Copies go when newer
// ones stand for their hour, their day and their month; the newest never does.
package backup

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"keeperbook/app/internal/files"
	"keeperbook/model/say"
	"keeperbook/store"
)

const (
	ending = ".keeperbook"
	stamp  = "20060102T150405Z" // of the names, in universal time
)

// Folder is where the copies of a book lie: beside it, named after it.
func Folder(book string) string {
	return strings.TrimSuffix(book, filepath.Ext(book)) + "-copies"
}

// Copy is one copy of a book.
type Copy struct {
	Path string
	At   time.Time
}

// List returns the copies of a book in a folder, the newest first; none where there is no folder. Files of other names are left
// alone.
func List(folder, book string) ([]Copy, error) {
	found, err := os.ReadDir(folder)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, files.Fault(folder, err)
	}
	var all []Copy
	for _, f := range found {
		name, ok := strings.CutPrefix(f.Name(), stem(book)+" ")
		name, ok2 := strings.CutSuffix(name, ending)
		at, err := time.Parse(stamp, name)
		if ok && ok2 && err == nil && f.Type().IsRegular() {
			all = append(all, Copy{filepath.Join(folder, f.Name()), at})
		}
	}
	slices.SortFunc(all, func(a, b Copy) int { return b.At.Compare(a.At) })
	return all, nil
}

func stem(book string) string {
	return strings.TrimSuffix(filepath.Base(book), filepath.Ext(book))
}

// Take copies a book as it is now into a folder, which is made where it is missing, and takes away the copies that newer ones
// stand for. It returns the copy. One of the same second is that one.
func Take(ctx context.Context, book *store.Book, folder string, now time.Time) (Copy, error) {
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return Copy{}, files.Fault(folder, err)
	}
	c := Copy{filepath.Join(folder, stem(book.Path())+" "+now.UTC().Format(stamp)+ending), now.UTC().Truncate(time.Second)}
	if err := book.Copy(ctx, c.Path); err != nil {
		if _, there := os.Stat(c.Path); say.CodeOf(err) != say.Conflict || there != nil {
			return Copy{}, err
		}
	}
	return c, prune(folder, book.Path())
}

// prune takes copies away that newer ones stand for.
func prune(folder, book string) error {
	all, err := List(folder, book)
	if err != nil {
		return err
	}
	times := make([]time.Time, len(all))
	for i, c := range all {
		times[i] = c.At
	}
	if err := leftOver(folder); err != nil {
		return err
	}
	for _, i := range Spare(times) {
		if err := os.Remove(all[i].Path); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return files.Fault(all[i].Path, err)
		}
	}
	return nil
}

// leftOver takes away what a program left that was killed while it copied: folders without a use, a day old at least.
func leftOver(folder string) error {
	found, err := os.ReadDir(folder)
	if err != nil {
		return files.Fault(folder, err)
	}
	for _, f := range found {
		info, err := f.Info()
		if err != nil || !f.IsDir() || !strings.HasPrefix(f.Name(), ".keeperbook-") || time.Since(info.ModTime()) < 24*time.Hour {
			continue
		}
		if err := os.RemoveAll(filepath.Join(folder, f.Name())); err != nil {
			return files.Fault(folder, err)
		}
	}
	return nil
}

// How many hours, days and months keep a copy: those that have one, not those that went by, so that a book that lies still
// keeps what it has.
const (
	hourly  = 24
	daily   = 14
	monthly = 12
)

// Spare returns which of some copies, the newest first, are not needed any more: the newest of each hour, day and month stays.
func Spare(newestFirst []time.Time) (spare []int) {
	keep := map[int]bool{0: true}
	for _, kind := range []struct {
		form string
		most int
	}{{"2006-01-02T15", hourly}, {"2006-01-02", daily}, {"2006-01", monthly}} {
		seen := map[string]bool{}
		for i, t := range newestFirst {
			in := t.UTC().Format(kind.form)
			if !seen[in] && len(seen) < kind.most {
				seen[in], keep[i] = true, true
			}
		}
	}
	for i := range newestFirst {
		if !keep[i] {
			spare = append(spare, i)
		}
	}
	return spare
}

// Due reports whether a book is to be copied: something was kept in it since its newest copy, and that is older than some time;
// 0 is any age.
func Due(ctx context.Context, book *store.Book, folder string, now time.Time, age time.Duration) (bool, error) {
	all, err := List(folder, book.Path())
	if err != nil {
		return false, err
	}
	seq, err := book.Seq(ctx)
	if err != nil || seq == 0 {
		return false, err
	}
	if len(all) == 0 {
		return true, nil
	}
	if age > 0 && now.Sub(all[0].At) < age && now.After(all[0].At) {
		return false, nil
	}
	s, err := store.Summarize(ctx, all[0].Path)
	// A copy that cannot be read is none.
	return err != nil || s.Seq != seq, nil
}
