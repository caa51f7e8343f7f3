package kit

import (
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"gonum.org/v1/plot/vg"
)

// Page is a page of paper and what is on it. Draw draws from the canvas's origin, the lower left corner,
// in points.
type Page struct {
	Width, Height vg.Length
	Draw          func(c vg.Canvas)
}

// Pages shows pages of paper one under the other. A page is drawn when it comes near the window, at the
// pixels of the screen. PgUp, PgDn, Home, End and the arrows scroll.
type Pages struct {
	widget.BaseWidget
	Typed func(rune)    // a character while the pages have the keyboard; may be nil
	Menu  func() []Item // what can be done with the pages; may be nil

	sheets  []*sheet
	holder  *fyne.Container
	scroll  *container.Scroll
	outline *canvas.Rectangle
	focused bool
}

// sheet is a page on the screen. Paper is white in a dark room too, because that is how it will print.
type sheet struct {
	page   Page
	edge   *canvas.Rectangle
	raster *canvas.Raster
	near   bool // close enough to the window to be drawn
	drawn  image.Image
}

// NewPages returns an empty view of pages.
func NewPages() *Pages {
	p := &Pages{outline: canvas.NewRectangle(color.Transparent)}
	p.holder = container.New(&stacked{p: p})
	p.scroll = container.NewVScroll(p.holder)
	p.scroll.OnScrolled = func(fyne.Position) { p.bring() }
	p.ExtendBaseWidget(p)
	return p
}

// Set shows other pages. The view stays where it is, so that a page can be watched while it changes.
func (p *Pages) Set(pages []Page) {
	p.sheets, p.holder.Objects = nil, nil
	for _, page := range pages {
		s := &sheet{page: page, edge: canvas.NewRectangle(color.White)}
		s.raster = canvas.NewRaster(s.image)
		p.sheets = append(p.sheets, s)
		p.holder.Objects = append(p.holder.Objects, s.edge, s.raster)
	}
	p.Refresh()
}

// image draws the page into w by h pixels; far from the window it is blank paper.
func (s *sheet) image(w, h int) image.Image {
	if !s.near || w < 2 || h < 2 {
		return blank(color.White)
	}
	if s.drawn == nil || s.drawn.Bounds().Dx() != w || s.drawn.Bounds().Dy() != h {
		// The page is fitted to the pixels by its width; the height follows.
		perInch := float64(w) / float64(s.page.Width/vg.Inch)
		s.drawn = drawn(w, h, perInch, color.White, func(c vg.Canvas, size vg.Point) {
			c.Scale(float64(size.X/s.page.Width), float64(size.Y/s.page.Height))
			s.page.Draw(c)
		})
	}
	return s.drawn
}

// widestSheet is the width of a page in toolkit units at 100 %: a printed letter is then as large as on
// paper held at arm's length.
const widestSheet = 860

func (p *Pages) margin() float32 { return 4 * sizeOf(p, theme.SizeNamePadding) }

// sheetWidth is how wide pages are drawn in a view of a width.
func (p *Pages) sheetWidth(width float32) float32 {
	return max(40, min(width-2*p.margin(), ratio(p, widestSheet)))
}

// stacked sets the pages one under the other.
type stacked struct{ p *Pages }

// MinSize is the toolkit's.
func (s *stacked) MinSize([]fyne.CanvasObject) fyne.Size {
	width, height := s.p.sheetWidth(s.p.Size().Width), s.p.margin()
	for _, one := range s.p.sheets {
		height += one.height(width) + s.p.margin()
	}
	return fyne.NewSize(40, height)
}

func (s *sheet) height(width float32) float32 {
	return width * float32(s.page.Height/s.page.Width)
}

// Layout is the toolkit's.
func (s *stacked) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	width, y := s.p.sheetWidth(size.Width), s.p.margin()
	for _, one := range s.p.sheets {
		at := fyne.NewPos((size.Width-width)/2, y)
		put(one.raster, at, fyne.NewSize(width, one.height(width)))
		put(one.edge, at.SubtractXY(1, 1), fyne.NewSize(width+2, one.height(width)+2))
		y += one.height(width) + s.p.margin()
	}
}

