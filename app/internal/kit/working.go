package kit

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// Working shows how a figure came about, a line for a step. What is worked out, how, and what comes of
// it stand in three columns, so that the results are under each other; in a wide place the lines go on
// in a second column beside the first, and in a narrow one what is long stands below its name.
type Working struct {
	widget.BaseWidget
	steps []workingStep
	width float32
}

// workingStep is one line: "installed height", "1.842 − .030", "1.812". A line that works nothing out is
// all name.
type workingStep struct{ name, how, is, value *Text }

// NewWorking returns an empty working.
func NewWorking() *Working {
	w := &Working{}
	w.ExtendBaseWidget(w)
	return w
}

// Set shows other lines.
func (w *Working) Set(lines []string) {
	w.steps = nil
	for _, l := range lines {
		w.steps = append(w.steps, newStep(l))
	}
	w.Refresh()
}

func newStep(line string) workingStep {
	// The sign between is typography, the same in every language.
	const is = " = "
	first, last := strings.Index(line, is), strings.LastIndex(line, is)
	if first < 0 {
		return workingStep{NewText(line), NewText(""), NewText(""), NewText("")}
	}
	s := workingStep{NewText(line[:first]), NewText(""), NewText("="), NewText(line[last+len(is):])}
	if first < last {
		s.how.Set("= " + line[first+len(is):last])
	}
	s.value.bold, s.value.right, s.value.whole = true, true, true
	return s
}

// Least and gap are in sizes of the text.
const (
	workingLeast = 30 // width of a column below which there is only one
	workingGap   = 2.2
)

// plan is where the columns of one block stand.
type workingPlan struct {
	blocks           int
	each             float32 // width of a block
	name, how, is, v float32 // widths in a block
	result           float32 // where the sign before the results stands in it
	text             float32 // its size
}

func (w *Working) plan(width float32) workingPlan {
	p := workingPlan{blocks: 1, each: width, text: sizeOf(w, textName)}
	if width >= (2*workingLeast+workingGap)*p.text && len(w.steps) > 3 {
		p.blocks, p.each = 2, (width-workingGap*p.text)/2
	}
	p.is = wide("=", p.text, false) + 0.5*p.text
	for _, s := range w.steps {
		p.v = max(p.v, wide(s.value.text, p.text, true))
		p.how = max(p.how, wide(s.how.text, p.text, false))
		if s.how.text != "" {
			p.name = max(p.name, wide(s.name.text, p.text, false))
		}
	}
	// What is worked out in one step has its name across both columns.
	if p.how == 0 {
		for _, s := range w.steps {
			if s.value.text != "" {
				p.name = max(p.name, wide(s.name.text, p.text, false))
			}
		}
	}
	p.name = min(p.name, 0.45*p.each)
	for _, s := range w.steps {
		if s.value.text != "" && s.how.text == "" && p.how > 0 {
			p.how = max(p.how, wide(s.name.text, p.text, false)-p.name-p.gap()+1)
		}
	}
	p.how = max(0, min(p.how, p.each-p.name-p.is-p.v-2*p.gap()))
	p.result = min(p.name+p.how+2*p.gap(), p.each-p.is-p.v)
	return p
}

func (p workingPlan) gap() float32 { return 0.8 * p.text }

// long reports whether what was done has no room beside its name.
func (p workingPlan) long(s workingStep) bool {
	return s.how.text != "" && wide(s.how.text, p.text, false) > p.how+0.5
}

// below is how far what is long is set in below its name, and how wide it is there. Where it has hardly any
// room before the result either, the result stands below it in its turn.
func (p workingPlan) below() (in, width float32, apart bool) {
	in = 1.4 * p.text
	if width = p.result - p.gap() - in; width < 7*p.text {
		return in, max(0, p.each-in), true
	}
	return in, width, false
}

// nameOf is how wide the name of a step may be.
func (p workingPlan) nameOf(s workingStep) float32 {
	switch {
	case s.value.text == "" || p.long(s):
		return p.each
	case s.how.text == "":
		return max(0, p.result-p.gap())
	}
	return p.name
}

// height is how high a step is in a plan.
func (p workingPlan) height(s workingStep) float32 {
	if p.long(s) {
		_, width, apart := p.below()
		height := s.name.HeightFor(p.each) + s.how.HeightFor(width)
		if apart {
			height += lineOf(p.text)
		}
		return height
	}
	return max(s.name.HeightFor(p.nameOf(s)), lineOf(p.text))
}

// place calls put for each step with its corner, block by block, and the height of the highest block.
func (w *Working) place(p workingPlan, put func(s workingStep, at fyne.Position)) (height float32) {
	leading := 0.3 * p.text
	perBlock := (len(w.steps) + p.blocks - 1) / p.blocks
	for i := 0; i < len(w.steps); i += max(1, perBlock) {
		x, y := float32(i/max(1, perBlock))*(p.each+workingGap*p.text), float32(0)
		for _, s := range w.steps[i:min(len(w.steps), i+perBlock)] {
			put(s, fyne.NewPos(x, y))
			y += p.height(s) + leading
		}
		height = max(height, y-leading)
	}
	return height
}

// HeightFor returns the height in toolkit units that the lines take at a width.
func (w *Working) HeightFor(width float32) float32 {
	return w.place(w.plan(width), func(workingStep, fyne.Position) {})
}

// CreateRenderer is the toolkit's.
func (w *Working) CreateRenderer() fyne.WidgetRenderer { return coloured(workingRenderer{w}) }

type workingRenderer struct{ w *Working }

func (r workingRenderer) Destroy() {}

func (r workingRenderer) Objects() []fyne.CanvasObject {
	var objects []fyne.CanvasObject
	for _, s := range r.w.steps {
		objects = append(objects, s.name, s.how, s.is, s.value)
	}
	return objects
}

func (r workingRenderer) MinSize() fyne.Size {
	least := 16 * sizeOf(r.w, textName)
	return fyne.NewSize(least, r.w.HeightFor(max(least, r.w.width)))
}

func (r workingRenderer) Layout(size fyne.Size) {
	r.w.width = size.Width
	p := r.w.plan(size.Width)
	r.w.place(p, func(s workingStep, at fyne.Position) {
		x, how, low, result := p.name+p.gap(), p.how, float32(0), float32(0)
		if p.long(s) {
			apart := false
			x, how, apart = p.below()
			low = s.name.HeightFor(p.each)
			if result = low; apart {
				result += s.how.HeightFor(how)
			}
		}
		put(s.name, at, fyne.NewSize(p.nameOf(s), s.name.HeightFor(p.nameOf(s))))
		put(s.how, at.AddXY(x, low), fyne.NewSize(how, s.how.HeightFor(how)))
		put(s.is, at.AddXY(p.result, result), fyne.NewSize(p.is, lineOf(p.text)))
		put(s.value, at.AddXY(p.result+p.is, result), fyne.NewSize(p.v, lineOf(p.text)))
	})
}

func (r workingRenderer) Refresh() {
	r.Layout(r.w.Size())
	for _, o := range r.Objects() {
		o.Refresh()
	}
	canvas.Refresh(r.w)
}
