package unit_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keeperbook/model/say"
	"keeperbook/model/unit"
)

func asError(err error, to **say.Error) bool { return errors.As(err, to) }

// The columns of a bench.
var (
	height   = unit.Column{Unit: unit.In, Kind: unit.Height}
	gap      = unit.Column{Unit: unit.In}
	offset   = unit.Column{Unit: unit.In, Kind: unit.Signed}
	heightMM = unit.Column{Unit: unit.Mm, Kind: unit.Height}
	gapMM    = unit.Column{Unit: unit.Mm}
	offsetMM = unit.Column{Unit: unit.Mm, Kind: unit.Signed}
	load     = unit.Column{Unit: unit.Lbf}
	rate     = unit.Column{Unit: unit.LbfPerIn}
	boost    = unit.Column{Unit: unit.Psi}
)

func comma(c unit.Column) unit.Column { c.Comma = true; return c }

func from(c unit.Column, nominal string) unit.Column {
	q, err := unit.Of(nominal, c.Unit)
	if err != nil {
		panic(err)
	}
	c.Nominal = q
	return c
}

func under(c unit.Column, above ...string) unit.Column {
	for _, a := range above {
		q, err := unit.Of(a, c.Unit)
		if err != nil {
			panic(err)
		}
		c.Above = append(c.Above, q)
	}
	return c
}

