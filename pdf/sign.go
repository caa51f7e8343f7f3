package pdf

import "strings"

// signatures sets lines for two hands, and on the first of them who signs. Until somebody does, the sheet says that nobody has.
func (f *flow) signatures(by *Signed) {
	const row, gap = 54.0, 14.0
	h := 2*row + 2*body.pitch() + 30
	f.need(h + section.pitch())
	f.heading(f.say("sheet.signatures"))
	if by == nil {
		f.para(body, 0, f.say("sheet.not-signed-yet"))
	} else {
		f.para(body, 0, f.say("sheet.signed-how"))
	}
	shares := []float64{0.28, 0.2, 0.16, 0.36}
	for n, who := range []string{"sheet.sign-shop", "sheet.sign-inspector"} {
		f.text(f.left, f.y+14, strong, ink, f.say(who))
		f.y += row - label.pitch()
		x := f.left
		for i, key := range []string{"sheet.sign-name", "sheet.sign-role", "sheet.sign-date", "sheet.sign-hand"} {
			w := shares[i] * f.width()
			f.line(x, f.y, x+w-gap, f.y, 0.7, ink)
			f.text(x, f.y+label.size+1, label, faint, f.say(key))
			if by != nil && n == 0 {
				f.text(x, f.y-3, body, ink, f.short(body, w-gap, by.line(key, f)))
			}
			if key == "sheet.sign-hand" {
				const high = 30
				f.hands = append(f.hands, hand{f.pages(), x, f.y - high, w - gap, high})
			}
			x += w
		}
		f.y += label.pitch() + 2
	}
}

// line is what stands on a line of a signature.
func (s *Signed) line(key string, f *flow) string {
	switch key {
	case "sheet.sign-name":
		return s.Name
	case "sheet.sign-role":
		return s.Role
	case "sheet.sign-date":
		return s.When.UTC().Format("2006-01-02")
	}
	return f.say("sheet.sign-key")
}

// fingerprint sets the whole fingerprint in groups that can be read out and compared.
func (f *flow) fingerprint(hex string) {
	f.skip(10)
	f.need(max(3*body.pitch()+label.pitch(), codeSide))
	f.code(hex)
	f.text(f.left, f.y+label.size, label, faint, f.say("sheet.fingerprint"))
	f.y += label.pitch()
	if hex == "" {
		f.para(strong, 0, f.say("sheet.fingerprint-none"))
	} else {
		f.para(strong, 0, grouped(hex))
	}
	if f.lacked {
		f.para(label, 0, f.say("sheet.lacking", string(lacking)))
	}
}

// grouped parts a fingerprint into groups of four.
func grouped(hex string) string {
	var b strings.Builder
	for i, r := range hex {
		if i > 0 && i%4 == 0 {
			b.WriteByte(' ')
		}
		b.WriteRune(r)
	}
	return b.String()
}

// footTag is the width that a head's tag may take in a foot line, so that the set-up beside it is whole.
const footTag = 120.0

// feet sets the foot line of every page once their number is known: which head, which set-up, which
// page, and the beginning of the fingerprint, so that loose pages find each other.
func (f *flow) feet(s Sheet) {
	short := ""
	if s.Fingerprint != "" {
		short = grouped(s.Fingerprint[:min(16, len(s.Fingerprint))])
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
