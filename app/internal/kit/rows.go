package kit

import (
	"image/color"
	"reflect"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Row is one line of [Rows]: a label, and a cell for each column.
type Row struct {
	Label string
	Cells []RowCell
}

// RowCell is one thing to choose: its words, and in smaller letters what is said of it.
type RowCell struct {
	Text  string
	More  string
	Faint bool // nothing is there yet
}

// RowAt is a cell by its row and column, from nought.
type RowAt struct{ Row, Cell int }

// Rows is a list of things to choose, or a small table of them. It has the keyboard as a whole: arrows
// move, Enter and the pointer choose.
type Rows struct {
	widget.BaseWidget
	Choose func(RowAt)        // Enter and the pointer; nil where there is nothing to choose
	Leave  func()             // Esc; may be nil
	Typed  func(RowAt, rune)  // a character over the cell that has the cursor; may be nil
	Menu   func(RowAt) []Item // what can be done with the cell that has the cursor; may be nil

	heads   []string
	rows    []Row
	cursor  RowAt
	open    RowAt // the one that is open beside the list; Row −1 for none
	focused bool
	shown   func(fyne.CanvasObject)
	plan    rowPlan
	plans   map[rowKey]rowPlan // of the rows as they are: words are slow to measure, and asked for often

	ground, frame *canvas.Rectangle
	rules         []*canvas.Rectangle // as many as were needed at a time
	objects       []fyne.CanvasObject
}

// rowPlan is where everything stands.
type rowPlan struct {
	texts []*Text
	at    []fyne.Position
	size  []fyne.Size
	rules []float32
	tops  []float32 // of the rows, and below the last
	label float32   // width of the labels
	each  float32   // width of a cell
}

// rowKey is what a plan depends on beside the rows.
type rowKey struct{ width, text float32 }

// NewRows returns an empty list. Heads name its columns and may be empty.
func NewRows(heads []string, choose func(RowAt)) *Rows {
	r := &Rows{Choose: choose, heads: heads, open: RowAt{Row: -1}}
	r.ground, r.frame = canvas.NewRectangle(color.Transparent), canvas.NewRectangle(color.Transparent)
	r.ExtendBaseWidget(r)
	return r
}

// Set shows other rows. The cursor stays where it is, as far as there are rows.
func (r *Rows) Set(rows []Row) {
	if reflect.DeepEqual(rows, r.rows) {
		return
	}
	r.rows, r.plans = rows, nil
	r.cursor.Row = max(0, min(r.cursor.Row, len(rows)-1))
	r.cursor.Cell = max(0, min(r.cursor.Cell, r.cells()-1))
	if r.open.Row >= len(rows) {
		r.open.Row = -1
	}
	r.Refresh()
}

// Open marks a cell as the one that is open beside the list; Row −1 marks none.
func (r *Rows) Open(at RowAt) {
	r.open = at
	if at.Row >= 0 && at.Row < len(r.rows) {
		r.cursor = at
	}
	r.Refresh()
}

// Cursor returns where the keyboard is in the list.
func (r *Rows) Cursor() RowAt { return r.cursor }

// Focused reports whether the list has the keyboard.
func (r *Rows) Focused() bool { return r.focused }

// Focus puts the keyboard on the list.
func (r *Rows) Focus() { step(r, func(c fyne.Canvas) { c.Focus(r) }) }

func (r *Rows) cells() int {
	n := 1
	for _, row := range r.rows {
		n = max(n, len(row.Cells))
	}
	return n
}

func (r *Rows) follow(reveal func(fyne.CanvasObject)) { r.shown = reveal }

// FocusGained is the toolkit's.
func (r *Rows) FocusGained() { r.focused = true; r.Refresh(); r.reveal() }

// FocusLost is the toolkit's.
func (r *Rows) FocusLost() { r.focused = false; r.Refresh() }

// TypedRune is the toolkit's.
func (r *Rows) TypedRune(char rune) {
	if r.Typed != nil && len(r.rows) > 0 {
		r.Typed(r.cursor, char)
	}
}

// TypedKey moves and chooses. Beyond an end the keyboard goes on to what stands next to the list.
func (r *Rows) TypedKey(e *fyne.KeyEvent) {
	if Wherever(r, e) {
		return
	}
	switch e.Name {
	case fyne.KeyUp:
		if r.cursor.Row == 0 {
			step(r, fyne.Canvas.FocusPrevious)
			return
		}
		r.move(RowAt{r.cursor.Row - 1, r.cursor.Cell})
	case fyne.KeyDown:
		if r.cursor.Row+1 >= len(r.rows) {
			step(r, fyne.Canvas.FocusNext)
			return
		}
		r.move(RowAt{r.cursor.Row + 1, r.cursor.Cell})
	case fyne.KeyLeft:
		r.move(RowAt{r.cursor.Row, max(0, r.cursor.Cell-1)})
	case fyne.KeyRight:
		r.move(RowAt{r.cursor.Row, min(r.cells()-1, r.cursor.Cell+1)})
	case fyne.KeyHome:
		r.move(RowAt{0, r.cursor.Cell})
	case fyne.KeyEnd:
		r.move(RowAt{len(r.rows) - 1, r.cursor.Cell})
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		r.choose()
	case fyne.KeyEscape:
		if r.Leave != nil {
			r.Leave()
		}
	}
}

func (r *Rows) move(to RowAt) {
	r.cursor = to
	r.Refresh()
	r.reveal()
}

func (r *Rows) choose() {
	if r.Choose != nil && r.cursor.Row < len(r.rows) && r.cursor.Cell < len(r.rows[r.cursor.Row].Cells) {
		r.Choose(r.cursor)
	}
}

func (r *Rows) reveal() {
	if r.shown != nil && len(r.rows) > 0 {
		r.shown(r.frame)
	}
}

// Tapped chooses what is under the pointer.
func (r *Rows) Tapped(e *fyne.PointEvent) {
	r.Focus()
	if at, ok := r.hit(e.Position); ok {
		r.move(at)
		r.choose()
	}
}

// hit finds the cell at a point of the list.
func (r *Rows) hit(p fyne.Position) (RowAt, bool) {
	for i := range r.rows {
		if p.Y < r.plan.tops[i] || p.Y >= r.plan.tops[i+1] {
			continue
		}
		cell := 0
		for j := range r.rows[i].Cells {
			if p.X >= r.plan.label+float32(j)*r.plan.each {
				cell = j
			}
		}
		return RowAt{i, cell}, true
	}
	return RowAt{}, false
}

// HeightFor returns the height in toolkit units that the list takes at a width.
func (r *Rows) HeightFor(width float32) float32 {
	p := r.lay(width)
	return p.tops[len(p.tops)-1]
}

// lay finds the place of everything at a width.
func (r *Rows) lay(width float32) rowPlan {
	key := rowKey{width, sizeOf(r, theme.SizeNameText)}
	p, ok := r.plans[key]
	if !ok {
		p = r.laid(width)
		if r.plans == nil || len(r.plans) > 8 { // a window that is dragged wider asks for many widths
			r.plans = map[rowKey]rowPlan{}
		}
		r.plans[key] = p
	}
	return p
}

func (r *Rows) laid(width float32) (p rowPlan) {
	pad, gap := sizeOf(r, theme.SizeNameInnerPadding), sizeOf(r, theme.SizeNamePadding)
	for _, row := range r.rows {
		if row.Label != "" {
			p.label = max(p.label, wide(row.Label, sizeOf(r, theme.SizeNameCaptionText), false)+2*pad)
		}
	}
	p.each = (width - p.label) / float32(r.cells())
	add := func(t *Text, x, y, w float32) float32 {
		h := t.HeightFor(w)
		p.texts, p.at, p.size = append(p.texts, t), append(p.at, fyne.NewPos(x, y)), append(p.size, fyne.NewSize(w, h))
		return y + h
	}
	y := float32(0)
	if len(r.heads) > 0 {
		low := y + gap + lineOf(sizeOf(r, theme.SizeNameText))
		for j, head := range r.heads {
			t := NewText(head)
			t.bold = true
			low = max(low, add(t, p.label+float32(j)*p.each+pad, y+gap, p.each-2*pad))
		}
		y = low + gap
	}
	for _, row := range r.rows {
		p.tops, p.rules = append(p.tops, y), append(p.rules, y)
		low := y
		if row.Label != "" {
			low = add(NewHint(row.Label), 0, y+pad+1, p.label-pad)
		}
		for j, c := range row.Cells {
			x, at, w := p.label+float32(j)*p.each+pad, y+pad, p.each-2*pad
			t := NewText(c.Text)
			if c.Faint {
				t.tone = theme.ColorNamePlaceHolder
			}
			at = add(t, x, at, w)
			if c.More != "" {
				at = add(NewHint(c.More), x, at+gap/2, w)
			}
			low = max(low, at)
		}
		y = low + pad
	}
	p.tops = append(p.tops, y)
	return p
}

// CreateRenderer is the toolkit's.
func (r *Rows) CreateRenderer() fyne.WidgetRenderer { return coloured(rowsRenderer{r}) }

type rowsRenderer struct{ r *Rows }

func (d rowsRenderer) Destroy()                     {}
func (d rowsRenderer) Objects() []fyne.CanvasObject { return d.r.objects }

func (d rowsRenderer) MinSize() fyne.Size {
	width := 16 * sizeOf(d.r, theme.SizeNameText)
	return fyne.NewSize(width, d.r.HeightFor(max(width, d.r.Size().Width)))
}

// Layout sets the words, a rule above each row, and what marks the cursor and the open cell. It makes nothing
// new where nothing changed: the toolkit lays out again what it sees for the first time, and would never end.
func (d rowsRenderer) Layout(size fyne.Size) {
	r := d.r
	r.plan = r.lay(size.Width)
	greys := palette(r)
	r.objects = []fyne.CanvasObject{r.ground}
	for len(r.rules) < len(r.plan.rules) {
		r.rules = append(r.rules, canvas.NewRectangle(nil))
	}
	for i, y := range r.plan.rules {
		r.rules[i].FillColor = greys.Rule
		put(r.rules[i], fyne.NewPos(0, y), fyne.NewSize(size.Width, 1))
		r.objects = append(r.objects, r.rules[i])
	}
	for i, t := range r.plan.texts {
		put(t, r.plan.at[i], r.plan.size[i])
		r.objects = append(r.objects, t)
	}
	r.objects = append(r.objects, r.frame)
	d.mark()
}

// mark lays a grey ground under the open cell and a frame of ink round the cursor.
func (d rowsRenderer) mark() {
	r, greys := d.r, palette(d.r)
	place := func(o fyne.CanvasObject, at RowAt, inset float32) {
		if at.Row < 0 || at.Row >= len(r.rows) {
			o.Hide()
			return
		}
		x, y := r.plan.label+float32(at.Cell)*r.plan.each, r.plan.tops[at.Row]
		o.Show()
		put(o, fyne.NewPos(x+inset, y+inset), fyne.NewSize(r.plan.each-2*inset, r.plan.tops[at.Row+1]-y-2*inset))
	}
	r.ground.FillColor = greys.Fill
	place(r.ground, r.open, 1)
	r.frame.StrokeColor, r.frame.StrokeWidth, r.frame.FillColor = greys.Ink, 2.5, color.Transparent
	r.frame.CornerRadius = sizeOf(r, theme.SizeNameInputRadius)
	place(r.frame, r.cursor, 1)
	if !r.focused {
		r.frame.StrokeWidth = 0
	}
}

func (d rowsRenderer) Refresh() {
	d.Layout(d.r.Size())
	for _, o := range d.r.objects {
		o.Refresh()
	}
	canvas.Refresh(d.r)
}
