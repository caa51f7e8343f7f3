package task_test

import (
	"context"
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"keeperbook/app/internal/task"
	"keeperbook/model/evaluate"
	"keeperbook/model/exchange"
	"keeperbook/model/record"
	"keeperbook/pdf"
)

// Of a spring of three coils the innermost governs: table, working, sheet and export all name it.
func TestTheInnerOfThreeCoilsGoverns(t *testing.T) {
	ctx := context.Background()
	book := demonstration(t)
	w, err := task.Work(ctx, book, "setup-ferry-built")
	if err != nil {
		t.Fatal(err)
	}
	v := &w.Evaluation.Valves[1]
	if len(v.Coils) != 3 || v.Governing != 2 || v.Coils[2].Name != "inner" {
		t.Fatalf("%s: %d coils, coil %d governs", v.Label, len(v.Coils), v.Governing+1)
	}
	words := evaluate.Words(w.Record.Setup.Units)
	if got := v.Text(words, "coil"); got != "inner" {
		t.Errorf("the table says %q", got)
	}
	var working []string
	for _, l := range v.Margin.Working() {
		working = append(working, words.Line(l))
	}
	if text := strings.Join(working, "\n"); !strings.Contains(text, "margin, inner coil = ") || !strings.Contains(text, "the inner coil governs") {
		t.Errorf("the working says %q", text)
	}
	sheet, err := task.Sheet(ctx, book, "setup-ferry-built", pdf.A4)
	if err != nil {
		t.Fatal(err)
	}
	if line := lineOf(textOf(t, sheet), v.Label); !strings.Contains(line, " inner ") {
		t.Errorf("the sheet says %q", line)
	}
	out, err := exchange.Export(w.Record, w.Figures)
	if err != nil {
		t.Fatal(err)
	}
	var doc struct{ Figures record.Figures }
	if err := json.Unmarshal(out, &doc); err != nil {
		t.Fatal(err)
	}
	at := slices.IndexFunc(doc.Figures.Columns, func(c record.Column) bool { return c.Key == "coil" })
	if at < 0 || doc.Figures.Rows[1].Cells[at] != "inner" {
		t.Errorf("export says %q", doc.Figures.Rows[1].Cells)
	}
}
