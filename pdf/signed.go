package pdf

import (
	"strings"
	"time"

	"github.com/jung-kurt/gofpdf"

	"keeperbook/model/say"
	"keeperbook/pdf/seal"
)

// Signed is who signs a sheet, as it stands on the page.
type Signed struct {
	Name, Role string
	When       time.Time
	Ink        seal.Ink // drawn by hand; nil where nothing was
	Second     bool     // a place is kept for a second signature
}

// Check refuses (say.Invalid) a name or role with signs that the letters of the sheet have no picture of: whoever signs is
// named as they are.
func (s *Signed) Check() error {
	for _, text := range []string{s.Name, s.Role} {
		if !Prints(text) {
			return say.Fail(say.Invalid, "pdf.no-letters", text)
		}
	}
	return nil
}

// Prints reports whether a text stands on a page as it is, every sign of it.
func Prints(text string) bool {
	return strings.Count(clean(text), string(lacking)) == strings.Count(text, string(lacking))
}

// hand is the place on a page where a signature stands, in points from the upper left corner.
type hand struct {
	page       int
	x, y, w, h float64
}

// The names in a file of the places that a sheet keeps for signatures.
const (
	ShopHand      = "shop"
	InspectorHand = "inspector"
)

// Seal builds the sheet of a closed set-up and seals it with the signer's key: document rides in it, and a place is kept for
// a second signature where one is asked for. The same sheet, signer and moment give the same bytes. Of the sheet, Signed must
// be set; the signer's name, role, moment and ink are taken from there. Errors are those of [Write] and of [seal.Seal].
func Seal(s Sheet, signer seal.Signer, document []byte) ([]byte, error) {
	if err := s.Signed.Check(); err != nil {
		return nil, err
	}
	pages, places, err := Draw(s, Begin(s.Paper), true)
	if err != nil {
		return nil, err
	}
	return seal.Seal(pages, seal.Sealing{
		Title: s.title(), Language: s.Words.Language, Made: made(s.Record), Record: document, Signer: s.Signed.signer(signer), Fields: places,
	})
}

// Blank is a document without a page, in which the letters are being put.
type Blank struct{ doc <-chan *gofpdf.Fpdf }

// Begin begins a document on a paper for [Draw]. To read the letters takes as long as to work a head out, so it is done beside.
func Begin(p Paper) Blank {
	w, h, err := p.size()
	if err != nil {
		return Blank{} // Draw says so
	}
	return Blank{lettered(w, h)}
}

// Draw builds the pages of a sheet as they are before they are sealed, and the places for signatures on them, in a blank
// document on its paper. What is only held against other pages (seal.Drawing) need not be packed.
func Draw(s Sheet, on Blank, packed bool) (pages []byte, places []seal.Field, err error) {
	pages, err = build(s.Paper, func(w, h float64) ([]byte, error) {
		p, hands := s.pressed(w, h)
		places = fields(hands, h)
		to := <-on.doc
		to.SetCompression(packed)
		return p.into(to)
	})
	return pages, places, err
}

// fields are places in the measure of a file, which counts from the lower edge.
func fields(hands []hand, height float64) (all []seal.Field) {
	for i, at := range hands {
		all = append(all, seal.Field{
			Name: []string{ShopHand, InspectorHand}[i], Page: at.page, Rect: [4]float64{at.x, height - at.y - at.h, at.x + at.w, height - at.y},
		})
	}
	return all
}

// Countersign signs a sealed sheet in the place that was kept for a second signature, and draws there who does. Errors are
// those of [seal.Countersign].
func Countersign(file []byte, signer seal.Signer, by *Signed) ([]byte, error) {
	if err := by.Check(); err != nil {
		return nil, err
	}
	place, err := seal.Next(file)
	if err != nil {
		return nil, err
	}
	sealed, err := seal.Check(file)
	if err != nil {
		return nil, err
	}
	words, _ := say.Of(sealed.Language)
	signer = by.signer(signer)
	x, line := 0.0, place.Rect[2]-place.Rect[0]
	f := newFlow(newPress(line, 0, by.When, ""), words)
	for i, w := range signWidths(line) {
		signer.Words = append(signer.Words, outlines(body, x, 3, f.short(body, w-signGap, by.words(f.words)[i]))...)
		x += w
	}
	return seal.Countersign(file, signer)
}

// signer is a signer as he stands on the page.
func (s *Signed) signer(key seal.Signer) seal.Signer {
	key.Name, key.Reason, key.When, key.Ink = s.Name, s.Role, s.When, s.Ink
	return key
}
