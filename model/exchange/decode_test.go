package exchange

import (
	"bytes"
	"encoding/json"
	"errors"
	"strconv"
	"strings"
	"testing"

	"keeperbook/model/say"
)

// refused checks code, key and place of a refusal, and that its sentence is whole.
func refused(t *testing.T, err error, code say.Code, key, field string) {
	t.Helper()
	var e *say.Error
	if !errors.As(err, &e) {
		t.Fatalf("got %v, want %s", err, key)
	}
	line := e.Line
	if line.Key == "exchange.and-more" {
		line = line.Args[0].(say.Line)
	}
	if e.Code != code || line.Key != key || e.Field != field {
		t.Errorf("got %s %s at %q, want %s %s at %q\n%v", e.Code, line.Key, e.Field, code, key, field, err)
	}
	if text := err.Error(); strings.Contains(text, "exchange.") || strings.Contains(text, "{") {
		t.Errorf("no whole sentence: %s", text)
	}
}

// tree returns the exported sample as maps and lists.
func tree(t testing.TB) map[string]any {
	t.Helper()
	dec := json.NewDecoder(bytes.NewReader(exported(t)))
	dec.UseNumber()
	var doc map[string]any
	if err := dec.Decode(&doc); err != nil {
		t.Fatal(err)
	}
	return doc
}

func exported(t testing.TB) []byte {
	t.Helper()
	r := sample()
	text, err := Export(&r, sampleFigures())
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// node returns what stands at a JSON pointer without escapes.
func node(doc any, pointer string) any {
	for _, step := range strings.Split(pointer, "/")[1:] {
		switch v := doc.(type) {
		case map[string]any:
			doc = v[step]
		case []any:
			i, _ := strconv.Atoi(step)
			doc = v[i]
		}
	}
	return doc
}

// put replaces or adds what stands at a pointer; absent takes it away, twice repeats an entry of a list.
type absent struct{}

func put(doc any, pointer string, value any) {
	i := strings.LastIndexByte(pointer, '/')
	key := pointer[i+1:]
	switch above := node(doc, pointer[:i]).(type) {
	case map[string]any:
		if _, gone := value.(absent); gone {
			delete(above, key)
			return
		}
		above[key] = value
	case []any:
		n, _ := strconv.Atoi(key)
		above[n] = value
	}
}

// twice repeats the first entry of a list.
func twice(doc any, pointer string) {
	list := node(doc, pointer).([]any)
	put(doc, pointer, append(list, list[0]))
}

func TestDecodeRefusesBytes(t *testing.T) {
	good := string(exported(t))
	tests := []struct {
		name string
		text string
		code say.Code
		key  string
		at   string
	}{
		{"nothing", "", say.Foreign, "exchange.empty", ""},
		{"blank", " \n\t", say.Foreign, "exchange.empty", ""},
		{"a letter", "Dear Sir,\n", say.Foreign, "exchange.not-json", ""},
		{"invalid UTF-8", strings.Replace(good, "Bench", "B\xe9nch", 1), say.Foreign, "exchange.not-utf8", ""},
		{"cut off", good[:len(good)/2], say.Foreign, "exchange.cut-off", ""},
		{"a comma too many", strings.Replace(good, "}", ",}", 1), say.Foreign, "exchange.not-json", ""},
		{"trailing text", good + "\n x", say.Invalid, "exchange.trailing", ""},
		{"two documents", good + good, say.Invalid, "exchange.trailing", ""},
		{"half a surrogate pair", strings.Replace(good, "Bench", `\ud800`, 1), say.Invalid, "exchange.half-character", ""},
		{"the other half", strings.Replace(good, "Bench", `\udc00`, 1), say.Invalid, "exchange.half-character", ""},
		{"too deep", strings.Repeat("[", 100_000), say.Invalid, "exchange.too-deep", ""},
		{"too big", `"` + strings.Repeat("x", MaxDocument) + `"`, say.Invalid, "exchange.too-big", ""},
		{"too many values", "[" + strings.Repeat("{},", maxValues) + "{}]", say.Invalid, "exchange.too-much", ""},
		{"a list", "[1]", say.Foreign, "exchange.wrong-kind", ""},
		{"another kind", `{"kind":"recipe"}`, say.Foreign, "exchange.wrong-kind", ""},
		{"no format", `{"kind":"keeperbook-record"}`, say.Invalid, "exchange.no-format", "/format"},
		{"format nought", `{"format":0,"kind":"keeperbook-record"}`, say.Invalid, "exchange.no-format", "/format"},
		{"format as text", `{"format":"1","kind":"keeperbook-record"}`, say.Invalid, "exchange.no-format", "/format"},
		{"a later version", strings.Replace(good, `"format":5`, `"format":6`, 1), say.Newer, "exchange.newer", ""},
		{"a later version with booleans", `{"format":7,"kind":"keeperbook-record","new":[true,1.5,null]}`, say.Newer, "exchange.newer", ""},
		{"double key", strings.Replace(good, `"name":"Bench Four"`, `"name":"Bench Four","name":"Bench Four"`, 1), say.Invalid, "exchange.double-key", "/record/shop"},
		{"double key at the top", `{"kind":"x",` + good[1:], say.Invalid, "exchange.double-key", ""},
		{"double key by escape", strings.Replace(good, `"place":`, `"n\u0061me":"a","place":`, 1), say.Invalid, "exchange.double-key", "/record/shop"},
		{"null", strings.Replace(good, `"Harbour Lane"`, `null`, 1), say.Invalid, "exchange.null", "/record/shop/place"},
		{"boolean", strings.Replace(good, `"Harbour Lane"`, `true`, 1), say.Invalid, "exchange.boolean", "/record/shop/place"},
		{"fraction", strings.Replace(good, `"intakes":1`, `"intakes":1.0`, 1), say.Invalid, "exchange.fraction", "/record/head/intakes"},
		{"exponent", strings.Replace(good, `"intakes":1`, `"intakes":1e0`, 1), say.Invalid, "exchange.fraction", "/record/head/intakes"},
		{"beyond exact", strings.Replace(good, `"intakes":1`, `"intakes":9007199254740992`, 1), say.Invalid, "exchange.number-large", "/record/head/intakes"},
		{"beyond all", strings.Replace(good, `"intakes":1`, `"intakes":`+strings.Repeat("9", 400), 1), say.Invalid, "exchange.number-large", "/record/head/intakes"},
		{"NUL", strings.Replace(good, `Bench`, `\u0000`, 1), say.Invalid, "exchange.nul", "/record/shop/name"},
		{"another fingerprint", strings.Replace(good, "Harbour Lane", "Harbor Lane", 1), say.Damaged, "exchange.fingerprint", "/fingerprint"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			doc, err := Decode([]byte(test.text))
			refused(t, err, test.code, test.key, test.at)
			if doc.Fingerprint != "" {
				t.Error("a document all the same")
			}
		})
	}
}

