package task

import (
	"strings"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// Aloud is a table of figures as text to be read from its beginning to its end: what came out, then a paragraph for each valve
// with every number after its name, then what is to be known of. It is for whoever cannot use the table or the drawings.
func Aloud(words say.Printer, r *record.Record, f record.Figures) string {
	line := func(key string, args ...any) string { return words.Line(say.New(key, args...)) }
	out := []string{
		line("aloud.title", r.Head.Tag, line("setup."+string(r.Setup.Kind)), r.Setup.Begun.Day()), "", f.Summary,
	}
	if f.Next != "" {
		out = append(out, f.Next)
	}
	for _, row := range f.Rows {
		out = append(out, "", line("aloud.valve", row.Valve))
		for i, cell := range row.Cells {
			c := f.Columns[i]
			switch name := line("aloud.of." + c.Key); {
			case cell == "":
			case c.Unit == "":
				out = append(out, line("aloud.word", name, cell))
			default:
				out = append(out, line("aloud.number", name, cell, c.Unit))
			}
		}
	}
	out = append(out, "", line("aloud.marks"))
	for _, mark := range []string{"estimate", "borrowed", "predicted", "beyond", "stale"} {
		out = append(out, line("sheet.legend.mark."+mark))
	}
	if len(f.Notes) > 0 {
		out = append(out, "", line("aloud.notes"))
		out = append(out, f.Notes...)
	}
	out = append(out, "", line("aloud.cautions"))
	for _, c := range Cautions() {
		out = append(out, words.Line(c))
	}
	return strings.Join(out, "\n") + "\n"
}
