package task

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"keeperbook/app/internal/files"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/pdf"
	"keeperbook/pdf/seal"
	"keeperbook/store"
)

// demonstration is what the demonstration book is made of, in the order it was entered: a described
// set-up as a record without readings, and its readings as a table. The studies of its gauges are in
// no record and lie beside them.
var demonstration = []string{"six-found", "six-built", "four-built", "launch-found", "launch-built", "racer-built"}

// Demo writes the demonstration book and, beside it, a sheet of each of its set-ups. It returns the
// paths, the book's first. An existing book is left alone (say.Conflict), and a failure leaves nothing
// behind: everything is made in a folder of its own and moved into place at the end.
func Demo(ctx context.Context, path string, data fs.FS, clock func() time.Time) ([]string, error) {
	if _, err := os.Lstat(path); err == nil {
		return nil, say.Fail(say.Conflict, "store.exists", path)
	} else if !errors.Is(err, fs.ErrNotExist) {
		return nil, files.Fault(path, err)
	}
	folder, err := os.MkdirTemp(filepath.Dir(path), ".keeperbook-*")
	if err != nil {
		return nil, files.Fault(path, err)
	}
	defer os.RemoveAll(folder)
	name := filepath.Base(path)
	if err := writeDemo(ctx, filepath.Join(folder, name), data, clock); err != nil {
		return nil, err
	}
	made, err := os.ReadDir(folder)
	if err != nil {
		return nil, files.Fault(path, err)
	}
	paths := []string{path}
	for _, f := range made {
		to := filepath.Join(filepath.Dir(path), f.Name())
		if err := os.Rename(filepath.Join(folder, f.Name()), to); err != nil {
			return nil, files.Fault(to, err)
		}
		if to != path {
			paths = append(paths, to)
		}
	}
	return paths, nil
}

func writeDemo(ctx context.Context, path string, data fs.FS, clock func() time.Time) error {
	book, err := store.Create(ctx, path, store.Options{Clock: func() record.Stamp { return StampOf(clock()) }})
	if err != nil {
		return err
	}
	err = fillDemo(ctx, &Desk{Book: book, Who: "demonstration", Clock: clock}, data)
	if shut := book.Close(); err == nil {
		err = shut
	}
	return err
}

func fillDemo(ctx context.Context, d *Desk, data fs.FS) error {
	for _, name := range demonstration {
		described, err := fs.ReadFile(data, name+".json")
		if err != nil {
			return err
		}
		readings, err := fs.ReadFile(data, name+".csv")
		if err != nil {
			return err
		}
		taken, err := d.TakeIn(ctx, described)
		if err != nil {
			return err
		}
		if _, err := d.ReadIn(ctx, readings); err != nil {
			return err
		}
		if name == demoSigned {
			if err := d.demoSign(ctx, data, taken.Setup); err != nil {
				return err
			}
		}
		sheet, err := Sheet(ctx, d.Book, taken.Setup, pdf.A4)
		if err != nil {
			return err
		}
		rec, err := d.Book.Record(ctx, taken.Setup)
		if err != nil {
			return err
		}
		stem := strings.TrimSuffix(d.Book.Path(), filepath.Ext(d.Book.Path()))
		if err := files.Write(stem+"-"+rec.Head.Tag+"-"+string(rec.Setup.Kind)+".pdf", sheet); err != nil {
			return err
		}
	}
	if err := d.demoStudies(ctx, data); err != nil {
		return err
	}
	return d.demoLife(ctx, data)
}

// demoLife enters what a head of the demonstration ran, and the checks of its springs.
func (d *Desk) demoLife(ctx context.Context, data fs.FS) error {
	for _, table := range []struct {
		name string
		in   func(context.Context, []byte) (int, error)
	}{{"runs.csv", d.RunsIn}, {"checks.csv", d.ChecksIn}} {
		text, err := fs.ReadFile(data, table.name)
		if err != nil {
			return err
		}
		if _, err := table.in(ctx, text); err != nil {
			return err
		}
	}
	return nil
}

// demoSigned is the set-up of the demonstration that is signed, at the end of its day, with a place left for a second
// signature.
const demoSigned = "launch-found"

// demoSecret opens the demonstration's key, which is known to everybody and proves nothing: its passphrase is stirred once.
const demoSecret = "demonstration"

// demoSign signs a set-up as the demonstration's signer.
func (d *Desk) demoSign(ctx context.Context, data fs.FS, setup string) error {
	locked, err := fs.ReadFile(data, "signer.p12")
	if err != nil {
		return err
	}
	key, err := seal.OpenKey(locked, demoSecret)
	if err != nil {
		return err
	}
	drawn, err := fs.ReadFile(data, "hand.json")
	if err != nil {
		return err
	}
	if err := json.Unmarshal(drawn, &key.Ink); err != nil {
		return fmt.Errorf("hand of the demonstration's signer: %w", err)
	}
	_, err = d.Sign(ctx, setup, Signature{
		Key: key, Name: "M. Ashlock", Role: "head porter", When: time.Date(2026, 5, 11, 18, 0, 0, 0, time.UTC), Paper: pdf.A4, Second: true,
	}, nil)
	return err
}

func (d *Desk) demoStudies(ctx context.Context, data fs.FS) error {
	text, err := fs.ReadFile(data, "studies.json")
	if err != nil {
		return err
	}
	dec := json.NewDecoder(bytes.NewReader(text))
	dec.DisallowUnknownFields()
	var studies []record.Study
	if err := dec.Decode(&studies); err != nil {
		return fmt.Errorf("studies of the demonstration: %w", err)
	}
	edits := make([]record.Edit, len(studies))
	for i, s := range studies {
		edits[i] = record.Put("", s)
	}
	return d.keep(ctx, "", edits)
}
