package kit

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"keeperbook/app/internal/kit/table"
	"keeperbook/model/say"
)

// Grid draws a table.State and hands every key to a table.Handler. It knows no values: what is typed,
// where the cursor goes and what a cell says is decided by the handler, which answers with SetState.
//
// It is one focusable object. Every cell is a text of its own, for 64 × 20 of them cost less to keep
// than to recycle; header and row labels stand still while the body scrolls beneath them.
type Grid struct {
	widget.BaseWidget

	to    table.Handler
	words say.Printer

	state   table.State
	columns []table.Column // those that plan and cells are made for
	rows    []table.Row
	large   bool

	inks  gridInks
	sizes gridSizes
	plan  gridPlan

	pool  []*gridCell
	cells [][]*gridCell

	// Layers of the body, the lowest first.
	chosen  *canvas.Rectangle
	grounds *fyne.Container
	texts   *fyne.Container
	extras  *fyne.Container
	rules   *fyne.Container
	cursor  *canvas.Rectangle
	edit    *gridEdit
	body    *fyne.Container

	scroll *container.Scroll
	head   *gridHead
	labels *gridLabels
	edge   *canvas.Rectangle // under the header
	veil   *gridVeil

	// Menu is what can be done with the cell under the cursor; nil where there is nothing.
	Menu func() []Item

	focused  bool
	quiet    bool
	shift    bool
	tapShift bool // Shift was down when the button of the mouse went down
}

// NewGrid returns an empty table whose keys go to h.
func NewGrid(h table.Handler) *Grid {
	g := &Grid{
		to:      h,
		words:   say.Chosen(),
		chosen:  &canvas.Rectangle{},
		grounds: newLayer(),
		texts:   newLayer(),
		extras:  newLayer(),
		rules:   newLayer(),
		cursor:  &canvas.Rectangle{},
		edit:    newGridEdit(),
		edge:    &canvas.Rectangle{},
		head:    newGridHead(),
		labels:  newGridLabels(),
	}
	g.veil = newGridVeil(g.words)
	g.body = newLayer(g.chosen, g.grounds, g.texts, g.extras, g.rules, g.cursor, g.edit.layer)
	g.scroll = container.NewScroll(g.body)
	g.scroll.OnScrolled = g.scrolled
	g.ExtendBaseWidget(g)
	g.restyle()
	return g
}

// SetState draws a table. Only what differs from the table drawn before is touched.
func (g *Grid) SetState(s table.State) {
	g.state = s
	if g.large == s.Large && slices.Equal(g.columns, s.Columns) && slices.Equal(g.rows, s.Rows) {
		g.update()
	} else {
		g.build()
	}
	g.drawCursor()
	g.edit.draw(g)
	g.follow()
	// One visible object is enough to have the canvas painted again; what was hidden when the window was
	// first painted would not do it.
	canvas.Refresh(g.edge)
}

// build makes the table anew: other columns or rows, another mode, another theme.
func (g *Grid) build() {
	s := g.state
	if s.Large != g.large {
		g.large = s.Large
		g.sizes = gridSizesOf(g)
	}
	g.columns, g.rows = slices.Clone(s.Columns), slices.Clone(s.Rows)
	g.take()
	for r := range g.rows {
		for c := range g.columns {
			g.cells[r][c].draw(g, g.at(r, c))
		}
	}
	g.plan = newGridPlan(g)
	for c := range g.columns {
		g.align(c)
	}
	g.lay()
	g.veil.draw(g)
}

// update redraws the cells that differ from those drawn, and sets the columns they stand in.
func (g *Grid) update() {
	var touched []int
	grown := false
	for c := range g.columns {
		fresh := false
		for r := range g.rows {
			if cell, want := g.cells[r][c], g.at(r, c); !cell.shows(want) {
				cell.draw(g, want)
				fresh = true
			}
		}
		if fresh {
			touched = append(touched, c)
			grown = g.align(c) || grown
		}
	}
	if grown {
		g.lay()
		return
	}
	for _, c := range touched {
		for r := range g.rows {
			g.cells[r][c].place(g, r, c)
		}
	}
}

