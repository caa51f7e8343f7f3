package seal

import (
	"bytes"
	"crypto/sha256"
	"hash"
	"maps"
)

// sealedOnly are what a sealed file has in its catalog beside what draws its pages.
var sealedOnly = []name{"Metadata", "OutputIntents", "AF", "Names", "AcroForm", "Perms", "Lang"}

// Drawing returns the SHA-256 of all that decides what the eye sees of the pages of a file (what they draw, their fonts and sizes, and what a
// reader does with them), unpacked and without what sealing adds, so that a sealed sheet can be held against one that is drawn
// anew. The places of signatures are in [Places].
func Drawing(data []byte) ([]byte, error) {
	f, err := read(data)
	if err != nil {
		return nil, err
	}
	catalog, err := f.dictAt(f.trailer["Root"])
	if err != nil {
		return nil, err
	}
	catalog = maps.Clone(catalog)
	for _, key := range sealedOnly {
		delete(catalog, key)
	}
	d := drawing{file: f, seen: map[int]int{}, sum: sha256.New()}
	if err := d.write(catalog); err != nil {
		return nil, err
	}
	for len(d.queue) > 0 {
		num := d.queue[0]
		d.queue = d.queue[1:]
		v, _, _, err := f.object(num)
		if err != nil {
			return nil, err
		}
		if page, ok := v.(dict); ok && page["Type"] == name("Page") {
			page = maps.Clone(page)
			delete(page, "Annots")
			v = page
		}
		if err := d.write(v); err != nil {
			return nil, err
		}
	}
	return d.sum.Sum(nil), nil
}

// drawing goes through the objects in the order in which they are named first, which becomes their number.
type drawing struct {
	*file
	seen  map[int]int
	queue []int
	one   bytes.Buffer // of the objects
	sum   hash.Hash    // of all of them
	size  int
}

func (d *drawing) write(v any) error {
	if s, ok := v.(stream); ok {
		data, err := s.unpacked()
		if err != nil {
			return err
		}
		head := maps.Clone(s.dict)
		delete(head, "Length")
		delete(head, "Filter")
		v = stream{head, data}
	}
	d.one.Reset()
	write(&d.one, d.renumbered(v))
	d.one.WriteByte('\n')
	d.sum.Write(d.one.Bytes())
	if d.size += d.one.Len(); d.size > mostPart {
		return errForeign
	}
	return nil
}

// renumbered is a value with the numbers of this walk in the place of those of the file.
func (d *drawing) renumbered(v any) any {
	switch v := v.(type) {
	case ref:
		n, ok := d.seen[v.num]
		if !ok {
			n = len(d.seen) + 1
			d.seen[v.num] = n
			d.queue = append(d.queue, v.num)
		}
		return ref{n, 0}
	case array:
		all := make(array, len(v))
		for i, one := range v {
			all[i] = d.renumbered(one)
		}
		return all
	case dict:
		all := make(dict, len(v))
		for _, k := range sorted(v) {
			all[k] = d.renumbered(v[k])
		}
		return all
	case stream:
		return stream{d.renumbered(v.dict).(dict), v.data}
	}
	return v
}

// Places are where signatures stand on the pages of a sealed file. It fails (say.Invalid) where anything else stands on them
// that is not drawn by the pages themselves.
func Places(data []byte) ([]Field, error) {
	f, err := read(data)
	if err != nil {
		return nil, err
	}
	catalog, err := f.dictAt(f.trailer["Root"])
	if err != nil {
		return nil, err
	}
	form, err := f.dictAt(catalog["AcroForm"])
	if err != nil {
		return nil, err
	}
	names, err := f.dictAt(catalog["Names"])
	if err != nil || len(names) != 1 || names["EmbeddedFiles"] == nil || len(form) != 2 || form["SigFlags"] == nil {
		return nil, errForeign
	}
	fields, err := f.fields()
	if err != nil {
		return nil, err
	}
	pages, err := f.pages(catalog)
	if err != nil {
		return nil, err
	}
	onPage := map[int]int{}
	for i, num := range pages {
		page, err := f.dictAt(ref{num, 0})
		if err != nil {
			return nil, err
		}
		annots, _ := page["Annots"].(array)
		if page["Annots"] != nil && annots == nil {
			return nil, errForeign
		}
		for _, a := range annots {
			r, ok := a.(ref)
			if !ok || onPage[r.num] != 0 {
				return nil, errForeign
			}
			onPage[r.num] = i + 1
		}
	}
	var all []Field
	for _, one := range fields {
		place, ok := fieldOf(one.dict)
		place.Page = onPage[one.num]
		words, k, plain := f.lookOf(one.dict)
		if !ok || !plain || place.Page == 0 || one.dict["V"] == nil && len(words)+len(k) > 0 {
			return nil, errForeign // nothing is drawn where nobody has signed yet
		}
		delete(onPage, one.num)
		all = append(all, place)
	}
	if len(onPage) > 0 {
		return nil, errForeign
	}
	return all, nil
}
