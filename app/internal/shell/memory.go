package shell

import "slices"

// Memory is what stays from one day to the next, outside of any book: which books were open and where in
// them work went on, and how everything is shown. Nothing of what was measured is in it.
//
// It belongs to the window's goroutine, as far as it is asked; what it keeps on the disk it writes on its
// own, so that no key waits for it.
type Memory struct {
	is   remembered
	file *memoryFile // nil where nothing is kept beyond the run
}

// remembered is the memory as it stands in the file.
type remembered struct {
	Open  string  `json:"open,omitempty"`  // the book that the next start opens
	Books []Place `json:"books,omitempty"` // the one worked in last comes first
	Look
}

// Place is where work goes on in a book.
type Place struct {
	Book  string `json:"book"`            // its path
	Setup string `json:"setup,omitempty"` // identifier of the set-up that is open; empty for none
	Leaf  string `json:"leaf,omitempty"`
	Cell  string `json:"cell,omitempty"` // "3/ex/1 base", or whatever the leaf understands again
}

// Look is how everything is shown and heard.
type Look struct {
	Dark   bool    `json:"dark,omitempty"`
	Large  bool    `json:"large,omitempty"`  // tables are drawn for reading at arm's length
	Silent bool    `json:"silent,omitempty"` // sounds are on until somebody switches them off
	Scale  float64 `json:"scale,omitempty"`  // as a part of the usual size
	Width  float64 `json:"width,omitempty"`  // of the window in toolkit units; 0 where it was never open
	Height float64 `json:"height,omitempty"`
	Speaks string  `json:"speaks,omitempty"` // tag of the language; "" for that of the system
	Copies string  `json:"copies,omitempty"` // a second folder for copies of books
}

// mostRecent is how many books are in the list of the welcome page.
const mostRecent = 8

// The sizes that everything may be shown in, as parts of the usual one.
var scales = [...]float64{0.8, 0.9, 1, 1.1, 1.25, 1.5, 1.75, 2}

// Books returns the paths of the books that were open before, the last one first.
func (m *Memory) Books() []string {
	var paths []string
	for _, p := range m.is.Books {
		paths = append(paths, p.Book)
	}
	return paths
}

// Last returns the path of the book that the next start opens, "" for none.
func (m *Memory) Last() string { return m.is.Open }

// In returns where work goes on in a book; nothing is known of one that was never open.
func (m *Memory) In(book string) Place {
	for _, p := range m.is.Books {
		if p.Book == book {
			return p
		}
	}
	return Place{Book: book}
}

// Work remembers where work goes on, in a book that is now the one worked in last.
func (m *Memory) Work(at Place) {
	if m.is.Open == at.Book && m.In(at.Book) == at {
		return // each key asks for this
	}
	m.change(func(r *remembered) {
		r.without(at.Book)
		r.Books = append([]Place{at}, r.Books...)
		r.Books = r.Books[:min(len(r.Books), mostRecent)]
		r.Open = at.Book
	})
}

// Leave remembers that the open book was closed: the next start begins with the welcome page.
func (m *Memory) Leave() { m.change(func(r *remembered) { r.Open = "" }) }

// Forget takes a book out of the memory: it is not there any more.
func (m *Memory) Forget(book string) {
	m.change(func(r *remembered) {
		r.without(book)
		if r.Open == book {
			r.Open = ""
		}
	})
}

// without takes a book out of the list.
func (r *remembered) without(book string) {
	r.Books = slices.DeleteFunc(slices.Clone(r.Books), func(p Place) bool { return p.Book == book })
}

// Look returns how everything is shown.
func (m *Memory) Look() Look { return m.is.Look }

// Show changes how everything is shown. Change is called again when the file is written, on another
// goroutine, and so is made of values alone.
func (m *Memory) Show(change func(*Look)) {
	after := m.is.Look
	if change(&after); after != m.is.Look {
		m.change(func(r *remembered) { change(&r.Look) })
	}
}

// change changes the memory, and the file behind it a moment later.
func (m *Memory) change(what func(*remembered)) {
	what(&m.is)
	if m.file != nil {
		m.file.change(what)
	}
}

// sound puts right what only a broken or strange file can say.
func (r *remembered) sound() {
	r.Books = slices.DeleteFunc(r.Books, func(p Place) bool { return p.Book == "" })
	r.Books = r.Books[:min(len(r.Books), mostRecent)]
	if r.Scale < scales[0] || r.Scale > scales[len(scales)-1] {
		r.Scale = 1
	}
	// No screen has room for a window larger than this, and nobody can use a smaller one.
	if r.Width < 300 || r.Height < 200 || r.Width > 20000 || r.Height > 20000 {
		r.Width, r.Height = 0, 0
	}
}

// step returns the next larger (+1) or smaller (−1) scale, and the same one at the end.
func (l Look) step(by int) float64 {
	i, found := slices.BinarySearch(scales[:], l.Scale)
	if by < 0 || found {
		i += by
	}
	return scales[min(max(i, 0), len(scales)-1)]
}
