package shop_test

import (
	"errors"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/screen/shop"
	"keeperbook/model/say"
)

// studies stand in for the page of a gauge's studies.
type studies struct {
	object  *fyne.Container
	button  *kit.Button
	strays  []string
	fetched int
}

func (s *studies) Object() fyne.CanvasObject { return s.object }
func (s *studies) Refresh()                  { s.fetched++ }
func (s *studies) Focus()                    { kit.GiveKeyboard(s.button) }
func (s *studies) Stray(text string)         { s.strays = append(s.strays, text) }
func (s *studies) Unkept() []say.Line {
	return []say.Line{say.New("study.unkept", strings.Join(s.strays, " "))}
}

// words are what stands on a button.
func words(b *kit.Button) string {
	for _, o := range test.WidgetRenderer(b).Objects() {
		if text, ok := o.(*canvas.Text); ok {
			return text.Text
		}
	}
	return ""
}

// From a gauge to its studies and back, by the keyboard; the page of studies is made once, so that what was typed
// there is there again.
func TestToTheStudiesAndBack(t *testing.T) {
	_, h, v := shown(t)
	var asked []string
	var made *studies
	v.Study = func(gauge string, back func()) (shop.Panel, error) {
		asked = append(asked, gauge)
		made = &studies{button: kit.NewButton("back", "", back)}
		made.object = container.NewStack(made.button)
		return made, nil
	}
	v.Show(shop.Gauges)
	v.Stray("1.842") // nobody takes it here
	for range 2 {
		v.Focus()
		h.keys(t, fyne.KeyHome, fyne.KeyReturn)
		for range 40 {
			if b, ok := h.win.Canvas().Focused().(*kit.Button); ok && words(b) == "Study how it repeats…" {
				break
			}
			h.win.Canvas().FocusNext()
		}
		h.keys(t, fyne.KeyReturn)
		if made == nil || h.win.Canvas().Focused() != fyne.Focusable(made.button) {
			t.Fatal("the studies do not have the keyboard")
		}
		v.Stray("1.842")
		h.keys(t, fyne.KeyReturn)
		if _, ok := h.win.Canvas().Focused().(*kit.Button); ok || h.win.Canvas().Focused() == nil {
			t.Error("back at the gauge its first field does not have the keyboard")
		}
	}
	if lines := v.Unkept(); len(lines) != 1 || lines[0].Args[0] != "1.842 1.842" {
		t.Errorf("not kept is %v", lines)
	}
	if len(asked) != 1 || made.fetched != 2 || len(made.strays) != 2 || h.failed != nil {
		t.Errorf("asked for %q, fetched %d times, strays %q, failed %v", asked, made.fetched, made.strays, h.failed)
	}
}

func TestStudiesThatDoNotOpen(t *testing.T) {
	_, h, v := shown(t)
	v.Study = func(string, func()) (shop.Panel, error) { return nil, errors.New("the book is gone") }
	v.Show(shop.Gauges)
	v.Focus()
	h.keys(t, fyne.KeyReturn)
	for range 40 {
		if b, ok := h.win.Canvas().Focused().(*kit.Button); ok && words(b) == "Study how it repeats…" {
			break
		}
		h.win.Canvas().FocusNext()
	}
	h.keys(t, fyne.KeyReturn)
	if h.failed == nil || h.failed.Error() != "the book is gone" {
		t.Errorf("failed with %v", h.failed)
	}
}
