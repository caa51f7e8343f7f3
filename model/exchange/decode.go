package exchange

import (
	"encoding/json"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Decode reads an exported record. What it refuses, it refuses whole, with one sentence that names
// the place; Field of the error is the place as a JSON pointer. Codes: Foreign where it is no exported
// record, Newer where a later version of this program made it, Damaged where the record is not the
// one that the fingerprint was made of, Invalid for everything else.
//
// Fingerprint and figures may be absent, as in a record that was written by hand or by another program:
// then there is nothing to hold the record against, and no page that it was printed on.
func Decode(data []byte) (Document, error) {
	tree, soft, err := parse(data)
	if err != nil {
		return Document{}, err
	}
	// Kind and version come before all else: whoever has the wrong file, or the wrong program, is not
	// helped by a fault at some place in it.
	top, _ := tree.(map[string]any)
	if kind, _ := top["kind"].(string); kind != Kind {
		return Document{}, say.Fail(say.Foreign, "exchange.wrong-kind", Kind)
	}
	number, _ := top["format"].(json.Number)
	format, err := number.Int64()
	switch {
	case err == nil && format > record.Format:
		return Document{}, say.Fail(say.Newer, "exchange.newer", short(number.String()), record.Format)
	case soft != nil:
		return Document{}, soft
	}
	// Every format ever written keeps its decoder here.
	switch format {
	case 1:
		return decodeBy(form1, data, tree)
	case 2:
		return decodeBy(form2, data, tree)
	case 3:
		return decodeBy(form3, data, tree)
	case 4:
		return decodeBy(form4, data, tree)
	}
	return Document{}, place{"format"}.fail("exchange.no-format", record.Format)
}

// decodeBy decodes a format that has no other keys than the types of today, with the same meaning. Its
// schema sees to it that it has none but its own. So far that is every format: 2 added keys to 1, 3 to 2 and 4 to 3, and
// a record that has none of them has the same bytes and the same fingerprint in all. One key that 2 asks for, the bind
// height of a spring measured as one, may be absent in 3.
func decodeBy(f form, data []byte, tree any) (Document, error) {
	if err := f.holds(tree); err != nil {
		return Document{}, err
	}
	var e envelope
	if err := strictly(data, &e); err != nil {
		return Document{}, err
	}
	if err := check(&e.Record); err != nil {
		return Document{}, err
	}
	var figures record.Figures
	if e.Figures != nil {
		figures = *e.Figures
		if err := checkFigures(figures); err != nil {
			return Document{}, err
		}
	}
	// Last, because the checks before it can name the place and this one cannot.
	print, err := Fingerprint(&e.Record)
	if err != nil {
		return Document{}, err
	}
	if e.Fingerprint != "" && print != e.Fingerprint {
		return Document{}, say.Fail(say.Damaged, "exchange.fingerprint", e.Fingerprint[:8], print[:8]).About("/fingerprint")
	}
	return Document{e.Record, figures, e.History, print, e.Format}, nil
}
