package shop_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"keeperbook/app/internal/screen/shop"
	"keeperbook/model/record"
)

// menu opens the menu over the line under the cursor, reads it and puts it away.
func (h *host) menu(t *testing.T) string {
	t.Helper()
	h.keys(t, desktop.KeyMenu)
	over := h.win.Canvas().Overlays().Top()
	if over == nil {
		t.Fatal("there is no menu")
	}
	var all []string
	var walk func(o fyne.CanvasObject)
	walk = func(o fyne.CanvasObject) {
		switch o := o.(type) {
		case *canvas.Text:
			all = append(all, o.Text)
		case *fyne.Container:
			for _, c := range o.Objects {
				walk(c)
			}
		case fyne.Widget:
			for _, c := range test.WidgetRenderer(o).Objects() {
				walk(c)
			}
		}
	}
	walk(over)
	h.keys(t, fyne.KeyEscape)
	return strings.Join(slices.DeleteFunc(all, func(s string) bool { return s == "" }), ", ")
}

// Of a gauge that is not open the menu offers to open it; of the one that is open also what its buttons do, and it is removed only
// where no set-up uses it.
func TestMenuOverAGauge(t *testing.T) {
	desk, h, v := shown(t)
	c := counter(t, desk)
	g, err := c.NewGauge("a gauge that nobody uses")
	if err == nil {
		err = c.Keep(context.Background(), g)
	}
	if err != nil {
		t.Fatal(err)
	}
	v.Refresh()
	v.Show(shop.Gauges)
	v.Focus()
	h.keys(t, fyne.KeyHome)
	if err := c.Load(context.Background()); err != nil {
		t.Fatal(err)
	}
	at := slices.IndexFunc(c.Gauges(), func(one record.Gauge) bool { return one.ID == g.Key() })
	used := (at + 1) % len(c.Gauges())
	seen := func(row int) string {
		v.Focus()
		h.keys(t, fyne.KeyHome)
		for range row {
			h.keys(t, fyne.KeyDown)
		}
		return h.menu(t)
	}
	for _, c := range []struct {
		row         int
		before, now string
	}{{used, "Open (Enter)", "Open (Enter), Study how it repeats…"}, {at, "Open (Enter)", "Open (Enter), Study how it repeats…, Remove…"}} {
		if got := seen(c.row); got != c.before {
			t.Errorf("of one that is not open it offers %q", got)
		}
		h.keys(t, fyne.KeyReturn)
		if got := seen(c.row); got != c.now {
			t.Errorf("of line %d, open, it offers %q, want %q", c.row, got, c.now)
		}
	}
}
