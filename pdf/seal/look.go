package seal

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"
)

// A look is what readers draw in the place of a signature (ISO 32000-2 §12.5.5): paths, cut off at the edge of the place. Ink
// stands at its right end, six times as wide as the place is high, and words of a second signer, whom the pages cannot name
// any more, as outlines before it. It is written unpacked, so that it can be made again to the byte.

// Pen is the width of the line that ink is drawn with, in dots: a little more than a point on a sheet.
const Pen = 40

// mostLook is how long a look may be; one of a long name and much ink has a tenth of it.
const mostLook = 1 << 20

// look is drawn in a place of a width and height in points; empty where there is nothing to draw.
func look(words []byte, k Ink, w, h float64) []byte {
	var b bytes.Buffer
	b.Write(words)
	if len(k) > 0 {
		b.WriteString(inkHead(w, h))
		for _, s := range k {
			for i, d := range s {
				fmt.Fprintf(&b, "%d %d %c\n", d.X, d.Y, "ml"[min(i, 1)])
			}
			if len(s) == 1 { // a line of no length under a round pen is a point
				fmt.Fprintf(&b, "%d %d l\n", s[0].X, s[0].Y)
			}
			b.WriteString("S\n")
		}
		b.WriteString("Q\n")
	}
	return b.Bytes()
}

// inkHead brings the dots of ink into the place, with y up, and takes the pen.
func inkHead(w, h float64) string {
	number := func(x float64) string { return strconv.FormatFloat(x, 'f', 6, 64) }
	return fmt.Sprintf("q %s 0 0 -%s %s %s cm 1 J 1 j %d w\n", number(h/InkHigh), number(h/InkHigh), number(w-h*InkWide/InkHigh), number(h), Pen)
}

// readLook takes a look apart; false for one that this program does not draw.
func readLook(content []byte, w, h float64) (words []byte, k Ink, ok bool) {
	if len(content) > mostLook {
		return nil, nil, false
	}
	words, drawn, _ := bytes.Cut(content, []byte(inkHead(w, h)))
	if !paths(words) {
		return nil, nil, false
	}
	var s Stroke
	for line := range strings.Lines(string(drawn)) {
		var x, y int
		var op rune
		switch n, _ := fmt.Sscanf(line, "%d %d %c", &x, &y, &op); {
		case n == 3:
			s = append(s, Dot{x, y})
		case line == "S\n":
			if len(s) == 2 && s[0] == s[1] {
				s = s[:1]
			}
			k, s = append(k, s), nil
		}
	}
	if k.Check() != nil || !bytes.Equal(look(words, k, w, h), content) {
		return nil, nil, false
	}
	return words, k, true
}

// paths reports whether nothing but paths that are filled is drawn: no letters, pictures or colours, and nothing else that
// a reader could be led by.
func paths(content []byte) bool {
	for _, word := range bytes.Fields(content) {
		switch string(word) {
		case "m", "l", "c", "h", "f":
			continue
		}
		for _, c := range word {
			if (c < '0' || c > '9') && c != '.' && c != '-' {
				return false
			}
		}
	}
	return true
}

// form is a look as an object of the file.
func form(content []byte, w, h float64) stream {
	return stream{dict{"Type": name("XObject"), "Subtype": name("Form"), "BBox": array{0, 0, w, h}, "Resources": dict{}}, content}
}

// size of a place.
func (f Field) size() (w, h float64) { return f.Rect[2] - f.Rect[0], f.Rect[3] - f.Rect[1] }

// fieldOf reads the place of a form field; which page it is on is not looked for.
func fieldOf(d dict) (Field, bool) {
	title, _ := d["T"].(text)
	f := Field{Name: title.String()}
	rect, ok := d["Rect"].(array)
	if !ok || len(rect) != 4 {
		return f, false
	}
	for i, v := range rect {
		n, ok := v.(number)
		if !ok {
			return f, false
		}
		x, err := strconv.ParseFloat(string(n), 64)
		if err != nil {
			return f, false
		}
		f.Rect[i] = x
	}
	w, h := f.size()
	return f, w > 0 && h > 0 && w < mostSide && h < mostSide
}

// mostSide is longer than any page, in points.
const mostSide = 14400

// lookOf reads the look of a field. One without any, as sheets had before signatures were drawn by hand, is empty.
func (f *file) lookOf(field dict) (words []byte, k Ink, ok bool) {
	place, ok := fieldOf(field)
	if !ok {
		return nil, nil, false
	}
	ap, ok := field["AP"].(dict)
	if !ok || len(ap) != 1 {
		return nil, nil, false
	}
	r, ok := ap["N"].(ref)
	if !ok {
		return nil, nil, false
	}
	v, _, _, err := f.object(r.num)
	s, ok := v.(stream)
	if err != nil || !ok || s.dict["Filter"] != nil {
		return nil, nil, false
	}
	if len(s.data) == 0 {
		return nil, nil, true
	}
	w, h := place.size()
	var is, want bytes.Buffer
	write(&is, s.dict["BBox"])
	write(&want, array{0, 0, w, h})
	if is.String() != want.String() || s.dict["Matrix"] != nil {
		return nil, nil, false
	}
	return readLook(s.data, w, h)
}
