package pdf

import (
	"slices"
	"strings"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// title sets who made the sheet, which head it is of, and which set-up.
func (f *flow) title(s Sheet) {
	r := s.Record
	state := f.say("sheet.not-signed")
	if s.Signed != nil {
		state = f.say("sheet.signed")
	}
	f.shop(r.Shop, state)
	f.name(r, f.say("setup."+string(r.Setup.Kind)))
	begun := f.words.Day(r.Setup.Begun.Day())
	if r.Setup.By != "" {
		begun = f.say("sheet.by", begun, r.Setup.By)
	}
	replaces := f.say("sheet.replaces-none")
	if r.Setup.Replaces != "" {
		replaces = r.Setup.Replaces
	}
	owner := ""
	if r.Owner != nil {
		owner = r.Owner.Name
	}
	facts := f.filled([]fact{
		{"sheet.engine", r.Engine.Name},
		{"sheet.owner", owner},
		{"sheet.casting", r.Head.Casting},
		{"sheet.work-order", r.Head.WorkOrder},
		{"sheet.begun", begun},
		{"sheet.setup", r.Setup.ID},
		{"sheet.replaces", replaces},
		{"sheet.units", f.say("sheet.units-of", string(r.Setup.Units.Length), string(r.Setup.Units.Load))},
	})
	f.facts((len(facts)+1)/2, strong, facts)
	f.list(66, f.filled([]fact{
		{"sheet.front", r.Head.Front},
		{"sheet.seats", f.seats(r)},
		{"sheet.decision", f.say("decision." + string(r.Setup.Rules.Decision))},
	}))
	short, _ := f.notes(r)
	f.list(66, short)
}

// notes returns what somebody noted: what is short stands at the top of the sheet, and what is long
// after the findings, so that it does not push the table off the first page.
func (f *flow) notes(r *record.Record) (short, long []fact) {
	for _, one := range f.filled([]fact{
		{"sheet.note-engine", r.Engine.Note},
		{"sheet.note-head", r.Head.Note},
		{"sheet.note-setup", r.Setup.Note},
	}) {
		if len(f.wrap(body, f.width()-66, one.value)) > 2 {
			long = append(long, one)
		} else {
			short = append(short, one)
		}
	}
	return short, long
}

// longNotes sets the notes that are too long for the top of the sheet.
func (f *flow) longNotes(r *record.Record) {
	if _, long := f.notes(r); len(long) > 0 {
		f.heading(f.say("sheet.notes"))
		f.list(66, long)
	}
}

// filled puts the names into words and leaves out what nobody said.
func (f *flow) filled(all []fact) []fact {
	var out []fact
	for _, one := range all {
		if strings.TrimSpace(one.value) != "" {
			out = append(out, fact{f.say(one.name), one.value})
		}
	}
	return out
}

// shop sets who keeps the book, with a word on the right that says what the page is worth.
func (f *flow) shop(shop record.Shop, word string) {
	l := letters{true, 11}
	w := f.widthOf(strong, word) + 12
	f.frame(f.right-w, f.y, w, 17, 1, ink)
	f.text(f.right-w+6, f.y+12, strong, ink, word)
	for _, line := range f.wrap(l, f.width()-w-12, shop.Name) {
		f.text(f.left, f.y+l.size, l, ink, line)
		f.y += l.pitch()
	}
	var where []string
	for _, part := range []string{shop.Place, shop.Phone} {
		if part != "" {
			where = append(where, part)
		}
	}
	if len(where) > 0 {
		f.para(label, 0, strings.Join(where, " · "))
	}
	f.skip(5)
}

// name sets the head's tag large, and the kind of set-up beside it.
func (f *flow) name(r *record.Record, kind string) {
	l, k := letters{true, 22}, letters{false, 14}
	tag := f.tag(r)
	f.line(f.left, f.y, f.right, f.y, 1.2, ink)
	f.skip(4)
	kindWidth := f.widthOf(k, kind)
	if len(f.wrap(l, f.width()-kindWidth-14, tag)) > 2 {
		l.size = 13
	}
	for i, line := range f.wrap(l, f.width()-kindWidth-14, tag) {
		f.need(l.size * 1.2)
		f.text(f.left, f.y+l.size*0.95, l, ink, line)
		if i == 0 {
			f.text(f.right-kindWidth, f.y+max(l.size*0.95, k.size), k, ink, kind)
		}
		f.y += l.size * 1.2
	}
	f.skip(5)
}

// tag is what the shop calls the head.
func (f *flow) tag(r *record.Record) string {
	if strings.TrimSpace(r.Head.Tag) == "" {
		return f.say("sheet.no-tag")
	}
	return r.Head.Tag
}

// seats says how far the seats were cut while this set-up was open.
func (f *flow) seats(r *record.Record) string {
	if len(r.Setup.SeatWork) == 0 {
		return f.say("sheet.seats-none")
	}
	var cut []string
	for _, w := range r.Setup.SeatWork {
		cut = append(cut, f.say("sheet.seat-cut", r.Head.Label(w.At), w.Depth, w.By, w.When.Day()))
	}
	return strings.Join(cut, "; ")
}

// summary sets the line that is read first, in a frame, with what comes next under it.
func (f *flow) summary(s Sheet) {
	l := letters{true, 15}
	lines := f.wrap(l, f.width()-20, s.Figures.Summary)
	var next []string
	if s.Figures.Next != "" {
		next = f.wrap(body, f.width()-20, f.say("sheet.next", s.Figures.Next))
	}
	h := float64(len(lines))*l.pitch() + float64(len(next))*body.pitch() + 10
	f.skip(3)
	f.need(min(h, f.floor-f.top))
	f.frame(f.left, f.y, f.width(), h, 1.2, ink)
	f.skip(4)
	for _, line := range lines {
		f.text(f.left+10, f.y+l.size, l, ink, line)
		f.y += l.pitch()
	}
	for _, line := range next {
		f.text(f.left+10, f.y+body.size, body, ink, line)
		f.y += body.pitch()
	}
	f.skip(12)
}

// legend says under the table what weight and letters of its numbers mean, as far as they occur.
func (f *flow) legend(s Sheet) {
	text := f.say("sheet.legend")
	for _, mark := range []string{"mark.estimate", "mark.borrowed", "mark.predicted", "mark.beyond", "mark.stale"} {
		if marked(s.Figures, f.say(mark)) {
			text += " " + f.say("sheet.legend."+mark)
		}
	}
	if hasBar(s.Evaluation) {
		text += " " + f.say("sheet.legend.bar")
	}
	if slices.ContainsFunc(s.Figures.Columns, func(c record.Column) bool { return c.Key == spreadKey }) {
		text += " " + f.say("sheet.legend.spread")
	}
	f.need(float64(len(f.wrap(label, f.width(), text))) * label.pitch())
	f.para(label, 0, text)
}

// marked reports whether a mark stands behind a number anywhere.
func marked(fig record.Figures, mark string) bool {
	for _, row := range fig.Rows {
		for _, cell := range row.Cells {
			if parts := number.FindStringSubmatch(cell); parts != nil && strings.Contains(parts[2], mark) {
				return true
			}
		}
	}
	return false
}

// findings sets what was found as sentences, then what somebody accepted of it.
func (f *flow) findings(s Sheet) {
	f.heading(f.say("sheet.findings"))
	if len(s.Figures.Notes) == 0 {
		f.para(body, 0, f.say("sheet.findings-none"))
	}
	for i, note := range s.Figures.Notes {
		f.item(f.words.Line(say.New("sheet.count", i+1)), note)
	}
	f.deviations(s)
}

// deviations sets what was accepted, with the finding as it reads now.
func (f *flow) deviations(s Sheet) {
	if len(s.Record.Setup.Deviations) == 0 {
		return
	}
	f.heading(f.say("sheet.deviations"))
	for _, d := range s.Record.Setup.Deviations {
		what := f.say("sheet.deviation-gone", s.Record.Head.Label(d.At), d.Finding)
		if found, ok := s.Evaluation.FindingOf(d); ok {
			what = f.words.Line(found.Line)
			if !found.Covered(d, evaluate.Words(s.Record.Setup.Units)) {
				f.item("–", f.say("sheet.deviation-worse", what, d.Reason, d.By, d.When.Day()))
				continue
			}
		}
		f.item("–", f.say("sheet.deviation", what, d.Reason, d.By, d.When.Day()))
	}
}