func TestDecodeRefusesRecords(t *testing.T) {
	const (
		setup   = "/record/setup"
		reading = setup + "/readings/0"
	)
	set := func(pointer string, value any) func(any) { return func(doc any) { put(doc, pointer, value) } }
	repeat := func(pointer string) func(any) { return func(doc any) { twice(doc, pointer) } }
	tests := []struct {
		name   string
		change func(any)
		key    string
		at     string
	}{
		{"unknown key at the top", set("/extra", "x"), "exchange.unknown-key", "/extra"},
		{"unknown key deep down", set(reading+"/quantity/raw", "x"), "exchange.unknown-key", reading + "/quantity/raw"},
		{"key in capitals", set("/record/shop/Name", "x"), "exchange.unknown-key", "/record/shop/Name"},
		{"key left out", set(reading+"/quantity/read", absent{}), "exchange.missing-key", reading + "/quantity"},
		{"misspelt key", func(doc any) { put(doc, reading+"/when", absent{}); put(doc, reading+"/wen", "x") }, "exchange.unknown-key", reading + "/wen"},
		{"text for number", set(reading+"/n", "1"), "exchange.wrong-type", reading + "/n"},
		{"list for object", set("/record/head", []any{}), "exchange.wrong-type", "/record/head"},
		{"word not known", set(reading+"/kind", "colour"), "exchange.not-one-of", reading + "/kind"},
		{"load where a length belongs", set(setup+"/rules/agree/unit", "lbf"), "exchange.not-one-of", setup + "/rules/agree/unit"},
		{"another word for none", set(setup+"/valves/0/noShim", "no"), "exchange.not-one-of", setup + "/valves/0/noShim"},
		{"unknown key of odd characters", set("/record/shop/a\nb", "x"), "exchange.unknown-key", "/record/shop/a\nb"},
		{"unknown key of great length", set("/record/shop/"+strings.Repeat("k", 5000), "x"), "exchange.unknown-key", "/record/shop/" + strings.Repeat("k", 5000)},
		{"a decimal of great length", set(reading+"/quantity/read", strings.Repeat("1", 5000)), "exchange.decimal", reading + "/quantity/read"},
		{"no fingerprint", set("/fingerprint", "abc"), "exchange.hex", "/fingerprint"},
		{"empty text for absent", set("/record/shop/place", ""), "exchange.blank", "/record/shop/place"},
		{"empty list for absent", set(setup+"/checks", []any{}), "exchange.too-few", setup + "/checks"},
		{"nought for absent", set(setup+"/readings/3/over/offset", 0), "exchange.zero", setup + "/readings/3/over/offset"},

		{"value of another reading", set(reading+"/quantity/value", 467868001), "exchange.value", reading + "/quantity/value"},
		{"read that is no decimal", set(reading+"/quantity/read", "1,842"), "exchange.decimal", reading + "/quantity/read"},
		{"more decimals than an inch holds", set(reading+"/quantity/read", "1.8420000"), "exchange.decimal", reading + "/quantity/read"},
		{"value inside a correction", set(setup+"/readings/2/correction/0/amount/value", 1), "exchange.value", setup + "/readings/2/correction/0/amount/value"},
		{"value of a rule", set(setup+"/rules/agree/value", 1), "exchange.value", setup + "/rules/agree/value"},
		{"negative shim", set(setup+"/valves/0/stack/0/thickness/value", -1), "exchange.too-small", setup + "/valves/0/stack/0/thickness/value"},
		{"length of a metre and more", set(reading+"/quantity/value", 10_000_000_001), "exchange.too-large", reading + "/quantity/value"},
		{"ratio that is no decimal", set(setup+"/packages/0/card/ratio", "1e9"), "exchange.ratio", setup + "/packages/0/card/ratio"},

		{"stamp with an offset", set(reading+"/when", "2026-03-01T08:05:00+01:00"), "exchange.stamp", reading + "/when"},
		{"stamp with fractions", set(reading+"/when", "2026-03-01T08:05:00.5Z"), "exchange.stamp", reading + "/when"},
		{"day that is not in the calendar", set(reading+"/when", "2026-02-30T08:05:00Z"), "exchange.stamp", reading + "/when"},
		{"stamp of a bind", set("/record/parts/springs/0/coils/0/bind/at", "2026-13-01T00:00:00Z"), "exchange.stamp", "/record/parts/springs/0/coils/0/bind/at"},

		{"no cylinder", set("/record/head/cylinders", []any{}), "exchange.too-few", "/record/head/cylinders"},
		{"seventeen cylinders", set("/record/head/cylinders", strings17()), "exchange.too-many", "/record/head/cylinders"},
		{"no intake valve", set("/record/head/intakes", 0), "exchange.too-small", "/record/head/intakes"},
		{"four exhaust valves", set("/record/head/exhausts", 4), "exchange.too-large", "/record/head/exhausts"},
		{"slash in a label", set("/record/head/cylinders/0", "1/2"), "exchange.label", "/record/head/cylinders/0"},
		{"label twice", set("/record/head/cylinders/1", "1"), "exchange.twice", "/record/head/cylinders/1"},
		{"order of too few", set("/record/head/order", []any{position1("1", "ex", 1)}), "exchange.order", "/record/head/order"},
		{"order with a valve twice", set("/record/head/order", []any{position1("1", "ex", 1), position1("1", "in", 1), position1("3", "in", 1), position1("1", "ex", 1)}), "exchange.twice", "/record/head/order/3"},
		{"order with another valve", set("/record/head/order", []any{position1("1", "ex", 1), position1("1", "in", 1), position1("3", "in", 1), position1("3", "in", 2)}), "exchange.no-position", "/record/head/order/3"},

		{"coil five", set(setup+"/readings/2/coil", 5), "exchange.too-large", setup + "/readings/2/coil"},
		{"coil nought of a piece", set("/record/parts/pieces/0/binds/0/coil", 0), "exchange.too-small", "/record/parts/pieces/0/binds/0/coil"},
		{"coil below nought", set(setup+"/readings/2/coil", -1), "exchange.too-small", setup + "/readings/2/coil"},
		{"five coils", set("/record/parts/springs/0/coils", five("name")), "exchange.too-many", "/record/parts/springs/0/coils"},
		{"reading number nought", set(reading+"/n", 0), "exchange.too-small", reading + "/n"},

		{"valve of another cylinder", set(setup+"/valves/0/at/cylinder", "2"), "exchange.no-position", setup + "/valves/0/at"},
		{"reading of a second valve", set(reading+"/at/n", 2), "exchange.no-position", reading + "/at"},
		{"shared from another head", set(setup+"/shared/0/from/cylinder", "9"), "exchange.no-position", setup + "/shared/0/from"},
		{"shared from the other role", set(setup+"/shared/0/from/role", "in"), "exchange.other-role", setup + "/shared/0/from"},
		{"seat work elsewhere", set(setup+"/seatWork/0/at/cylinder", "9"), "exchange.no-position", setup + "/seatWork/0/at"},
		{"deviation elsewhere", set(setup+"/deviations/0/at/cylinder", "9"), "exchange.no-position", setup + "/deviations/0/at"},

		{"spring twice", repeat("/record/parts/springs"), "exchange.twice", "/record/parts/springs/1"},
		{"tag twice", repeat("/record/parts/pieces"), "exchange.twice", "/record/parts/pieces/1"},
		{"retainer twice", repeat("/record/parts/retainers"), "exchange.twice", "/record/parts/retainers/1"},
		{"locks twice", repeat("/record/parts/locks"), "exchange.twice", "/record/parts/locks/1"},
		{"locator twice", repeat("/record/parts/locators"), "exchange.twice", "/record/parts/locators/1"},
		{"seal twice", repeat("/record/parts/seals"), "exchange.twice", "/record/parts/seals/1"},
		{"valve part twice", repeat("/record/parts/valves"), "exchange.twice", "/record/parts/valves/1"},
		{"gauge twice", repeat("/record/gauges"), "exchange.twice", "/record/gauges/3"},
		{"package twice", repeat(setup + "/packages"), "exchange.twice", setup + "/packages/1"},
		{"valve twice", repeat(setup + "/valves"), "exchange.twice", setup + "/valves/1"},
		{"reading twice", repeat(setup + "/readings"), "exchange.twice", setup + "/readings/5"},
		{"shared twice", repeat(setup + "/shared"), "exchange.twice", setup + "/shared/1"},
		{"seat work twice", repeat(setup + "/seatWork"), "exchange.twice", setup + "/seatWork/1"},
		{"deviation twice", repeat(setup + "/deviations"), "exchange.twice", setup + "/deviations/1"},
		{"check twice", repeat(setup + "/checks"), "exchange.twice", setup + "/checks/1"},
		{"bind of a coil twice", repeat("/record/parts/pieces/0/binds"), "exchange.twice", "/record/parts/pieces/0/binds/1"},
		{"least margin of a coil twice", repeat(setup + "/packages/0/least"), "exchange.twice", setup + "/packages/0/least/1"},
		{"part taken off twice", repeat(setup + "/readings/2/correction"), "exchange.twice", setup + "/readings/2/correction"},

		{"owner not there", set("/record/owner", absent{}), "exchange.not-there", "/record/engine/owner"},
		{"another engine", set("/record/head/engine", "e9"), "exchange.not-there", "/record/head/engine"},
		{"another head", set(setup+"/head", "h9"), "exchange.not-there", setup + "/head"},
		{"spring not there", set(setup+"/packages/0/spring", "x"), "exchange.not-there", setup + "/packages/0/spring"},
		{"retainer not there", set(setup+"/packages/0/retainer", "x"), "exchange.not-there", setup + "/packages/0/retainer"},
		{"locks not there", set(setup+"/packages/0/locks", "x"), "exchange.not-there", setup + "/packages/0/locks"},
		{"locator not there", set(setup+"/packages/0/locator", "x"), "exchange.not-there", setup + "/packages/0/locator"},
		{"seal not there", set(setup+"/packages/0/seal", "x"), "exchange.not-there", setup + "/packages/0/seal"},
		{"valve not there", set(setup+"/packages/0/valve", "x"), "exchange.not-there", setup + "/packages/0/valve"},
		{"tag not there", set(setup+"/valves/0/spring", "sp1"), "exchange.not-there", setup + "/valves/0/spring"},
		{"retainer of a valve not there", set(setup+"/valves/0/retainer", "x"), "exchange.not-there", setup + "/valves/0/retainer"},
		{"gauge not there", set(setup+"/readings/2/gauge", "x"), "exchange.not-there", setup + "/readings/2/gauge"},
		{"tag of a bind not there", set(setup+"/readings/2/piece", "x"), "exchange.not-there", setup + "/readings/2/piece"},
		{"measured over locks not there", set(setup+"/readings/3/over/locks", "x"), "exchange.not-there", setup + "/readings/3/over/locks"},
		{"spring of a tag not there", set("/record/parts/pieces/0/spring", "x"), "exchange.not-there", "/record/parts/pieces/0/spring"},
		{"gauge of a bind not there", set("/record/parts/springs/0/coils/0/bind/gauge", "x"), "exchange.not-there", "/record/parts/springs/0/coils/0/bind/gauge"},
		{"gauge of an assembly not there", set("/record/parts/springs/0/assembly/bind/gauge", "x"), "exchange.not-there", "/record/parts/springs/0/assembly/bind/gauge"},
		{"retainer of an assembly not there", set("/record/parts/springs/0/assembly/retainer", "x"), "exchange.not-there", "/record/parts/springs/0/assembly/retainer"},
		{"gauge of a tag not there", set("/record/parts/pieces/0/binds/0/bind/gauge", "x"), "exchange.not-there", "/record/parts/pieces/0/binds/0/bind/gauge"},

		{"tester not there", set("/record/parts/springs/0/coils/0/loads/gauge", "x"), "exchange.not-there", "/record/parts/springs/0/coils/0/loads/gauge"},
		{"gauge of heights not there", set("/record/parts/springs/0/assembly/loads/heights", "x"), "exchange.not-there", "/record/parts/springs/0/assembly/loads/heights"},
		{"gauge of a part of a load's stack not there", set("/record/parts/springs/0/assembly/loads/correction/0/gauge", "x"), "exchange.not-there", "/record/parts/springs/0/assembly/loads/correction/0/gauge"},
		{"tester of a tag not there", set("/record/parts/pieces/0/loads/1/loads/gauge", "x"), "exchange.not-there", "/record/parts/pieces/0/loads/1/loads/gauge"},
		{"retainer under a tag's loads not there", set("/record/parts/pieces/0/loads/0/retainer", "x"), "exchange.not-there", "/record/parts/pieces/0/loads/0/retainer"},
		{"locator under a tag's loads not there", set("/record/parts/pieces/0/loads/0/locator", "x"), "exchange.not-there", "/record/parts/pieces/0/loads/0/locator"},
		{"gauge of a load's height not there", set(setup+"/readings/4/heights", "x"), "exchange.not-there", setup + "/readings/4/heights"},

		{"loads of a coil twice", set("/record/parts/pieces/0/loads/0/coil", 1), "exchange.twice", "/record/parts/pieces/0/loads/1"},
		{"loads of a spring as one twice", repeat("/record/parts/pieces/0/loads"), "exchange.twice", "/record/parts/pieces/0/loads/2"},
		{"coil nought of loads", set("/record/parts/pieces/0/loads/1/coil", 0), "exchange.too-small", "/record/parts/pieces/0/loads/1/coil"},
		{"register of a coil twice", repeat("/record/parts/retainers/0/registers"), "exchange.twice", "/record/parts/retainers/0/registers/1"},
		{"register of a locator twice", repeat("/record/parts/locators/0/registers"), "exchange.twice", "/record/parts/locators/0/registers/1"},

		{"loads without a point", set("/record/parts/springs/0/assembly/loads/points", []any{}), "exchange.too-few", "/record/parts/springs/0/assembly/loads/points"},
		{"two points at one height", repeat("/record/parts/springs/0/assembly/loads/points"), "exchange.doubt", "/record/parts/springs/0/loads"},
		{"a load in inches", set("/record/parts/springs/0/assembly/loads/points/0/load", quantity("1.800", 457_200_000)), "exchange.not-one-of", "/record/parts/springs/0/assembly/loads/points/0/load/unit"},
		{"a height in pounds", set("/record/parts/springs/0/assembly/loads/points/0/height/unit", "lbf"), "exchange.not-one-of", "/record/parts/springs/0/assembly/loads/points/0/height/unit"},
		{"a modulus in pounds", set("/record/parts/springs/0/coils/0/wire/g/unit", "lbf"), "exchange.not-one-of", "/record/parts/springs/0/coils/0/wire/g/unit"},
		{"section not known", set("/record/parts/springs/0/coils/0/wire/section", "square"), "exchange.not-one-of", "/record/parts/springs/0/coils/0/wire/section"},
		{"turns that are a word", set("/record/parts/springs/0/coils/0/active", "four"), "exchange.factor", "/record/parts/springs/0/coils/0/active"},
		{"more active turns than turns", set("/record/parts/springs/0/coils/0/active", "7"), "exchange.doubt", "/record/parts/springs/0/coils"},
		{"a retainer of no size", set("/record/parts/retainers/0/outside", quantity("0", 0)), "exchange.doubt", "/record/parts/retainers/0/outside"},
		{"locks for no stem", set("/record/parts/locks/0/stem", quantity("0", 0)), "exchange.doubt", "/record/parts/locks/0/stem"},
		{"a bore of no size", set("/record/parts/locators/0/bore", quantity("0", 0)), "exchange.doubt", "/record/parts/locators/0/bore"},
		{"a seal of no height", set("/record/parts/seals/0/height", quantity("0", 0)), "exchange.doubt", "/record/parts/seals/0/height"},
		{"no pocket", set(setup+"/needs/pocket", quantity("0", 0)), "exchange.doubt", setup + "/needs"},
		{"a band the wrong way round", set(setup+"/packages/0/seatLoad/least", map[string]any{"typed": "150", "read": "150", "unit": "lbf", "value": 667_233}), "exchange.doubt", setup + "/packages/0/seatLoad"},
		{"a load that is a length", set(setup+"/readings/4/quantity", quantity("1.842", 467_868_000)), "exchange.doubt", setup + "/readings/4/quantity"},
		{"a length that is a load", set(reading+"/quantity", map[string]any{"typed": "150", "read": "150", "unit": "lbf", "value": 667_233}), "exchange.doubt", reading + "/quantity"},
		{"a percentage of nought", set(setup+"/rules/seatLoads/percent", "0"), "exchange.doubt", setup + "/rules/seatLoads"},
		{"a degree of three", set("/record/gauges/2/loadScale/weights/degree", 3), "exchange.too-large", "/record/gauges/2/loadScale/weights/degree"},
		{"gravity of another planet", set("/record/gauges/2/loadScale/weights/gravity", "3.71"), "exchange.doubt", "/record/gauges/2/loadScale"},

		{"step of nought", set("/record/gauges/0/step", quantity("0.000", 0)), "exchange.doubt", "/record/gauges/0/step"},
		{"step below nought", set("/record/gauges/0/step", quantity("-0.001", -254000)), "exchange.too-small", "/record/gauges/0/step/value"},
		{"uncertainty below nought", set("/record/gauges/1/calibration/u", quantity("-0.001", -254000)), "exchange.too-small", "/record/gauges/1/calibration/u/value"},
		{"coverage factor of nought", set("/record/gauges/1/calibration/k", "0"), "exchange.doubt", "/record/gauges/1/calibration"},
		{"coverage factor below nought", set("/record/gauges/1/calibration/k", "-2"), "exchange.factor", "/record/gauges/1/calibration/k"},
		{"coverage factor with a comma", set("/record/gauges/1/calibration/k", "2,05"), "exchange.factor", "/record/gauges/1/calibration/k"},
		{"coverage factor as a number", set("/record/gauges/1/calibration/k", 2), "exchange.wrong-type", "/record/gauges/1/calibration/k"},
		{"calibrated at a moment", set("/record/gauges/1/calibration/date", "2025-12-01T08:00:00Z"), "exchange.date", "/record/gauges/1/calibration/date"},
		{"calibrated on a day that is not in the calendar", set("/record/gauges/1/calibration/date", "2025-02-29"), "exchange.date", "/record/gauges/1/calibration/date"},
		{"due before it was calibrated", set("/record/gauges/1/calibration/due", "2025-11-30"), "exchange.doubt", "/record/gauges/1/calibration"},
		{"scatter below nought", set("/record/gauges/0/repeat/s", quantity("-0.001", -254000)), "exchange.too-small", "/record/gauges/0/repeat/s/value"},
		{"no degrees of freedom", set("/record/gauges/0/repeat/freedom", "0.0"), "exchange.doubt", "/record/gauges/0/repeat"},
		{"nobody in a study", set("/record/gauges/0/repeat/people", 0), "exchange.too-small", "/record/gauges/0/repeat/people"},
		{"a lot of one", set("/record/parts/springs/0/coils/0/bind/lot/count", 1), "exchange.too-small", "/record/parts/springs/0/coils/0/bind/lot/count"},
		{"a spring that is a lot", set("/record/parts/pieces/0/binds/0/bind/lot", map[string]any{"count": 2, "spread": quantity("0.001", 254000)}), "exchange.doubt", "/record/parts/pieces/0/lot"},
		{"decision not known", set(setup+"/rules/decision", "sure"), "exchange.not-one-of", setup + "/rules/decision"},
		{"a kind of gauge assumed twice", repeat(setup + "/rules/assumed"), "exchange.doubt", setup + "/rules/assumed"},
		{"an assumed step of nought", set(setup+"/rules/assumed/0/step", quantity("0.000", 0)), "exchange.doubt", setup + "/rules/assumed"},
		{"shims within less than nought", set(setup+"/rules/shimTolerance", quantity("-0.001", -254000)), "exchange.too-small", setup + "/rules/shimTolerance/value"},
		{"part of a stack not known", set("/record/gauges/0/setting/1/part", "air"), "exchange.not-one-of", "/record/gauges/0/setting/1/part"},
		{"zero offset taken off twice", set("/record/gauges/0/setting/0/part", "zero-offset"), "exchange.twice", "/record/gauges/0/setting"},

		{"gauge of a shim not there", set(setup+"/valves/0/stack/0/gauge", "x"), "exchange.not-there", setup + "/valves/0/stack/0/gauge"},
		{"gauge of a shim under a reading not there", set(setup+"/readings/3/over/stack/0/gauge", "x"), "exchange.not-there", setup + "/readings/3/over/stack/0/gauge"},
		{"gauge of a retainer not there", set("/record/parts/retainers/0/gauge", "x"), "exchange.not-there", "/record/parts/retainers/0/gauge"},
		{"gauge of a locator not there", set("/record/parts/locators/0/gauge", "x"), "exchange.not-there", "/record/parts/locators/0/gauge"},
		{"gauge of a correction not there", set(setup+"/readings/2/correction/0/gauge", "x"), "exchange.not-there", setup + "/readings/2/correction/0/gauge"},
		{"gauge of a setting not there", set("/record/gauges/0/setting/0/gauge", "x"), "exchange.not-there", "/record/gauges/0/setting/0/gauge"},

		{"row of figures too long", set("/figures/rows/0/cells", []any{"1", "2"}), "exchange.cells", "/figures/rows/0"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			doc := tree(t)
			test.change(doc)
			text, err := json.Marshal(doc)
			if err != nil {
				t.Fatal(err)
			}
			_, err = Decode(text)
			refused(t, err, say.Invalid, test.key, test.at)
		})
	}
}

func TestPlacesAreForPeople(t *testing.T) {
	doc := tree(t)
	put(doc, "/record/setup/readings/2/quantity/value", 1)
	text, err := json.Marshal(doc)
	if err != nil {
		t.Fatal(err)
	}
	_, err = Decode(text)
	const want = "At record › setup › readings 3 › quantity › value stands 1, but 1.155 in is 293370000; " +
		"one of the two was changed. Nothing was taken in; export the record again."
	if err == nil || err.Error() != want {
		t.Errorf("got  %v\nwant %s", err, want)
	}
}

// quantity is a length in inches as it stands in JSON.
func quantity(read string, value int) map[string]any {
	return map[string]any{"typed": read, "read": read, "unit": "in", "value": value}
}

func position1(cylinder, role string, n int) any {
	return map[string]any{"cylinder": cylinder, "role": role, "n": n}
}

func strings17() []any {
	all := make([]any, 17)
	for i := range all {
		all[i] = strconv.Itoa(i)
	}
	return all
}

func five(key string) []any {
	all := make([]any, 5)
	for i := range all {
		all[i] = map[string]any{key: ""}
	}
	return all
}
