package say

import "testing"

// Numbers and days are printed as people write them who speak a language: DIN 5008 has 02.03.2026 and the comma, Spanish writes
// 02/03/2026; common practice besides.
func TestNumbersAndDays(t *testing.T) {
	for _, c := range []struct{ language, number, day, minute, month string }{
		{"en", "1.842", "2026-03-02", "2026-03-02 14:05", "2026-03"},
		{"de", "1,842", "02.03.2026", "02.03.2026 14:05", "03.2026"},
		{"es", "1,842", "02/03/2026", "02/03/2026 14:05", "03/2026"},
	} {
		p, ok := Of(c.language)
		if !ok {
			t.Fatalf("there is no %s", c.language)
		}
		p.Words = map[string]string{"a": "{0}"}
		for _, one := range []struct {
			arg  any
			want string
		}{{Number("1.842"), c.number}, {Day("2026-03-02"), c.day}, {Day("2026-03-02 14:05"), c.minute}, {Day("2026-03"), c.month},
			{Day("soon"), "soon"}, {Day(""), ""}, {Number("∞"), "∞"}, {dated{}, c.day}} {
			if got := p.Line(New("a", one.arg)); got != one.want {
				t.Errorf("%s: %v is printed %q, want %q", c.language, one.arg, got, one.want)
			}
		}
		if got := p.ReadDay(p.Day("2026-03-02")); got != "2026-03-02" {
			t.Errorf("%s: its own way of a day reads %q", c.language, got)
		}
		if got := p.ReadDay(" 2026-03-02 "); got != "2026-03-02" {
			t.Errorf("%s: 2026-03-02 reads %q", c.language, got)
		}
	}
}

type dated struct{}

func (dated) Shown() Day { return "2026-03-02" }

func TestReadDay(t *testing.T) {
	german, _ := Of("de")
	for text, want := range map[string]string{"2.3.2026": "2026-03-02", "02.03.2026": "2026-03-02", "2.3.26": "2.3.26", "2026.3.2": "2026.3.2", "gestern": "gestern", "": "",
		"3.13.2026": "3.13.2026", "0F.2P.1998": "0F.2P.1998", "30.2.2026": "30.2.2026"} {
		if got := german.ReadDay(text); got != want {
			t.Errorf("%q reads %q, want %q", text, got, want)
		}
	}
	if got := English().ReadDay("2/3/2026"); got != "2/3/2026" {
		t.Errorf("which of the two is the month nobody knows, but it reads %q", got)
	}
}

// A list of numbers with decimal commas has semicolons between.
func TestListsWithDecimalCommas(t *testing.T) {
	words := map[string]string{"a": "{0}"}
	list := New("a", []Line{New("a", Number("1.5")), New("a", Number("2"))})
	if got := (Printer{Language: "de", Words: words}).Line(list); got != "1,5; 2" {
		t.Errorf("printed %q", got)
	}
	if got := (Printer{Language: "en", Words: words}).Line(list); got != "1.5, 2" {
		t.Errorf("printed %q", got)
	}
	if got := (Printer{Language: "de", Words: words}).Line(New("a", []Line{New("a", "x"), New("a", "y")})); got != "x, y" {
		t.Errorf("printed %q", got)
	}
}
