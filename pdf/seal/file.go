package seal

import (
	"bytes"
	"compress/zlib"
	"io"
	"strconv"

	"keeperbook/model/say"
)

// errForeign is what is said of a file that this program neither wrote nor sealed, or that is damaged.
var errForeign = say.Fail(say.Invalid, "seal.foreign")

// file is a PDF that was read: where its objects lie, by their numbers, the newest of each.
type file struct {
	data    []byte
	objects map[int]int // offset
	size    int         // one more than the greatest number
	trailer dict        // of the newest revision
	starts  []int       // where the cross-reference tables lie, the newest first
}

// read reads where everything lies. Every revision is followed back to the first.
func read(data []byte) (*file, error) {
	if len(data) > MostBytes {
		return nil, say.Fail(say.Invalid, "seal.big", len(data)>>20, MostBytes>>20)
	}
	if !bytes.HasPrefix(data, []byte("%PDF-1.")) {
		return nil, errForeign
	}
	tail := data[max(0, len(data)-64):]
	at := bytes.LastIndex(tail, []byte("startxref"))
	if at < 0 {
		return nil, errForeign
	}
	l := lexer{b: tail, at: at + len("startxref")}
	start, err := l.integer()
	if err != nil {
		return nil, err
	}
	if string(tail[l.at:]) != "\n%%EOF\n" {
		return nil, errForeign
	}
	f := &file{data: data, objects: map[int]int{}}
	for {
		prev, more, err := f.table(start)
		if err != nil {
			return nil, err
		}
		f.starts = append(f.starts, start)
		if !more {
			break
		}
		if prev >= start || len(f.starts) > mostRevisions {
			return nil, errForeign
		}
		start = prev
	}
	return f, nil
}

// mostRevisions is how many signatures a file of ours can have, and then some.
const mostRevisions = 8

// table reads one cross-reference table with its trailer, and returns where the one before it lies.
func (f *file) table(start int) (prev int, more bool, err error) {
	if start <= 0 || start >= len(f.data) {
		return 0, false, errForeign
	}
	l := lexer{b: f.data, at: start}
	if err := l.take("xref\n"); err != nil || l.at != start+5 {
		return 0, false, errForeign
	}
	for l.at < len(l.b) && l.b[l.at] != 't' {
		if err := f.section(&l); err != nil {
			return 0, false, err
		}
	}
	if err := l.take("trailer"); err != nil {
		return 0, false, err
	}
	v, err := l.value()
	t, ok := v.(dict)
	if err != nil || !ok {
		return 0, false, errForeign
	}
	if f.trailer == nil {
		f.trailer = t
		if f.size, ok = whole(t["Size"]); !ok {
			return 0, false, errForeign
		}
	}
	if _, hybrid := t["XRefStm"]; hybrid || t["Encrypt"] != nil {
		return 0, false, errForeign
	}
	if t["Prev"] == nil {
		return 0, false, nil
	}
	prev, ok = whole(t["Prev"])
	if !ok {
		return 0, false, errForeign
	}
	return prev, true, nil
}

// section reads the entries of a table from one number on; each is 20 bytes long (ISO 32000-2 §7.5.4).
func (f *file) section(l *lexer) error {
	first, err := l.integer()
	if err != nil {
		return err
	}
	n, err := l.integer()
	if err != nil {
		return err
	}
	for l.at < len(l.b) && (l.b[l.at] == '\n' || l.b[l.at] == '\r' || l.b[l.at] == ' ') {
		l.at++
	}
	const long = 20
	if n > (len(l.b)-l.at)/long || first > 1<<20 {
		return errForeign
	}
	for i := range n {
		e := l.b[l.at : l.at+long]
		l.at += long
		offset, err := strconv.Atoi(string(e[:10]))
		if err != nil || offset < 0 {
			return errForeign
		}
		num := first + i
		if _, newer := f.objects[num]; newer {
			continue
		}
		switch e[17] {
		case 'n':
			f.objects[num] = offset
		case 'f':
			if num != 0 {
				return errForeign // this program frees nothing
			}
		default:
			return errForeign
		}
	}
	return nil
}

// object reads an object, and where it begins and ends: behind its "obj" and before its "endobj".
func (f *file) object(num int) (v any, from, to int, err error) {
	return f.objectWith(num, nil)
}