// take lays hands on as many cells of the pool as the table has, and makes those that are wanting.
func (g *Grid) take() {
	n := len(g.rows) * len(g.columns)
	for len(g.pool) < n {
		g.pool = append(g.pool, newGridCell())
	}
	g.cells = make([][]*gridCell, len(g.rows))
	g.texts.Objects, g.grounds.Objects, g.extras.Objects = nil, nil, nil
	for r := range g.cells {
		g.cells[r] = g.pool[r*len(g.columns) : (r+1)*len(g.columns)]
		for _, cell := range g.cells[r] {
			cell.join(g)
		}
	}
}

// lay puts everything where the plan says.
func (g *Grid) lay() {
	g.plan.settle(g)
	for r := range g.cells {
		for c := range g.cells[r] {
			g.cells[r][c].place(g, r, c)
		}
	}
	g.head.draw(g)
	g.labels.draw(g)
	g.drawRules()
	g.arrange(g.Size())
	size := fyne.NewSize(g.plan.width, g.plan.height)
	g.body.Layout = still{size}
	g.body.Resize(size.Max(g.scroll.Size()))
	g.scroll.Refresh()
}

// at returns what a cell shows; a state with too few cells leaves the rest of the table empty.
func (g *Grid) at(row, column int) table.Cell {
	if row >= len(g.state.Cells) || column >= len(g.state.Cells[row]) {
		return table.Cell{}
	}
	return g.state.Cells[row][column]
}

// has reports whether a place is one of the table.
func (g *Grid) has(p table.Place) bool {
	return p.Row >= 0 && p.Row < len(g.rows) && p.Column >= 0 && p.Column < len(g.columns)
}

// restyle reads the theme and draws everything with it.
func (g *Grid) restyle() {
	g.inks, g.sizes = gridInksOf(g), gridSizesOf(g)
	g.edge.FillColor = g.inks.ink
	g.chosen.FillColor = g.inks.fill
	g.cursor.StrokeColor, g.cursor.StrokeWidth = g.inks.ink, g.sizes.line
	for _, cell := range g.pool {
		cell.stale = true
	}
	g.build()
	g.drawCursor()
	g.edit.draw(g)
	g.follow()
	canvas.Refresh(g.edge)
}

// CreateRenderer hands the table's objects to the toolkit.
func (g *Grid) CreateRenderer() fyne.WidgetRenderer { return gridRenderer{g} }

type gridRenderer struct{ g *Grid }

func (r gridRenderer) Destroy()              {}
func (r gridRenderer) Layout(size fyne.Size) { r.g.arrange(size); r.g.edit.draw(r.g); r.g.follow() }
func (r gridRenderer) MinSize() fyne.Size    { return r.g.plan.least(r.g.sizes) }
func (r gridRenderer) Refresh()              { r.g.restyle() }
func (r gridRenderer) Objects() []fyne.CanvasObject {
	g := r.g
	return append([]fyne.CanvasObject{
		g.scroll, g.head.clip, g.labels.clip, g.edge,
	}, g.veil.objects()...)
}

// arrange shares the widget's own size between header, labels and body.
func (g *Grid) arrange(size fyne.Size) {
	left, top := g.plan.label, g.plan.head
	rest := fyne.NewSize(max(0, size.Width-left), max(0, size.Height-top))
	g.scroll.Move(fyne.NewPos(left, top))
	g.scroll.Resize(rest)
	g.head.clip.Move(fyne.NewPos(left, 0))
	g.head.clip.Resize(fyne.NewSize(rest.Width, top))
	g.labels.clip.Move(fyne.NewPos(0, top))
	g.labels.clip.Resize(fyne.NewSize(left, rest.Height))
	g.edge.Move(fyne.NewPos(0, top-1))
	g.edge.Resize(fyne.NewSize(size.Width, 1))
	g.veil.arrange(size, left, top)
}

// still is a layout that leaves every object where it was put.
type still struct{ size fyne.Size }

func (s still) Layout([]fyne.CanvasObject, fyne.Size) {}
func (s still) MinSize([]fyne.CanvasObject) fyne.Size { return s.size }

func newLayer(objects ...fyne.CanvasObject) *fyne.Container {
	return container.New(still{}, objects...)
}
