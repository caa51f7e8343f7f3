package unit_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keeperbook/model/unit"
)

func TestParseStack(t *testing.T) {
	tests := []struct {
		column unit.Column
		text   string
		typed  []string
		read   []string
		shown  string
	}{
		{gap, ".030+.015", []string{".030", ".015"}, []string{"0.030", "0.015"}, ".030+.015 in"},
		{gap, "30 + 15", []string{"30", "15"}, []string{"0.030", "0.015"}, ".030+.015 in"},
		{gap, "15", []string{"15"}, []string{"0.015"}, ".015 in"},
		{gap, "2x15", []string{"15", "15"}, []string{"0.015", "0.015"}, ".015+.015 in"},
		{gap, "2×.015", []string{".015", ".015"}, []string{"0.015", "0.015"}, ".015+.015 in"},
		{gap, "2 X 15+60", []string{"15", "15", "60"}, []string{"0.015", "0.015", "0.060"}, ".015+.015+.060 in"},
		{gap, "30.5", []string{"30.5"}, []string{"0.0305"}, ".0305 in"},
		{gap, "15 thou+30", nil, nil, ""},
		{gap, "15+30 thou", []string{"15 thou", "30 thou"}, []string{"0.015", "0.030"}, ".015+.030 in"},
		{gap, "0.5+0.25 mm", []string{"0.5 mm", "0.25 mm"}, []string{"0.5", "0.25"}, "0.5+0.25 mm"},
		{gap, "0.5 mm + .015 in", []string{"0.5 mm", ".015 in"}, []string{"0.5", "0.015"}, "0.5 mm+.015 in"},
		{gapMM, "0.5+0.25", []string{"0.5", "0.25"}, []string{"0.5", "0.25"}, "0.5+0.25 mm"},
		{comma(gapMM), "0,5+0,25", []string{"0,5", "0,25"}, []string{"0.5", "0.25"}, "0,5+0,25 mm"},
		{comma(gapMM), "2x0,5", []string{"0,5", "0,5"}, []string{"0.5", "0.5"}, "0,5+0,5 mm"},
		{comma(gapMM), "1,25", []string{"1,25"}, []string{"1.25"}, "1,25 mm"}, // no shim is 25 mm thick
		{comma(gapMM), "1,0", []string{"1,0"}, []string{"1.0"}, "1,0 mm"},
		{under(gap, "0.030", "0.015"), `"`, []string{"0.030", "0.015"}, []string{"0.030", "0.015"}, ".030+.015 in"},
	}
	for _, tt := range tests {
		t.Run(tt.text, func(t *testing.T) {
			shims, none, err := unit.ParseStack(tt.column, tt.text)
			if tt.read == nil {
				wantRefusal(t, err, "unit.some-units")
				return
			}
			if err != nil || none {
				t.Fatalf("none %v, error %v", none, err)
			}
			var typed, read []string
			for _, q := range shims {
				typed, read = append(typed, q.Typed), append(read, q.Read)
				if v, err := unit.Value(q.Read, q.Unit); err != nil || v != q.Value {
					t.Errorf("%+v is not its own value: %d, %v", q, v, err)
				}
			}
			if diff := cmp.Diff([][]string{tt.typed, tt.read}, [][]string{typed, read}); diff != "" {
				t.Errorf("want − got +\n%s", diff)
			}
			if got := tt.column.Understood(shims...); got != tt.shown {
				t.Errorf("shows %q, want %q", got, tt.shown)
			}
		})
	}
}

func TestParseStackNone(t *testing.T) {
	for _, text := range []string{"none", "None", " NONE ", "0", "0.0", ".000", "0 mm"} {
		shims, none, err := unit.ParseStack(gap, text)
		if err != nil || !none || len(shims) != 0 {
			t.Errorf("%s: %v, none %v, %v", text, shims, none, err)
		}
	}
}

