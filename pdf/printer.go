package pdf

import (
	"bytes"

	"github.com/jung-kurt/gofpdf"

	"keeperbook/pdf/face"
)

// printer plays marks to the PDF writer.
type printer struct {
	doc    *gofpdf.Fpdf
	height float64
	set    letters // what the page's text state was last set to
}

// pen takes a whole line of a width in a shade.
func (to *printer) pen(width float64, shade grey) {
	to.doc.SetDashPattern(nil, 0)
	to.doc.SetDrawColor(int(shade), int(shade), int(shade))
	to.doc.SetLineWidth(width)
}

// lettered begins a document of a size in points with the letters in it. To read them takes as long as to lay a sheet out, so
// that it is done beside.
func lettered(width, height float64) <-chan *gofpdf.Fpdf {
	ready := make(chan *gofpdf.Fpdf, 1)
	go func() {
		doc := gofpdf.NewCustom(&gofpdf.InitType{
			OrientationStr: "P", UnitStr: "pt", Size: gofpdf.SizeType{Wd: width, Ht: height},
		})
		doc.SetCatalogSort(true)
		doc.SetProducer("keeperbook", true)
		doc.SetMargins(0, 0, 0)
		doc.SetCellMargin(0)
		doc.SetAutoPageBreak(false, 0)
		doc.AddUTF8FontFromBytes("dejavu", "", face.RegularTTF())
		doc.AddUTF8FontFromBytes("dejavu", "B", face.BoldTTF())
		ready <- doc
	}()
	return ready
}

// bytes prints the marks into a PDF document and returns it.
func (p *press) bytes() ([]byte, error) { return p.into(<-lettered(p.width, p.height)) }

// into prints the marks into a blank document and returns it.
func (p *press) into(doc *gofpdf.Fpdf) ([]byte, error) {
	if p.err != nil {
		return nil, p.err
	}
	doc.SetCreationDate(p.made)
	doc.SetModificationDate(p.made)
	doc.SetTitle(clean(p.title), true)
	to := &printer{doc: doc, height: p.height}
	for _, m := range p.marks {
		m.print(to)
	}
	var b bytes.Buffer
	if err := doc.Output(&b); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}
