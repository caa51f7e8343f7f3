package pdf

import (
	"io"
	"slices"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Form is a blank form that is filled in by hand at the bench.
type Form struct {
	Record *record.Record
	Path   []record.Position // the order in which the valves are measured; none: the order of the head
	Paper  Paper
	Words  say.Printer // shows values in the set-up's units
}

// Heights of rows in points: as tall as the page allows, since a pencil in an oily hand needs room.
const (
	tallestRow = 34.0
	lowestRow  = 22.0
	gaugeRow   = 17.0
)

// WriteForm writes the form as a PDF, in the way of [Write] and with its errors. Sixteen valves go on
// one page.
func WriteForm(w io.Writer, form Form) error {
	return writeTo(w, form.Paper, form.press)
}

// press lays the form out.
func (form Form) press(width, height float64) *press {
	r := form.Record
	p := newPress(width, height, made(r), form.Words.Line(say.New("form.title", r.Head.Tag)))
	f := newFlow(p, form.Words)
	f.formTitle(r)
	f.formGauges(r)
	f.blanks(r, form.path())
	f.foot(f.say("form.foot", f.short(label, footTag, f.tag(r)), r.Setup.ID), "")
	return p
}

func (form Form) path() []record.Position {
	if len(form.Path) > 0 {
		return form.Path
	}
	return form.Record.Head.Positions()
}

func (f *flow) formTitle(r *record.Record) {
	f.shop(r.Shop, f.say("form.word"))
	f.name(r, f.say("setup."+string(r.Setup.Kind)))
	units := "form.write-in"
	if r.Setup.Units.Length == unit.Mm {
		units = "form.write-mm"
	}
	f.facts(4, strong, f.filled([]fact{
		{"sheet.engine", r.Engine.Name}, {"sheet.casting", r.Head.Casting}, {"sheet.work-order", r.Head.WorkOrder},
		{"form.write", f.say(units)},
	}))
}

// formGauges sets lines for the gauges and what they read through, those of the record filled in, and
// for who measured and when.
func (f *flow) formGauges(r *record.Record) {
	shares := []float64{0.26, 0.13, 0.41, 0.2}
	x, places := f.left, make([]float64, len(shares))
	for i, s := range shares {
		places[i] = x
		x += s * f.width()
	}
	for i, key := range []string{"form.gauge", "form.number", "form.through", "form.zeroed"} {
		f.text(places[i], f.y+label.size, label, faint, f.say(key))
	}
	f.y += label.pitch()
	f.line(f.left, f.y, f.right, f.y, 0.8, ink)
	for i := range max(3, len(r.Gauges)+1) {
		if i < len(r.Gauges) {
			g := r.Gauges[i]
			f.text(places[0], f.y+12, body, ink, f.short(body, shares[0]*f.width()-6, g.Name))
			f.text(places[1], f.y+12, body, ink, f.short(body, shares[1]*f.width()-6, g.Number))
			if len(g.Setting) > 0 {
				f.text(places[2], f.y+12, body, ink, f.short(body, shares[2]*f.width()-6, f.setting(g.Setting)))
			}
		}
		f.text(places[3], f.y+12, body, ink, f.say("form.zero-tick"))
		f.y += gaugeRow
		f.line(f.left, f.y, f.right, f.y, 0.4, hair)
	}
	f.skip(8)
	// What is ticked ends at the edge, and the line to write a name on takes what is left.
	named := f.widthOf(label, f.say("form.lift-on")) + 5
	x = min(f.left+250, f.right-named-f.widthOf(body, f.say("form.lift-ticks")))
	f.ink("form.by", f.left, x-f.left-100)
	f.ink("form.date", x-92, 84)
	f.text(x, f.y+11, label, faint, f.say("form.lift-on"))
	f.text(x+named, f.y+11, body, ink, f.say("form.lift-ticks"))
	f.skip(20)
}

// ink rules a line to write on, with its name before it.
func (f *flow) ink(key string, x, width float64) {
	name := f.say(key)
	f.text(x, f.y+11, label, faint, name)
	f.line(x+f.widthOf(label, name)+4, f.y+13, x+width, f.y+13, 0.6, ink)
}

// blank is one column of the form.
type blank struct {
	title  string
	share  float64                    // of the width left beside the valve's name
	unused func(record.Position) bool // cells that this valve has nothing for; nil: none
}

// blankColumns returns the columns a head needs, in bench order.
func (f *flow) blankColumns(r *record.Record) []blank {
	var all []blank
	add := func(key string, share float64) { all = append(all, blank{title: f.say("form." + key), share: share}) }
	if byDifference(r) {
		add("seat-depth", 1)
		add("retainer-depth", 1)
	} else {
		add("base", 1)
	}
	add("seal", 0.9)
	add("shims", 1.5)
	add("check", 1)
	add("lift", 0.9)
	all = append(all, f.bindColumns(r)...)
	if slices.ContainsFunc(r.Setup.Packages, func(p record.Package) bool { return p.Lash != nil }) {
		add("lash-found", 0.8)
		add("lash-shim", 0.8)
		add("lash-left", 0.8)
	}
	return all
}

// byDifference reports whether the heights of this head are taken from a datum.
func byDifference(r *record.Record) bool {
	return slices.ContainsFunc(r.Setup.Readings, func(x record.Reading) bool {
		return x.Kind == record.SeatDepth || x.Kind == record.RetainerDepth
	})
}

// bindColumns gives one column to each coil of the springs that the roles carry, or one to a spring
// that is measured assembled.
func (f *flow) bindColumns(r *record.Record) []blank {
	coils := map[record.Role]int{}
	var longest record.Spring
	for _, p := range r.Setup.Packages {
		s, ok := part(r.Parts.Springs, p.Spring)
		if !ok {
			continue
		}
		if s.Assembly != nil && s.Assembly.Bind != nil {
			s.Coils = []record.Coil{{Name: f.say("coil.assembly")}}
		}
		coils[p.Role] = len(s.Coils)
		if len(s.Coils) > len(longest.Coils) {
			longest = s
		}
	}
	if len(longest.Coils) == 0 {
		return []blank{{title: f.say("form.bind", ""), share: 1}}
	}
	var all []blank
	for i, c := range longest.Coils {
		all = append(all, blank{title: f.say("form.bind", evaluate.CoilShort(c.Name)), share: 0.9, unused: func(at record.Position) bool {
			n, said := coils[at.Role]
			return said && i >= n
		}})
	}
	return all
}
