package task

import (
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"keeperbook/app/internal/files"
	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/store"
)

// FirstSetup is the identifier of the set-up that the first lesson is about.
const FirstSetup = "setup-first"

// FirstBook writes the book of the first lesson into a folder, where it is not there yet, and returns its path: one head of two
// valves, its parts and needs known, and next to nothing measured.
func FirstBook(ctx context.Context, folder string, data fs.FS, clock func() time.Time) (string, error) {
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return "", files.Fault(folder, err)
	}
	path := filepath.Join(folder, "first-head"+BookEnding)
	if _, err := os.Stat(path); err == nil {
		return path, nil
	}
	// It gets its name once it is whole.
	aside, err := os.MkdirTemp(folder, ".keeperbook-*")
	if err != nil {
		return "", files.Fault(folder, err)
	}
	defer os.RemoveAll(aside)
	unnamed := filepath.Join(aside, filepath.Base(path))
	book, err := store.Create(ctx, unnamed, store.Options{Clock: func() record.Stamp { return StampOf(clock()) }})
	if err != nil {
		return "", err
	}
	err = (&Desk{Book: book, Who: "demonstration", Clock: clock}).fillFirst(ctx, data)
	if shut := book.Close(); err == nil {
		err = shut
	}
	if err != nil {
		return "", err
	}
	if err := os.Rename(unnamed, path); err != nil {
		return "", files.Fault(path, err)
	}
	return path, nil
}

func (d *Desk) fillFirst(ctx context.Context, data fs.FS) error {
	described, err := fs.ReadFile(data, "first.json")
	if err != nil {
		return err
	}
	readings, err := fs.ReadFile(data, "first.csv")
	if err != nil {
		return err
	}
	if _, err := d.TakeIn(ctx, described); err != nil {
		return err
	}
	_, err = d.ReadIn(ctx, readings)
	return err
}

// step is one of the lesson's, done where what it asks for stands in the record.
type step struct {
	key  string
	done func(b *Bench) bool
}

var steps = []step{
	{"base-in", hasRead(record.Intake, record.BaseHeight)},
	{"base-ex", hasRead(record.Exhaust, record.BaseHeight)},
	{"shims", func(b *Bench) bool { return stacked(b, record.Intake) && stacked(b, record.Exhaust) }},
	{"lift", func(b *Bench) bool {
		return hasRead(record.Intake, record.LiftChecking)(b) && hasRead(record.Exhaust, record.LiftChecking)(b)
	}},
	{"mend", func(b *Bench) bool {
		for _, v := range b.ev.Valves {
			if v.Verdict == evaluate.Short || v.Verdict == evaluate.Binds {
				return false
			}
		}
		return true
	}},
}

func hasRead(role record.Role, kind record.Kind) func(*Bench) bool {
	return func(b *Bench) bool {
		for _, r := range b.rec.Setup.Readings {
			if r.At.Role == role && r.Kind == kind && r.Struck == nil {
				return true
			}
		}
		return false
	}
}

func stacked(b *Bench, role record.Role) bool {
	return b.rec.ValveAt(record.Position{Cylinder: "1", Role: role, N: 1}).StackSaid()
}

// Lesson says what comes next on the head of the first lesson, and whether that is all. It goes by what stands in the record, so
// that it can be left and gone on with, and nothing has to be done in one way.
func (b *Bench) Lesson() (line say.Line, over bool) {
	for i, s := range steps {
		if !s.done(b) {
			return say.New("lesson.step", i+1, len(steps), say.New("lesson."+s.key)), false
		}
	}
	return say.New("lesson.over"), true
}
