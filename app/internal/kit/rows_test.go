package kit

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
)

// shownIn puts an object into a window of its own, in the theme of the program.
func shownIn(t *testing.T, o fyne.CanvasObject, size fyne.Size) fyne.Window {
	t.Helper()
	app := test.NewTempApp(t)
	app.Settings().SetTheme(NewTheme(false, 1))
	w := test.NewTempWindow(t, o)
	w.SetPadded(false)
	w.Resize(size)
	return w
}

func twoByTwo(choose func(RowAt)) *Rows {
	r := NewRows([]string{"left", "right"}, choose)
	r.Set([]Row{
		{Label: "first", Cells: []RowCell{{Text: "a", More: "what is known of it, in so many words that they do not fit into one line of a cell"}, {Text: "b"}}},
		{Label: "second", Cells: []RowCell{{Text: "c"}}},
	})
	return r
}

func TestRowsKeyboard(t *testing.T) {
	for _, tt := range []struct {
		name string
		keys []fyne.KeyName
		want RowAt // chosen; Row −1: nothing
	}{
		{"at once", []fyne.KeyName{fyne.KeyReturn}, RowAt{0, 0}},
		{"right", []fyne.KeyName{fyne.KeyRight, fyne.KeyReturn}, RowAt{0, 1}},
		{"not beyond the right", []fyne.KeyName{fyne.KeyRight, fyne.KeyRight, fyne.KeySpace}, RowAt{0, 1}},
		{"down", []fyne.KeyName{fyne.KeyDown, fyne.KeyReturn}, RowAt{1, 0}},
		{"a cell that is not there", []fyne.KeyName{fyne.KeyDown, fyne.KeyRight, fyne.KeyReturn}, RowAt{-1, 0}},
		{"end and home", []fyne.KeyName{fyne.KeyEnd, fyne.KeyHome, fyne.KeyReturn}, RowAt{0, 0}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			got := RowAt{-1, 0}
			r := twoByTwo(func(at RowAt) { got = at })
			w := shownIn(t, r, fyne.NewSize(500, 300))
			r.Focus()
			for _, k := range tt.keys {
				w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: k})
			}
			if got != tt.want {
				t.Errorf("chose %v, want %v", got, tt.want)
			}
		})
	}
}

func TestRowsPointer(t *testing.T) {
	var got []RowAt
	r := twoByTwo(func(at RowAt) { got = append(got, at) })
	w := shownIn(t, r, fyne.NewSize(500, 300))
	for i, cell := range []RowAt{{0, 0}, {0, 1}, {1, 0}} {
		at := fyne.NewPos(r.plan.label+(float32(cell.Cell)+0.5)*r.plan.each, (r.plan.tops[cell.Row]+r.plan.tops[cell.Row+1])/2)
		test.TapCanvas(w.Canvas(), at)
		if len(got) != i+1 || got[i] != cell {
			t.Fatalf("a tap on %v chose %v", cell, got)
		}
	}
}

// Nothing is cut: a narrow list is higher, and as high as its words.
func TestRowsHeight(t *testing.T) {
	r := twoByTwo(nil)
	shownIn(t, r, fyne.NewSize(500, 300))
	if r.HeightFor(260) <= r.HeightFor(900) {
		t.Errorf("%v high when narrow, %v when wide", r.HeightFor(260), r.HeightFor(900))
	}
	for i, text := range r.plan.texts {
		if low := r.plan.at[i].Y + r.plan.size[i].Height; low > r.HeightFor(500) {
			t.Errorf("%q ends at %v of %v", text.Text(), low, r.HeightFor(500))
		}
	}
}

// A list that gets shorter keeps its cursor on a row.
func TestRowsShrink(t *testing.T) {
	r := twoByTwo(nil)
	r.Open(RowAt{1, 0})
	r.Set([]Row{{Cells: []RowCell{{Text: "only"}}}})
	if r.Cursor() != (RowAt{0, 0}) || r.open.Row != -1 {
		t.Errorf("cursor %v, open %v", r.Cursor(), r.open)
	}
	r.Set(nil)
	if r.Cursor() != (RowAt{0, 0}) {
		t.Errorf("cursor of an empty list %v", r.Cursor())
	}
}

func strut(width float32) fyne.CanvasObject {
	b := canvas.NewRectangle(nil)
	b.SetMinSize(fyne.NewSize(width, 20))
	return b
}

func TestBeside(t *testing.T) {
	for _, tt := range []struct {
		name   string
		width  float32
		shares []float32
		least  []float32
		want   []float32 // widths; nil where they stand one under the other
	}{
		{"by shares", 310, []float32{1, 2}, []float32{10, 10}, []float32{100, 200}},
		{"no less than needed", 310, []float32{1, 2}, []float32{150, 10}, []float32{150, 150}},
		{"the rest by shares", 320, []float32{1, 1, 2}, []float32{120, 10, 10}, []float32{120, 60, 120}},
		{"one under the other", 200, []float32{1, 1}, []float32{150, 100}, nil},
	} {
		t.Run(tt.name, func(t *testing.T) {
			var objects []fyne.CanvasObject
			for _, w := range tt.least {
				objects = append(objects, strut(w))
			}
			c := Beside(tt.shares, objects...)
			shownIn(t, c, fyne.NewSize(tt.width, 200))
			c.Resize(fyne.NewSize(tt.width, 200))
			for i, o := range objects {
				switch {
				case tt.want == nil && (o.Size().Width != tt.width || i > 0 && o.Position().Y <= objects[i-1].Position().Y):
					t.Errorf("%d is at %v, %v wide", i, o.Position(), o.Size().Width)
				case tt.want != nil && (o.Size().Width != tt.want[i] || o.Position().Y != 0):
					t.Errorf("%d is at %v, %v wide; want %v", i, o.Position(), o.Size().Width, tt.want[i])
				}
			}
		})
	}
}
