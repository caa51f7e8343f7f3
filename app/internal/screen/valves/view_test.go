package valves

import (
	"context"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/task"
	"keeperbook/assets"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// frame stands in for the window around the leaf.
type frame struct {
	win     fyne.Window
	told    []string
	changed int
}

func (f *frame) Window() fyne.Window { return f.win }
func (f *frame) Tell(line say.Line)  { f.told = append(f.told, say.English().Line(line)) }
func (f *frame) Fail(err error)      { f.told = append(f.told, err.Error()) }
func (f *frame) Changed()            { f.changed++ }
func (f *frame) Show(string)         {}

// shown opens the leaf of a set-up of the demonstration book in a window.
func shown(t *testing.T, setup string, dark bool, scale float32) (*View, *frame) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "demo.keeperbook")
	clock := func() time.Time { return time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC) }
	if _, err := task.Demo(context.Background(), path, assets.Demo(), clock); err != nil {
		t.Fatal(err)
	}
	desk, err := task.OpenBook(context.Background(), path, "test", clock)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { desk.Book.Close() })
	bench, err := desk.OpenBench(context.Background(), setup)
	if err != nil {
		t.Fatal(err)
	}
	app := test.NewTempApp(t)
	app.Settings().SetTheme(kit.NewTheme(dark, scale))
	f := &frame{win: test.NewTempWindow(t, nil)}
	v := NewView(f, bench)
	f.win.SetContent(v.Object())
	f.win.Resize(fyne.NewSize(1180*scale, 800*scale))
	v.Focus()
	return v, f
}

// Typing redraws the section before anything is kept; Enter keeps it and tells the window.
func TestViewFollowsTyping(t *testing.T) {
	v, f := shown(t, "setup-ferry-built", false, 1)
	if c := f.win.Canvas(); c.Focused() != v.grid {
		t.Fatal("the keyboard is not in the table")
	}
	for _, r := range "1842" {
		v.grid.TypedRune(r)
	}
	at := v.p.Selected()
	if got := v.p.Words().Line(say.New("expr.one", v.p.Preview(at).Base.Value)); got != "1.842" || f.changed != 0 {
		t.Errorf("while typing the base is %s, the window was told %d times", got, f.changed)
	}
	v.grid.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if f.changed != 1 {
		t.Errorf("the window was told %d times", f.changed)
	}
	if len(v.bench.Record().ReadingsAt(at, record.BaseHeight, 0)) != 1 {
		t.Error("the reading is not in the record")
	}
}

// A refused reading stands in the strip with its sentence and its answers; Esc drops it.
func TestViewShowsWhatHolds(t *testing.T) {
	v, f := shown(t, "setup-ferry-built", true, 1)
	if v.prompt.object.Visible() {
		t.Error("the strip is there with nothing to say")
	}
	for _, r := range "2" {
		v.grid.TypedRune(r)
	}
	v.grid.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if !v.prompt.object.Visible() || v.p.Held() == nil {
		t.Fatal("a height of 2 holds nothing")
	}
	v.grid.TypedRune('5')
	if len(v.p.Tray()) != 1 || len(v.tray.lines.Objects) != 1 {
		t.Errorf("%d bursts in the tray, %d shown", len(v.p.Tray()), len(v.tray.lines.Objects))
	}
	v.grid.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if v.prompt.object.Visible() || f.changed != 0 {
		t.Error("the strip stays after the reading was dropped")
	}
}

// The cell that work was left in is found again.
func TestViewPlace(t *testing.T) {
	v, _ := shown(t, "setup-hill-built", false, 1)
	v.GoTo("3/ex/2 seal")
	if got := v.Place(); got != "3/ex/2 seal" {
		t.Errorf("at %q", got)
	}
	v.GoTo("9/ex/2 seal")
	v.GoTo("")
	if got := v.Place(); got != "3/ex/2 seal" {
		t.Errorf("a place that is not there led to %q", got)
	}
}

