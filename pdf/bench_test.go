package pdf_test

import (
	"io"
	"testing"

	"keeperbook/pdf"
)

// BenchmarkSheet64 builds the sheet of 64 valves, whose limit is 100 ms.
func BenchmarkSheet64(b *testing.B) {
	s := sheet(many(b, 16, 2, 2), pdf.A4)
	for b.Loop() {
		if err := pdf.Write(io.Discard, s); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkForm16 builds the bench form of 16 valves.
func BenchmarkForm16(b *testing.B) {
	r := many(b, 4, 2, 2)
	f := pdf.Form{Record: r, Paper: pdf.A4, Words: sheet(r, pdf.A4).Words}
	for b.Loop() {
		if err := pdf.WriteForm(io.Discard, f); err != nil {
			b.Fatal(err)
		}
	}
}
