package pdf

import (
	"image/color"

	"keeperbook/model/evaluate"
	"keeperbook/model/say"
	"keeperbook/pdf/face"
	"keeperbook/pdf/figure"

	"gonum.org/v1/plot/vg"
)

// Look is how drawings look on paper.
func Look() figure.Look {
	return figure.Look{
		Ink: color.Gray{uint8(ink)}, Faint: color.Gray{125}, Fill: color.Gray{214}, Paper: color.Gray{uint8(paper)},
		Regular: face.Regular(leastSize), Bold: face.Bold(leastSize), TextSize: leastSize, OnPaper: true,
	}
}

func hasBar(ev evaluate.Evaluation) bool {
	for i := range ev.Valves {
		if _, ok := figure.NewBar(ev.Valves[i]); ok {
			return true
		}
	}
	return false
}

// governing returns the valve whose section the sheet shows: the tightest, else the one with the least
// lift limit, else the first of which a height is known; −1 where there is none.
func governing(ev evaluate.Evaluation) int {
	if ev.Tightest >= 0 && ev.Tightest < len(ev.Valves) {
		return ev.Tightest
	}
	best := -1
	for i := range ev.Valves {
		v := &ev.Valves[i]
		switch {
		case v.UpTo.Known && (best < 0 || !ev.Valves[best].UpTo.Known || v.UpTo.Value < ev.Valves[best].UpTo.Value):
			best = i
		case best < 0 && v.Height.Known:
			best = i
		}
	}
	return best
}

// sectionLeast is the height that a section with its heading needs to be read, in points.
const sectionLeast = 250.0

// section draws the governing valve to scale, and sets how its numbers came about.
func (f *flow) section(s Sheet) {
	at := governing(s.Evaluation)
	if at < 0 {
		return
	}
	v := s.Evaluation.Valves[at]
	drawing := figure.NewSection(v, figure.PartsOf(s.Record, v.At), s.Words)
	title := f.say("sheet.section", v.Label)
	if at == s.Evaluation.Tightest {
		title = f.say("sheet.section-tightest", v.Label)
	}
	// The drawing takes what is left of the page where that is enough to read it, else a page's upper part.
	const headHigh, most = 34, 340
	f.need(sectionLeast)
	room := f.room() - headHigh
	w := vg.Length(f.width())
	h := float64(drawing.Height(w, vg.Length(min(room, most)), Look()))
	f.heading(title)
	drawing.Draw(canvasAt(f.press, f.left, f.y+h), vg.Point{X: w, Y: vg.Length(h)}, Look())
	f.y += h
	f.working(v)
	f.sure(v, &s.Record.Setup)
	f.loadCurve(v, s)
}

// working sets every line of the way from the readings to the margin.
func (f *flow) working(v evaluate.Valve) {
	figures := []evaluate.Figure{v.Base, v.Shims, v.Installed, v.Check, v.Lift}
	for _, c := range v.Coils {
		figures = append(figures, c.Bind)
	}
	for _, c := range v.Coils {
		figures = append(figures, c.Margin)
	}
	figures = append(figures, v.Least, v.UpTo, v.Seal, v.SealOpen, v.Room, v.RoomOpen, v.Target, v.ShimNeeded, v.LashShim)
	var lines []string
	seen := map[string]bool{}
	add := func(l say.Line) {
		if text := f.words.Line(l); text != "" && !seen[text] {
			seen[text] = true
			lines = append(lines, text)
		}
	}
	for _, fig := range figures {
		for _, l := range fig.Working() {
			add(l)
		}
	}
	for _, load := range []evaluate.Load{v.SeatMeasured, v.SeatComputed, v.OpenLoad} {
		for _, l := range load.Working() {
			add(l)
		}
	}
	f.sureLoads(v, add)
	for _, l := range v.Remedies {
		add(l)
	}
	if len(lines) == 0 {
		return
	}
	f.heading(f.say("sheet.working", v.Label))
	f.twoColumns(lines)
}

// hanging is a line of a paragraph whose lines after the first are set in.
type hanging struct {
	indent float64
	text   string
}

// twoColumns sets short texts down the left half of the page, then down the right.
func (f *flow) twoColumns(all []string) {
	const gap, indent = 16, 10
	w := (f.width() - gap) / 2
	var lines []hanging
	for _, text := range all {
		for i, line := range f.wrap(body, w-indent, text) {
			lines = append(lines, hanging{indent * float64(min(i, 1)), line})
		}
	}
	for len(lines) > 0 {
		half := (len(lines) + 1) / 2
		f.need(float64(min(half, 4)) * body.pitch())
		n := min(half, max(1, int(f.room()/body.pitch())))
		set := lines[:min(2*n, len(lines))]
		for i, line := range set {
			x := f.left + float64(i/n)*(w+gap) + line.indent
			f.text(x, f.y+float64(i%n)*body.pitch()+body.size, body, ink, line.text)
		}
		f.y += float64(n) * body.pitch()
		lines = lines[len(set):]
	}
	f.skip(2)
}
