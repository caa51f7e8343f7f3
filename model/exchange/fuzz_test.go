package exchange

import (
	"bytes"
	"encoding/json"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"github.com/gowebpki/jcs"

	"keeperbook/model/record"
)

func FuzzDecode(f *testing.F) {
	good := exported(f)
	f.Add(good)
	f.Add(good[:len(good)/2])
	f.Add(fixture(f, "small-1.json"))
	f.Add([]byte(`{"kind":"keeperbook-record","format":1,"record":{},"figures":{},"fingerprint":""}`))
	f.Add([]byte(`{"kind":"keeperbook-record","format":99}`))
	f.Add([]byte(`{"a":"\ud800","a":[1e9,null,true,{"b":-0}]}`))
	f.Add([]byte(strings.Repeat("[", 40)))
	for _, text := range []string{`{"a":1,"a":2}`, `{"a":"\":","b":[{},{"c:":":"}]} `, `{"a\u0000":1}`, `["\u0000"]`, `{"a":{"b":9007199254740993}}`, `1 1`} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		if fast, ok := sound(data); ok && glance(data) == nil {
			if slow, soft, err := slowly(data); err != nil || soft != nil || !reflect.DeepEqual(fast, slow) {
				t.Fatalf("read fast: %v; slowly: %v, %v, %v", fast, slow, soft, err)
			}
		}
		doc, err := Decode(data)
		if err != nil {
			if text := err.Error(); strings.HasPrefix(text, "exchange.") {
				t.Fatalf("no sentence: %s", text)
			}
			return
		}
		var top map[string]json.RawMessage
		if err := json.Unmarshal(data, &top); err != nil {
			t.Fatal(err)
		}
		if top["figures"] == nil || top["fingerprint"] == nil {
			return // a record by another hand, which Export completes
		}
		// What is accepted whole is exported as the canonical form of the very bytes that came in, but for
		// the number of the form.
		want, err := jcs.Transform(data)
		if err != nil {
			t.Fatal(err)
		}
		want = bytes.Replace(want, fmt.Appendf(nil, `"format":%d,"kind":"`, doc.Format), fmt.Appendf(nil, `"format":%d,"kind":"`, record.Format), 1)
		got, err := Export(&doc.Record, doc.Figures)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(got, want) {
			t.Fatalf("exported\n%s\nwant\n%s", got, want)
		}
	})
}

func FuzzReadCSV(f *testing.F) {
	r := sample()
	f.Add(WriteCSV(&r))
	f.Add([]byte("head;valve;what;reading\nT;1 in;base;1,842\nT;1 in;base;1,843*\n"))
	f.Add([]byte("\ufeffreading\twhat\tvalve\thead\r\n\"1.8\"\"\"\tbase\t1 ex 3\t'=1\r\n"))
	f.Add([]byte("head,valve,what,reading,correction\nT,1 ex,bind,1,lid .095 + step .1 zeroed\nT,\"1"))
	f.Fuzz(func(t *testing.T, data []byte) {
		sheet, errs := ReadCSV(data)
		if len(errs) > maxRowErrors+1 {
			t.Fatalf("%d errors", len(errs))
		}
		for _, e := range errs {
			if e.Line < 1 || strings.HasPrefix(e.Error(), "exchange.") {
				t.Fatalf("line %d: %s", e.Line, e.Error())
			}
		}
		lines := bytes.Count(data, []byte("\n")) + 1
		for _, row := range sheet.Rows {
			if row.Line < 2 || row.Line > lines || row.Head == "" || row.Text == "" || (row.Kind == "") == (row.Stack == "") {
				t.Fatalf("row %+v of %d lines", row, lines)
			}
		}
	})
}
