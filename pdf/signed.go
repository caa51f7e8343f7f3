package pdf

import (
	"time"

	"keeperbook/pdf/seal"
)

// Signed is who signs a sheet, as it stands on the page.
type Signed struct {
	Name, Role string
	When       time.Time
}

// hand is the place on a page where a signature stands, in points from the upper left corner.
type hand struct {
	page       int
	x, y, w, h float64
}

// The names of the places that a sheet keeps for signatures.
const (
	shopHand      = "shop"
	inspectorHand = "inspector"
)

// Seal builds the sheet of a closed set-up and seals it with the signer's key: document rides in it, and a place is kept for
// a second signature. The same sheet, signer and moment give the same bytes. Of the sheet, Signed must be set; the signer's
// name, role and moment are taken from there. Errors are those of [Write] and of [seal.Seal].
func Seal(s Sheet, signer seal.Signer, document []byte) ([]byte, error) {
	var hands []hand
	var height float64
	var title string
	pages, err := build(s.Paper, func(w, h float64) ([]byte, error) {
		p, placed := s.pressed(w, h)
		hands, height, title = placed, h, p.title
		return p.bytes()
	})
	if err != nil {
		return nil, err
	}
	signer.Name, signer.Reason, signer.When = s.Signed.Name, s.Signed.Role, s.Signed.When
	sealing := seal.Sealing{Title: title, Made: made(s.Record), Record: document, Signer: signer}
	for i, name := range []string{shopHand, inspectorHand} {
		at := hands[i]
		sealing.Fields = append(sealing.Fields, seal.Field{Name: name, Page: at.page, Rect: [4]float64{at.x, height - at.y - at.h, at.x + at.w, height - at.y}})
	}
	return seal.Seal(pages, sealing)
}
