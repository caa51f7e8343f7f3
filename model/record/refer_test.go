package record

import (
	"reflect"
	"slices"
	"testing"
)

// A field that names a part or a gauge is visited, and what becomes of it is in the copy alone; found by the names of fields,
// so that a new one cannot be forgotten.
func TestReferringVisitsEveryName(t *testing.T) {
	// Words that are no names of parts though their fields are called so.
	other := map[string]bool{"Gauge.Kind": true}
	for _, n := range []Noun{
		Package{}, Valve{}, Reading{}, SpringPiece{}, Spring{}, Retainer{}, Locks{}, Locator{}, Seal{}, ValvePart{}, Gauge{}, StockShim{}, Study{},
	} {
		v := reflect.New(reflect.TypeOf(n)).Elem()
		var want []string
		fill(v, reflect.TypeOf(n).Name(), &want, other)
		before := v.Interface().(Noun)
		var got []string
		after := Referring(before, func(_ ItemKind, key *string) {
			got = append(got, *key)
			*key += "'"
		})
		slices.Sort(want)
		slices.Sort(got)
		if !slices.Equal(got, want) {
			t.Errorf("%T visits\n%q\nand names\n%q", n, got, want)
		}
		var again []string
		Referring(before, func(_ ItemKind, key *string) { again = append(again, *key) })
		slices.Sort(again)
		if !slices.Equal(again, want) {
			t.Errorf("%T itself was changed", n)
		}
		var changed []string
		Referring(after, func(_ ItemKind, key *string) { changed = append(changed, *key) })
		for i, k := range slices.Sorted(slices.Values(changed)) {
			if k != want[i]+"'" {
				t.Errorf("%T: the copy names %s", n, k)
			}
		}
	}
}

// names are what fields are called that name parts or gauges.
var names = []string{"Spring", "Retainer", "Locks", "Locator", "Seal", "Valve", "Gauge", "Heights", "Piece"}

// fill makes every list one long and every pointer point, and puts a name of its own into each field that names something.
func fill(v reflect.Value, path string, want *[]string, other map[string]bool) {
	for i := range v.NumField() {
		f, at := v.Field(i), path+"."+v.Type().Field(i).Name
		switch f.Kind() {
		case reflect.String:
			if f.Type() == reflect.TypeFor[string]() && slices.Contains(names, v.Type().Field(i).Name) && !other[at] {
				f.SetString(at)
				*want = append(*want, at)
			}
		case reflect.Struct:
			fill(f, at, want, other)
		case reflect.Pointer:
			if f.Type().Elem().Kind() == reflect.Struct {
				f.Set(reflect.New(f.Type().Elem()))
				fill(f.Elem(), at, want, other)
			}
		case reflect.Slice:
			if f.Type().Elem().Kind() == reflect.Struct {
				f.Set(reflect.MakeSlice(f.Type(), 1, 1))
				fill(f.Index(0), at, want, other)
			}
		}
	}
}
