package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"keeperbook/model/say"
)

// gridVeil lies over a table that does not have the keyboard: what a gauge types now arrives elsewhere.
type gridVeil struct {
	haze *canvas.Rectangle
	box  *canvas.Rectangle
	word *canvas.Text
	hint *canvas.Text
}

func newGridVeil(words say.Printer) *gridVeil {
	v := &gridVeil{haze: &canvas.Rectangle{}, box: &canvas.Rectangle{}}
	v.word = canvas.NewText(words.Line(say.New("grid.not-listening")), nil)
	v.hint = canvas.NewText(words.Line(say.New("grid.not-listening.hint")), nil)
	v.word.Alignment, v.hint.Alignment = fyne.TextAlignCenter, fyne.TextAlignCenter
	v.word.TextStyle.Bold = true
	return v
}

func (v *gridVeil) objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{v.haze, v.box, v.word, v.hint}
}

// draw shows the veil where the table does not listen and nobody said why it need not.
func (v *gridVeil) draw(g *Grid) {
	for _, o := range v.objects() {
		show(o, !g.focused && !g.quiet && len(g.rows) > 0)
	}
	i := g.inks
	v.haze.FillColor = i.veil
	v.box.FillColor, v.box.StrokeColor, v.box.StrokeWidth = i.paper, i.ink, g.sizes.line
	v.word.Color, v.word.TextSize = i.ink, max(34, 2.4*g.sizes.text)
	v.hint.Color, v.hint.TextSize = i.ink, g.sizes.title
	v.arrange(g.Size(), g.plan.label, g.plan.head)
}

// arrange puts the words into the middle of what is seen of the body.
func (v *gridVeil) arrange(size fyne.Size, left, top float32) {
	put(v.haze, fyne.NewPos(0, 0), size)
	word, hint := v.word.MinSize(), v.hint.MinSize()
	// In a narrow table the large words say enough by themselves.
	show(v.hint, v.box.Visible() && hint.Width+4*v.hint.TextSize <= size.Width-left)
	if !v.hint.Visible() {
		hint = fyne.Size{}
	}
	pad := v.hint.TextSize
	box := fyne.NewSize(min(max(word.Width, hint.Width)+4*pad, size.Width), word.Height+hint.Height+2*pad)
	at := fyne.NewPos(max(0, left+(size.Width-left-box.Width)/2), max(0, top+(size.Height-top-box.Height)/2))
	put(v.box, at, box)
	put(v.word, at.AddXY(0, pad*0.8), fyne.NewSize(box.Width, word.Height))
	put(v.hint, at.AddXY(0, pad*0.8+word.Height), fyne.NewSize(box.Width, hint.Height))
}
