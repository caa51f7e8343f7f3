package shell

import (
	"fyne.io/fyne/v2"

	"keeperbook/app/internal/kit"
)

// What is seen at least, in ems.
const (
	leastWide   = 22 // of the window
	leastHigh   = 12 // between banner and bottom line
	leastBeside = 26 // of a head beside the register
)

// room lays the window out: the banner along the top, the bottom line, at the left the register or the
// strip it folds to, and in the rest what is open. Where there is no room for a head beside the register,
// as in large letters on a small screen, the register is seen alone until it is folded again.
type room struct {
	banner       *kit.Banner
	status       *kit.Status
	side, middle *fyne.Container
}

func (r *room) bannerHeight(width float32) float32 {
	if !r.banner.Visible() {
		return 0
	}
	return r.banner.HeightFor(width)
}

// MinSize is small, so that the window fits every screen: what has no room in it is scrolled to.
func (r *room) MinSize([]fyne.CanvasObject) fyne.Size {
	w := leastWide * em()
	return fyne.NewSize(w, r.bannerHeight(w)+r.status.HeightFor(w)+leastHigh*em())
}

// Layout is the toolkit's.
func (r *room) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	top, bottom := r.bannerHeight(size.Width), r.status.HeightFor(size.Width)
	height, side := max(0, size.Height-top-bottom), float32(0)
	if len(r.side.Objects) > 0 {
		side = r.side.MinSize().Width
	}
	alone := side >= registerWide*em() && size.Width-side < leastBeside*em()
	if alone {
		side = size.Width
	}
	place(r.banner, 0, 0, size.Width, top)
	place(r.status, 0, size.Height-bottom, size.Width, bottom)
	place(r.side, 0, top, side, height)
	if r.middle.Hidden != alone {
		r.middle.Hidden = alone
		r.middle.Refresh()
	}
	place(r.middle, side, top, size.Width-side, height)
}

func place(o fyne.CanvasObject, x, y, width, height float32) {
	o.Move(fyne.NewPos(x, y))
	o.Resize(fyne.NewSize(width, height))
}

// headed sets the heading of a head and its tabs above the leaf in sight.
type headed struct {
	heading *heading
	tabs    *tabs
}

// MinSize is the toolkit's; the leaf is scrolled where it has no room.
func (h *headed) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(leastBeside*em()/2, h.above(leastBeside*em())+o[2].MinSize().Height)
}

func (h *headed) above(width float32) float32 {
	return h.heading.heightFor(width) + h.tabs.heightFor(width)
}

// Layout is the toolkit's.
func (h *headed) Layout(o []fyne.CanvasObject, size fyne.Size) {
	first, above := h.heading.heightFor(size.Width), h.above(size.Width)
	place(o[0], 0, 0, size.Width, first)
	place(o[1], 0, first, size.Width, above-first)
	place(o[2], 0, above, size.Width, max(0, size.Height-above))
}
