package kit_test

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/kit/table"
	"keeperbook/pdf/figure"
)

// hand writes down what reaches the handler of a table.
type hand struct {
	calls []string
	copy  string
	then  func() // answers a call
}

func (h *hand) note(call string, args ...any) {
	h.calls = append(h.calls, fmt.Sprintf(call, args...))
	if h.then != nil {
		h.then()
	}
}

func (h *hand) Rune(r rune)                 { h.note("rune %c", r) }
func (h *hand) Key(k table.Key, shift bool) { h.note("key %d %t", k, shift) }
func (h *hand) Paste(text string)           { h.note("paste %q", text) }
func (h *hand) Copy() string                { h.note("copy"); return h.copy }
func (h *hand) Tap(at table.Place, shift bool) {
	h.note("tap %d %d %t", at.Row, at.Column, shift)
}

// taken returns what arrived since the last time.
func (h *hand) taken() string {
	all := strings.Join(h.calls, "; ")
	h.calls = nil
	return all
}

// window shows a table in a window of this size, in the program's own look.
func window(t testing.TB, h table.Handler, dark bool, scale float32, size fyne.Size) (*kit.Grid, fyne.Window) {
	t.Helper()
	app := test.NewTempApp(t)
	app.Settings().SetTheme(kit.NewTheme(dark, scale))
	g := kit.NewGrid(h)
	w := test.NewWindow(g)
	w.SetPadded(false)
	w.Resize(size)
	return g, w
}

// columns of a bench, in the order in which readings are taken; n at most sixteen.
func columns(n int) []table.Column {
	all := []table.Column{
		{Key: "verdict", Title: "verdict", Width: 10, Text: true, Computed: true},
		{Key: "base", Title: "base", Unit: "in", Width: 5},
		{Key: "seal", Title: "seal", Unit: "in", Width: 4},
		{Key: "shims", Title: "shims", Unit: "in", Width: 9},
		{Key: "calc", Title: "calc", Unit: "in", Width: 5, Computed: true},
		{Key: "check", Title: "check", Unit: "in", Width: 5},
		{Key: "lift", Title: "lift", Unit: "in", Width: 5},
		{Key: "open", Title: "open height", Unit: "in", Width: 5, Computed: true},
		{Key: "bind", Title: "bind", Unit: "in", Width: 5},
		{Key: "margin", Title: "margin", Unit: "in", Width: 10, Computed: true},
		{Key: "bar", Title: "window", Width: 9, Computed: true},
		{Key: "upto", Title: "up to", Unit: "in", Width: 4, Computed: true},
		{Key: "seat", Title: "seat load", Unit: "lbf", Width: 4},
		{Key: "openload", Title: "open load", Unit: "lbf", Width: 4, Computed: true},
		{Key: "gauge", Title: "gauge", Width: 6, Text: true},
		{Key: "at", Title: "time", Width: 5, Text: true, Computed: true},
	}
	return all[:n]
}

// bench is an invented head with two valves a cylinder.
func bench(valves, width int) table.State {
	s := table.State{Columns: columns(width), Cursor: table.Place{Row: 2, Column: 1}, Anchor: table.Place{Row: 2, Column: 1}}
	for v := range valves {
		role := []string{"in", "ex"}[v%2]
		s.Rows = append(s.Rows, table.Row{Label: fmt.Sprintf("%d %s", v/2+1, role), Group: v / 2})
		cells := make([]table.Cell, width)
		set := func(c int, cell table.Cell) {
			if c < width {
				cells[c] = cell
			}
		}
		typed := func(c int, text string) { set(c, table.Cell{Text: text, Strong: true}) }
		known := func(c int, text string) { set(c, table.Cell{Text: text}) }
		known(0, "within")
		typed(1, fmt.Sprintf("1.8%02d", 36+v%11))
		typed(2, ".700")
		typed(3, []string{".030", ".015+.015", ".0155"}[v%3])
		known(4, fmt.Sprintf("1.8%02d", 6+v%11))
		known(7, fmt.Sprintf("1.%03d", 195+v%9))
		typed(6, ".612")
		typed(8, "1.114")
		known(9, fmt.Sprintf(".%03d ± .006", 81+v%9))
		switch v {
		case 1:
			typed(1, "1.8365")
			known(6, ".604e")
		case 3:
			set(0, table.Cell{Text: "up to .598", Inverse: true})
			set(9, table.Cell{Text: ".056 ± .006", Inverse: true})
		case 4:
			set(1, table.Cell{Text: "1.841", Strong: true, Unsaved: true})
			set(3, table.Cell{Text: ".030", Strong: true, Unsaved: true})
		case 5:
			set(0, table.Cell{Text: "missing"})
			for c := range 6 {
				set(c+4, table.Cell{})
			}
			set(6, table.Cell{Text: ".612", Faint: true})
			set(9, table.Cell{Text: "—", Faint: true})
		}
		if v != 5 {
			set(10, table.Cell{Text: "a bar", Bar: &figure.Bar{}})
		}
		known(11, ".623")
		typed(12, fmt.Sprint(128+v%7))
		known(13, fmt.Sprintf("%d.5", 386+v%7))
		typed(14, "calip 2")
		known(15, fmt.Sprintf("14:%02d", v%60))
		s.Cells = append(s.Cells, cells)
	}
	return s
}

// text finds the only visible text that reads like this, and says where on the window it stands.
func text(t *testing.T, c fyne.Canvas, want string) (*canvas.Text, fyne.Position) {
	t.Helper()
	all := texts(c, want)
	if len(all) != 1 {
		t.Fatalf("found %q %d times", want, len(all))
	}
	return all[0].text, all[0].at
}

type found struct {
	text *canvas.Text
	at   fyne.Position
}

func texts(c fyne.Canvas, want string) (all []found) {
	walk(c.Content(), fyne.NewPos(0, 0), func(o fyne.CanvasObject, at fyne.Position) {
		if x, ok := o.(*canvas.Text); ok && x.Text == want {
			all = append(all, found{x, at})
		}
	})
	return all
}

// walk visits every visible object with its place on the window.
func walk(o fyne.CanvasObject, at fyne.Position, visit func(fyne.CanvasObject, fyne.Position)) {
	if !o.Visible() {
		return
	}
	at = at.Add(o.Position())
	visit(o, at)
	var inner []fyne.CanvasObject
	switch o := o.(type) {
	case *fyne.Container:
		inner = o.Objects
	case *container.Scroll, *container.Clip, *kit.Grid:
		inner = test.WidgetRenderer(o.(fyne.Widget)).Objects()
	}
	for _, i := range inner {
		walk(i, at, visit)
	}
}
