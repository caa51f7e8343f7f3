package kit_test

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"keeperbook/app/internal/kit"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

func TestBanner(t *testing.T) {
	var did []string
	note := func(what string) func() { return func() { did = append(did, what) } }
	open := func(t *testing.T) (*stage, *kit.Banner, *kit.Field) {
		did = nil
		b, f := kit.NewBanner(say.In(unit.Inches.Show)), kit.NewField("below", "", nil)
		s := newStage(t, container.NewBorder(b, nil, nil, nil, kit.NewForm(f)))
		b.OnClosed(func() { did = append(did, "closed"); f.Focus() })
		return s, b, f
	}
	t.Run("says nothing at first", func(t *testing.T) {
		_, b, _ := open(t)
		if b.Visible() || b.Says() != "" || b.Close() {
			t.Errorf("it says %q", b.Says())
		}
	})
	t.Run("an action puts it away first", func(t *testing.T) {
		s, b, f := open(t)
		b.Say("3 ex, base height 1.842 is not saved.", kit.Action{Label: "Save again", Key: "Ctrl+S", Do: note("saved")})
		wantSays(t, s, "is not saved.", "Save again Ctrl+S", "Put away Esc")
		b.Focus()
		s.press(fyne.KeyReturn)
		if !slices.Equal(did, []string{"closed", "saved"}) || b.Visible() || !f.Focused() {
			t.Errorf("did %q, seen %v", did, b.Visible())
		}
	})
	t.Run("Esc puts it away", func(t *testing.T) {
		s, b, _ := open(t)
		b.Say("no", kit.Action{Label: "Save", Do: note("saved")})
		b.Focus()
		s.press(fyne.KeyEscape)
		if !slices.Equal(did, []string{"closed"}) || b.Visible() {
			t.Errorf("did %q", did)
		}
	})
	t.Run("the last button too", func(t *testing.T) {
		s, b, _ := open(t)
		b.Say("no", kit.Action{Label: "Save", Do: note("saved")})
		b.Focus()
		s.press(fyne.KeyRight, fyne.KeySpace)
		if !slices.Equal(did, []string{"closed"}) {
			t.Errorf("did %q", did)
		}
	})
	t.Run("an error is said in the book's units, and the next replaces it", func(t *testing.T) {
		_, b, _ := open(t)
		b.Fail(say.Fail(say.Invalid, "nobody.wrote", unit.Inch))
		if b.Says() != "nobody.wrote 1.000" {
			t.Errorf("says %q", b.Says())
		}
		b.SetWords(say.In(unit.Millimetres.Show))
		b.Fail(say.Fail(say.Invalid, "nobody.wrote", unit.Inch))
		if b.Says() != "nobody.wrote 25.40" {
			t.Errorf("says %q", b.Says())
		}
	})
}

func TestStatus(t *testing.T) {
	bar := kit.NewStatus()
	s := newStage(t, container.NewBorder(nil, bar, nil, nil, kit.NewText("")))
	empty := bar.MinSize().Height
	bar.Set("tightest of 10 measured: 3 ex, short by .004; 2 missing", "Next: 4 ex, base height")
	wantSays(t, s, "tightest of 10 measured: 3 ex, short by .004; 2 missing", "Next: 4 ex, base height")
	if bar.MinSize().Height != empty {
		t.Errorf("the line jumped from %g to %g", empty, bar.MinSize().Height)
	}
	bar.Tell("3 ex, base height 1.842 kept")
	if left, next := bar.Says(); left != "3 ex, base height 1.842 kept" || next != "Next: 4 ex, base height" {
		t.Errorf("says %q and %q", left, next)
	}
	sizes := map[string]float32{}
	each(bar, func(o fyne.CanvasObject, _ fyne.Position) {
		if text, ok := o.(*canvas.Text); ok {
			sizes[text.Text] = text.TextSize
		}
	})
	if sizes["Next: 4 ex, base height"] < 1.3*sizes["3 ex, base height 1.842 kept"] {
		t.Errorf("what is next is not large: %v", sizes)
	}
}

// Nothing is cut: every text of every bar is inside it and inside the window, however narrow.
func TestBarsCutNothing(t *testing.T) {
	long := strings.Repeat("a sentence that goes on ", 7)
	for _, scale := range []float32{1, 2} {
		// A window gets no narrower than its bars want to be.
		for _, width := range []float32{340 * scale, 700, 1400} {
			b, bar, w := kit.NewBanner(say.English()), kit.NewStatus(), kit.NewWorking()
			s := newStage(t, container.NewBorder(b, bar, nil, nil, kit.NewForm(w)))
			fyne.CurrentApp().Settings().SetTheme(kit.NewTheme(true, scale))
			b.Say(long, kit.Action{Label: "Save again", Do: func() {}}, kit.Action{Label: "Save a copy", Do: func() {}})
			bar.Set(long, "Next: 4 ex, base height")
			w.Set([]string{"installed height = 1.842 − .030 = 1.812", long, "margin = .086", long + " = 1.000"})
			// The toolkit lays a bar out again when it wants another height; the headless window does not.
			s.win.Resize(fyne.NewSize(width, 900))
			s.win.Resize(fyne.NewSize(width, 901))
			s.win.Resize(fyne.NewSize(width, 902))
			for _, o := range []fyne.CanvasObject{b, bar, w} {
				wantInside(t, o, width)
			}
		}
	}
}

