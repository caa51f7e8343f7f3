package exchange

import (
	"encoding/json"
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strings"
	"testing"

	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// TestSchemaAndTypesAgree walks the Go types and the schema side by side, so that neither gains or
// loses a key without the other.
func TestSchemaAndTypesAgree(t *testing.T) {
	var schema map[string]any
	if err := json.Unmarshal(schema5, &schema); err != nil {
		t.Fatal(err)
	}
	s := pair{t: t, defs: schema["$defs"].(map[string]any), used: map[string]bool{}}
	s.compare("document", reflect.TypeFor[envelope](), schema, true)
	for name := range s.defs {
		if !s.used[name] {
			t.Errorf("definition %q is not used", name)
		}
	}
	for _, keyword := range []string{"anyOf", "oneOf", "patternProperties"} {
		if strings.Contains(string(schema5), `"`+keyword+`"`) {
			t.Errorf("the schema uses %s, which this test does not follow", keyword)
		}
	}
}

type pair struct {
	t    *testing.T
	defs map[string]any
	used map[string]bool
}

func (s pair) resolve(schema any) map[string]any {
	m := schema.(map[string]any)
	for m["$ref"] != nil {
		name := strings.TrimPrefix(m["$ref"].(string), "#/$defs/")
		s.used[name] = true
		m = s.defs[name].(map[string]any)
	}
	return m
}

// compare holds a type against its schema. Needed is false for keys that are left out where they have
// nothing to say: those must not allow the empty value either.
func (s pair) compare(at string, typ reflect.Type, schema any, needed bool) {
	s.t.Helper()
	m := s.resolve(schema)
	switch typ.Kind() {
	case reflect.Pointer:
		s.compare(at, typ.Elem(), m, needed)
	case reflect.Struct:
		s.object(at, typ, m)
	case reflect.Slice:
		if m["type"] != "array" || !needed && m["minItems"] == nil {
			s.t.Errorf("%s: %v, want a list, of at least one where it may be absent", at, m)
			return
		}
		s.compare(at+"[]", typ.Elem(), m["items"], true)
	case reflect.Int, reflect.Int64:
		least, _ := m["minimum"].(float64)
		if _, fixed := m["const"]; !fixed && (m["type"] != "integer" || m["minimum"] == nil || m["maximum"] == nil || !needed && m["not"] == nil && least < 1) {
			s.t.Errorf("%s: %v, want a whole number with limits, never 0 where it may be absent", at, m)
		}
	case reflect.String:
		s.text(at, typ, m, needed)
	default:
		s.t.Errorf("%s: a record has no %v", at, typ)
	}
}

func (s pair) object(at string, typ reflect.Type, m map[string]any) {
	if m["type"] != "object" || m["additionalProperties"] != false {
		s.t.Errorf("%s: want an object that allows no other keys", at)
	}
	properties, _ := m["properties"].(map[string]any)
	var tags, required []string
	for i := range typ.NumField() {
		name, options, _ := strings.Cut(typ.Field(i).Tag.Get("json"), ",")
		tags = append(tags, name)
		if options != "omitempty" {
			required = append(required, name)
		}
		if properties[name] != nil {
			s.compare(at+"."+name, typ.Field(i).Type, properties[name], options != "omitempty")
		}
	}
	if got := slices.Sorted(maps.Keys(properties)); !slices.Equal(got, slices.Sorted(slices.Values(tags))) {
		s.t.Errorf("%s: schema has %v, type has %v", at, got, tags)
	}
	var got []string
	for _, name := range list(asList(m["required"])) {
		got = append(got, name.(string))
	}
	if slices.Sort(got); !slices.Equal(got, slices.Sorted(slices.Values(required))) {
		s.t.Errorf("%s: schema requires %v, type writes %v always", at, got, required)
	}
}

func asList(v any) []any {
	l, _ := v.([]any)
	return l
}

// enums are the words of every type that has a fixed set of them.
var enums = map[reflect.Type][]string{
	reflect.TypeFor[record.Role]():        {"in", "ex"},
	reflect.TypeFor[record.Kind]():        strings.Split(joined(record.Kinds), ", "),
	reflect.TypeFor[record.Method]():      strings.Split(joined(methods), ", "),
	reflect.TypeFor[record.Source]():      {string(record.Measured), string(record.Supplied), string(record.Estimated)},
	reflect.TypeFor[record.Condition]():   {string(record.New), string(record.RunIn), string(record.HeatCycled), string(record.Used)},
	reflect.TypeFor[record.Groove]():      {string(record.SingleGroove), string(record.MultiGroove)},
	reflect.TypeFor[record.SealSeat]():    {string(record.OnGuide), string(record.OnLocator)},
	reflect.TypeFor[record.PartOfStack](): strings.Split(joined(record.PartsOfStack), ", "),
	reflect.TypeFor[record.Zeroing]():     {string(record.Zeroed), string(record.NotZeroed)},
	reflect.TypeFor[record.SetupKind]():   {string(record.AsFound), string(record.AsBuilt)},
	reflect.TypeFor[record.State]():       {string(record.Open), string(record.Closed)},
	reflect.TypeFor[record.Decision]():    strings.Split(joined(record.Decisions), ", "),
	reflect.TypeFor[record.Temperature](): {string(record.Hot), string(record.Cold)},
	reflect.TypeFor[record.Under]():       {string(record.UnderLocator), string(record.UnderOuter)},
	reflect.TypeFor[record.Done]():        {string(record.DoneHere), string(record.NotDoneHere)},
	reflect.TypeFor[record.GaugeKind]():   strings.Split(joined(record.GaugeKinds), ", "),

	reflect.TypeFor[record.Acts]():         {string(record.Carries), string(record.Damps)},
	reflect.TypeFor[record.Form]():         strings.Split(joined(record.Forms), ", "),
	reflect.TypeFor[record.Ends]():         strings.Split(joined(record.EndsKinds), ", "),
	reflect.TypeFor[record.Section]():      strings.Split(joined(record.Sections), ", "),
	reflect.TypeFor[record.Surface]():      strings.Split(joined(record.Surfaces), ", "),
	reflect.TypeFor[record.HeadMaterial](): {string(record.Iron), string(record.Aluminium)},
}

func (s pair) text(at string, typ reflect.Type, m map[string]any, needed bool) {
	if _, fixed := m["const"]; fixed {
		return
	}
	if words, ok := enums[typ]; ok {
		// A deviation may belong to the head as a whole, which is a position of no role.
		if got := fmt.Sprint(m["enum"]); got != fmt.Sprint(words) && got != fmt.Sprint(append([]string{""}, words...)) {
			s.t.Errorf("%s: schema allows %v, type has %v", at, got, words)
		}
		return
	}
	if typ == reflect.TypeFor[unit.Symbol]() {
		for _, u := range asList(m["enum"]) {
			if unit.Symbol(u.(string)).Dimension() == "" {
				s.t.Errorf("%s: %v is no unit", at, u)
			}
		}
		if m["enum"] == nil {
			s.t.Errorf("%s: no units", at)
		}
		return
	}
	moment := typ == reflect.TypeFor[record.Stamp]() || typ == reflect.TypeFor[record.Date]()
	if typ != reflect.TypeFor[string]() && !moment {
		s.t.Errorf("%s: %v has a set of words that this test does not know", at, typ)
	}
	if m["type"] != "string" || !needed && m["minLength"] == nil && m["pattern"] == nil {
		s.t.Errorf("%s: %v, want a text, never empty where it may be absent", at, m)
	}
	if moment && m["pattern"] == nil {
		s.t.Errorf("%s: a moment or a day without a pattern", at)
	}
}
