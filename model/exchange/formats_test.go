package exchange

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// The documents of earlier formats in testdata were exported by the program while it wrote them: of each a
// small one in which every reference is used, and the head of a ferry's engine with its readings.

func fixture(t testing.TB, name string) []byte {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("testdata", name))
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// What was exported in an earlier format comes in, means what it meant, and is the same record in this one:
// the same bytes and the same fingerprint.
func TestEarlierFormatsComeInUnchanged(t *testing.T) {
	for name, was := range map[string]struct {
		format int
		print  string
	}{
		"small-1.json": {1, "b3efe12025d46189cb245a43ebf71f571126a46969f0a2f9d676d320ad0355f5"},
		"ferry-1.json": {1, "b123ab6e9e8e603ddcf5941d00754514b67f442d52dd1aecf7ad7ae3ccdafe59"},
		"small-2.json": {2, "33ea6a52fd66d7911dd642398c998e248d16e89f19d83d8df8b775cf859a9f0d"},
		"ferry-2.json": {2, "6362b57fb48959d8b977036a4b2009c0fe189cc063a85b7fadf057ce1b166356"},
		"ferry-3.json": {3, "84c9d5ebacd6a4ee1b92836677c8ccd633919e0c44532eeb8e051ba40d9ac5a7"},
		"ferry-4.json": {4, "84c9d5ebacd6a4ee1b92836677c8ccd633919e0c44532eeb8e051ba40d9ac5a7"},
	} {
		t.Run(name, func(t *testing.T) {
			text := fixture(t, name)
			doc, err := Decode(text)
			if err != nil {
				t.Fatal(err)
			}
			if doc.Format != was.format || doc.Fingerprint != was.print {
				t.Errorf("format %d, fingerprint %s, was %s", doc.Format, doc.Fingerprint, was.print)
			}
			r := doc.Record.Setup.Rules
			if was.format == 1 && (r.Decision != record.Plain || r.Assumed != nil || r.ShimTolerance != nil) {
				t.Errorf("the rules became %+v", r)
			}
			if was.format == 2 && (r.Decision != record.Guarded || r.Assumed == nil || r.ShimTolerance == nil) {
				t.Errorf("the rules became %+v", r)
			}
			if was.format == 3 && (r.AssumedLoad == nil || r.SeatLoads == nil || doc.History != nil) {
				t.Errorf("the rules became %+v", r)
			}
			if was.format < 3 && (r.AssumedLoad != nil || r.SeatLoads != nil || r.LoadLost != nil || r.Fits != nil) {
				t.Errorf("rules for loads came from nowhere: %+v", r)
			}
			for _, s := range doc.Record.Parts.Springs {
				if was.format < 3 && s.Assembly != nil && s.Assembly.Bind == nil {
					t.Errorf("%s lost the bind height of its assembly", s.ID)
				}
			}
			again, err := Export(&doc.Record, doc.Figures)
			if err != nil {
				t.Fatal(err)
			}
			number := func(format int) []byte { return fmt.Appendf(nil, `"format":%d,`, format) }
			if want := bytes.Replace(bytes.TrimSpace(text), number(was.format), number(record.Format), 1); !bytes.Equal(again, want) {
				t.Errorf("exported as\n%s\nwas\n%s", again, want)
			}
			back, err := Decode(again)
			if err != nil {
				t.Fatal(err)
			}
			back.Format = doc.Format
			if diff := cmp.Diff(doc, back); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// A document that says it is of an earlier format has no later key: a program of before would not have
// known it, so the two would read different records out of the same bytes.
func TestEarlierFormatsHaveNoLaterKeys(t *testing.T) {
	loads := map[string]any{"source": "supplied", "points": []any{map[string]any{
		"height": quantity("1.800", 457_200_000), "load": map[string]any{"typed": "131", "read": "131", "unit": "lbf", "value": 582_717},
	}}}
	tests := []struct {
		name    string
		pointer string
		value   any
		key     string
	}{
		{"small-1.json", "/record/gauges/0/step", quantity("0.001", 254000), "exchange.unknown-key"},
		{"small-1.json", "/record/setup/rules/decision", "guarded", "exchange.not-one-of"},
		{"small-1.json", "/record/setup/rules/shimTolerance", quantity("0.001", 254000), "exchange.unknown-key"},
		{"small-1.json", "/record/setup/valves/0/stack/0/gauge", "g1", "exchange.unknown-key"},
		{"small-1.json", "/record/setup/readings/2/correction/0/gauge", "g1", "exchange.unknown-key"},
		{"small-1.json", "/record/setup/readings/2/correction/0/part", "zero-offset", "exchange.not-one-of"},
		{"small-2.json", "/record/parts/springs/0/coils/0/loads", loads, "exchange.unknown-key"},
		{"small-2.json", "/record/parts/springs/0/assembly/loads", loads, "exchange.unknown-key"},
		{"small-2.json", "/record/parts/retainers/0/outside", quantity("1.450", 368_300_000), "exchange.unknown-key"},
		{"small-2.json", "/record/setup/needs/pocket", quantity("1.640", 416_560_000), "exchange.unknown-key"},
		{"small-2.json", "/record/setup/packages/0/seatLoad", map[string]any{"from": "card"}, "exchange.unknown-key"},
		{"small-2.json", "/record/setup/readings/0/kind", "seat-load", "exchange.not-one-of"},
		{"small-2.json", "/record/setup/readings/0/height", quantity("1.800", 457_200_000), "exchange.unknown-key"},
		{"small-2.json", "/record/gauges/0/loadScale", map[string]any{}, "exchange.unknown-key"},
		{"small-2.json", "/record/setup/rules/lockAngles", []any{"7"}, "exchange.unknown-key"},
		{"small-2.json", "/record/head/material", "iron", "exchange.unknown-key"},
		{"ferry-3.json", "/history", map[string]any{"events": 7, "head": strings.Repeat("ab", 32)}, "exchange.unknown-key"},
	}
	for _, test := range tests {
		t.Run(test.name+test.pointer, func(t *testing.T) {
			var doc map[string]any
			dec := json.NewDecoder(bytes.NewReader(fixture(t, test.name)))
			dec.UseNumber()
			if err := dec.Decode(&doc); err != nil {
				t.Fatal(err)
			}
			put(doc, test.pointer, test.value)
			text, err := json.Marshal(doc)
			if err != nil {
				t.Fatal(err)
			}
			_, err = Decode(text)
			refused(t, err, say.Invalid, test.key, test.pointer)
		})
	}
}

// TestFormatsOnlyAdd walks the schemas of two formats side by side: whatever the earlier allows, the later
// allows in the same words, so that one decoder may read both.
func TestFormatsOnlyAdd(t *testing.T) {
	all := [][]byte{schema1, schema2, schema3, schema4, schema5}
	for i, later := range all[1:] {
		schemas := make([]map[string]any, 2)
		for j, text := range [][]byte{all[i], later} {
			if err := json.Unmarshal(text, &schemas[j]); err != nil {
				t.Fatal(err)
			}
		}
		// The number and the name of the format are its own.
		for _, s := range schemas {
			delete(s, "$id")
			delete(s, "title")
			delete(s["properties"].(map[string]any), "format")
		}
		a := added{defs: []map[string]any{schemas[0]["$defs"].(map[string]any), schemas[1]["$defs"].(map[string]any)}}
		a.compare("document", schemas[0], schemas[1])
		if a.objects < 100 {
			t.Errorf("%d objects compared only: is this the whole schema?", a.objects)
		}
		for _, f := range a.found {
			t.Errorf("format %d: %s", i+2, f)
		}
	}
	// A check that cannot fail proves nothing: a text that is shorter, a word that is gone, a key that is
	// asked for.
	for was, is := range map[string]string{
		`{"type":"string"}`:                             `{"type":"string","minLength":1}`,
		`{"enum":["in","mm"]}`:                          `{"enum":["in"]}`,
		`{"properties":{"a":{"type":"integer"}}}`:       `{"properties":{"a":{"type":"integer"}},"required":["a"]}`,
		`{"properties":{"a":{"type":"integer"}},"x":1}`: `{"properties":{"b":{"type":"integer"}},"x":1}`,
		`{"required":["a"]}`:                            `{"required":["b"]}`,
	} {
		var old, now map[string]any
		if json.Unmarshal([]byte(was), &old) != nil || json.Unmarshal([]byte(is), &now) != nil {
			t.Fatal(was, is)
		}
		planted := added{defs: []map[string]any{{}, {}}}
		if planted.compare("planted", old, now); len(planted.found) == 0 {
			t.Errorf("%s became %s, and nobody noticed", was, is)
		}
	}
}

type added struct {
	defs    []map[string]any
	found   []string
	objects int
}

func (a *added) resolve(side int, schema any) map[string]any {
	m := schema.(map[string]any)
	for m["$ref"] != nil {
		m = a.defs[side][strings.TrimPrefix(m["$ref"].(string), "#/$defs/")].(map[string]any)
	}
	return m
}

func (a *added) compare(at string, was, is any) {
	old, now := a.resolve(0, was), a.resolve(1, is)
	a.objects++
	for keyword, value := range old {
		switch keyword {
		case "$defs", "description":
		case "properties":
			later, _ := now[keyword].(map[string]any)
			for name, schema := range value.(map[string]any) {
				if later[name] == nil {
					a.found = append(a.found, at+"."+name+" is gone")
					continue
				}
				a.compare(at+"."+name, schema, later[name])
			}
		case "items":
			a.compare(at+"[]", value, now[keyword])
		case "enum":
			has := fmt.Sprint(now[keyword])
			for _, word := range value.([]any) {
				if !strings.Contains(" "+strings.Trim(has, "[]")+" ", fmt.Sprintf(" %v ", word)) {
					a.found = append(a.found, fmt.Sprintf("%s: the word %v is gone", at, word))
				}
			}
		case "required":
			// What was asked for may be absent now. Nothing new is asked for.
			for _, key := range asList(now[keyword]) {
				if !slices.Contains(value.([]any), key) {
					a.found = append(a.found, fmt.Sprintf("%s: %v is asked for", at, key))
				}
			}
		default:
			if !reflect.DeepEqual(value, now[keyword]) {
				a.found = append(a.found, fmt.Sprintf("%s: %s was %v and is %v", at, keyword, value, now[keyword]))
			}
		}
	}
	for keyword := range now {
		if _, there := old[keyword]; !there && keyword != "description" {
			a.found = append(a.found, fmt.Sprintf("%s: %s is new", at, keyword))
		}
	}
}
