package kit

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Text is words on the screen, wrapped to the width they are given. Unlike the toolkit's label it has
// no room around it, so that it lines up with what stands above and below.
type Text struct {
	widget.BaseWidget
	text  string
	size  fyne.ThemeSizeName
	bold  bool
	tone  fyne.ThemeColorName
	whole bool // in one line
	right bool // set from the right
	lines []*canvas.Text
	width float32
	known map[wrapping][]string // what was wrapped before: layouts ask many times for the same
}

// wrapping is what the lines of words depend on.
type wrapping struct {
	text          string
	bold          bool
	points, width float32
}

// mostKnown is how many wrappings a text remembers. Layouts ask with two or three widths; more come up
// while a window is being resized, or a text changes with each key.
const mostKnown = 8

// NewText returns words in the size and weight of running text.
func NewText(text string) *Text { return newText(text, theme.SizeNameText, false) }

// NewHint returns words that are not the thing itself: a label, a unit, what a field is for.
func NewHint(text string) *Text {
	t := newText(text, theme.SizeNameCaptionText, false)
	t.tone = theme.ColorNamePlaceHolder
	return t
}

// NewHeading returns the heading of a section of a page.
func NewHeading(text string) *Text { return newText(text, theme.SizeNameSubHeadingText, true) }

// NewTitle returns the title of a page.
func NewTitle(text string) *Text { return newText(text, theme.SizeNameHeadingText, true) }

func newText(text string, size fyne.ThemeSizeName, bold bool) *Text {
	t := &Text{text: text, size: size, bold: bold, tone: theme.ColorNameForeground}
	t.ExtendBaseWidget(t)
	return t
}

// Set changes the words.
func (t *Text) Set(text string) {
	if t.text == text {
		return
	}
	t.text = text
	t.Refresh()
}

// Text returns the words.
func (t *Text) Text() string { return t.text }

// Bold sets the weight: what was measured or must be read first is bold.
func (t *Text) Bold(bold bool) {
	if t.bold == bold {
		return
	}
	t.bold = bold
	t.Refresh()
}

func (t *Text) points() float32 { return sizeOf(t, t.size) }

// wrapped breaks words to a width. A line break in the text is kept.
func (t *Text) wrapped(text string, bold bool, width float32) (lines []string) {
	if text == "" {
		return nil
	}
	asked := wrapping{text, bold, t.points(), width}
	if lines, ok := t.known[asked]; ok {
		return lines
	}
	defer func() {
		if t.known == nil || len(t.known) >= mostKnown {
			t.known = map[wrapping][]string{}
		}
		t.known[asked] = lines
	}()
	for paragraph := range strings.SplitSeq(text, "\n") {
		if t.whole || width <= 0 {
			lines = append(lines, paragraph)
			continue
		}
		lines = append(lines, broken(paragraph, t.points(), bold, width)...)
	}
	return lines
}

func broken(paragraph string, points float32, bold bool, width float32) (lines []string) {
	// Most words fit in one line, and measuring is what takes the time.
	if one := strings.Join(strings.Fields(paragraph), " "); wide(one, points, bold) <= width {
		return []string{one}
	}
	line := ""
	for word := range strings.FieldsSeq(paragraph) {
		for _, piece := range pieces(word, points, bold, width) {
			longer := piece
			if line != "" {
				longer = line + " " + piece
			}
			if line != "" && wide(longer, points, bold) > width {
				lines = append(lines, line)
				longer = piece
			}
			line = longer
		}
	}
	return append(lines, line)
}

// pieces cuts a word that is wider than the room for it, such as a long path, so that nothing is lost
// beyond the edge.
func pieces(word string, points float32, bold bool, width float32) (all []string) {
	if wide(word, points, bold) <= width {
		return []string{word}
	}
	piece := ""
	for _, r := range word {
		if piece != "" && wide(piece+string(r), points, bold) > width {
			all = append(all, piece)
			piece = ""
		}
		piece += string(r)
	}
	return append(all, piece)
}

// HeightFor returns the height in toolkit units that the words take at a width.
func (t *Text) HeightFor(width float32) float32 { return t.heightAs(t.text, t.bold, width) }

// heightAs is the height that other words would take in the place of these.
func (t *Text) heightAs(text string, bold bool, width float32) float32 {
	return float32(len(t.wrapped(text, bold, width))) * lineOf(t.points())
}

// CreateRenderer is the toolkit's.
func (t *Text) CreateRenderer() fyne.WidgetRenderer { return coloured(textRenderer{t}) }

type textRenderer struct{ t *Text }

func (r textRenderer) Destroy() {}

func (r textRenderer) MinSize() fyne.Size {
	t := r.t
	least := float32(0)
	for part := range strings.SplitSeq(t.text, "\n") {
		least = max(least, wide(part, t.points(), t.bold))
	}
	if !t.whole {
		// A few words' width will do; the rest is wrapped.
		least = min(least, 8*t.points())
	}
	return fyne.NewSize(least, t.HeightFor(t.width))
}

func (r textRenderer) Layout(size fyne.Size) {
	t := r.t
	t.width = size.Width
	lines := t.wrapped(t.text, t.bold, size.Width)
	for len(t.lines) < len(lines) {
		t.lines = append(t.lines, canvas.NewText("", nil))
	}
	t.lines = t.lines[:len(lines)]
	ink := theme.ColorForWidget(t.tone, t)
	for i, l := range t.lines {
		l.Text, l.Color, l.TextSize, l.TextStyle.Bold = lines[i], ink, t.points(), t.bold
		l.Alignment = fyne.TextAlignLeading
		if t.right {
			l.Alignment = fyne.TextAlignTrailing
		}
		l.Move(fyne.NewPos(0, float32(i)*lineOf(t.points())))
		l.Resize(fyne.NewSize(size.Width, lineOf(t.points())))
		l.Refresh()
	}
}

func (r textRenderer) Refresh() {
	r.Layout(r.t.Size())
	canvas.Refresh(r.t)
}

func (r textRenderer) Objects() []fyne.CanvasObject {
	objects := make([]fyne.CanvasObject, len(r.t.lines))
	for i, l := range r.t.lines {
		objects[i] = l
	}
	return objects
}
