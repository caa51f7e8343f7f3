package shell

import (
	"context"
	"path/filepath"
	"time"

	"keeperbook/app/internal/signer"
	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Presenter knows which book, head and set-up are open. It belongs to the window's goroutine.
type Presenter struct {
	ctx     context.Context
	who     string
	clock   func() time.Time
	memory  *Memory
	desk    *task.Desk
	bench   *task.Bench
	reading bool // the book is open for reading only
	folded  bool // the register is folded to a strip
	signers signer.Ring
	held    *signer.Held // the key that stays open for a while

	bare     bool  // the open book is closed without a copy
	uncopied error // why the book that was closed last was not copied
}

// NewPresenter returns a window with nothing open.
func NewPresenter(ctx context.Context, who string, clock func() time.Time, m *Memory) *Presenter {
	return &Presenter{ctx: ctx, who: who, clock: clock, memory: m}
}

// Signers gives the window the signers of this machine.
func (p *Presenter) Signers(ring signer.Ring) {
	p.signers, p.held = ring, &signer.Held{Clock: p.clock}
}

// Desk returns the open book, nil where there is none.
func (p *Presenter) Desk() *task.Desk { return p.desk }

// Bench returns the open set-up, nil where there is none.
func (p *Presenter) Bench() *task.Bench { return p.bench }

// ReadingOnly reports whether the open book takes no entries.
func (p *Presenter) ReadingOnly() bool { return p.reading }

// Folded reports whether the register is a strip. It never is while no head is open.
func (p *Presenter) Folded() bool { return p.folded && p.bench != nil }

// Fold folds the register or opens it again.
func (p *Presenter) Fold(folded bool) { p.folded = folded }

// Recent returns the books that were open before, the last one first.
func (p *Presenter) Recent() []string { return p.memory.Books() }

// LastBook returns the book that was open last, "" where none was.
func (p *Presenter) LastBook() string { return p.memory.Last() }

// OpenBook opens a book to work in it. The book that was open before is closed only then.
func (p *Presenter) OpenBook(path string) error {
	// To open it twice would be refused as if somebody else had it.
	if p.desk != nil && !p.reading && samePath(p.desk.Path(), path) {
		return nil
	}
	return p.take(path, false, func(path string) (*task.Desk, error) {
		return task.OpenBook(p.ctx, path, p.who, p.clock)
	})
}

// ReadBook opens a book to read in it.
func (p *Presenter) ReadBook(path string) error {
	return p.take(path, true, func(path string) (*task.Desk, error) {
		return task.ReadBook(p.ctx, path, p.who, p.clock)
	})
}

// MakeBook makes a new book and opens it.
func (p *Presenter) MakeBook(path string) error {
	return p.take(path, false, func(path string) (*task.Desk, error) {
		return task.MakeBook(p.ctx, path, p.who, p.clock)
	})
}

func (p *Presenter) take(path string, reading bool, open func(string) (*task.Desk, error)) error {
	if abs, err := filepath.Abs(path); err == nil {
		path = abs
	}
	desk, err := open(path)
	if err != nil {
		if say.CodeOf(err) == say.NotFound {
			p.memory.Forget(path)
		}
		return err
	}
	shut := p.CloseBook()
	desk.Signers, desk.Held, desk.Second = p.signers, p.held, p.memory.Look().Copies
	p.desk, p.reading, p.folded = desk, reading, false
	p.memory.Work(p.here())
	return shut
}

func samePath(a, b string) bool {
	abs, err := filepath.Abs(b)
	return err == nil && a == abs
}

// CloseBook closes the open book, if there is one. Everything in it is on the disk before.
func (p *Presenter) CloseBook() error {
	if p.desk == nil {
		return nil
	}
	if !p.reading && !p.bare {
		_, p.uncopied = p.desk.BackUp(p.ctx, 0)
	}
	err := p.desk.Close()
	if p.held != nil {
		p.held.Forget()
	}
	p.desk, p.bench, p.reading, p.bare = nil, nil, false, false
	return err
}

// CopyWhenClosed says whether the open book is copied as it closes, which it is unless somebody wants otherwise.
func (p *Presenter) CopyWhenClosed(copied bool) { p.bare = !copied }

// Uncopied returns, once, why the book that was closed last was not copied; nil where it was, or nothing was kept in it.
func (p *Presenter) Uncopied() error {
	err := p.uncopied
	p.uncopied = nil
	return err
}

// LeaveBook closes the open book for good: the next start begins with the welcome page.
func (p *Presenter) LeaveBook() error {
	p.memory.Leave()
	return p.CloseBook()
}

// OpenSetup opens a set-up of the book and folds the register.
func (p *Presenter) OpenSetup(id string) error {
	bench, err := p.desk.OpenBench(p.ctx, id)
	if err != nil {
		return err
	}
	p.bench, p.folded = bench, true
	at := p.here()
	if at.Setup != id {
		at.Setup, at.Cell = id, ""
	}
	p.memory.Work(at)
	return nil
}

// Reread reads the open set-up anew, where something may have been kept in it past its bench. It stays printed in the language that was chosen
// for it.
func (p *Presenter) Reread() error {
	if p.bench == nil {
		return nil
	}
	bench, err := p.desk.OpenBench(p.ctx, p.bench.Record().Setup.ID)
	if err != nil {
		return err
	}
	bench.PrintLike(p.bench)
	p.bench = bench
	return nil
}

// Resume opens the set-up that was open last in this book, and says whether there was one.
func (p *Presenter) Resume() bool {
	if p.desk == nil {
		return false
	}
	id := p.here().Setup
	return id != "" && p.OpenSetup(id) == nil
}

// here is where work goes on in the open book, as it is remembered.
func (p *Presenter) here() Place { return p.memory.In(p.desk.Path()) }

// Begin keeps a new head and opens its first set-up.
func (p *Presenter) Begin(n task.NewHead) error {
	id, err := p.desk.Begin(p.ctx, n)
	if err != nil {
		return err
	}
	return p.OpenSetup(id)
}

// Follow begins a set-up from the open one, with its parts and none of its readings, and opens it.
func (p *Presenter) Follow(kind record.SetupKind) error {
	id, err := p.desk.Follow(p.ctx, p.bench.Record().Setup.ID, kind)
	if err != nil {
		return err
	}
	return p.OpenSetup(id)
}

// Setups returns the set-ups of the open head, the newest first, and which of them is open.
func (p *Presenter) Setups() (setups []record.Setup, open int, err error) {
	all, err := p.desk.Setups(p.ctx, p.bench.Record().Head.ID)
	if err != nil {
		return nil, 0, err
	}
	for i := len(all) - 1; i >= 0; i-- {
		if all[i].ID == p.bench.Record().Setup.ID {
			open = len(setups)
		}
		setups = append(setups, all[i])
	}
	return setups, open, nil
}

// SaveCopy writes a copy of the open book, and returns where.
func (p *Presenter) SaveCopy(path string) (string, error) {
	return p.desk.SaveCopy(p.ctx, path)
}

// Leaf returns the leaf that was shown last, and where in it work went on.
func (p *Presenter) Leaf() (key, place string) {
	at := p.here()
	return at.Leaf, at.Cell
}

// Leave remembers the leaf that is shown and where in it work goes on.
func (p *Presenter) Leave(key, place string) {
	at := p.here()
	at.Leaf, at.Cell = key, place
	p.memory.Work(at)
}

// Title returns what the window is called.
func (p *Presenter) Title() say.Line {
	switch {
	case p.desk == nil:
		return say.New("shell.title")
	case p.reading:
		return say.New("shell.title-reading", filepath.Base(p.desk.Path()))
	}
	return say.New("shell.title-book", filepath.Base(p.desk.Path()))
}

// Heading is what stands above the leaves of the open head.
type Heading struct {
	Tag   string
	Whose []string // engine, owner, work order: what there is of them
	Setup say.Line // "as built, begun 2026-05-12"
}

// Heading returns the heading of the open head.
func (p *Presenter) Heading() Heading {
	r := p.bench.Record()
	h := Heading{Tag: r.Head.Tag, Setup: SetupLine(r.Setup)}
	owner := ""
	if r.Owner != nil {
		owner = r.Owner.Name
	}
	for _, text := range []string{r.Engine.Name, owner, r.Head.WorkOrder} {
		// An engine that nobody named is called as its head is.
		if text != "" && text != r.Head.Tag {
			h.Whose = append(h.Whose, text)
		}
	}
	return h
}

// SetupLine names a set-up in a list or a heading.
func SetupLine(s record.Setup) say.Line {
	key := "shell.setup-open"
	if s.State == record.Closed {
		key = "shell.setup-closed"
	}
	return say.New(key, say.New("setup."+string(s.Kind)), s.Begun.Day())
}

// Bottom is what the bottom line says of the open head.
type Bottom struct {
	Summary string
	Next    string // "4 ex, base height"; empty where nothing is missing
}

// Bottom returns the bottom line; empty where no head is open.
func (p *Presenter) Bottom() Bottom {
	if p.bench == nil {
		return Bottom{}
	}
	ev, words := p.bench.Evaluation(), p.bench.Words()
	return Bottom{Summary: words.Line(ev.Summary), Next: words.Line(ev.NextLine())}
}
