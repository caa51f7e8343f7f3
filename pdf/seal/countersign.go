package seal

import (
	"bytes"
	"crypto/sha256"
	"maps"

	"keeperbook/model/say"
)

// Countersign adds a signature in the next field that was kept for one; everything before it stays as it is. It refuses
// what [Seal] refuses of a signer, a file that is not whole (say.Conflict), and one without such a field (say.NotFound).
func Countersign(sealed []byte, s Signer) ([]byte, error) {
	if err := s.Ready(); err != nil {
		return nil, err
	}
	r, err := Check(sealed)
	if err != nil {
		return nil, err
	}
	if !r.Whole() {
		return nil, say.Fail(say.Conflict, "seal.not-whole")
	}
	w, err := further(sealed, s.Words, s.Ink)
	if err != nil {
		return nil, err
	}
	return w.signed(s)
}

// Next is the place that was kept for the next signature of a file: its name and size. It fails (say.NotFound) where there is
// none.
func Next(sealed []byte) (Field, error) {
	f, err := read(sealed)
	if err != nil {
		return Field{}, err
	}
	fields, err := f.fields()
	if err != nil {
		return Field{}, err
	}
	for _, one := range fields {
		if one.dict["V"] == nil {
			if place, ok := fieldOf(one.dict); ok {
				return place, nil
			}
			return Field{}, errForeign
		}
	}
	return Field{}, say.Fail(say.NotFound, "seal.no-field")
}

// further begins the revision that fills the next field of a file that is whole.
func further(sealed, words []byte, k Ink) (*writer, error) {
	f, err := read(sealed)
	if err != nil {
		return nil, err
	}
	fields, err := f.fields()
	if err != nil {
		return nil, err
	}
	for _, one := range fields {
		if one.dict["V"] != nil {
			continue
		}
		w := &writer{offsets: map[int]int{}, next: f.size}
		w.b.Write(sealed)
		w.sig = w.add()
		field := maps.Clone(one.dict)
		field["V"] = ref{w.sig, 0}
		if len(words)+len(k) > 0 {
			place, ok := fieldOf(one.dict)
			if !ok {
				return nil, errForeign
			}
			width, height := place.size()
			drawn := w.add()
			w.put(drawn, lengthened(form(look(words, k, width, height), width, height)))
			field["AP"] = dict{"N": ref{drawn, 0}}
		}
		w.put(one.num, field)
		id, ok := f.trailer["ID"].(array)
		if !ok || len(id) != 2 {
			return nil, errForeign
		}
		sum := sha256.Sum256(sealed)
		w.trailer = dict{"Root": f.trailer["Root"], "Info": f.trailer["Info"], "ID": array{id[0], text(sum[:16])}, "Prev": f.starts[0]}
		return w, nil
	}
	return nil, say.Fail(say.NotFound, "seal.no-field")
}

// formField is a field of the form, with the number of its object.
type formField struct {
	num  int
	dict dict
}

// fields are those of the form, in their order.
func (f *file) fields() ([]formField, error) {
	catalog, err := f.dictAt(f.trailer["Root"])
	if err != nil {
		return nil, err
	}
	if catalog["AcroForm"] == nil {
		return nil, nil
	}
	form, err := f.dictAt(catalog["AcroForm"])
	if err != nil {
		return nil, err
	}
	refs, ok := form["Fields"].(array)
	if !ok || len(refs) > mostRevisions {
		return nil, errForeign
	}
	var all []formField
	for _, v := range refs {
		r, ok := v.(ref)
		if !ok {
			return nil, errForeign
		}
		d, err := f.dictAt(r)
		if err != nil {
			return nil, err
		}
		all = append(all, formField{r.num, d})
	}
	return all, nil
}

// asMade reports whether a revision is what [Countersign] makes of the one before it, but for the signature itself.
func asMade(before, now []byte, s found) bool {
	w, err := further(before, s.words, s.ink)
	if err != nil {
		return false
	}
	made := w.blank(s.when, s.who, s.reason)
	at := w.offsets[w.sig]
	spans := map[name][2]int{}
	f, err := read(made)
	if err != nil {
		return false
	}
	if num, err := f.numberAt(at); err != nil || num != s.num {
		return false
	}
	if _, _, _, err := f.objectWith(s.num, spans); err != nil || spans["Contents"] != s.hole || len(made) != len(now) {
		return false
	}
	rng := spans["ByteRange"]
	copy(made[rng[0]:rng[1]], now[rng[0]:rng[1]])
	copy(made[s.hole[0]:s.hole[1]], now[s.hole[0]:s.hole[1]])
	return bytes.Equal(made, now)
}
