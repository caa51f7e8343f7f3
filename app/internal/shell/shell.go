// Package shell is the window: the frame around the screens, what is open in it, and what it remembers
// from one day to the next.
//
// The frame knows no leaf of a head. It is given them by a factory, shows them as tabs with the count of
// what is open in each, and passes on to them what happens: another set-up, a change, a key.
package shell

import (
	"io/fs"
	"time"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/signer"
	"keeperbook/app/internal/task"
)

// Tab is one leaf of an open head.
type Tab struct {
	Key   string // needs, parts, valves, sheet: what Host.Show is called with
	Title string
	Leaf  kit.Leaf
}

// Leaves makes the leaves of a set-up that was opened, in the order of their tabs. It is called again
// for every set-up.
type Leaves func(s *Shell, desk *task.Desk, bench *task.Bench) []Tab

// Placed is a leaf that knows where in it work goes on, so that the next day begins there.
type Placed interface {
	Place() string     // "3/ex/1 base", or whatever the leaf understands again
	GoTo(place string) // a place that is not there any more is passed over
}

// sized is a leaf that can be drawn for reading at arm's length.
type sized interface {
	Large() bool
	SetLarge(on bool)
}

// working is a leaf that runs what takes longer than a key press.
type working interface {
	Work(background func(work func()))
}

// Config is what the window needs from outside.
type Config struct {
	Book    string // to open first; "" for the one that was open last
	Who     string // is at the keyboard
	Clock   func() time.Time
	Folder  func() (string, error) // for a user's data
	Demo    fs.FS                  // what the demonstration book is made of
	Help    fs.FS                  // pages about the words of the book; nil where there are none
	Leaves  Leaves
	Shop    Shop    // nil where there are no pages of the shop
	Memory  *Memory // nil for one that lasts as long as the window
	Version string
	// Language is the tag of the system's; where nobody chose another one, and the program speaks it, the window is in it.
	Language string
	Signers  signer.Ring // of this machine
	// History makes the page of what became of a set-up, Due that of what falls due in a book, Copies that of its copies, Check that of a signed sheet; desk
	// is nil where no book is open. Nil where there is none.
	History func(host kit.Host, bench *task.Bench, background func(work func())) Pages
	Due     func(s *Shell, desk *task.Desk, background func(work func())) Pages
	Copies  func(s *Shell, desk *task.Desk, background func(work func())) Pages
	Check   func(s *Shell, desk *task.Desk, reading bool, path string, background func(work func())) Pages
	Table   func(host kit.Host, table *task.TableIn, background func(work func())) Pages // the page of a table that is about to be taken in
	Ready   func()                                                                       // called once the first frame stands; may be nil
	// Broken is the note of a fault that ended the program the last time, and that nobody was told of; "" where there is none.
	Broken string
	// Elsewhere reports whether a path lies on a disk of another machine; nil: asks the system.
	Elsewhere func(path string) bool

	View func(path string) error // opens a file in the system's program for it; nil: asks the system

	LongCopy int64 // a book of as many bytes is copied beside the window as it closes; 0: as many as take longer than a blink
	// Background runs what takes longer than a key press; nil: on a goroutine of its own, whose faults come to the window's.
	Background func(work func())
}