func (f *file) objectWith(num int, spans map[name][2]int) (v any, from, to int, err error) {
	offset, there := f.objects[num]
	if !there || offset <= 0 || offset >= len(f.data) {
		return nil, 0, 0, errForeign
	}
	l := lexer{b: f.data, at: offset, spans: spans}
	if n, err := l.integer(); err != nil || n != num || l.at-len(strconv.Itoa(num)) != offset {
		return nil, 0, 0, errForeign
	}
	if gen, err := l.integer(); err != nil || gen != 0 {
		return nil, 0, 0, errForeign
	}
	if err := l.take("obj"); err != nil {
		return nil, 0, 0, err
	}
	l.skip()
	from = l.at
	if v, err = l.value(); err != nil {
		return nil, 0, 0, err
	}
	to = l.at
	l.skip()
	if d, ok := v.(dict); ok && bytes.HasPrefix(f.data[l.at:], []byte("stream")) {
		s, end, err := f.stream(d, l.at)
		if err != nil {
			return nil, 0, 0, err
		}
		v, to, l.at = s, end, end
	}
	if err := l.take("endobj"); err != nil {
		return nil, 0, 0, err
	}
	return v, from, to, nil
}

// stream takes the bytes behind a dictionary.
func (f *file) stream(d dict, at int) (stream, int, error) {
	at += len("stream")
	if bytes.HasPrefix(f.data[at:], []byte("\r\n")) {
		at += 2
	} else if at < len(f.data) && f.data[at] == '\n' {
		at++
	} else {
		return stream{}, 0, errForeign
	}
	n, ok := whole(d["Length"])
	if !ok || n > len(f.data)-at {
		return stream{}, 0, errForeign
	}
	l := lexer{b: f.data, at: at + n}
	if err := l.take("endstream"); err != nil {
		return stream{}, 0, err
	}
	return stream{d, f.data[at : at+n]}, l.at, nil
}

// dictAt reads a dictionary, or that of a stream, behind a reference.
func (f *file) dictAt(v any) (dict, error) {
	r, ok := v.(ref)
	if !ok {
		d, ok := v.(dict)
		if !ok {
			return nil, errForeign
		}
		return d, nil
	}
	o, _, _, err := f.object(r.num)
	if err != nil {
		return nil, err
	}
	d, ok := o.(dict)
	if !ok {
		return nil, errForeign
	}
	return d, nil
}

// Contents returns what is drawn on each page of a file, unpacked: what the eye reads of a sealed sheet, and of one that is
// not sealed.
func Contents(data []byte) ([][]byte, error) {
	f, err := read(data)
	if err != nil {
		return nil, err
	}
	catalog, err := f.dictAt(f.trailer["Root"])
	if err != nil {
		return nil, err
	}
	pages, err := f.pages(catalog)
	if err != nil {
		return nil, err
	}
	var all [][]byte
	for _, num := range pages {
		page, err := f.dictAt(ref{num, 0})
		if err != nil {
			return nil, err
		}
		r, ok := page["Contents"].(ref)
		if !ok {
			return nil, errForeign
		}
		v, _, _, err := f.object(r.num)
		s, ok := v.(stream)
		if err != nil || !ok {
			return nil, errForeign
		}
		drawn, err := s.unpacked()
		if err != nil {
			return nil, err
		}
		all = append(all, drawn)
	}
	return all, nil
}

// whole is a value that is a whole number, not below nought.
func whole(v any) (int, bool) {
	w, ok := v.(number)
	if !ok {
		return 0, false
	}
	n, err := strconv.Atoi(string(w))
	return n, err == nil && n >= 0
}

// unpacked returns the bytes of a stream, at most as many as a record has.
func (s stream) unpacked() ([]byte, error) {
	switch s.dict["Filter"] {
	case nil:
		return s.data, nil
	case name("FlateDecode"):
	default:
		return nil, errForeign
	}
	r, err := zlib.NewReader(bytes.NewReader(s.data))
	if err != nil {
		return nil, errForeign
	}
	var out bytes.Buffer
	out.Grow(4 * len(s.data)) // what letters and pages come to
	if _, err := out.ReadFrom(io.LimitReader(r, mostPart+1)); err != nil || out.Len() > mostPart {
		return nil, errForeign
	}
	return out.Bytes(), nil
}
