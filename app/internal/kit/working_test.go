package kit_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"keeperbook/app/internal/kit"
)

// However narrow it is, no result is cut off at the edge and nothing is written over anything else.
func TestWorkingIsLegibleInAnyWidth(t *testing.T) {
	for name, lines := range map[string][]string{
		"usual": {"installed height = 1.842 − .030 = 1.812", "bind height = 1.114", "lift on checking springs .561"},
		"long": {
			"base height = 60.31 − 21.68 − 2.60 = 36.03", "lift limit = .700 − .050 − .0024 = .6476, rounded down to .647",
			"margin, inner coil = 1.740 − .090 − .562 − 1.030 = .058", "shims .50", "over the outer land the coils together bind = 1.125",
		},
		"no steps": {"bind height = 1.114", "the greatest lift that the room over the seal leaves to the retainer = .588"},
	} {
		t.Run(name, func(t *testing.T) {
			w := kit.NewWorking()
			s := newStage(t, kit.NewForm(w))
			w.Set(lines)
			for width := float32(300); width < 1100; width += 37 {
				s.win.Resize(fyne.NewSize(width, 700))
				type box struct {
					text    string
					at, end fyne.Position
				}
				var boxes []box
				each(w, func(o fyne.CanvasObject, at fyne.Position) {
					c, ok := o.(*canvas.Text)
					if !ok || c.Text == "" {
						return
					}
					from := at
					if c.Alignment == fyne.TextAlignTrailing {
						from.X += c.Size().Width - c.MinSize().Width
					}
					// Letters have room above and below them; half of a line is where they are.
					boxes = append(boxes, box{c.Text, from.AddXY(0, 4), from.AddXY(c.MinSize().Width, c.Size().Height-4)})
				})
				for i, b := range boxes {
					if b.at.X < -0.5 || b.end.X > w.Size().Width+0.5 || b.end.Y > w.Size().Height+0.5 {
						t.Errorf("%g wide: %q goes from %v to %v of %v", width, b.text, b.at, b.end, w.Size())
					}
					for _, o := range boxes[:i] {
						if b.at.X+0.5 < o.end.X && o.at.X+0.5 < b.end.X && b.at.Y < o.end.Y && o.at.Y < b.end.Y {
							t.Errorf("%g wide: %q lies over %q", width, b.text, o.text)
						}
					}
				}
			}
		})
	}
}
