package exchange

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// The documents of format 1 in testdata were exported by the program while it wrote that format: a
// small one in which every reference is used, and the head of a ferry's engine with its readings.

func fixture(t testing.TB, name string) []byte {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("testdata", name))
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// What was exported in format 1 comes in, means what it meant, and is the same record in format 2:
// the same bytes and the same fingerprint.
func TestFormat1ComesInUnchanged(t *testing.T) {
	for name, want := range map[string]string{
		"small-1.json": "b3efe12025d46189cb245a43ebf71f571126a46969f0a2f9d676d320ad0355f5",
		"ferry-1.json": "b123ab6e9e8e603ddcf5941d00754514b67f442d52dd1aecf7ad7ae3ccdafe59",
	} {
		t.Run(name, func(t *testing.T) {
			text := fixture(t, name)
			doc, err := Decode(text)
			if err != nil {
				t.Fatal(err)
			}
			if doc.Format != 1 || doc.Fingerprint != want {
				t.Errorf("format %d, fingerprint %s, was %s", doc.Format, doc.Fingerprint, want)
			}
			r := doc.Record.Setup.Rules
			if r.Decision != record.Plain || r.Assumed != nil || r.ShimTolerance != nil {
				t.Errorf("the rules became %+v", r)
			}
			again, err := Export(&doc.Record, doc.Figures)
			if err != nil {
				t.Fatal(err)
			}
			if want := bytes.Replace(bytes.TrimSpace(text), []byte(`"format":1,`), []byte(`"format":2,`), 1); !bytes.Equal(again, want) {
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

// A document that says it is of format 1 has no key of format 2: a program of before would not have
// known it, so the two would read different records out of the same bytes.
func TestFormat1HasNoLaterKeys(t *testing.T) {
	tests := []struct {
		pointer string
		value   any
		key, at string
	}{
		{"/record/gauges/0/step", quantity("0.001", 254000), "exchange.unknown-key", ""},
		{"/record/setup/rules/decision", "guarded", "exchange.not-one-of", ""},
		{"/record/setup/rules/shimTolerance", quantity("0.001", 254000), "exchange.unknown-key", ""},
		{"/record/setup/valves/0/stack/0/gauge", "g1", "exchange.unknown-key", ""},
		{"/record/setup/readings/2/correction/0/gauge", "g1", "exchange.unknown-key", ""},
		{"/record/setup/readings/2/correction/0/part", "zero-offset", "exchange.not-one-of", ""},
	}
	for _, test := range tests {
		t.Run(test.pointer, func(t *testing.T) {
			var doc map[string]any
			dec := json.NewDecoder(bytes.NewReader(fixture(t, "small-1.json")))
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

// TestFormat2OnlyAdds walks the two schemas side by side: whatever format 1 allows, format 2 allows in
// the same words, so that one decoder may read both.
func TestFormat2OnlyAdds(t *testing.T) {
	schemas := make([]map[string]any, 2)
	for i, text := range [][]byte{schema1, schema2} {
		if err := json.Unmarshal(text, &schemas[i]); err != nil {
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
		t.Error(f)
	}
	// A check that cannot fail proves nothing: a text that is shorter, a word that is gone, a key that is
	// asked for.
	for was, is := range map[string]string{
		`{"type":"string"}`:                             `{"type":"string","minLength":1}`,
		`{"enum":["in","mm"]}`:                          `{"enum":["in"]}`,
		`{"properties":{"a":{"type":"integer"}}}`:       `{"properties":{"a":{"type":"integer"}},"required":["a"]}`,
		`{"properties":{"a":{"type":"integer"}},"x":1}`: `{"properties":{"b":{"type":"integer"}},"x":1}`,
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
