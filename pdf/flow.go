package pdf

import (
	"strings"

	"keeperbook/model/say"
)

// Letters of a sheet. Everything else is one of these.
var (
	body    = letters{false, 9.5}
	strong  = letters{true, 9.5}
	label   = letters{false, 9}
	section = letters{true, 11.5}
)

// leading is the distance between baselines as a multiple of the size.
const leading = 1.36

// flow fills pages from top to bottom. What does not fit goes on the next page; nothing is cut.
type flow struct {
	*press
	words                   say.Printer
	left, right, top, floor float64
	y                       float64 // upper edge of what comes next
	hands                   []hand  // where signatures stand
}

// newFlow opens the first page. Margins leave room for the foot line and for a punch on the left.
func newFlow(p *press, words say.Printer) *flow {
	f := &flow{press: p, words: words, left: 42, right: p.width - 30, top: 36, floor: p.height - 52}
	f.next()
	return f
}

func (f *flow) say(key string, args ...any) string { return f.words.Line(say.New(key, args...)) }

func (f *flow) width() float64 { return f.right - f.left }

// next opens a new page.
func (f *flow) next() {
	f.page()
	f.y = f.top
}

// need opens a new page unless h points are left on this one. What is taller than a page starts one.
func (f *flow) need(h float64) {
	if f.y+h > f.floor && f.y > f.top {
		f.next()
	}
}

// room is what is left of the page.
func (f *flow) room() float64 { return f.floor - f.y }

func (f *flow) skip(h float64) { f.y += h }

// wrap breaks a text into lines no wider than width. A word that is wider is broken where it must be;
// line breaks that somebody typed stay.
func (f *flow) wrap(l letters, width float64, text string) []string {
	var lines []string
	for _, para := range strings.Split(strings.ReplaceAll(text, "\r\n", "\n"), "\n") {
		lines = append(lines, f.wrapLine(l, width, f.clean(para))...)
	}
	for len(lines) > 1 && lines[len(lines)-1] == "" {
		lines = lines[:len(lines)-1]
	}
	return lines
}

func (f *flow) wrapLine(l letters, width float64, para string) []string {
	var lines []string
	line, used := "", 0.0
	space := f.widthOf(l, " ")
	for _, word := range strings.Fields(para) {
		w := f.widthOf(l, word)
		if line != "" && used+space+w <= width {
			line, used = line+" "+word, used+space+w
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for w > width {
			head, tail := f.split(l, width, word)
			lines = append(lines, head)
			word, w = tail, w-f.widthOf(l, head)
		}
		line, used = word, w
	}
	return append(lines, line)
}

// split cuts a word after the last sign that fits, and after one sign at least.
func (f *flow) split(l letters, width float64, word string) (head, tail string) {
	used := 0.0
	for i, r := range word {
		used += f.widthOf(l, string(r))
		if used > width && i > 0 {
			return word[:i], word[i:]
		}
	}
	return word, ""
}

// line height of letters.
func (l letters) pitch() float64 { return l.size * leading }

// para sets a text over the full width, indented.
func (f *flow) para(l letters, indent float64, text string) {
	for _, line := range f.wrap(l, f.width()-indent, text) {
		f.need(l.pitch())
		f.text(f.left+indent, f.y+l.size, l, ink, line)
		f.y += l.pitch()
	}
}

// item sets a text behind a mark that hangs in the margin of it: a number, a bullet, a box.
func (f *flow) item(mark, text string) {
	const indent = 16
	f.need(body.pitch())
	f.text(f.left, f.y+body.size, body, ink, mark)
	f.para(body, indent, text)
	f.skip(1.5)
}

// heading sets the title of a part of the sheet under a rule, and keeps it together with what follows.
func (f *flow) heading(text string) {
	f.skip(9)
	f.need(section.pitch() + 6 + 3*body.pitch())
	f.line(f.left, f.y, f.right, f.y, 0.8, ink)
	f.skip(4)
	f.text(f.left, f.y+section.size, section, ink, text)
	f.y += section.pitch() + 2
}

// fact is a short text with what it is about.
type fact struct{ name, value string }

// facts sets named texts in columns, the name small above its text.
func (f *flow) facts(columns int, l letters, all []fact) {
	gap := 12.0
	w := (f.width() - gap*float64(columns-1)) / float64(columns)
	for len(all) > 0 {
		row := all[:min(columns, len(all))]
		all = all[len(row):]
		names, lines := make([][]string, len(row)), make([][]string, len(row))
		named, most := 1, 1
		for i, one := range row {
			names[i], lines[i] = f.wrap(label, w, one.name), f.wrap(l, w, one.value)
			named, most = max(named, len(names[i])), max(most, len(lines[i]))
		}
		f.need(float64(named)*label.pitch() + min(float64(most), 4)*l.pitch())
		for n := range named {
			for i := range row {
				if at := n - named + len(names[i]); at >= 0 { // a short name stands on its value
					f.text(f.left+float64(i)*(w+gap), f.y+label.size, label, faint, names[i][at])
				}
			}
			f.y += label.pitch()
		}
		for n := range most {
			f.need(l.pitch())
			for i := range row {
				if n < len(lines[i]) {
					f.text(f.left+float64(i)*(w+gap), f.y+l.size, l, ink, lines[i][n])
				}
			}
			f.y += l.pitch()
		}
		f.skip(4)
	}
}

// list sets named texts one under the other, the name in a column of its own.
func (f *flow) list(nameWidth float64, all []fact) {
	for _, one := range all {
		names, lines := f.wrap(label, nameWidth-8, one.name), f.wrap(body, f.width()-nameWidth, one.value)
		for n := range max(len(names), len(lines)) {
			f.need(body.pitch())
			if n < len(names) {
				f.text(f.left, f.y+body.size, label, faint, names[n])
			}
			if n < len(lines) {
				f.text(f.left+nameWidth, f.y+body.size, body, ink, lines[n])
			}
			f.y += body.pitch()
		}
		f.skip(1.5)
	}
}
