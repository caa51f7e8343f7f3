package shell

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"unicode/utf8"
)

// Paths helps somebody type where a file lies: it lists what a begun path can go on with.
type Paths struct {
	text   string
	ending string   // of the files that are looked for
	found  []string // folders with a slash behind them, then files
	cursor int      // into found, −1 where none is chosen
}

// NewPaths returns the help for a path that begins so, of a file with an ending.
func NewPaths(text, ending string) *Paths {
	p := &Paths{ending: ending}
	p.Type(text)
	return p
}

// Type takes what stands in the field now.
func (p *Paths) Type(text string) {
	p.text, p.found, p.cursor = text, nil, -1
	folder, begun := filepath.Split(home(text))
	if folder == "" {
		folder = "."
	}
	if len(begun) > len(text) {
		return // "~" alone, which only a slash makes a folder of
	}
	entries, err := os.ReadDir(folder)
	if err != nil {
		return // a folder that cannot be read has nothing to go on with; opening says why
	}
	var books []string
	for _, e := range entries {
		name := e.Name()
		if !strings.HasPrefix(strings.ToLower(name), strings.ToLower(begun)) || name[0] == '.' && !strings.HasPrefix(begun, ".") {
			continue
		}
		kind := e.Type()
		if kind&os.ModeSymlink != 0 {
			if to, err := os.Stat(filepath.Join(folder, name)); err == nil {
				kind = to.Mode()
			}
		}
		switch path := p.as(text, begun) + name; {
		case kind.IsDir():
			p.found = append(p.found, path+string(filepath.Separator))
		case filepath.Ext(name) == p.ending:
			books = append(books, path)
		}
	}
	slices.Sort(p.found)
	slices.Sort(books)
	p.found = append(p.found, books...)
}

// as returns the text without the name that it begins, so that what is found is written as it was typed.
func (p *Paths) as(text, begun string) string { return text[:len(text)-len(begun)] }

// Found returns what the path can go on with.
func (p *Paths) Found() []string { return p.found }

// Cursor returns which of them is chosen, −1 where none is.
func (p *Paths) Cursor() int { return p.cursor }

// Move chooses the one so many lines further down, or up.
func (p *Paths) Move(by int) {
	if len(p.found) > 0 {
		p.cursor = min(max(p.cursor+by, 0), len(p.found)-1)
	}
}

// Complete returns the text as far as everything found agrees with it, or the chosen one whole.
func (p *Paths) Complete() string {
	if p.cursor >= 0 {
		return p.found[p.cursor]
	}
	if len(p.found) == 0 {
		return p.text
	}
	common := p.found[0]
	for _, f := range p.found[1:] {
		for !strings.HasPrefix(strings.ToLower(f), strings.ToLower(common)) {
			_, size := utf8.DecodeLastRuneInString(common)
			common = common[:len(common)-size]
		}
	}
	if len(common) < len(p.text) {
		return p.text
	}
	return common
}

// Folder reports whether the chosen one is a folder, which is gone into and not taken.
func (p *Paths) Folder() bool {
	return p.cursor >= 0 && strings.HasSuffix(p.found[p.cursor], string(filepath.Separator))
}

// Path returns the path that is meant: the chosen one, or the text.
func (p *Paths) Path() string {
	if p.cursor >= 0 {
		return home(p.found[p.cursor])
	}
	return home(strings.TrimSpace(p.text))
}

// home writes out the sign for the user's own folder.
func home(text string) string {
	rest, ok := strings.CutPrefix(text, "~")
	if !ok || rest != "" && rest[0] != '/' && rest[0] != filepath.Separator {
		return text
	}
	folder, err := os.UserHomeDir()
	if err != nil {
		return text
	}
	return folder + rest
}
