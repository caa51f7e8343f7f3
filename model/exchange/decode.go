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
	if err := glance(data); err != nil {
		return Document{}, err
	}
	// The tree and its schema take as long as the types and the fingerprint do, so they are looked at beside each other. What
	// the first refuse comes first: they can name the place.
	read := make(chan reading, 1)
	go func() { read <- readInto(data) }()
	if err := formed(data); err != nil {
		return Document{}, err
	}
	r := <-read
	return r.document()
}

// formed holds a text against the schema of the format that it says it is of.
func formed(data []byte) error {
	tree, soft, err := parse(data)
	if err != nil {
		return err
	}
	// Kind and version come before all else: whoever has the wrong file, or the wrong program, is not
	// helped by a fault at some place in it.
	top, _ := tree.(map[string]any)
	if kind, _ := top["kind"].(string); kind != Kind {
		return say.Fail(say.Foreign, "exchange.wrong-kind", Kind)
	}
	number, _ := top["format"].(json.Number)
	format, err := number.Int64()
	switch {
	case err == nil && format > record.Format:
		return say.Fail(say.Newer, "exchange.newer", short(number.String()), record.Format)
	case soft != nil:
		return soft
	}
	// Every format ever written keeps its schema here.
	f, ok := map[int64]form{1: form1, 2: form2, 3: form3, 4: form4, 5: form5}[format]
	if !ok {
		return place{"format"}.fail("exchange.no-format", record.Format)
	}
	return f.holds(tree)
}

// reading is what was read into the types of today, with what stands against it.
//
// No format has other keys than they, with the same meaning: its schema sees to it that it has none but its own. 2 added keys
// to 1, 3 to 2, 4 to 3 and 5 to 4, and a record that has none of them has the same bytes and the same fingerprint in all. One key that
// 2 asks for, the bind height of a spring measured as one, may be absent in 3.
type reading struct {
	envelope
	strict  error      // it does not fit the types
	leaves  *say.Error // a moment, quantity or correction that cannot be
	print   string     // of the record
	noPrint error
}

// readInto reads a text that may still be anything: nothing here goes by numbers that a schema would limit.
func readInto(data []byte) (r reading) {
	if r.strict = strictly(data, &r.envelope); r.strict == nil {
		r.leaves = checkLeaves(&r.Record)
		// What was just read from JSON can be written as JSON.
		text, err := canonical(filled(&r.Record))
		r.print, r.noPrint = fingerprint(text), err
	}
	return r
}

// document looks at what no schema can say. The fingerprint comes last, because the checks before it can name the place and
// this one cannot.
func (r *reading) document() (Document, error) {
	switch {
	case r.strict != nil:
		return Document{}, r.strict
	case r.leaves != nil:
		return Document{}, r.leaves
	}
	if err := check(&r.Record); err != nil {
		return Document{}, err
	}
	var figures record.Figures
	if r.Figures != nil {
		figures = *r.Figures
		if err := checkFigures(figures); err != nil {
			return Document{}, err
		}
	}
	if r.noPrint != nil {
		return Document{}, r.noPrint
	}
	if r.Fingerprint != "" && r.print != r.Fingerprint {
		return Document{}, say.Fail(say.Damaged, "exchange.fingerprint", r.Fingerprint[:8], r.print[:8]).About("/fingerprint")
	}
	return Document{r.Record, figures, r.History, r.print, r.Format}, nil
}
