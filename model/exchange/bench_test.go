package exchange

import "testing"

func BenchmarkExport64Valves(b *testing.B) {
	r, f := big()
	text, err := Export(&r, f)
	if err != nil {
		b.Fatal(err)
	}
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Export(&r, f); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkDecode64Valves(b *testing.B) {
	r, f := big()
	text, err := Export(&r, f)
	if err != nil {
		b.Fatal(err)
	}
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Decode(text); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkFingerprint64Valves(b *testing.B) {
	r, _ := big()
	for b.Loop() {
		if _, err := Fingerprint(&r); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkReadCSV64Valves(b *testing.B) {
	r, _ := big()
	text := WriteCSV(&r)
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		if _, errs := ReadCSV(text); len(errs) > 0 {
			b.Fatal(errs)
		}
	}
}
