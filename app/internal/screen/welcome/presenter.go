// Package welcome is the page that stands where no book is open: a new book, one that is there, the
// demonstration book, or one of those that were open before.
package welcome

import (
	"path/filepath"
	"strings"
	"unicode"
)

// Door is what the page asks of the window.
type Door interface {
	NewBook()
	OpenBook()
	DemoBook()
	FirstHead()
	Reopen(path string) // one that was open before
}

// Book is one of the books that were open before.
type Book struct {
	Key    rune // 1 to 8
	Name   string
	Folder string
	Path   string
}

// Presenter is the page.
type Presenter struct {
	door  Door
	books []Book
}

// NewPresenter returns the page with the books that were open before, the last one first.
func NewPresenter(door Door, recent []string) *Presenter {
	p := &Presenter{door: door}
	for i, path := range recent {
		if i == 9 {
			break
		}
		p.books = append(p.books, Book{
			Key: rune('1' + i), Name: strings.TrimSuffix(filepath.Base(path), filepath.Ext(path)), Folder: filepath.Dir(path), Path: path,
		})
	}
	return p
}

// Books returns the books that were open before.
func (p *Presenter) Books() []Book { return p.books }

// Type does what a key stands for, and says whether it stands for anything.
func (p *Presenter) Type(key rune) bool {
	switch unicode.ToLower(key) {
	case 'n':
		p.door.NewBook()
	case 'o':
		p.door.OpenBook()
	case 'd':
		p.door.DemoBook()
	case 'f':
		p.door.FirstHead()
	default:
		for _, b := range p.books {
			if b.Key == key {
				p.door.Reopen(b.Path)
				return true
			}
		}
		return false
	}
	return true
}