func TestParse(t *testing.T) {
	tests := []struct {
		rule   string
		column unit.Column
		text   string
		read   string
		unit   unit.Symbol
		shown  string
	}{
		{"no mark is thousandths", height, "1842", "1.842", unit.In, "1.842 in"},
		{"no mark is thousandths", gap, "30", "0.030", unit.In, ".030 in"},
		{"no mark is thousandths", gap, "2", "0.002", unit.In, ".002 in"},
		{"no mark is thousandths", gap, "0", "0.000", unit.In, ".000 in"},
		{"no mark is thousandths", gap, "0030", "0.030", unit.In, ".030 in"},
		{"ten or more is thousandths", height, "1842.5", "1.8425", unit.In, "1.8425 in"},
		{"ten or more is thousandths", height, "1842.50", "1.84250", unit.In, "1.84250 in"},
		{"ten or more is thousandths", gap, "10.0", "0.0100", unit.In, ".0100 in"},
		{"ten or more is thousandths", gap, "15.", "0.015", unit.In, ".015 in"},
		{"under ten with a mark is inches", height, "1.842", "1.842", unit.In, "1.842 in"},
		{"under ten with a mark is inches", height, "01.842", "1.842", unit.In, "1.842 in"},
		{"under ten with a mark is inches", gap, "9.999", "9.999", unit.In, "9.999 in"},
		{"under ten with a mark is inches", gap, ".030", "0.030", unit.In, ".030 in"},
		{"under ten with a mark is inches", gap, "0.0305", "0.0305", unit.In, ".0305 in"},
		{"under ten with a mark is inches", gap, "2.", "2", unit.In, "2 in"},
		{"trailing zeros stay", height, "1.8420", "1.8420", unit.In, "1.8420 in"},
		{"a tenth of an inch is a height", height, "100", "0.100", unit.In, ".100 in"},
		{"millimetres as typed", heightMM, "46.79", "46.79", unit.Mm, "46.79 mm"},
		{"millimetres as typed", heightMM, "46", "46", unit.Mm, "46 mm"},
		{"millimetres as typed", gapMM, "0.75", "0.75", unit.Mm, "0.75 mm"},
		{"millimetres as typed", gapMM, ".5", "0.5", unit.Mm, "0.5 mm"},
		{"the unit behind comes first", height, "46.79 mm", "46.79", unit.Mm, "46.79 mm"},
		{"the unit behind comes first", heightMM, "1.842in", "1.842", unit.In, "1.842 in"},
		{"the unit behind comes first", heightMM, `1.842"`, "1.842", unit.In, "1.842 in"},
		{"the unit behind comes first", heightMM, "1.842″", "1.842", unit.In, "1.842 in"},
		{"the unit behind comes first", gap, "2 in", "2", unit.In, "2 in"},
		{"the unit behind comes first", gap, "12.5 IN", "12.5", unit.In, "12.5 in"},
		{"the unit behind comes first", heightMM, "1842 thou", "1.842", unit.In, "1.842 in"},
		{"the unit behind comes first", gap, ".5 thou", "0.0005", unit.In, ".0005 in"},
		{"the unit behind comes first", load, "583 N", "583", unit.N, "583 N"},
		{"the unit behind comes first", load, "59.4kg", "59.4", unit.Kgf, "59.4 kgf"},
		{"the unit behind comes first", load, "131 lb", "131", unit.Lbf, "131 lbf"},
		{"the unit behind comes first", rate, "73.6 N/mm", "73.6", unit.NPerMm, "73.6 N/mm"},
		{"the unit behind comes first", rate, "420 lbf / in", "420", unit.LbfPerIn, "420 lbf/in"},
		{"the unit behind comes first", boost, "1.03 bar", "1.03", unit.Bar, "1.03 bar"},
		{"the unit behind comes first", unit.Column{Unit: unit.Ounce}, "92.5 g", "92.5", unit.Gram, "92.5 g"},
		{"the unit behind comes first", unit.Column{Unit: unit.GPa}, "11.2 Mpsi", "11.2", unit.Mpsi, "11.2 Mpsi"},
		{"the unit behind comes first", boost, "103 kPa", "103", unit.KPa, "103 kPa"},
		{"plain loads", load, "131", "131", unit.Lbf, "131 lbf"},
		{"plain loads", load, "131.5", "131.5", unit.Lbf, "131.5 lbf"},
		{"plain loads", load, "0", "0", unit.Lbf, "0 lbf"},
		{"thousands", load, "1,200", "1200", unit.Lbf, "1200 lbf"},
		{"thousands", load, "1,200.5", "1200.5", unit.Lbf, "1200.5 lbf"},
		{"thousands", load, "1 200", "1200", unit.Lbf, "1200 lbf"},
		{"thousands", load, "1'200", "1200", unit.Lbf, "1200 lbf"},
		{"thousands", load, "1\u202f200 N", "1200", unit.N, "1200 N"},
		{"thousands", comma(load), "1.200,5", "1200.5", unit.Lbf, "1200,5 lbf"},
		{"thousands", comma(load), "1,200.5", "1200.5", unit.Lbf, "1200,5 lbf"},
		{"thousands", comma(load), "1 200,5", "1200.5", unit.Lbf, "1200,5 lbf"},
		{"thousands", comma(load), "1 200,125", "1200.125", unit.Lbf, "1200,125 lbf"},
		{"decimal comma", comma(load), "131,5", "131.5", unit.Lbf, "131,5 lbf"},
		{"decimal comma", comma(load), "131.5", "131.5", unit.Lbf, "131,5 lbf"},
		{"decimal comma", comma(load), "0,125", "0.125", unit.Lbf, "0,125 lbf"},
		{"decimal comma", comma(heightMM), "46,79", "46.79", unit.Mm, "46,79 mm"},
		{"decimal comma", comma(heightMM), "46.79", "46.79", unit.Mm, "46,79 mm"},
		{"decimal comma", comma(height), "1842,5", "1.8425", unit.In, "1,8425 in"},
		{"from the nominal", from(height, "1.840"), "+2", "1.842", unit.In, "1.842 in"},
		{"from the nominal", from(height, "1.840"), "-3", "1.837", unit.In, "1.837 in"},
		{"from the nominal", from(height, "1.840"), "−3", "1.837", unit.In, "1.837 in"},
		{"from the nominal", from(height, "1.840"), "+0", "1.840", unit.In, "1.840 in"},
		{"from the nominal", from(height, "1.84"), "+2.5", "1.8425", unit.In, "1.8425 in"},
		{"from the nominal", from(height, "1.840"), "+ 12.75", "1.85275", unit.In, "1.85275 in"},
		{"from the nominal", from(height, "1.840"), "+.002 in", "1.842", unit.In, "1.842 in"},
		{"from the nominal", from(height, "1.840"), "+.5 thou", "1.8405", unit.In, "1.8405 in"},
		{"from the nominal", from(heightMM, "46.8"), "+2", "46.82", unit.Mm, "46.82 mm"},
		{"from the nominal", from(heightMM, "46.8"), "-3", "46.77", unit.Mm, "46.77 mm"},
		{"from the nominal", from(heightMM, "46.8"), "-0.03 mm", "46.77", unit.Mm, "46.77 mm"},
		{"from the nominal", from(gap, "0.030"), "-30", "0.000", unit.In, ".000 in"},
		{"a sign belongs to the number", offset, "+50", "0.050", unit.In, ".050 in"},
		{"a sign belongs to the number", offset, "-.050", "-0.050", unit.In, "−.050 in"},
		{"a sign belongs to the number", offset, "−50", "-0.050", unit.In, "−.050 in"},
		{"a sign belongs to the number", offset, "50", "0.050", unit.In, ".050 in"},
		{"a sign belongs to the number", offset, "-0", "0.000", unit.In, ".000 in"},
		{"a sign belongs to the number", from(offset, "0.010"), "+50", "0.050", unit.In, ".050 in"},
		{"a sign belongs to the number", offsetMM, "-1.27", "-1.27", unit.Mm, "−1.27 mm"},
		{"a sign belongs to the number", comma(offsetMM), "-1,27", "-1.27", unit.Mm, "−1,27 mm"},
		{"repeats the cell above", under(height, "1.836"), `"`, "1.836", unit.In, "1.836 in"},
		{"repeats the cell above", under(height, "1.836"), "”", "1.836", unit.In, "1.836 in"},
		{"space around", height, " \t1.842\r\n", "1.842", unit.In, "1.842 in"},
	}
	for _, tt := range tests {
		t.Run(tt.rule+"/"+tt.text, func(t *testing.T) {
			got, err := unit.Parse(tt.column, tt.text)
			if err != nil {
				t.Fatal(err)
			}
			value, err := unit.Value(tt.read, tt.unit)
			if err != nil {
				t.Fatal(err)
			}
			want := unit.Entry{
				Quantity:   unit.Quantity{Typed: tt.text, Read: tt.read, Unit: tt.unit, Value: value},
				Understood: tt.shown,
			}
			if diff := cmp.Diff(want, got); diff != "" {
				t.Errorf("want − got +\n%s", diff)
			}
		})
	}
}

