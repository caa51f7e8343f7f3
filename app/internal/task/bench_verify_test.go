package task_test

import (
	"context"
	"fmt"
	"strconv"
	"testing"

	"keeperbook/app/internal/task"
	"keeperbook/model/evaluate"
	"keeperbook/model/exchange"
	"keeperbook/model/record"
	"keeperbook/pdf"
)

// many is the four-cylinder head of the demonstration sixteen cylinders long: 64 valves.
func many(b *testing.B) *record.Record {
	b.Helper()
	rec, err := demonstration(b).Record(context.Background(), "setup-hill-built")
	if err != nil {
		b.Fatal(err)
	}
	four := *rec
	for bank := 1; bank < 4; bank++ {
		moved := func(at record.Position) record.Position {
			n, err := strconv.Atoi(at.Cylinder)
			if err != nil {
				b.Fatal(err)
			}
			at.Cylinder = strconv.Itoa(n + 4*bank)
			return at
		}
		for _, c := range four.Head.Cylinders {
			rec.Head.Cylinders = append(rec.Head.Cylinders, moved(record.Position{Cylinder: c}).Cylinder)
		}
		for _, v := range four.Setup.Valves {
			v.At = moved(v.At)
			rec.Setup.Valves = append(rec.Setup.Valves, v)
		}
		for _, r := range four.Setup.Readings {
			r.At = moved(r.At)
			rec.Setup.Readings = append(rec.Setup.Readings, r)
		}
	}
	rec.Setup.State = record.Closed
	return rec
}

// BenchmarkVerify64 looks at the signed sheet of 64 valves as somebody does to whom it was handed: its signature, its record,
// and whether its pages, drawn anew, are those of the record.
func BenchmarkVerify64(b *testing.B) {
	rec := many(b)
	words := evaluate.Words(rec.Setup.Units)
	ev := evaluate.Evaluate(rec)
	sheet := pdf.Sheet{
		Record: rec, Evaluation: ev, Figures: ev.Figures(words, rec.Setup.Units), Paper: pdf.A4, Words: words,
		Signed: &pdf.Signed{Name: "J. Peverel", When: clock()},
	}
	var err error
	if sheet.Fingerprint, err = exchange.Fingerprint(rec); err != nil {
		b.Fatal(err)
	}
	document, err := exchange.Export(rec, sheet.Figures)
	if err != nil {
		b.Fatal(err)
	}
	file, err := pdf.Seal(sheet, signerKey(b), document)
	if err != nil {
		b.Fatal(err)
	}
	if n := len(ev.Valves); n != 64 {
		b.Fatal(fmt.Sprint(n, " valves"))
	}
	b.ReportMetric(float64(len(file))/1024, "KiB")
	for b.Loop() {
		if v, err := task.Verify(context.Background(), file); err != nil || !v.Whole || v.Pages != task.PagesAgree {
			b.Fatal(err, v.Pages)
		}
	}
}
