package task

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// What changed in a noun of a set-up is named in words, whatever of it changed, but for what has a noun of its own or never changes.
func TestFieldsOfHistoryHaveNames(t *testing.T) {
	never := []string{"id", "at", "role", "packages", "valves", "readings", "shared", "seatWork", "deviations", "checks", "stack", "noShim"}
	for _, noun := range []any{record.Package{}, record.Valve{}, record.Setup{}} {
		of := reflect.TypeOf(noun)
		for i := range of.NumField() {
			name, _, _ := strings.Cut(of.Field(i).Tag.Get("json"), ",")
			if slices.Contains(never, name) {
				continue
			}
			if line := fieldLines([]string{name})[0]; line.Key == "expr.one" {
				t.Errorf("%s of a %s has no name", name, of.Name())
			}
		}
	}
	for finding, want := range map[string]string{"most": "most margin", "fit-pocket": "fit of the parts", "of-another-program": "of-another-program"} {
		if got := say.English().Line(findingLine(finding)); got != want {
			t.Errorf("%s is called %q, want %q", finding, got, want)
		}
	}
}
