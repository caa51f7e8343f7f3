package pdf_test

import (
	"io"
	"testing"
	"time"

	"keeperbook/model/exchange"
	"keeperbook/model/record"
	"keeperbook/pdf"
	"keeperbook/pdf/seal"
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

// BenchmarkSigned64 works out 64 valves, builds their sheet, exports the record and seals both with a key of P-256, whose
// limit is 150 ms, and checks what came of it, whose limit is 50 ms.
func BenchmarkSigned64(b *testing.B) {
	when := time.Date(2026, 3, 2, 12, 0, 0, 0, time.UTC)
	key, err := seal.NewKey(seal.Person{Name: "M. Ashlock"}, when)
	if err != nil {
		b.Fatal(err)
	}
	r := many(b, 16, 2, 2)
	r.Setup.State = record.Closed
	r.Gauges = append(r.Gauges, record.Gauge{ID: "g1", Name: "height gauge", Kind: record.HeightGauge})
	sign := func() []byte {
		s := sheet(r, pdf.A4)
		s.Signed = &pdf.Signed{Name: key.Name, Role: "head porter", When: when}
		document, err := exchange.Export(r, s.Figures)
		if err != nil {
			b.Fatal(err)
		}
		signed, err := pdf.Seal(s, key, document)
		if err != nil {
			b.Fatal(err)
		}
		return signed
	}
	b.Run("signed", func(b *testing.B) {
		for b.Loop() {
			sign()
		}
	})
	b.Run("checked", func(b *testing.B) {
		signed := sign()
		for b.Loop() {
			if checked, err := seal.Check(signed); err != nil || !checked.Whole() {
				b.Fatal(err)
			}
		}
	})
}