func TestParseStackRefuses(t *testing.T) {
	tests := []struct {
		column  unit.Column
		text    string
		key     string
		choices []string
	}{
		{gap, "", "unit.empty", nil},
		{gap, "abc", "unit.letters", nil},
		{gap, "none+15", "unit.letters", nil},
		{gap, "15\x00", "unit.unprintable", nil},
		{gap, strings.Repeat("15+", 2000) + "15", "unit.long", nil},
		{gap, "15,30", "unit.comma-two", []string{"15+30", "15.30"}},
		{comma(gap), "15,30", "unit.comma-two", []string{"15+30", "15.30"}},
		{gap, "60+15,30", "unit.comma-two", []string{"60+15+30", "60+15.30"}},
		{gap, "2x15,30", "unit.comma-two", []string{"2x15+30", "2x15.30"}},
		{gap, "15,30,60", "unit.comma-list", []string{"15+30+60"}},
		{gap, "60,2x15", "unit.comma-list", []string{"60+2x15"}},
		{gap, ".015,.030", "unit.comma-list", []string{".015+.030"}},
		{gap, "0,5", "unit.comma", nil},
		{gap, "15 30", "unit.space", nil},
		{gap, "-15", "unit.negative-shim", nil},
		{gap, "−.015", "unit.negative-shim", nil},
		{gap, "30+-15", "unit.negative-shim", nil},
		{gap, "15+", "unit.gap", nil},
		{gap, "+15", "unit.gap", nil},
		{gap, "15++30", "unit.gap", nil},
		{gap, "15+0", "unit.zero-shim", nil},
		{gap, "2x0", "unit.zero-shim", nil},
		{gap, "x15", "unit.count", nil},
		{gap, "0x15", "unit.count", nil},
		{gap, "2x", "unit.count", nil},
		{gap, "1.5x15", "unit.count", nil},
		{gap, "15*", "unit.letters", nil},
		{gap, "13x15", "unit.many-shims", nil},
		{gap, "9999999999999999999999x15", "unit.many-shims", nil},
		{gap, "6x15+6x30+60", "unit.many-shims", nil},
		{gap, "500", "unit.thick-shim", nil},
		{gapMM, "15", "unit.thick-shim", nil},
		{gap, "15 N", "unit.dimension", nil},
		{gap, "15 thou+.5 mm+30", "unit.some-units", nil},
		{gap, `"`, "unit.above", nil},
	}
	for _, tt := range tests {
		t.Run(tt.key+"/"+tt.text, func(t *testing.T) {
			shims, none, err := unit.ParseStack(tt.column, tt.text)
			wantRefusal(t, err, tt.key)
			if len(shims) != 0 || none {
				t.Errorf("a refused entry came back as %v, none %v", shims, none)
			}
			if diff := cmp.Diff(tt.choices, unit.Choices(err)); diff != "" {
				t.Errorf("choices, want − got +\n%s", diff)
			}
			for _, c := range tt.choices {
				if _, _, err := unit.ParseStack(tt.column, c); err != nil {
					t.Errorf("the choice %q is refused: %v", c, err)
				}
			}
		})
	}
}

// A retainer's steps are measured from land to land and kept from the outer land.
func TestParseSteps(t *testing.T) {
	tests := []struct {
		column unit.Column
		text   string
		typed  []string
		read   []string
	}{
		{gap, ".095", []string{".095"}, []string{"0.095"}},
		{gap, ".095+.060", []string{".095", ".095+.060"}, []string{"0.095", "0.155"}},
		{gap, "95+60+60", []string{"95", "95+60", "95+60+60"}, []string{"0.095", "0.155", "0.215"}},
		{gap, ".095+0", []string{".095", ".095+0"}, []string{"0.095", "0.095"}},
		{gap, "2.4+1.5 mm", []string{"2.4 mm", "2.4 mm+1.5 mm"}, []string{"2.4", "3.9"}},
		{gapMM, "2.4+1.55", []string{"2.4", "2.4+1.55"}, []string{"2.4", "3.95"}},
		{offset, "-.020", []string{"-.020"}, []string{"-0.020"}},
		{offset, ".060+-.080", []string{".060", ".060+-.080"}, []string{"0.060", "-0.020"}},
		{gap, "none", nil, nil},
	}
	for _, tt := range tests {
		t.Run(tt.text, func(t *testing.T) {
			steps, err := unit.ParseSteps(tt.column, tt.text)
			if err != nil {
				t.Fatal(err)
			}
			var typed, read []string
			for _, q := range steps {
				typed, read = append(typed, q.Typed), append(read, q.Read)
				if v, err := unit.Value(q.Read, q.Unit); err != nil || v != q.Value {
					t.Errorf("%+v is not its own value: %d, %v", q, v, err)
				}
			}
			if diff := cmp.Diff([][]string{tt.typed, tt.read}, [][]string{typed, read}); diff != "" {
				t.Errorf("want − got +\n%s", diff)
			}
		})
	}
	t.Run("above", func(t *testing.T) {
		steps, err := unit.ParseSteps(under(gap, "0.095", "0.155"), `"`)
		if err != nil || len(steps) != 2 || steps[1].Read != "0.155" {
			t.Errorf("got %v, %v", steps, err)
		}
	})
}

func TestParseStepsRefuses(t *testing.T) {
	for text, key := range map[string]string{
		"":                 "unit.empty",
		"abc":              "unit.letters",
		"95+":              "unit.gap",
		"95,60":            "unit.comma-two",
		"-.020":            "unit.negative",
		"95 thou+1.5 mm":   "unit.some-units",
		"95 thou+60+1 mm":  "unit.some-units",
		"30 in+9 in+.4 in": "unit.large",
		`"`:                "unit.above",
	} {
		t.Run(key, func(t *testing.T) {
			steps, err := unit.ParseSteps(gap, text)
			wantRefusal(t, err, key)
			if steps != nil {
				t.Errorf("a refused entry came back as %v", steps)
			}
		})
	}
}
