package valves

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"

	"keeperbook/app/internal/kit"
	"keeperbook/model/say"
)

// trayLines is how many readings of the tray are seen at once; the others are scrolled to, so that a gauge
// that goes on sending never pushes the table away.
const trayLines = 2

// trayed shows what arrived while nothing could be taken, below the table.
type trayed struct {
	object *fyne.Container
	title  *kit.Text
	lines  *fyne.Container
	scroll *container.Scroll
	drawn  []Burst
}

func newTrayed() *trayed {
	t := &trayed{title: kit.NewText(""), lines: container.NewVBox()}
	t.title.Bold(true)
	t.scroll = container.NewVScroll(t.lines)
	t.object = container.NewBorder(t.title, nil, nil, nil, t.scroll)
	t.object.Hide()
	return t
}

// draw shows the tray as it is now: the readings in the order they came, the last one in sight.
func (t *trayed) draw(v *View) {
	held, words := v.p.Tray(), v.p.Words()
	if slices.Equal(held, t.drawn) {
		return
	}
	t.drawn = slices.Clone(held)
	if len(held) == 0 {
		t.lines.Objects = nil
		t.object.Hide()
		return
	}
	t.title.Set(words.Line(say.New("valves.tray-title", len(held))))
	more := len(held) > len(t.lines.Objects)
	t.lines.Objects = nil
	for i, b := range held {
		text := kit.NewText(words.Line(say.New("valves.tray", b.Text, b.At.Format("15:04:05"))))
		t.lines.Add(container.NewBorder(nil, nil, nil, container.NewHBox(
			kit.NewButton(words.Line(say.New("valves.tray.place")), "", v.back(func() { v.p.Place(i) })),
			kit.NewButton(words.Line(say.New("valves.tray.drop")), "", v.back(func() { v.p.Drop(i) })),
		), text))
	}
	seen := float32(min(len(held), trayLines))
	t.scroll.SetMinSize(fyne.NewSize(0, seen*t.lines.Objects[0].MinSize().Height+(seen-1)*theme.Padding()))
	t.object.Show()
	t.object.Refresh()
	if more {
		t.scroll.ScrollToBottom()
	}
}
