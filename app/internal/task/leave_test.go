package task_test

import (
	"bytes"
	"context"
	"image/png"
	"strings"
	"testing"

	"keeperbook/app/internal/task"
	"keeperbook/model/evaluate"
	"keeperbook/model/say"
)

// What leaves the book is told by the ending of its name, and each is what its kind begins with.
func TestLeave(t *testing.T) {
	book := demonstration(t)
	for _, c := range []struct {
		path, begins string
		drawn        task.Drawn
	}{
		{"x.pdf", "%PDF-", task.Drawn{}}, {"x.json", "{", task.Drawn{}}, {"x.csv", "head,valve", task.Drawn{}}, {"x.XLSX", "PK", task.Drawn{}},
		{"x.txt", "Head OF-2P, as built", task.Drawn{}}, {"x.svg", "<?xml", task.Drawn{}}, {"x.svg", "<?xml", task.Drawn{Valve: "3  EX", Loads: true}},
	} {
		data, err := task.Leave(context.Background(), book, "setup-ferry-built", c.path, c.drawn)
		if err != nil || !strings.HasPrefix(string(data), c.begins) {
			t.Errorf("%s begins with %.20q, %v", c.path, data, err)
		}
	}
	data, err := task.Leave(context.Background(), book, "setup-ferry-built", "x.png", task.Drawn{Valve: "4 in"})
	if err != nil {
		t.Fatal(err)
	}
	if img, err := png.Decode(bytes.NewReader(data)); err != nil || img.Bounds().Dx() != 1500 {
		t.Errorf("%v, %v", img.Bounds(), err)
	}
	for _, c := range []struct {
		path, key string
		drawn     task.Drawn
	}{
		{"x.zip", "task.ending", task.Drawn{}}, {"x", "task.ending", task.Drawn{}}, {"x.svg", "task.no-valve", task.Drawn{Valve: "9 in"}},
	} {
		_, err := task.Leave(context.Background(), book, "setup-ferry-built", c.path, c.drawn)
		if told, ok := err.(*say.Error); !ok || told.Line.Key != c.key {
			t.Errorf("%s, %+v: %v, want %s", c.path, c.drawn, err, c.key)
		}
	}
}

// Every number of the table stands in the text to be read, with the name of what it is.
func TestAloudHasEveryNumber(t *testing.T) {
	book := demonstration(t)
	for _, setup := range []string{"setup-ferry-built", "setup-racer-built"} {
		w, err := task.Work(context.Background(), book, setup)
		if err != nil {
			t.Fatal(err)
		}
		text := task.Aloud(evaluate.Words(w.Record.Setup.Units), w.Record, w.Figures)
		table, _, _ := strings.Cut(text, "\nLetters behind a number:")
		valves := strings.Split(table, "\nValve ")
		if len(valves) != len(w.Figures.Rows)+1 {
			t.Fatalf("%d paragraphs for %d valves", len(valves)-1, len(w.Figures.Rows))
		}
		for i, row := range w.Figures.Rows {
			for j, cell := range row.Cells {
				if cell != "" && !strings.Contains(valves[i+1], ": "+cell) {
					t.Errorf("%s: %s %q is missing", row.Valve, w.Figures.Columns[j].Key, cell)
				}
			}
		}
		if strings.Contains(text, "aloud.") {
			t.Errorf("a column has no name:\n%s", text)
		}
	}
}