// wantInside looks whether every text is where its widget is.
func wantInside(t *testing.T, whole fyne.CanvasObject, window float32) {
	t.Helper()
	top := fyne.CurrentApp().Driver().AbsolutePositionForObject(whole)
	each(whole, func(o fyne.CanvasObject, at fyne.Position) {
		text, ok := o.(*canvas.Text)
		if !ok || text.Text == "" {
			return
		}
		at = at.Subtract(whole.Position())
		width := fyne.MeasureText(text.Text, text.TextSize, text.TextStyle).Width
		left := at.X
		if text.Alignment == fyne.TextAlignTrailing {
			left = at.X + text.Size().Width - width
		}
		if left < -0.5 || left+width > whole.Size().Width+0.5 || top.X+left+width > window+0.5 {
			t.Errorf("%q stands from %g to %g of %g", text.Text, left, left+width, whole.Size().Width)
		}
		if at.Y < -0.5 || at.Y+text.TextSize > whole.Size().Height+0.5 {
			t.Errorf("%q stands at a height of %g of %g", text.Text, at.Y, whole.Size().Height)
		}
	})
}

func TestWorking(t *testing.T) {
	w := kit.NewWorking()
	s := newStage(t, kit.NewForm(w))
	lines := []string{"installed height = 1.842 − .030 = 1.812", "bind height = 1.114", "margin = 1.200 − 1.114 = .086", "bind height 1.060 ⟵ 1.215 − .095 − .060"}
	w.Set(lines)
	s.win.Resize(fyne.NewSize(1000, 701))
	wantSays(t, s, "installed height = 1.842 − .030 = 1.812", "bind height = 1.114", "bind height 1.060 ⟵ 1.215 − .095 − .060")

	right := map[string]float32{}
	left := map[string]float32{}
	look := func() {
		clear(right)
		clear(left)
		each(w, func(o fyne.CanvasObject, at fyne.Position) {
			if text, ok := o.(*canvas.Text); ok {
				left[text.Text], right[text.Text] = at.X, at.X+text.Size().Width
			}
		})
	}
	look()
	if right["1.812"] != right["1.114"] {
		t.Errorf("in one block the results end at %g and %g", right["1.812"], right["1.114"])
	}
	t.Run("wide, the lines go on beside", func(t *testing.T) {
		if left["installed height"] >= left["margin"] {
			t.Errorf("margin begins at %g, installed height at %g", left["margin"], left["installed height"])
		}
	})
	t.Run("narrow, they stand under each other", func(t *testing.T) {
		s.win.Resize(fyne.NewSize(500, 700))
		look()
		if left["installed height"] != left["margin"] || right["1.812"] != right[".086"] || right["1.114"] != right[".086"] {
			t.Errorf("left %v, right %v", left, right)
		}
	})
	t.Run("empty", func(t *testing.T) {
		w.Set(nil)
		if got := read(w); got != "" {
			t.Errorf("says %q", got)
		}
	})
}

func TestTextIsWrappedAndKept(t *testing.T) {
	newStage(t, kit.NewForm())
	for _, tt := range []struct {
		text  string
		width float32
		lines int
	}{
		{"", 200, 0}, {"short", 200, 1}, {"one\ntwo", 200, 2}, {"a b c d", 1, 4}, {strings.Repeat("word ", 20), 200, 4},
	} {
		text := kit.NewText(tt.text)
		text.Resize(fyne.NewSize(tt.width, 400))
		lines := len(test.WidgetRenderer(text).Objects())
		if tt.lines != lines {
			t.Errorf("%q in %g: %d lines, want %d", tt.text, tt.width, lines, tt.lines)
		}
	}
	t.Run("a word that is too long is cut into pieces and nothing of it lost", func(t *testing.T) {
		long := "/home/shop/" + strings.Repeat("folder-of-the-year/", 12) + "book.keeperbook"
		text := kit.NewText(long)
		text.Resize(fyne.NewSize(150, 400))
		if got := strings.ReplaceAll(read(text), " ", ""); got != long {
			t.Errorf("got %q", got)
		}
	})
}

func TestButton(t *testing.T) {
	pressed := 0
	b := kit.NewButton("Keep", "Ctrl+S", func() { pressed++ })
	s := newStage(t, kit.NewForm(kit.Buttons(b, kit.NewButton("Other", "", nil).Strong())))
	wantSays(t, s, "Keep Ctrl+S", "Other")
	s.win.Canvas().Focus(b)
	s.press(fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace)
	test.Tap(b)
	if pressed != 4 {
		t.Errorf("pressed %d times", pressed)
	}
	s.press(fyne.KeyRight, fyne.KeyReturn) // a button that does nothing is pressed without harm
	if pressed != 4 || s.win.Canvas().Focused() == fyne.Focusable(b) {
		t.Error("the arrow did not move on")
	}
	b.SetLabel("Keep all of them")
	wantSays(t, s, "Keep all of them")
}

// Oily hands need something to hit: at 100 % every target is at least 30 units high.
func TestTargetsAreLargeEnough(t *testing.T) {
	newStage(t, kit.NewForm())
	for name, o := range map[string]fyne.CanvasObject{
		"button": kit.NewButton("x", "", nil), "field": kit.NewField("", "", nil), "choice": kit.NewChoice("", []string{"x"}, 0, nil),
	} {
		if got := o.MinSize().Height; got < 30 {
			t.Errorf("%s is %g high", name, got)
		}
	}
}