// bring draws the pages that came near the window and lets go of those that are far.
func (p *Pages) bring() {
	top, view := p.scroll.Offset.Y, p.scroll.Size().Height
	for _, s := range p.sheets {
		at, height := s.raster.Position().Y, s.raster.Size().Height
		near := at < top+1.5*view && at+height > top-0.5*view
		if near == s.near {
			continue
		}
		s.near = near
		if !near {
			s.drawn = nil
		}
		s.raster.Refresh()
	}
}

// Scroll goes down by a part of the window's height; up where it is negative.
func (p *Pages) by(part float32) { p.to(p.scroll.Offset.Y + part*p.scroll.Size().Height) }

// to scrolls to a height. The toolkit neither keeps it inside nor says that it scrolled.
func (p *Pages) to(y float32) {
	p.scroll.ScrollToOffset(fyne.NewPos(0, max(0, min(y, p.holder.Size().Height-p.scroll.Size().Height))))
	p.bring()
}

// Focus puts the keyboard on the pages.
func (p *Pages) Focus() { step(p, func(c fyne.Canvas) { c.Focus(p) }) }

// FocusGained is the toolkit's.
func (p *Pages) FocusGained() { p.focused = true; p.Refresh() }

// FocusLost is the toolkit's.
func (p *Pages) FocusLost() { p.focused = false; p.Refresh() }

// Tapped puts the keyboard on the pages.
func (p *Pages) Tapped(*fyne.PointEvent) { p.Focus() }

// TappedSecondary puts the keyboard on the pages, and shows what can be done with them.
func (p *Pages) TappedSecondary(e *fyne.PointEvent) {
	p.Focus()
	p.menuAt(e.AbsolutePosition)
}

// OpenMenu shows at the upper end of the view what can be done with the pages.
func (p *Pages) OpenMenu() { p.menuAt(placeOf(p, fyne.NewPos(p.margin(), p.margin()))) }

func (p *Pages) menuAt(at fyne.Position) {
	var items []Item
	if p.Menu != nil {
		items = p.Menu()
	}
	ShowMenu(p, items, at)
}

// TypedRune hands a letter to what the leaf does with it.
func (p *Pages) TypedRune(r rune) {
	if p.Typed != nil {
		p.Typed(r)
	}
}

// TypedKey scrolls.
func (p *Pages) TypedKey(e *fyne.KeyEvent) {
	if Wherever(p, e) {
		return
	}
	switch e.Name {
	case fyne.KeyPageDown, fyne.KeySpace:
		p.by(0.9)
	case fyne.KeyPageUp:
		p.by(-0.9)
	case fyne.KeyDown:
		p.by(0.15)
	case fyne.KeyUp:
		p.by(-0.15)
	case fyne.KeyHome:
		p.to(0)
	case fyne.KeyEnd:
		p.to(p.holder.Size().Height)
	}
}

// CreateRenderer is the toolkit's.
func (p *Pages) CreateRenderer() fyne.WidgetRenderer { return coloured(pagesRenderer{p}) }

type pagesRenderer struct{ p *Pages }

func (r pagesRenderer) Destroy()           {}
func (r pagesRenderer) MinSize() fyne.Size { return fyne.NewSize(ratio(r.p, 320), ratio(r.p, 240)) }

func (r pagesRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.p.scroll, r.p.outline}
}

func (r pagesRenderer) Layout(size fyne.Size) {
	put(r.p.scroll, fyne.NewPos(0, 0), size)
	put(r.p.outline, fyne.NewPos(1, 1), size.SubtractWidthHeight(2, 2))
	r.p.to(r.p.scroll.Offset.Y)
}

// Refresh draws the paper's edges, and a frame where the keyboard is.
func (r pagesRenderer) Refresh() {
	p, greys := r.p, palette(r.p)
	for _, s := range p.sheets {
		s.edge.StrokeColor, s.edge.StrokeWidth = greys.Rule, 1
		s.edge.Refresh()
	}
	p.outline.StrokeColor, p.outline.StrokeWidth = greys.Ink, 0
	if p.focused {
		p.outline.StrokeWidth = 2
	}
	p.scroll.Refresh()
	p.bring()
	p.outline.Refresh()
}
