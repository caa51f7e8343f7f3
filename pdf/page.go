package pdf

import "gonum.org/v1/plot/vg"

// Page is one page exactly as it prints, for a screen to show. Width and Height are points.
type Page struct {
	Width, Height float64
	marks         []mark
}

// Draw plays the page onto a canvas whose origin is the page's lower left corner. The paper itself is the
// caller's. A page may be drawn any number of times and by several at once.
func (p Page) Draw(c vg.Canvas) {
	for _, m := range p.marks {
		m.draw(c, p.Height)
	}
}

// Pages returns the pages that [Write] prints, with its errors.
func Pages(s Sheet) ([]Page, error) {
	return build(s.Paper, func(w, h float64) ([]Page, error) { return s.press(w, h).sheets() })
}

// FormPages returns the pages that [WriteForm] prints, with its errors.
func FormPages(form Form) ([]Page, error) {
	return build(form.Paper, func(w, h float64) ([]Page, error) { return form.press(w, h).sheets() })
}

// sheets parts the marks into pages.
func (p *press) sheets() ([]Page, error) {
	if p.err != nil {
		return nil, p.err
	}
	pages, at := []Page{}, 0
	for _, m := range p.marks {
		switch m := m.(type) {
		case opened:
			at = len(pages)
			pages = append(pages, Page{Width: p.width, Height: p.height})
		case turned:
			at = m.page - 1
		default:
			pages[at].marks = append(pages[at].marks, m)
		}
	}
	return pages, nil
}
