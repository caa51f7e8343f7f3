package pdf

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"time"

	"github.com/jung-kurt/gofpdf"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

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

// press sets letters and lines on pages. Lengths are points; y runs down from the top of the page.
// The first fault is kept in err, and everything after it does nothing.
type press struct {
	doc           *gofpdf.Fpdf
	width, height float64
	set           letters // what the page's text state was last set to
	rulers        map[bool]*ruler
	lacked        bool // a sign was replaced
	err           error
}

// newPress opens a document whose every page is width by height points, and dates it with made, so that
// the same record gives the same bytes whenever it is printed.
func newPress(width, height float64, made time.Time, title string) *press {
	doc := gofpdf.NewCustom(&gofpdf.InitType{
		OrientationStr: "P", UnitStr: "pt", Size: gofpdf.SizeType{Wd: width, Ht: height},
	})
	doc.SetCatalogSort(true)
	doc.SetCreationDate(made)
	doc.SetModificationDate(made)
	doc.SetProducer("keeperbook", true)
	doc.SetTitle(clean(title), true)
	doc.SetMargins(0, 0, 0)
	doc.SetCellMargin(0)
	doc.SetAutoPageBreak(false, 0)
	doc.AddUTF8FontFromBytes("dejavu", "", face.RegularTTF())
	doc.AddUTF8FontFromBytes("dejavu", "B", face.BoldTTF())
	return &press{
		doc: doc, width: width, height: height,
		rulers: map[bool]*ruler{false: newRuler(face.Regular(1).Face), true: newRuler(face.Bold(1).Face)},
	}
}

// page opens a new page.
func (p *press) page() {
	p.doc.AddPage()
	p.set = letters{}
}

// turn goes back to page n, counted from 1, to add to it.
func (p *press) turn(n int) {
	p.doc.SetPage(n)
	p.set = letters{}
}

func (p *press) pages() int { return p.doc.PageCount() }

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
	line = p.clean(line)
	if line == "" || !p.sound(x, y, l.size) {
		return
	}
	if l.size < leastSize {
		p.fail(fmt.Errorf("letters of %.1f points, under the least of %.0f", l.size, leastSize))
		return
	}
	if p.set != l {
		style := ""
		if l.bold {
			style = "B"
		}
		p.doc.SetFont("dejavu", style, l.size)
		p.set = l
	}
	p.doc.SetTextColor(rgb[0], rgb[1], rgb[2])
	p.doc.Text(x, y, visual(line))
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
	if !p.sound(x1, y1, x2, y2) {
		return
	}
	p.doc.SetDashPattern(nil, 0)
	p.doc.SetDrawColor(int(shade), int(shade), int(shade))
	p.doc.SetLineWidth(width)
	p.doc.Line(x1, y1, x2, y2)
}

// box fills a rectangle.
func (p *press) box(x, y, w, h float64, shade grey) {
	if !p.sound(x, y, w, h) {
		return
	}
	p.doc.SetFillColor(int(shade), int(shade), int(shade))
	p.doc.Rect(x, y, w, h, "F")
}

// frame rules a rectangle.
func (p *press) frame(x, y, w, h, width float64, shade grey) {
	if !p.sound(x, y, w, h) {
		return
	}
	p.doc.SetDashPattern(nil, 0)
	p.doc.SetDrawColor(int(shade), int(shade), int(shade))
	p.doc.SetLineWidth(width)
	p.doc.Rect(x, y, w, h, "D")
}

// bytes closes the document and returns it.
func (p *press) bytes() ([]byte, error) {
	if p.err != nil {
		return nil, p.err
	}
	var b bytes.Buffer
	if err := p.doc.Output(&b); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
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
