package kit

import (
	"sync"

	"fyne.io/fyne/v2"
)

// wide returns the width of a text in toolkit units.
func wide(text string, size float32, bold bool) float32 {
	if text == "" {
		return 0
	}
	style := fyne.TextStyle{Bold: bold}
	return widths.of(lettering{text, size, now().Font(style)}, func() float32 { return fyne.MeasureText(text, size, style).Width })
}

// lineOf returns the height that a line of text takes up.
func lineOf(size float32) float32 { return 1.25 * size }

// widths are those of the whole program. The toolkit remembers them too, but forgets all of them whenever
// a widget is put under a theme of its own, and a page has many such fields.
var widths = memo{most: 4096}

// lettering is what the width of a text depends on.
type lettering struct {
	text string
	size float32
	font fyne.Resource
}

// memo remembers the last things that were worked out, up to twice as many as most: when so many are new,
// those that were not asked for since are forgotten.
type memo struct {
	most       int
	mu         sync.Mutex
	young, old map[lettering]float32
}

// of returns what was worked out for a key before, else works it out.
func (m *memo) of(key lettering, work func() float32) float32 {
	m.mu.Lock()
	defer m.mu.Unlock()
	v, ok := m.young[key]
	if ok {
		return v
	}
	if v, ok = m.old[key]; !ok {
		v = work()
	}
	if m.young == nil || len(m.young) >= m.most {
		m.young, m.old = make(map[lettering]float32, m.most), m.young
	}
	m.young[key] = v
	return v
}
