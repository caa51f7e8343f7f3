package shell

import "slices"

// Memory is what stays from one day to the next, outside of any book. The toolkit's preferences are
// one; a test uses a map.
type Memory interface {
	String(key string) string
	SetString(key, value string)
	Float(key string) float64
	SetFloat(key string, value float64)
	Bool(key string) bool
	SetBool(key string, value bool)
	StringList(key string) []string
	SetStringList(key string, value []string)
}

// The keys of the memory. Nothing of what was measured is in it.
const (
	lastBook   = "book"
	lastSetup  = "setup"
	lastLeaf   = "leaf"
	lastPlace  = "place"
	recent     = "recent"
	dark       = "dark"
	scale      = "scale"
	width      = "width"
	height     = "height"
	mostRecent = 8 // books in the list of the welcome page
)

// The sizes that everything may be shown in, as parts of the usual one.
var scales = [...]float64{0.8, 0.9, 1, 1.1, 1.25, 1.5, 1.75, 2}

// view is how the window is shown.
type view struct {
	Dark          bool
	Scale         float64
	Width, Height float64 // of the window, in toolkit units; 0 where it was never open
}

func readView(m Memory) view {
	v := view{Dark: m.Bool(dark), Scale: m.Float(scale), Width: m.Float(width), Height: m.Float(height)}
	if v.Scale < scales[0] || v.Scale > scales[len(scales)-1] {
		v.Scale = 1
	}
	// A window smaller or larger than any screen comes from a broken memory.
	if v.Width < 300 || v.Height < 200 || v.Width > 20000 || v.Height > 20000 {
		v.Width, v.Height = 0, 0
	}
	return v
}

func (v view) write(m Memory) {
	m.SetBool(dark, v.Dark)
	m.SetFloat(scale, v.Scale)
	m.SetFloat(width, v.Width)
	m.SetFloat(height, v.Height)
}

// step returns the next larger (+1) or smaller (−1) scale, and the same one at the end.
func (v view) step(by int) float64 {
	i, found := slices.BinarySearch(scales[:], v.Scale)
	if by < 0 || found {
		i += by
	}
	return scales[min(max(i, 0), len(scales)-1)]
}

// remember puts a book in front of the list of recent ones.
func remember(m Memory, path string) {
	list := slices.DeleteFunc(slices.Clone(m.StringList(recent)), func(p string) bool { return p == path })
	list = append([]string{path}, list...)
	m.SetStringList(recent, list[:min(len(list), mostRecent)])
	m.SetString(lastBook, path)
}

// forget takes a book out of the list.
func forget(m Memory, path string) {
	m.SetStringList(recent, slices.DeleteFunc(slices.Clone(m.StringList(recent)), func(p string) bool { return p == path }))
	if m.String(lastBook) == path {
		m.SetString(lastBook, "")
	}
}
