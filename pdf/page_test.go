package pdf_test

import (
	"fmt"
	"image"
	"image/color"
	"io/fs"
	"math"
	"regexp"
	"strings"
	"testing"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"

	"keeperbook/assets"
	"keeperbook/model/evaluate"
	"keeperbook/model/exchange"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
	"keeperbook/pdf"
)

// demonstration is a head of the demonstration book with its readings, as the book would hold it.
func demonstration(t testing.TB, name string) *record.Record {
	t.Helper()
	read := func(ending string) []byte {
		data, err := fs.ReadFile(assets.Demo(), name+ending)
		if err != nil {
			t.Fatal(err)
		}
		return data
	}
	doc, err := exchange.Decode(read(".json"))
	if err != nil {
		t.Fatal(err)
	}
	r := &doc.Record
	sheet, wrong := exchange.ReadCSV(read(".csv"))
	if len(wrong) > 0 {
		t.Fatal(wrong)
	}
	for _, row := range sheet.Rows {
		if row.Kind == "" {
			shims, none, err := unit.ParseStack(record.ShimColumn(r.Setup.Units), row.Text)
			if err != nil {
				t.Fatal(err)
			}
			v := r.ValveAt(row.Position)
			for _, s := range shims {
				v.Stack = append(v.Stack, record.Shim{Thickness: s, Under: row.Stack})
			}
			if none {
				v.NoShim = "none"
			}
			r.Put(v)
			continue
		}
		e, err := unit.Parse(record.ColumnOf(row.Kind, r.Setup.Units), row.Text)
		if err != nil {
			t.Fatal(err)
		}
		r.Put(record.Reading{
			At: row.Position, Kind: row.Kind, Coil: row.Coil, N: len(r.ReadingsAt(row.Position, row.Kind, row.Coil)) + 1,
			Quantity: e.Quantity, Method: row.Method, By: row.By, When: row.When,
			Over: evaluate.Trim(row.Kind, evaluate.OverNow(r, row.Position)),
		})
	}
	return r
}

// listener is a canvas that notes the letters it is given; pieces that were parted only because the
// surface kerns are put together again.
type listener struct {
	runs  []run
	lines int // paths stroked and filled
	depth int
}

func (l *listener) FillString(f font.Face, at vg.Point, text string) {
	x, y, size := float64(at.X), float64(at.Y), float64(f.Font.Size)
	bold := f.Font.Weight > 0
	if n := len(l.runs); n > 0 {
		last := &l.runs[n-1]
		if last.y == y && last.bold == bold && last.size == size && math.Abs(last.x+advance(*last)-x) < 1e-6 {
			last.text += text
			return
		}
	}
	l.runs = append(l.runs, run{x, y, size, bold, text})
}

// advance is the width of a line without kerning, sign by sign.
func advance(r run) float64 {
	sum := 0.0
	for _, c := range r.text {
		sum += run{size: r.size, bold: r.bold, text: string(c)}.width()
	}
	return sum
}

func (l *listener) Stroke(vg.Path)                        { l.lines++ }
func (l *listener) Fill(vg.Path)                          { l.lines++ }
func (l *listener) Push()                                 { l.depth++ }
func (l *listener) Pop()                                  { l.depth-- }
func (*listener) SetLineWidth(vg.Length)                  {}
func (*listener) SetLineDash([]vg.Length, vg.Length)      {}
func (*listener) SetColor(color.Color)                    {}
func (*listener) Rotate(float64)                          {}
func (*listener) Translate(vg.Point)                      {}
func (*listener) Scale(float64, float64)                  {}
func (*listener) DrawImage(r vg.Rectangle, i image.Image) {}

// TestPagesAreWhatPrints holds every line of letters that a screen is given against the PDF: the same
// text in the same letters, its place to a hundredth of a point, which is what the PDF rounds to.
func TestPagesAreWhatPrints(t *testing.T) {
	if testing.Short() {
		t.Skip("once a run is enough: drawing takes long under -race")
	}
	records := samples(t)
	for _, name := range []string{"six-found", "six-built", "four-built", "launch-built"} {
		records[name] = demonstration(t, name)
	}
	for name, r := range records {
		for _, p := range papers {
			s := sheetOf(name, r, p)
			pages, err := pdf.Pages(s)
			if err != nil {
				t.Fatal(err)
			}
			samePages(t, fmt.Sprintf("%s on %s", name, p), pages, readPages(t, written(t, s)))
			f := pdf.Form{Record: r, Paper: p, Words: s.Words}
			if pages, err = pdf.FormPages(f); err != nil {
				t.Fatal(err)
			}
			samePages(t, fmt.Sprintf("form of %s on %s", name, p), pages, readPages(t, form(t, r, p)))
		}
	}
}

// paints are the operators of a page that stroke or fill a path.
var paints = regexp.MustCompile(`(?m)(?:^| )[Sf]$`)

func samePages(t *testing.T, what string, shown []pdf.Page, printed []page) {
	t.Helper()
	if len(shown) != len(printed) {
		t.Fatalf("%s: %d pages are shown and %d printed", what, len(shown), len(printed))
	}
	for n, p := range printed {
		l := &listener{}
		shown[n].Draw(l)
		if shown[n].Width != p.width || shown[n].Height != p.height || l.depth != 0 || len(l.runs) != len(p.runs) {
			t.Fatalf("%s, page %d: %g × %g with %d lines is shown, %g × %g with %d printed", what, n+1,
				shown[n].Width, shown[n].Height, len(l.runs), p.width, p.height, len(p.runs))
		}
		if painted := len(paints.FindAllString(p.content, -1)); l.lines != painted || painted == 0 {
			t.Errorf("%s, page %d: %d lines and faces are shown, %d printed", what, n+1, l.lines, painted)
		}
		for i, want := range p.runs {
			got := l.runs[i]
			if got.text != want.text || got.bold != want.bold || got.size != want.size ||
				math.Abs(got.x-want.x) > 0.0051 || math.Abs(got.y-want.y) > 0.0051 {
				t.Errorf("%s, page %d: shown %+v, printed %+v", what, n+1, got, want)
			}
		}
	}
}

func TestPagesRefuseAsWriteDoes(t *testing.T) {
	s := sheet(six(t), "foolscap")
	if pages, err := pdf.Pages(s); say.CodeOf(err) != say.Invalid || pages != nil || !strings.Contains(err.Error(), "a4 or letter") {
		t.Errorf("an unknown paper: %v and %d pages", err, len(pages))
	}
	if _, err := pdf.FormPages(pdf.Form{Record: s.Record, Paper: "foolscap", Words: s.Words}); say.CodeOf(err) != say.Invalid {
		t.Errorf("a form on an unknown paper: %v", err)
	}
	s.Paper = pdf.A4
	s.Words.Show = func(any) (string, bool) { panic("a fault in the middle of the build") }
	if pages, err := pdf.Pages(s); say.CodeOf(err) != say.Internal || pages != nil {
		t.Errorf("a fault in the build: %v and %d pages", err, len(pages))
	}
}

// BenchmarkPages64 lays out the sheet of 64 valves for a screen.
func BenchmarkPages64(b *testing.B) {
	s := sheet(many(b, 16, 2, 2), pdf.A4)
	for b.Loop() {
		if _, err := pdf.Pages(s); err != nil {
			b.Fatal(err)
		}
	}
}
