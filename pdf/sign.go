package pdf

import (
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// The lines of a signature: name, role and date, and the place for the hand at the end, six times as wide as high.
const (
	signRow  = 54.0
	signGap  = 14.0
	handHigh = 28.0
	handWide = 6 * handHigh
)

// signShares are how the width before the hand is shared out.
var signShares = []struct {
	key   string
	share float64
}{{"sheet.sign-name", 0.46}, {"sheet.sign-role", 0.32}, {"sheet.sign-date", 0.22}}

// signatures sets lines for two hands. On the first stands who signs, and the second is there only where somebody asked for it.
// Until somebody signs, the sheet says that nobody has.
func (f *flow) signatures(by, second *Signed) {
	lines := 2
	if by != nil && !by.Second {
		lines = 1
	}
	h := float64(lines)*signRow + 2*body.pitch() + 30
	f.need(h + section.pitch())
	f.heading(f.say("sheet.signatures"))
	if by == nil {
		f.para(body, 0, f.say("sheet.not-signed-yet"))
	} else {
		f.para(body, 0, f.say("sheet.signed-how"))
	}
	f.signLine("sheet.sign-shop", by)
	if lines > 1 {
		f.signLine("sheet.sign-inspector", nil)
		f.second(second)
	}
}

// signLine sets one line, and keeps the place of the hand.
func (f *flow) signLine(who string, by *Signed) {
	f.text(f.left, f.y+14, strong, ink, f.say(who))
	f.y += signRow - label.pitch()
	x := f.left
	for i, w := range signWidths(f.width()) {
		f.line(x, f.y, x+w-signGap, f.y, 0.7, ink)
		f.text(x, f.y+label.size+1, label, faint, f.say(signShares[i].key))
		if by != nil {
			f.text(x, f.y-3, body, ink, f.short(body, w-signGap, by.words(f.words)[i]))
		}
		x += w
	}
	f.line(x, f.y, x+handWide, f.y, 0.7, ink)
	f.text(x, f.y+label.size+1, label, faint, f.say("sheet.sign-hand"))
	at := hand{f.pages(), x, f.y - handHigh, handWide, handHigh}
	switch {
	case by == nil: // whoever signs in it is named there too
		at.x, at.w = f.left, f.width()
	case by.Ink == nil:
		f.text(x, f.y-3, body, ink, f.short(body, handWide, f.say("sheet.sign-key")))
	default:
		f.put(penned{x, at.y, handHigh, by.Ink})
	}
	at.x, at.y, at.w, at.h = settled(at.x), settled(at.y), settled(at.w), settled(at.h)
	f.hands = append(f.hands, at)
	f.y += label.pitch() + 2
}

// second has a screen draw who signed in the last line, as a reader of the file does.
func (f *flow) second(by *Signed) {
	if by == nil {
		return
	}
	y := f.y - label.pitch() - 2
	x := f.left
	for i, w := range signWidths(f.width()) {
		f.put(unprinted{lettering{x: x, y: y - 3, set: body, line: visual(f.short(body, w-signGap, by.words(f.words)[i]))}})
		x += w
	}
	f.put(penned{x, y - handHigh, handHigh, by.Ink})
}

// signWidths are the widths of name, role and date on a line so wide.
func signWidths(line float64) (all []float64) {
	for _, s := range signShares {
		all = append(all, s.share*(line-handWide))
	}
	return all
}

// words are what stands on the lines of a signature.
func (s *Signed) words(as say.Printer) []string {
	return []string{s.Name, s.Role, as.Day(say.DayOf(s.When.UTC()))}
}

// fingerprint sets the whole fingerprint in groups that can be read out and compared.
func (f *flow) fingerprint(hex string, history *record.History) {
	f.skip(10)
	f.need(max(3*body.pitch()+label.pitch(), codeSide))
	f.code(hex)
	f.text(f.left, f.y+label.size, label, faint, f.say("sheet.fingerprint"))
	f.y += label.pitch()
	if hex == "" {
		f.para(strong, 0, f.say("sheet.fingerprint-none"))
	} else {
		f.para(strong, 0, say.Grouped(hex))
	}
	if history != nil {
		f.para(label, 0, f.say("sheet.history", int(history.Events), say.Grouped(history.Head[:16])))
	}
	if f.lacked {
		f.para(label, 0, f.say("sheet.lacking", string(lacking)))
	}
}

// footTag is the width that a head's tag may take in a foot line, so that the set-up beside it is whole.
const footTag = 120.0

// feet sets the foot line of every page once their number is known: which head, which set-up, which
// page, and the beginning of the fingerprint, so that loose pages find each other.
func (f *flow) feet(s Sheet) {
	short := ""
	if s.Fingerprint != "" {
		short = say.Grouped(s.Fingerprint[:min(16, len(s.Fingerprint))])
	}
	f.foot(f.say("sheet.foot", f.short(label, footTag, f.tag(s.Record)), s.Record.Setup.ID), short)
}

// foot sets a text on the left, a mark in the middle and the page on the right of every page.
func (f *flow) foot(name, mark string) {
	of := func(n int) string { return f.say("sheet.page", n, f.pages()) }
	pageWidth, markWidth := f.widthOf(label, of(f.pages())), f.widthOf(label, mark)
	name = f.short(label, f.width()-pageWidth-markWidth-40, name)
	for n := 1; n <= f.pages(); n++ {
		f.turn(n)
		y := f.height - 38
		f.line(f.left, y, f.right, y, 0.4, hair)
		y += 4 + label.size
		f.text(f.left, y, label, ink, name)
		f.text(f.right-pageWidth-18-markWidth, y, label, ink, mark)
		f.text(f.right-f.widthOf(label, of(n)), y, label, ink, of(n))
	}
}

// short shortens a name that the page gives in full elsewhere.
func (f *flow) short(l letters, width float64, name string) string {
	name = f.clean(name)
	if f.widthOf(l, name) <= width {
		return name
	}
	used := f.widthOf(l, "…")
	for i, r := range name {
		if used += f.widthOf(l, string(r)); used > width {
			return name[:i] + "…"
		}
	}
	return name
}