func TestParseRepeat(t *testing.T) {
	for text, read := range map[string]string{"1.836*": "1.836", "1836 *": "1.836", "46.6 mm*": "46.6"} {
		e, err := unit.Parse(height, text)
		if err != nil {
			t.Errorf("%s: %v", text, err)
			continue
		}
		if !e.Repeat || e.Quantity.Read != read || e.Quantity.Typed != text {
			t.Errorf("%s: got %+v", text, e)
		}
	}
}

func TestParseRefuses(t *testing.T) {
	tests := []struct {
		column  unit.Column
		text    string
		key     string
		choices []string
	}{
		{height, "", "unit.empty", nil},
		{height, " \n", "unit.empty", nil},
		{height, "*", "unit.letters", nil},
		{height, "abc", "unit.letters", nil},
		{height, "1.8O2", "unit.letters", nil}, // the letter O
		{height, "1e3", "unit.letters", nil},
		{height, "1.842 1.843", "unit.space", nil},
		{height, "1 842", "unit.space", nil},
		{height, "½", "unit.letters", nil},
		{height, "1½", "unit.letters", nil},
		{height, "１８４２", "unit.letters", nil}, // full-width digits
		{height, "١٨٤٢", "unit.letters", nil}, // Arabic-Indic digits
		{height, "1/2", "unit.letters", nil},
		{height, "--3", "unit.letters", nil},
		{height, "=1.842", "unit.letters", nil},
		{height, "1.842\x00", "unit.unprintable", nil},
		{height, "1.8\ufeff42", "unit.unprintable", nil},
		{height, "1.8\xff42", "unit.unprintable", nil},
		{height, "1.842\n1.836", "unit.unprintable", nil}, // two lines of a gauge in one burst
		{height, strings.Repeat("1", 65), "unit.long", nil},
		{height, strings.Repeat("9", 5000), "unit.long", nil},
		{height, strings.Repeat("9", 60), "unit.large", nil},
		{height, "1.8.4", "unit.marks", nil},
		{comma(height), "1.842,5", "unit.marks", nil},
		{height, "1,842", "unit.comma", nil},
		{gapMM, "0,75", "unit.comma", nil},
		{height, "1.842 cm", "unit.suffix", nil},
		{height, "1.842 lbf", "unit.dimension", nil},
		{load, "131 mm", "unit.dimension", nil},
		{load, "420 lbf/in", "unit.dimension", nil},
		{boost, "15 lb", "unit.dimension", nil},
		{unit.Column{Unit: unit.Gram}, "0.1 kg", "unit.dimension", nil},
		{load, "131 g", "unit.dimension", nil},
		{unit.Column{Unit: unit.GPa}, "80 kPa", "unit.dimension", nil},
		{under(load, "131"), "131 in", "unit.dimension", nil},
		{height, "2", "unit.ambiguous", []string{"2.000", "2000"}},
		{height, "18", "unit.ambiguous", []string{"1.8", "1800"}},
		{comma(height), "18", "unit.ambiguous", []string{"1,8", "1800"}},
		{height, "99", "unit.ambiguous", []string{"9.9", "9900"}},
		{height, "0", "unit.low", nil},
		{height, ".050", "unit.low", nil},
		{height, "2 thou", "unit.low", nil},
		{height, "46.8", "unit.or", []string{"46.8 mm"}},
		{heightMM, "1.842", "unit.or", []string{"1.842 in"}},
		{heightMM, "1842", "unit.or", []string{"1842 thou"}},
		{comma(heightMM), "1,842", "unit.or", []string{"1,842 in"}},
		{heightMM, "2.53", "unit.or", []string{"2.53 in"}},
		{heightMM, "0.05", "unit.low", nil},
		{height, "-1.842", "unit.negative-height", nil},
		{gap, "-3", "unit.negative", nil},
		{load, "-131", "unit.negative", nil},
		{from(gap, "0.010"), "-11", "unit.negative", nil},
		{from(height, "1.840"), "-1900", "unit.negative-height", nil},
		{height, "+2", "unit.nominal", nil},
		{load, "+2", "unit.nominal", nil},
		{from(height, "1.840"), "+.002", "unit.offset", []string{"+.002 thou", "+.002 in"}},
		{from(height, "1.840"), "+1.842", "unit.offset", []string{"+1.842 thou", "+1.842 in"}},
		{from(heightMM, "46.8"), "-0.05", "unit.offset", []string{"-0.0005 mm", "-0.05 mm"}},
		{from(height, "1.840"), "+0.05 mm", "unit.offset-unit", nil},
		{height, `"`, "unit.above", nil},
		{gap, "40 in", "unit.large", nil},
		{gapMM, "1000", "unit.large", nil},
		{load, "30000", "unit.large", nil},
		{rate, "60000", "unit.large", nil},
		{boost, "1500", "unit.large", nil},
		{height, "1.8420001", "unit.decimals", nil},
		{height, "1842.0001", "unit.decimals", nil},
		{heightMM, "46.78912345", "unit.decimals", nil},
		{load, "12,00", "unit.groups", nil},
		{load, "1,2,3", "unit.groups", nil},
		{load, "1,,200", "unit.groups", nil},
		{load, ",200", "unit.groups", nil},
		{load, "1.2,00", "unit.groups", nil},
		{load, "1.2.3", "unit.marks", nil},
		{comma(load), "1.200", "unit.thousands", []string{"1200", "1,2"}},
		{comma(load), "1,250", "unit.thousands", []string{"1250", "1,25"}},
		{comma(load), "2,000 N", "unit.thousands", []string{"2000 N", "2,0 N"}},
		{comma(load), "1.234", "unit.thousands", []string{"1234", "1,2340"}},
		{comma(load), "1.2.3,4,5", "unit.marks", nil},
		{unit.Column{}, "1.842", "unit.symbol", nil},
	}
	for _, tt := range tests {
		t.Run(tt.key+"/"+tt.text, func(t *testing.T) {
			e, err := unit.Parse(tt.column, tt.text)
			wantRefusal(t, err, tt.key)
			if !e.Quantity.Zero() || e.Understood != "" {
				t.Errorf("a refused entry came back as %+v", e)
			}
			if diff := cmp.Diff(tt.choices, unit.Choices(err)); diff != "" {
				t.Errorf("choices, want − got +\n%s", diff)
			}
			for _, c := range tt.choices {
				if _, err := unit.Parse(tt.column, c); err != nil {
					t.Errorf("the choice %q is refused: %v", c, err)
				}
			}
		})
	}
}

// The sentences of the entries that are met most often, word for word.
func TestRefusalsAsRead(t *testing.T) {
	tests := []struct {
		column unit.Column
		text   string
		want   string
	}{
		{height, "2", "2 reads as .002 in; type 2.000 for inches or 2000 for thousandths."},
		{height, "1.8.4", `"1.8.4" has more than one decimal mark; type a number with one, such as 1.842.`},
		{height, "131 N", `"131 N" is in a unit of another kind; the units of this column are in, thou, mm: type a number such as 1.842.`},
	}
	for _, tt := range tests {
		_, err := unit.Parse(tt.column, tt.text)
		if err == nil || err.Error() != tt.want {
			t.Errorf("%s\n got %v\nwant %s", tt.text, err, tt.want)
		}
	}
	// A long entry is cut in its sentence, and nothing in it reaches a terminal.
	_, err := unit.Parse(height, strings.Repeat("\x1b[31m1", 2000))
	if err == nil || len(err.Error()) > 300 || strings.ContainsRune(err.Error(), '\x1b') {
		t.Errorf("got %q", err)
	}
}
