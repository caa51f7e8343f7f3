package pdf

import (
	"errors"
	"fmt"
	"math"
	"time"

	"golang.org/x/image/font/opentype"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"gonum.org/v1/plot/font"

	"keeperbook/pdf/face"
)

// leastSize is the smallest letter on any page, in points. A sheet is read at arm's length with oil on it.
const leastSize = 9.0

// letters is a weight and a size in points.
type letters struct {
	bold bool
	size float64
}

// grey is a shade from 0, ink, to 255, paper. There is no hue on a page.
type grey int

// The shades of a page.
const (
	ink      grey = 0
	faint    grey = 95
	hair     grey = 150
	bandGrey grey = 228
	paper    grey = 255
)

// face returns the letters as drawings know them.
func (l letters) face() font.Face {
	if l.bold {
		return face.Bold(font.Length(l.size))
	}
	return face.Regular(font.Length(l.size))
}

// press sets letters and lines on pages and keeps what it set as marks. Lengths are points; y runs down
// from the top of the page. The first fault is kept in err, and everything after it does nothing.
type press struct {
	width, height float64
	made          time.Time
	title         string
	marks         []mark
	count         int // pages opened
	rulers        map[bool]*ruler
	lacked        bool // a sign was replaced
	err           error
}

// newPress begins a document whose every page is width by height points, and dates it with made, so that
// the same record gives the same bytes whenever it is printed.
func newPress(width, height float64, made time.Time, title string) *press {
	return &press{
		width: width, height: height, made: made, title: title,
		rulers: map[bool]*ruler{false: newRuler(face.Regular(1).Face), true: newRuler(face.Bold(1).Face)},
	}
}

// page opens a new page.
func (p *press) page() {
	p.count++
	p.put(opened{})
}

// turn goes back to page n, counted from 1, to add to it.
func (p *press) turn(n int) { p.put(turned{n}) }

func (p *press) pages() int { return p.count }

func (p *press) put(m mark) { p.marks = append(p.marks, m) }

// fail keeps the first fault.
func (p *press) fail(err error) {
	if p.err == nil {
		p.err = err
	}
}

// sound reports whether all numbers are finite; the PDF writer would print NaN into the page in silence.
func (p *press) sound(numbers ...float64) bool {
	if p.err != nil {
		return false
	}
	for _, n := range numbers {
		if math.IsNaN(n) || math.IsInf(n, 0) {
			p.fail(errors.New("a coordinate is no number"))
			return false
		}
	}
	return true
}

// text sets one line with its baseline at y.
func (p *press) text(x, y float64, l letters, shade grey, line string) {
	p.shaded(x, y, l, [3]int{int(shade), int(shade), int(shade)}, line)
}

func (p *press) shaded(x, y float64, l letters, rgb [3]int, line string) {
	if line, ok := p.fit(x, y, l, line); ok {
		p.put(lettering{x: x, y: y, set: l, rgb: rgb, line: line})
	}
}

// fit returns a line as the page sets it, and false where there is nothing to set or it may not be.
func (p *press) fit(x, y float64, l letters, line string) (string, bool) {
	line = p.clean(line)
	if line == "" || !p.sound(x, y, l.size) {
		return "", false
	}
	if l.size < leastSize {
		p.fail(fmt.Errorf("letters of %.1f points, under the least of %.0f", l.size, leastSize))
		return "", false
	}
	return visual(line), true
}

// clean is [clean], and remembers whether a sign was replaced so that the sheet can say so.
func (p *press) clean(text string) string {
	line := clean(text)
	for _, r := range line {
		p.lacked = p.lacked || r == lacking
	}
	return line
}

// widthOf returns the width of a line in points.
func (p *press) widthOf(l letters, line string) float64 {
	return p.rulers[l.bold].width(clean(line)) * l.size
}

// line rules a line.
func (p *press) line(x1, y1, x2, y2, width float64, shade grey) {
	if p.sound(x1, y1, x2, y2) {
		p.put(rule{x1, y1, x2, y2, width, shade})
	}
}

// box fills a rectangle.
func (p *press) box(x, y, w, h float64, shade grey) {
	if p.sound(x, y, w, h) {
		p.put(block{x, y, w, h, 0, shade})
	}
}

// frame rules a rectangle.
func (p *press) frame(x, y, w, h, width float64, shade grey) {
	if p.sound(x, y, w, h) {
		p.put(block{x, y, w, h, width, shade})
	}
}

// ruler measures lines set in one weight. The PDF writer does not kern, so neither does the ruler.
type ruler struct {
	font   *opentype.Font
	buf    sfnt.Buffer
	widths map[rune]float64 // in ems
}

func newRuler(f *opentype.Font) *ruler { return &ruler{font: f, widths: map[rune]float64{}} }

// width returns the width of a line in ems.
func (r *ruler) width(line string) float64 {
	sum := 0.0
	for _, c := range line {
		w, ok := r.widths[c]
		if !ok {
			w = r.measure(c)
			r.widths[c] = w
		}
		sum += w
	}
	return sum
}

func (r *ruler) measure(c rune) float64 {
	em := fixed.Int26_6(r.font.UnitsPerEm())
	i, err := r.font.GlyphIndex(&r.buf, c)
	if err != nil {
		return 0.5
	}
	advance, err := r.font.GlyphAdvance(&r.buf, i, em, 0)
	if err != nil {
		return 0.5
	}
	return float64(advance) / float64(em)
}

// kerned reports whether a surface that kerns would move two letters beside each other.
func (r *ruler) kerned(a, b rune) bool {
	i, err := r.font.GlyphIndex(&r.buf, a)
	if err != nil {
		return false
	}
	j, err := r.font.GlyphIndex(&r.buf, b)
	if err != nil {
		return false
	}
	k, err := r.font.Kern(&r.buf, i, j, fixed.Int26_6(r.font.UnitsPerEm()), 0)
	return err == nil && k != 0
}
