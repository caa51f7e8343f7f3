package pdf_test

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// TestEverySentenceIsThere looks up every key that stands in the code, and every key that is put
// together from a word of the record; and it finds sentences that nobody says any more.
func TestEverySentenceIsThere(t *testing.T) {
	words := say.English().Words
	code := ""
	for _, pattern := range []string{"*.go", "figure/*.go"} {
		files, err := filepath.Glob(pattern)
		if err != nil || len(files) == 0 {
			t.Fatalf("no code in %s: %v", pattern, err)
		}
		for _, name := range files {
			if strings.HasSuffix(name, "_test.go") {
				continue
			}
			text, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			code += string(text)
		}
	}
	keys := regexp.MustCompile(`"((?:figure|sheet|form|pdf|caution|needs|lift|seal|mark|coil)\.[a-z.-]*[a-z])"`)
	for _, m := range keys.FindAllStringSubmatch(code, -1) {
		if words[m[1]] == "" {
			t.Errorf("%q has no sentence", m[1])
		}
	}
	for _, k := range built() {
		if words[k] == "" {
			t.Errorf("%q has no sentence", k)
		}
	}
	own, err := os.ReadFile("../model/say/en/pdf.txt")
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range strings.Split(string(own), "\n") {
		key, _, ok := strings.Cut(line, " = ")
		if ok && !strings.Contains(code, `"`+key+`"`) && !slices.Contains(built(), key) {
			t.Errorf("nobody says %q any more", key)
		}
	}
}

// built are the keys that the code puts together from the record's own words.
func built() []string {
	var keys []string
	add := func(prefix string, words ...string) {
		for _, w := range words {
			keys = append(keys, prefix+w)
		}
	}
	add("setup.", string(record.AsFound), string(record.AsBuilt))
	for _, d := range record.Decisions {
		add("decision.", string(d))
	}
	add("role.", string(record.Intake), string(record.Exhaust))
	add("groove.", string(record.SingleGroove), string(record.MultiGroove))
	add("seal.on-", string(record.OnGuide), string(record.OnLocator))
	add("condition.", string(record.New), string(record.RunIn), string(record.HeatCycled), string(record.Used))
	add("source.", string(record.Measured), string(record.Supplied), string(record.Estimated))
	add("zero.", string(record.Zeroed), string(record.NotZeroed))
	add("lash.", string(record.Hot), string(record.Cold))
	add("lift.", string(record.LiftChecking), string(record.LiftRunning))
	add("method.", string(record.Typed), string(record.Sent), string(record.HandedIn), string(record.FromFile))
	for _, p := range record.PartsOfStack {
		add("stack.", string(p))
	}
	for _, g := range record.GaugeKinds {
		add("gauge.", string(g))
	}
	for _, k := range record.Kinds {
		add("kind.", string(k))
	}
	add("sheet.legend.mark.", "estimate", "borrowed", "predicted", "beyond", "stale")
	add("sheet.piece-", "tag", "valve", "batch", "condition", "note")
	add("sheet.gauge-", "name", "kind", "step", "calibration", "scatter", "setting")
	add("form.", "seat-depth", "retainer-depth", "base", "seal", "shims", "check", "lift", "lash-found", "lash-shim", "lash-left")
	return keys
}
