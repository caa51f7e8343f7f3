package kit

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// A tall thing takes more height the narrower it is. The toolkit asks for sizes without saying how wide
// it will be, and so is one step behind whenever words wrap; these layouts ask with the width.
type tall interface {
	HeightFor(width float32) float32
}

// tallLayout is the same for a layout of a container.
type tallLayout interface {
	heightFor(objects []fyne.CanvasObject, width float32) float32
}

// heightOf returns the height that an object takes at a width.
func heightOf(o fyne.CanvasObject, width float32) float32 {
	if t, ok := o.(tall); ok {
		return t.HeightFor(width)
	}
	if c, ok := o.(*fyne.Container); ok {
		if l, ok := c.Layout.(tallLayout); ok {
			return l.heightFor(c.Objects, width)
		}
	}
	return o.MinSize().Height
}

// labelled is a thing with a label above it. Side by side such things stand so that what is below the
// labels begins at one height, however many lines each label takes.
type labelled interface {
	labelFor(width float32) float32 // height of the label at a width
}

// lowest returns the height of the highest label of a row.
func lowest(row []fyne.CanvasObject, width func(i int) float32) (low float32) {
	for i, o := range row {
		if l, ok := o.(labelled); ok {
			low = max(low, l.labelFor(width(i)))
		}
	}
	return low
}

// dropOf is how far a thing is set lower for its label to end where the highest of the row does.
func dropOf(o fyne.CanvasObject, width, low float32) float32 {
	if l, ok := o.(labelled); ok {
		return low - l.labelFor(width)
	}
	return 0
}

func widest(objects []fyne.CanvasObject) (width float32) {
	for _, o := range objects {
		if o.Visible() {
			width = max(width, o.MinSize().Width)
		}
	}
	return width
}

func visible(objects []fyne.CanvasObject) (seen []fyne.CanvasObject) {
	for _, o := range objects {
		if o.Visible() {
			seen = append(seen, o)
		}
	}
	return seen
}

// widthOf is the width of a bar across the window: as it was last laid out, and before that the window's.
func widthOf(o fyne.CanvasObject, last float32) float32 {
	if last > 0 {
		return last
	}
	step(o, func(c fyne.Canvas) { last = c.Size().Width })
	return last
}

// column sets objects one under the other, each as wide as the column.
type column struct {
	gap   float32 // in paddings of the theme
	inset float32 // room left and right for frames and a scroll's bar
	width float32 // as last laid out
}

// frameRoom keeps the frame of the first and of the last object inside what is drawn.
func (c *column) frameRoom() float32 { return min(c.inset, 3) }

func (c *column) space() float32 { return c.gap * theme.Padding() }

func (c *column) heightFor(objects []fyne.CanvasObject, width float32) (height float32) {
	for i, o := range visible(objects) {
		if i > 0 {
			height += c.space()
		}
		height += heightOf(o, width-2*c.inset)
	}
	return height + 2*c.frameRoom()
}

// MinSize is the toolkit's.
func (c *column) MinSize(objects []fyne.CanvasObject) fyne.Size {
	width := widest(objects) + 2*c.inset
	return fyne.NewSize(width, c.heightFor(objects, max(width, c.width)))
}

// Layout is the toolkit's.
func (c *column) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	c.width = size.Width
	y, width := c.frameRoom(), size.Width-2*c.inset
	for _, o := range visible(objects) {
		height := heightOf(o, width)
		put(o, fyne.NewPos(c.inset, y), fyne.NewSize(width, height))
		y += height + c.space()
	}
}

// flow sets objects in a row as wide as they need, and goes on in the next row where it is full.
type flow struct {
	gap   float32 // in paddings of the theme
	width float32
	right bool // each row ends at the right edge
}

// rows shares the objects out to rows of a width.
func (f *flow) rows(objects []fyne.CanvasObject, width float32) (rows [][]fyne.CanvasObject) {
	space, x := f.gap*theme.Padding(), float32(0)
	for _, o := range visible(objects) {
		w := o.MinSize().Width
		if len(rows) == 0 || x+w > width+0.5 {
			rows, x = append(rows, nil), 0
		}
		last := len(rows) - 1
		rows[last] = append(rows[last], o)
		x += w + space
	}
	return rows
}

func (f *flow) heightFor(objects []fyne.CanvasObject, width float32) (height float32) {
	for i, row := range f.rows(objects, width) {
		if i > 0 {
			height += f.gap * theme.Padding()
		}
		height += highest(row)
	}
	return height
}

func highest(objects []fyne.CanvasObject) (height float32) {
	for _, o := range objects {
		height = max(height, o.MinSize().Height)
	}
	return height
}

// MinSize is the toolkit's.
func (f *flow) MinSize(objects []fyne.CanvasObject) fyne.Size {
	width := widest(objects)
	return fyne.NewSize(width, f.heightFor(objects, max(width, f.width)))
}

// Layout is the toolkit's.
func (f *flow) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	f.width = size.Width
	space, y := f.gap*theme.Padding(), float32(0)
	for _, row := range f.rows(objects, size.Width) {
		height, x := highest(row), float32(0)
		if f.right {
			x = size.Width + space
			for _, o := range row {
				x -= o.MinSize().Width + space
			}
		}
		for _, o := range row {
			put(o, fyne.NewPos(x, y), fyne.NewSize(min(o.MinSize().Width, size.Width), height))
			x += o.MinSize().Width + space
		}
		y += height + space
	}
}

// columns sets objects side by side in equal shares, and one under the other where a share would be
// narrower than the least.
type columns struct {
	least float32 // toolkit units at 100 %
	width float32
}

// share returns how many columns there are and how wide each is.
func (c *columns) share(objects []fyne.CanvasObject, width float32) (n int, each float32) {
	space := 4 * theme.Padding()
	least := max(c.least*theme.TextSize()/size(theme.SizeNameText), widest(objects))
	n = max(1, min(len(visible(objects)), int((width+space)/(least+space))))
	return n, (width - float32(n-1)*space) / float32(n)
}

// place calls put for every visible object with its corner and size, and returns the height of all.
func (c *columns) place(objects []fyne.CanvasObject, width float32, put func(fyne.CanvasObject, fyne.Position, fyne.Size)) float32 {
	n, each := c.share(objects, width)
	space, y, high := 4*theme.Padding(), float32(0), float32(0)
	for row := range slices.Chunk(visible(objects), n) {
		if high > 0 {
			y += high + 2*theme.Padding()
		}
		high = 0
		low := lowest(row, func(int) float32 { return each })
		for i, o := range row {
			height, drop := heightOf(o, each), dropOf(o, each, low)
			put(o, fyne.NewPos(float32(i)*(each+space), y+drop), fyne.NewSize(each, height))
			high = max(high, drop+height)
		}
	}
	return y + high
}

func (c *columns) heightFor(objects []fyne.CanvasObject, width float32) float32 {
	return c.place(objects, width, func(fyne.CanvasObject, fyne.Position, fyne.Size) {})
}

// MinSize is the toolkit's.
func (c *columns) MinSize(objects []fyne.CanvasObject) fyne.Size {
	width := widest(objects)
	return fyne.NewSize(width, c.heightFor(objects, max(width, c.width)))
}

// Layout is the toolkit's.
func (c *columns) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	c.width = size.Width
	c.place(objects, size.Width, put)
}
