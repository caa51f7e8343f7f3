package record_test

import (
	"testing"

	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// Numbers and days are read as the chosen language writes them, and as the others do where that cannot be mistaken.
func TestReadAsSpoken(t *testing.T) {
	defer say.Speak("en")
	for _, c := range []struct {
		language, typed string
		of              unit.Symbol
		read, shown     string // "" where it is refused
	}{
		{"en", "1.842", unit.In, "1.842", "1.842 in"},
		{"en", "1,842", unit.In, "", ""},
		{"en", "46,79", unit.Mm, "46.79", "46.79 mm"},
		{"en", "1,200", unit.N, "", ""}, // a thousand or little over one: it is asked
		{"en", "12,5", unit.NPerMm, "12.5", "12.5 N/mm"},
		{"en", "1,200", unit.Lbf, "1200", "1200 lbf"},
		{"en", "0,500", unit.Lbf, "", ""}, // no thousands begin with a nought
		{"de", "1,842", unit.In, "1.842", "1,842 in"},
		{"de", "1.842", unit.In, "1.842", "1,842 in"},
		{"de", "46.79", unit.Mm, "46.79", "46,79 mm"},
		{"de", "131,5", unit.Lbf, "131.5", "131,5 lbf"},
		{"de", "1,200", unit.N, "", ""},
		{"de", "0,500", unit.Lbf, "0.500", "0,500 lbf"},
		{"es", ",060", unit.In, "0.060", ",060 in"},
	} {
		if !say.Speak(c.language) {
			t.Fatal(c.language)
		}
		e, err := unit.Parse(record.PlainColumn(c.of), c.typed)
		if (err != nil) != (c.read == "") || e.Quantity.Read != c.read || e.Understood != c.shown {
			t.Errorf("%s: %q in %s reads %q, shown %q, %v", c.language, c.typed, c.of, e.Quantity.Read, e.Understood, err)
		}
	}
	for _, c := range []struct{ language, typed string }{
		{"en", "2026-3-2"}, {"en", "2026/03/02"}, {"en", "20260302"}, {"de", "2.3.2026"}, {"de", "2026-03-02"}, {"es", "02/03/2026"}, {"es", "2026.3.2"},
	} {
		if say.Speak(c.language); record.DateOf(c.typed) != "2026-03-02" {
			t.Errorf("%s: %q reads %q", c.language, c.typed, record.DateOf(c.typed))
		}
	}
	say.Speak("en")
	if got := record.DateOf("02/03/2026"); got != "02/03/2026" {
		t.Errorf("in English nobody knows which is the month, but it reads %q", got)
	}
}