// first is the first button inside of something.
func first(o fyne.CanvasObject) *kit.Button {
	switch o := o.(type) {
	case *kit.Button:
		return o
	case *fyne.Container:
		for _, inside := range o.Objects {
			if b := first(inside); b != nil {
				return b
			}
		}
	}
	return nil
}

// Side by side the tools change, both set-ups are named and drawn, and nothing lies over anything else.
func TestViewSideBySide(t *testing.T) {
	v, f := shown(t, "setup-ferry-built", false, 1)
	v.GoTo("5/in/1 base")
	v.below.SetOffset(0.7)
	top := func(o fyne.CanvasObject) float32 { return fyne.CurrentApp().Driver().AbsolutePositionForObject(o).Y }
	gridTop := top(v.grid)
	v.grid.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF4})
	if !strings.Contains(v.tools.two.Text(), "as found") || v.steps.Visible() || !v.newer.Visible() {
		t.Error("the two set-ups are not named, or not drawn")
	}
	if v.tools.table.Visible() || !v.tools.beside.Visible() {
		t.Error("the tools are not those of two set-ups")
	}
	if got := v.below.Offset; got != 0.5 {
		t.Errorf("the two sections share their room by %v", got)
	}
	back := first(v.tools.beside)
	if two := v.tools.two; top(two) < top(back) || top(two)+two.Size().Height > top(back)+back.Size().Height ||
		top(v.grid) < top(back)+back.Size().Height {
		t.Errorf("buttons at %v, words at %v, table at %v", top(back), top(two), top(v.grid))
	}
	// A reading that arrives is shown in the tray, and what the book does not take is said; neither lies over the table.
	v.grid.TypedRune('1')
	v.grid.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if tray := v.tray.object; !tray.Visible() || top(tray) < top(v.grid)+v.grid.Size().Height {
		t.Errorf("the tray is at %v, the table from %v on", top(tray), top(v.grid))
	}
	v.p.Drop(0)
	if got := v.Place(); got != "5/in/1 base" {
		t.Errorf("the place to come back to is %q", got)
	}
	// The button does what Esc does, and the keyboard is in the table again.
	back.Press()
	if v.p.SideBySide() || !v.steps.Visible() || v.newer.Visible() || top(v.grid) != gridTop {
		t.Errorf("the table did not come back as it was: at %v, was at %v", top(v.grid), gridTop)
	}
	if v.below.Offset != 0.7 {
		t.Errorf("the section was given %v of the width, and is left with %v", 0.7, v.below.Offset)
	}
	if f.win.Canvas().Focused() != v.grid || f.changed != 0 {
		t.Error("the keyboard is not in the table, or something changed")
	}
}

// F7 asks in the strip, and an arrow with Enter begins the column.
func TestViewBeginsAColumn(t *testing.T) {
	v, f := shown(t, "setup-ferry-built", true, 1)
	press := func(keys ...fyne.KeyName) {
		for _, k := range keys {
			v.grid.TypedKey(&fyne.KeyEvent{Name: k})
		}
	}
	press(fyne.KeyF7)
	q := v.p.Asked()
	if q == nil || !v.prompt.object.Visible() {
		t.Fatal("nothing was asked")
	}
	for v.p.Asked().Picked < 0 || q.Choices[v.p.Asked().Picked].Key != "valves.optional.running" {
		press(fyne.KeyRight)
	}
	press(fyne.KeyReturn)
	for _, r := range "555" {
		v.grid.TypedRune(r)
	}
	press(fyne.KeyReturn)
	at := v.bench.Record().Head.Positions()[0]
	if got := v.bench.Record().ReadingsAt(at, record.LiftRunning, 0); len(got) != 1 || got[0].Quantity.Read != "0.555" && got[0].Quantity.Read != ".555" {
		t.Errorf("kept %+v; told %q", got, f.told)
	}
}
