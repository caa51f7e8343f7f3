package pdf

import (
	"bytes"
	"slices"
	"strings"
	"testing"
	"time"

	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/unit"
	"keeperbook/pdf/seal"
)

// What is set is read again, brackets and strokes and all, where it stands.
func TestWordsOnAPage(t *testing.T) {
	p := newPress(595, 842, time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC), "words")
	f := newFlow(p, evaluate.Words(record.Units{Length: unit.In, Load: unit.Lbf}))
	texts := []string{"1.842", `a (b) \ c)`, "μ ± ≥ ″ ⌀", "Öst", "(", `\`, "end\r"}
	for i, text := range texts {
		f.text(40, 100+20*float64(i), body, ink, text)
	}
	data, err := p.bytes()
	if err != nil {
		t.Fatal(err)
	}
	pages, err := seal.Contents(data)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, content := range pages {
		for i, w := range wordsOn(content) {
			if want := 842 - 100 - 20*float64(i); w.x != 40 || w.y < want-.01 || w.y > want+.01 {
				t.Errorf("%q stands at %g, %g", w.text, w.x, w.y)
			}
			got = append(got, w.text)
		}
	}
	for i := range texts {
		texts[i] = visual(clean(texts[i]))
	}
	if !slices.Equal(got, texts) {
		t.Errorf("read %q, set %q", got, texts)
	}
}

// Numbers count only on their valve's line and in their order.
func TestShows(t *testing.T) {
	print := strings.Repeat("3ece", 16)
	fig := record.Figures{Columns: []record.Column{{Key: "base"}, {Key: "seal"}}, Rows: []record.Row{
		{Valve: "1 in", Cells: []string{"1.842", ".700"}}, {Valve: "1 ex", Cells: []string{"1.836", "none"}},
	}}
	told := record.Figures{Summary: "Tightest: 1 ex, short by .007", Columns: []record.Column{{Key: "verdict"}, {Key: "base"}}, Rows: []record.Row{
		{Valve: "1 in", Cells: []string{"within up to .571", "1.842"}}, {Valve: "1 ex", Cells: []string{"short", "1.836"}},
	}}
	for name, c := range map[string]struct {
		lines [][]string
		want  Shown
	}{
		"told: verdicts": {[][]string{{told.Summary}, {"1 in", "within up to .571", "1.842"}, {"1 ex", "short", "1.836"}, {print}}, ShownAll},
		"told: verdicts over lines": {
			[][]string{{"Tightest: 1 ex,"}, {"short by .007"}, {"1 in", "within up", "1.842"}, {"", "to .571"}, {"1 ex", "short", "1.836"}, {print}}, ShownAll,
		},
		"told: another verdict":   {[][]string{{told.Summary}, {"1 in", "within up to .571", "1.842"}, {"1 ex", "within", "1.836"}, {print}}, ShownElse},
		"told: half a verdict":    {[][]string{{told.Summary}, {"1 in", "within", "1.842"}, {"1 ex", "short", "1.836"}, {print}}, ShownElse},
		"told: another's verdict": {[][]string{{told.Summary}, {"1 in", "short", "1.842"}, {"1 ex", "within up to .571", "1.836"}, {print}}, ShownElse},
		"told: another summary":   {[][]string{{"Tightest: 1 ex"}, {"1 in", "within up to .571", "1.842"}, {"1 ex", "short", "1.836"}, {print}}, ShownElse},
		"told: a verdict too few": {[][]string{{told.Summary}, {"1 in", "within up to .571", "1.842"}, {"1 ex", "1.836"}, {print}}, ShownElse},
		"all of them":             {[][]string{{"1 in", "within", "1.842", ".700"}, {"1 ex", "1.836", "none"}, {print}}, ShownAll},
		"over two bands":          {[][]string{{"1 in", "1.842"}, {"1 ex", "1.836"}, {"1 in", ".700"}, {"1 ex", "none"}, {print[:40]}, {print[40:]}}, ShownAll},
		"another digit":           {[][]string{{"1 in", "1.843", ".700"}, {"1 ex", "1.836"}, {print}}, ShownElse},
		"on another line":         {[][]string{{"1 in", "1.836", ".700"}, {"1 ex", "1.842"}, {print}}, ShownElse},
		"in another order":        {[][]string{{"1 in", ".700", "1.842"}, {"1 ex", "1.836"}, {print}}, ShownElse},
		"another record's":        {[][]string{{"1 in", "1.842", ".700"}, {"1 ex", "1.836"}, {strings.Repeat("0", 64)}}, ShownElse},
		"no line for a valve":     {[][]string{{"1 in", "1.842", ".700"}, {print}}, ShownNone},
		"nothing on the page":     {nil, ShownNone},
		"a number without name":   {[][]string{{"1.842", ".700"}, {"1.836"}, {print}}, ShownNone},
	} {
		p := newPress(595, 842, time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC), "shows")
		p.page()
		for y, line := range c.lines {
			for x, text := range line {
				if text != "" {
					p.text(40+60*float64(x), 100+20*float64(y), body, ink, text)
				}
			}
		}
		data, err := p.bytes()
		if err != nil {
			t.Fatal(err)
		}
		pages, err := seal.Contents(data)
		if err != nil {
			t.Fatal(err)
		}
		figures := fig
		if strings.HasPrefix(name, "told") {
			figures = told
		}
		if got := Shows(pages, figures, print); got != c.want {
			t.Errorf("%s: %s, want %s", name, got, c.want)
		}
	}
}

// A page that is made to be read again and again from each of its places comes to an end all the same.
func TestWordsAreReadOnce(t *testing.T) {
	for name, one := range map[string]string{"no place": "BT ", "no end": "BT 1 2 Td (", "no letters": "BT 1 2 Td (x) ", "half a place": "BT 1 2 Td"} {
		if got := wordsOn(bytes.Repeat([]byte(one), 4<<20/len(one))); len(got) != 0 {
			t.Errorf("%s: %d words are read", name, len(got))
		}
	}
}

// Whatever a page draws, it is read or left out.
func FuzzWordsOn(f *testing.F) {
	f.Add([]byte("BT 42.00 794.89 Td (\x00T\x00a) Tj ET"))
	f.Add([]byte(`BT 1 2 Td (\(\)\\\r) Tj BT BT 1e309 NaN Td () Tj`))
	f.Add([]byte("BT 1 2 Td (\xd8\x00"))
	f.Fuzz(func(t *testing.T, content []byte) {
		for _, line := range linesOf(wordsOn(content)) {
			if len(line) == 0 {
				t.Error("a line of nothing")
			}
		}
	})
}
