package shell

import (
	"io/fs"
	"regexp"
	"slices"
	"strings"

	"keeperbook/model/say"
)

// Word is a page about a word of the book.
type Word struct {
	Key   string // the name of its file without the ending: base, shims
	Title string
	Text  string // Markdown below the title
}

// listed finds the pages in the list of pages.
var listed = regexp.MustCompile(`\]\((\w[\w-]*)\.md\)`)

// typedSo finds what stands letter for letter in Markdown.
var typedSo = regexp.MustCompile("`([^`]+)`")

// HelpIn is the help of a language: what stands in the folder of its tag, else the English pages.
func HelpIn(help fs.FS, language string) fs.FS {
	if _, err := fs.Stat(help, language+"/README.md"); err == nil {
		if pages, err := fs.Sub(help, language); err == nil {
			return pages
		}
	}
	return help
}

// Words reads the pages of help in the order of their list, with the quotes of the chosen language.
func Words(help fs.FS) (all []Word, err error) {
	list, err := fs.ReadFile(help, "README.md")
	if err != nil {
		return nil, err
	}
	for _, m := range listed.FindAllStringSubmatch(string(list), -1) {
		page, err := fs.ReadFile(help, m[1]+".md")
		if err != nil {
			return nil, err
		}
		title, text, _ := strings.Cut(string(page), "\n")
		// What is typed or shown letter for letter is quoted: the toolkit would break the line behind it.
		text = typedSo.ReplaceAllString(strings.TrimSpace(text), say.Chosen().Line(say.New("shell.guide-quoted", "$1")))
		all = append(all, Word{m[1], strings.TrimPrefix(title, "# "), text})
	}
	return all, nil
}

// Deed is something that can be done now.
type Deed struct {
	Name string // as it stands in the menu, with its keys
	Menu string // that it stands in
	Do   func()
}

// Guide finds what can be done and what words mean.
type Guide struct {
	words  []Word
	deeds  []Deed
	asked  string
	found  []Found
	cursor int
}

// Found is one line of what was found: a deed, or else a word.
type Found struct {
	Deed *Deed
	Word *Word
}

// NewGuide returns a guide with everything in it.
func NewGuide(words []Word, deeds []Deed) *Guide {
	g := &Guide{words: words, deeds: deeds}
	g.Ask("")
	return g
}

// Ask looks for what somebody types: everything that has all of it in its name, then pages that have it in their text.
func (g *Guide) Ask(text string) {
	g.asked, g.found, g.cursor = text, nil, 0
	parts := strings.Fields(strings.ToLower(text))
	in := func(where string) bool {
		where = strings.ToLower(where)
		return !slices.ContainsFunc(parts, func(part string) bool { return !strings.Contains(where, part) })
	}
	for i := range g.words {
		if in(g.words[i].Title) {
			g.found = append(g.found, Found{Word: &g.words[i]})
		}
	}
	for i := range g.deeds {
		if in(g.deeds[i].Name + " " + g.deeds[i].Menu) {
			g.found = append(g.found, Found{Deed: &g.deeds[i]})
		}
	}
	for i := range g.words {
		if w := &g.words[i]; !in(w.Title) && in(w.Title+" "+w.Text) {
			g.found = append(g.found, Found{Word: w})
		}
	}
}

// At puts the cursor on a word, where there is one of this key.
func (g *Guide) At(key string) {
	if i := slices.IndexFunc(g.found, func(f Found) bool { return f.Word != nil && f.Word.Key == key }); i >= 0 {
		g.cursor = i
	}
}

// Found is everything that was found.
func (g *Guide) Found() []Found { return g.found }

// Cursor is the index of the chosen line; −1 where nothing was found.
func (g *Guide) Cursor() int {
	if len(g.found) == 0 {
		return -1
	}
	return g.cursor
}

// Move chooses another line.
func (g *Guide) Move(by int) { g.Choose(g.cursor + by) }

// Choose chooses a line, the first or the last where there is none there.
func (g *Guide) Choose(line int) { g.cursor = min(max(line, 0), max(len(g.found)-1, 0)) }

// Piece is a part of a page: words in Markdown, or a drawing.
type Piece struct {
	Text    string
	Drawing string // its file; Text says then what it shows
}

// drawn finds the drawings of a page, each of which has a line of its own.
var drawn = regexp.MustCompile(`(?m)^!\[([^\]]*)\]\(([\w-]+\.png)\)$`)

// Pieces are the parts of a page in their order.
func (w *Word) Pieces() (all []Piece) {
	at := 0
	for _, m := range drawn.FindAllStringSubmatchIndex(w.Text, -1) {
		all = append(all, Piece{Text: strings.TrimSpace(w.Text[at:m[0]])}, Piece{w.Text[m[2]:m[3]], w.Text[m[4]:m[5]]})
		at = m[1]
	}
	if rest := strings.TrimSpace(w.Text[at:]); rest != "" {
		all = append(all, Piece{Text: rest})
	}
	return all
}
