package valves_test

import (
	"strings"
	"testing"

	"keeperbook/app/internal/kit/table"
)

// F8 shows how sure the number under the cursor is, whichever that is, and the working again.
func TestHowSure(t *testing.T) {
	r := newRig(t, four())
	r.coils("outer")
	r.fill("1 in", "1842", "30", "", "1.114")
	r.on("1 in", "lift")
	r.types("600⏎")
	r.on("1 in", "margin")
	if r.ShowsSure() {
		t.Fatal("shown before anybody asked")
	}
	r.press(table.Sure)
	if !r.ShowsSure() {
		t.Fatal("not shown")
	}
	words := r.bench.Words()
	look := func(column string) (title, lines string, parts int) {
		r.on("1 in", column)
		d := r.Doubt(r.Preview(r.Selected()))
		var all []string
		for _, l := range d.Lines {
			all = append(all, words.Line(l))
		}
		return words.Line(d.Title), strings.Join(all, " "), len(d.Parts)
	}
	title, lines, parts := look("margin")
	if !strings.Contains(title, "margin, 1 in: .098 ±") || !strings.Contains(lines, "greatest part of the doubt") ||
		!strings.Contains(lines, "keeps its least margin") || parts < 4 {
		t.Errorf("%s: %s, %d parts", title, lines, parts)
	}
	if title, lines, parts := look("base"); !strings.HasPrefix(title, "base height, 1 in: 1.842 ±") || strings.Contains(lines, "least margin") || parts == 0 {
		t.Errorf("%s: %s, %d parts", title, lines, parts)
	}
	if title, _, _ := look("verdict"); !strings.Contains(title, "margin, 1 in") {
		t.Errorf("a cell without a number says %s", title)
	}
	if title, _, parts := look("check"); !strings.Contains(title, "not known yet") || parts != 0 {
		t.Errorf("%s, %d parts", title, parts)
	}
	if title, lines, parts := look("least"); parts != 0 || lines == "" || strings.Contains(title, "±") {
		t.Errorf("a chosen number: %s: %s, %d parts", title, lines, parts)
	}
	r.press(table.Sure)
	if r.ShowsSure() {
		t.Error("still shown")
	}
}
