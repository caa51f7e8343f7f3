package kit_test

import (
	"image/color"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"gonum.org/v1/plot/vg"

	"keeperbook/app/internal/kit"
	"keeperbook/pdf/figure"
)

// counted returns pages that count how often they are drawn. A page is black in its lower half.
func counted(n int) (pages []kit.Page, drawn []int) {
	drawn = make([]int, n)
	for i := range n {
		pages = append(pages, kit.Page{Width: 600, Height: 800, Draw: func(c vg.Canvas) {
			drawn[i]++
			c.SetColor(color.Black)
			c.Fill(vg.Path{
				{Type: vg.MoveComp}, {Type: vg.LineComp, Pos: vg.Point{X: 600}}, {Type: vg.LineComp, Pos: vg.Point{X: 600, Y: 400}},
				{Type: vg.LineComp, Pos: vg.Point{Y: 400}}, {Type: vg.CloseComp},
			})
		}})
	}
	return pages, drawn
}

// tops returns how far above the window's top each page begins.
func tops(p *kit.Pages) (y []float32) {
	each(p, func(o fyne.CanvasObject, at fyne.Position) {
		if _, ok := o.(*canvas.Raster); ok {
			y = append(y, at.Y)
		}
	})
	return y
}

func TestPagesAreDrawnWhenTheyComeNear(t *testing.T) {
	p := kit.NewPages()
	s := newStage(t, p)
	pages, drawn := counted(12)
	p.Set(pages)
	s.win.Canvas().Capture()
	if drawn[0] != 1 || drawn[11] != 0 {
		t.Errorf("at the top, pages were drawn so often: %v", drawn)
	}
	p.Focus()
	s.press(fyne.KeyEnd)
	s.win.Canvas().Capture()
	if drawn[11] != 1 || drawn[5] != 0 {
		t.Errorf("at the end, pages were drawn so often: %v", drawn)
	}
	s.win.Canvas().Capture()
	if drawn[11] != 1 {
		t.Errorf("the last page was drawn %d times", drawn[11])
	}
}

func TestPagesKeys(t *testing.T) {
	p := kit.NewPages()
	s := newStage(t, p)
	pages, _ := counted(4)
	p.Set(pages)
	p.Focus()
	view, first := s.win.Canvas().Size().Height, tops(p)[0]
	for _, tt := range []struct {
		key  fyne.KeyName
		want float32 // the first page's top
	}{
		{fyne.KeyPageDown, first - 0.9*view}, {fyne.KeyPageUp, first}, {fyne.KeyPageUp, first},
		{fyne.KeyDown, first - 0.15*view}, {fyne.KeyUp, first}, {fyne.KeySpace, first - 0.9*view}, {fyne.KeyHome, first},
	} {
		s.press(tt.key)
		if got := tops(p)[0]; got < tt.want-1 || got > tt.want+1 {
			t.Errorf("%s: the first page begins at %g, want %g", tt.key, got, tt.want)
		}
	}
	s.press(fyne.KeyEnd)
	end := tops(p)[0]
	s.press(fyne.KeyPageDown)
	if got := tops(p)[0]; got != end {
		t.Errorf("beyond the end: %g after %g", got, end)
	}
	t.Run("the view stays where it is when pages change", func(t *testing.T) {
		more, _ := counted(4)
		p.Set(more)
		if got := tops(p)[0]; got != end {
			t.Errorf("%g after %g", got, end)
		}
	})
}

// A page has its own paper in a dark room too, is as wide as high by its measures, and stands upright.
func TestPagesAreWhitePaper(t *testing.T) {
	for _, scale := range []float32{1, 2} {
		p := kit.NewPages()
		s := newStage(t, p)
		fyne.CurrentApp().Settings().SetTheme(kit.NewTheme(true, scale))
		s.win.Resize(fyne.NewSize(500, 900))
		pages, _ := counted(1)
		p.Set(pages)
		img := s.win.Canvas().Capture()
		var sheet fyne.CanvasObject
		each(p, func(o fyne.CanvasObject, _ fyne.Position) {
			if r, ok := o.(*canvas.Raster); ok {
				sheet = r
			}
		})
		size, at := sheet.Size(), fyne.CurrentApp().Driver().AbsolutePositionForObject(sheet)
		if got := size.Height / size.Width; got < 1.333 || got > 1.334 {
			t.Errorf("scale %g: %v", scale, size)
		}
		pixel := func(y float32) uint8 {
			return color.GrayModel.Convert(img.At(int(at.X+size.Width/2), int(at.Y+y*size.Height))).(color.Gray).Y
		}
		if pixel(0.25) != 0xFF || pixel(0.75) != 0 {
			t.Errorf("scale %g: above %d, below %d", scale, pixel(0.25), pixel(0.75))
		}
	}
}

func TestSectionShowsItsDrawing(t *testing.T) {
	s := kit.NewSection()
	st := newStage(t, s)
	s.Set(figure.Section{}, "3 ex") // nothing is known, and the drawing says so
	wantSays(t, st, "3 ex")
	if inked(st) == 0 {
		t.Error("nothing was drawn")
	}
	s.Clear()
	if got := read(s); got != "" {
		t.Errorf("says %q", got)
	}
	if n := inked(st); n != 0 {
		t.Errorf("%d pixels of the old drawing are left", n)
	}
}

// inked counts the pixels of a window that are not its ground.
func inked(st *stage) (n int) {
	img := st.win.Canvas().Capture()
	ground := kit.Greys(false).Paper
	b := img.Bounds()
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			if color.NRGBAModel.Convert(img.At(x, y)) != ground {
				n++
			}
		}
	}
	return n
}
