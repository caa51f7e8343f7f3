package exchange

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

func valveAt(cylinder string, role record.Role, n int) record.Position {
	return record.Position{Cylinder: cylinder, Role: role, N: n}
}

func TestReadCSV(t *testing.T) {
	const full = "head,valve,what,coil,reading,correction,gauge,method,by,when,note\n"
	base := Row{Line: 2, Head: "T-7", Position: valveAt("3", record.Exhaust, 1), Kind: record.BaseHeight, Text: "1.842"}
	with := func(change func(*Row)) []Row {
		r := base
		change(&r)
		return []Row{r}
	}
	tests := []struct {
		name string
		text string
		want []Row
	}{
		{"the four needed columns", "head,valve,what,reading\nT-7,3 ex,base,1.842\n", []Row{base}},
		{"any order, any case", "Reading,WHAT,valve,Head\n1.842,Base,3 EX,T-7\n", []Row{base}},
		{"semicolons and a decimal comma", "head;valve;what;reading\nT-7;3 ex;base;1,842\n", with(func(r *Row) { r.Text = "1,842" })},
		{"tabs", "head\tvalve\twhat\treading\nT-7\t3 ex\tbase\t1.842\n", []Row{base}},
		{"byte order mark and CRLF", "\ufeffhead,valve,what,reading\r\nT-7,3 ex,base,1.842\r\n", []Row{base}},
		{"no end of line", "head,valve,what,reading\nT-7,3 ex,base,1.842", []Row{base}},
		{"blanks around cells", "head , valve,what,reading \n T-7 , 3 ex, base ,  1.842 \n", []Row{base}},
		{"blank lines", "head,valve,what,reading\n\n,,,\nT-7,3 ex,base,1.842\n\n", with(func(r *Row) { r.Line = 4 })},
		{"empty columns at the end", "head,valve,what,reading,,\nT-7,3 ex,base,1.842,,\n", []Row{base}},
		{"quotes", `head,valve,what,reading` + "\n" + `"T-7","3 ex","base","1.842"`, []Row{base}},
		{"quotes in a quoted cell", full + `T-7,3 ex,base,,1.842,,,,,,"say ""so"", twice"`, with(func(r *Row) { r.Note = `say "so", twice` })},
		{"an inch mark in a bare cell", "head,valve,what,reading\nT-7,3 ex,base,1.842\"\n", with(func(r *Row) { r.Text = `1.842"` })},
		{"a line break in a cell", full + "T-7,3 ex,base,,1.842,,,,,,\"one\r\ntwo\"\nT-7,3 in,base,,1.8,,,,,,", append(
			with(func(r *Row) { r.Note = "one\r\ntwo" }),
			Row{Line: 4, Head: "T-7", Position: valveAt("3", record.Intake, 1), Kind: record.BaseHeight, Text: "1.8"})},
		{"unit behind the reading", "head,valve,what,reading\nT-7,3 ex,base,46.79 mm\n", with(func(r *Row) { r.Text = "46.79 mm" })},
		{"second exhaust valve", "head,valve,what,reading\nT-7,3 ex 2,base,1.842\n", with(func(r *Row) { r.Position.N = 2 })},
		{"a label of several words", "head,valve,what,reading\nT-7,left bank 3 ex,base,1.842\n", with(func(r *Row) { r.Position.Cylinder = "left bank 3" })},
		{"a label like a role", "head,valve,what,reading\nT-7,in 2 ex,base,1.842\n", with(func(r *Row) { r.Position.Cylinder = "in 2" })},
		{"a guarded cell", "head,valve,what,reading\nT-7,3 ex,base,'-3\n", with(func(r *Row) { r.Text = "-3" })},
		{"an offset as a person types it", "head,valve,what,reading\nT-7,3 ex,base,-3\n", with(func(r *Row) { r.Text = "-3" })},
		{"shims", "head,valve,what,reading\nT-7,3 ex,shims,.030+.015\n", with(func(r *Row) { r.Kind, r.Stack, r.Text = "", record.UnderLocator, ".030+.015" })},
		{"shims under the outer coil", "head,valve,what,reading\nT-7,3 ex,shims-outer,2x15\n", with(func(r *Row) { r.Kind, r.Stack, r.Text = "", record.UnderOuter, "2x15" })},
		{"every column", full + "T-7,3 ex,bind,2,1.155,as-set,fixture 1,sent,AB,2026-03-01T08:05:00Z,oiled\n", with(func(r *Row) {
			r.Kind, r.Coil, r.Text, r.Correction, r.Gauge = record.BindReading, 2, "1.155", Correction{Said: AsSet}, "fixture 1"
			r.Method, r.By, r.When, r.Note = record.Sent, "AB", "2026-03-01T08:05:00Z", "oiled"
		})},
		{"a repeat", "head,valve,what,reading\nT-7,3 ex,base,1.842\nT-7,3 ex,base,1.843*\n", append([]Row{base},
			Row{Line: 3, Head: "T-7", Position: base.Position, Kind: record.BaseHeight, Text: "1.843*"})},
		{"the same valve of two heads", "head,valve,what,reading\nT-7,3 ex,base,1.842\nT-8,3 ex,base,1.843\n", append([]Row{base},
			Row{Line: 3, Head: "T-8", Position: base.Position, Kind: record.BaseHeight, Text: "1.843"})},
		{"a load on the head", "head,valve,what,reading\nT-7,3 ex,seat-load,131 lbf\n", with(func(r *Row) { r.Kind, r.Text = record.SeatLoad, "131 lbf" })},
		{"a load on a tester that is set as it is", "head,valve,what,reading,correction\nT-7,3 ex,seat-load,131,as-set\n", with(func(r *Row) {
			r.Kind, r.Text, r.Correction = record.SeatLoad, "131", Correction{Said: AsSet}
		})},
		{"a load at a height", "head,valve,what,reading,correction,height,height-gauge\nT-7,3 ex,seat-load,131,at-the-spring,1.800,height gauge 1\n", with(func(r *Row) {
			r.Kind, r.Text, r.Correction, r.Height, r.HeightGauge = record.SeatLoad, "131", Correction{Said: AtTheSpring}, "1.800", "height gauge 1"
		})},
		{"header alone", "head,valve,what,reading\n", nil},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			sheet, errs := ReadCSV([]byte(test.text))
			if len(errs) > 0 {
				t.Fatal(errs)
			}
			if diff := cmp.Diff(test.want, sheet.Rows); diff != "" {
				t.Error(diff)
			}
		})
	}
}

func TestEveryKindIsAWord(t *testing.T) {
	for _, kind := range record.Kinds {
		sheet, errs := ReadCSV([]byte("head,valve,what,reading,correction\nT-7,3 ex," + string(kind) + ",1,at-the-spring\n"))
		if len(errs) > 0 || sheet.Rows[0].Kind != kind {
			t.Errorf("%s: %v %v", kind, sheet.Rows, errs)
		}
	}
}

func TestReadCorrection(t *testing.T) {
	tests := []struct {
		text string
		want Correction
	}{
		{"", Correction{}},
		{"as-set", Correction{Said: AsSet}},
		{"As-Set", Correction{Said: AsSet}},
		{"at-the-spring", Correction{Said: AtTheSpring}},
		{"lid .095 + locator .060 + step .095 zeroed", Correction{Listed, []Part{
			{record.Lid, ".095", record.NotZeroed}, {record.Floor, ".060", record.NotZeroed}, {record.RetainerStep, ".095", record.Zeroed},
		}}},
		{"lid .095+jaws 2.5 mm", Correction{Listed, []Part{{record.Lid, ".095", record.NotZeroed}, {record.Jaws, "2.5 mm", record.NotZeroed}}}},
		{"lid .095 + zero -.001", Correction{Listed, []Part{{record.Lid, ".095", record.NotZeroed}, {record.ZeroOffset, "-.001", record.NotZeroed}}}},
		{"zero-offset .001 zeroed", Correction{Listed, []Part{{record.ZeroOffset, ".001", record.Zeroed}}}},
		{"LID 95 not-zeroed", Correction{Listed, []Part{{record.Lid, "95", record.NotZeroed}}}},
		{"locator-step -.030 + floor .060 + retainer-step .1", Correction{Listed, []Part{
			{record.LocatorStep, "-.030", record.NotZeroed}, {record.Floor, ".060", record.NotZeroed}, {record.RetainerStep, ".1", record.NotZeroed},
		}}},
	}
	for _, test := range tests {
		t.Run(test.text, func(t *testing.T) {
			got, err := parseCorrection(test.text)
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(test.want, got); diff != "" {
				t.Error(diff)
			}
			again, err := parseCorrection(got.String())
			if err != nil || !cmp.Equal(got, again) {
				t.Errorf("%q comes back as %v, %v", got.String(), again, err)
			}
		})
	}
}

func TestReadCSVRefusesLines(t *testing.T) {
	const full = "head,valve,what,coil,reading,correction,gauge,method,by,when,note\n"
	const four = "head,valve,what,reading\n"
	tests := []struct {
		name   string
		text   string
		line   int
		key    string
		column string
	}{
		{"nothing", "", 1, "exchange.csv-empty", ""},
		{"blank", "\ufeff \n", 1, "exchange.csv-empty", ""},
		{"unknown column", "head,valve,what,reading,colour\n", 1, "exchange.csv-column", "colour"},
		{"column without a name", "head,valve,,what,reading\n", 1, "exchange.csv-column", ""},
		{"column twice", "head,valve,what,reading,Valve\n", 1, "exchange.csv-column-twice", "valve"},
		{"column missing", "head,valve,reading\n", 1, "exchange.csv-column-missing", "what"},
		{"mixed separators", "head;valve,what;reading\n", 1, "exchange.csv-column", "valve,what"},
		{"quote in the header", "head,\"valve,what,reading\n1\n", 1, "exchange.csv-quote", ""},
		{"half a line", four + "T-7,3 ex,base\n", 2, "exchange.csv-half", ""},
		{"one word", four + "T-7\n", 2, "exchange.csv-half", ""},
		{"a decimal comma between commas", four + "T-7,3 ex,base,1,842\n", 2, "exchange.csv-cells", ""},
		{"unterminated quote", four + "T-7,3 in,base,1.8\nT-7,\"3 ex,base,1.842\nT-7,3 ex,base,1.842\n", 3, "exchange.csv-quote", ""},
		{"no reading", four + "T-7,3 ex,base,\n", 2, "exchange.csv-blank", "reading"},
		{"no head", four + ",3 ex,base,1.842\n", 2, "exchange.csv-blank", "head"},
		{"valve without a role", four + "T-7,3,base,1.842\n", 2, "exchange.csv-valve", "valve"},
		{"role alone", four + "T-7,ex,base,1.842\n", 2, "exchange.csv-valve", "valve"},
		{"fourth valve", four + "T-7,3 ex 4,base,1.842\n", 2, "exchange.csv-valve", "valve"},
		{"valve nought", four + "T-7,3 ex 0,base,1.842\n", 2, "exchange.csv-valve", "valve"},
		{"slash in a label", four + "T-7,3/4 ex,base,1.842\n", 2, "exchange.csv-valve", "valve"},
		{"unknown what", four + "T-7,3 ex,colour,1.842\n", 2, "exchange.csv-what", "what"},
		{"coil that is no number", full + "T-7,3 ex,bind,inner,1.1,as-set,,,,,\n", 2, "exchange.csv-coil", "coil"},
		{"coil five", full + "T-7,3 ex,bind,5,1.1,as-set,,,,,\n", 2, "exchange.csv-coil", "coil"},
		{"bind without the column", four + "T-7,3 ex,bind,1.155\n", 2, "exchange.csv-bind", "correction"},
		{"bind without the word", full + "T-7,3 ex,bind,1,1.155,,,,,,\n", 2, "exchange.csv-bind", "correction"},
		{"unknown correction", full + "T-7,3 ex,bind,1,1.155,minus lid,,,,,\n", 2, "exchange.csv-line", "correction"},
		{"correction without an amount", full + "T-7,3 ex,bind,1,1.155,lid zeroed,,,,,\n", 2, "exchange.csv-line", "correction"},
		{"part twice", full + "T-7,3 ex,bind,1,1.155,locator .06 + floor .06,,,,,\n", 2, "exchange.csv-line", "correction"},
		{"plus at the end", full + "T-7,3 ex,bind,1,1.155,lid .06 +,,,,,\n", 2, "exchange.csv-line", "correction"},
		{"correction of shims", full + "T-7,3 ex,shims,,.030,as-set,,,,,\n", 2, "exchange.csv-shims", "what"},
		{"coil of shims", full + "T-7,3 ex,shims,1,.030,,,,,,\n", 2, "exchange.csv-shims", "what"},
		{"shims as a repeat", four + "T-7,3 ex,shims,.030*\n", 2, "exchange.csv-shims-star", "reading"},
		{"height of no load", "head,valve,what,reading,height\nT-7,3 ex,base,1.842,1.8\n", 2, "exchange.csv-height", "height"},
		{"gauge of no height", "head,valve,what,reading,height,height-gauge\nT-7,3 ex,seat-load,131,,caliper\n", 2, "exchange.csv-no-height", "height"},
		{"height without the word", "head,valve,what,reading,height\nT-7,3 ex,seat-load,131,1.8\n", 2, "exchange.csv-through", "correction"},
		{"correction of a load", "head,valve,what,reading,correction\nT-7,3 ex,seat-load,131,lid .095\n", 2, "exchange.csv-load", "correction"},
		{"unknown method", full + "T-7,3 ex,base,,1.8,,,guessed,,,\n", 2, "exchange.csv-method", "method"},
		{"local time", full + "T-7,3 ex,base,,1.8,,,,,2026-03-01 08:05,\n", 2, "exchange.csv-when", "when"},
		{"valve twice", four + "T-7,3 ex,base,1.842\nT-7,3 ex 1,base,1.843\n", 3, "exchange.csv-twice", "valve"},
		{"valve twice after a repeat", four + "T-7,3 ex,base,1.842*\nT-7,3 ex,base,1.843\n", 3, "exchange.csv-twice", "valve"},
		{"shims twice", four + "T-7,3 ex,shims,.030\nT-7,3 ex,shims,.015\n", 3, "exchange.csv-twice", "valve"},
		{"NUL", four + "T-7,3 ex,base,1.8\x0042\n", 2, "exchange.csv-nul", ""},
		{"Latin-1", four + "T-7,3 ex,base,1.842\nM\xfcller,3 in,base,1.8\n", 3, "exchange.csv-utf8", ""},
		{"UTF-16", "\xff\xfeh\x00e\x00", 1, "exchange.csv-utf8", ""},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			sheet, errs := ReadCSV([]byte(test.text))
			if len(errs) != 1 {
				t.Fatalf("%d errors: %v; rows %v", len(errs), errs, sheet.Rows)
			}
			refused(t, errs[0], say.Invalid, test.key, test.column)
			if errs[0].Line != test.line {
				t.Errorf("line %d, want %d", errs[0].Line, test.line)
			}
			if test.line > 1 && !strings.Contains(errs[0].Error(), fmt.Sprintf("ine %d", test.line)) &&
				!strings.Contains(errs[0].Error(), fmt.Sprintf("on line %d", test.line)) {
				t.Errorf("the sentence does not name line %d: %v", test.line, errs[0])
			}
		})
	}
}

func TestGoodLinesComeBesideBadOnes(t *testing.T) {
	sheet, errs := ReadCSV([]byte("head,valve,what,reading\nT-7,3 ex,base,1.842\nT-7,3,base,1.8\nT-7,3 in,base,1.8\n"))
	if len(errs) != 1 || len(sheet.Rows) != 2 {
		t.Errorf("rows %v, errors %v", sheet.Rows, errs)
	}
}

func TestNoiseIsRefusedQuickly(t *testing.T) {
	const header = "head,valve,what,reading\n"
	noise := map[string]string{
		"10 MB of letters":               strings.Repeat("noise ", 10<<20/6),
		"a table full of short lines":    header + strings.Repeat("x\n", (MaxTable-len(header))/2),
		"a table full of wrong lines":    header + strings.Repeat("T,1,base,1\n", (MaxTable-len(header))/11),
		"a table full of quotes":         header + strings.Repeat("\"", MaxTable-len(header)),
		"a table of open quotes":         header + strings.Repeat("\"x\n", (MaxTable-len(header))/3),
		"one line full of separators":    header + strings.Repeat(",", MaxTable-len(header)),
		"a header full of separators":    strings.Repeat(";", MaxTable),
		"a correction of a million":      "head,valve,what,reading,correction\nT,1 ex,bind,1," + strings.Repeat("+lid 1", 300_000),
		"a valve of a million words":     header + "T," + strings.Repeat("1 ", 1_000_000) + ",base,1",
		"the same valve over and over":   header + strings.Repeat("T,1 ex,base,1\n", (MaxTable-len(header))/14),
		"repeats of one valve, all good": header + strings.Repeat("T,1 ex,base,1*\n", (MaxTable-len(header))/15),
	}
	for name, text := range noise {
		t.Run(name, func(t *testing.T) {
			start := time.Now()
			_, errs := ReadCSV([]byte(text))
			// It takes a third of a second at the most; five leave room for the race detector on a busy
			// machine, and are far from what a quadratic reader would take.
			if took := time.Since(start); took > 5*time.Second {
				t.Errorf("took %v", took)
			}
			if len(errs) > maxRowErrors+1 {
				t.Errorf("%d errors", len(errs))
			}
		})
	}
}

func TestErrorsBeyondTwentyAreCounted(t *testing.T) {
	_, errs := ReadCSV([]byte("head,valve,what,reading\n" + strings.Repeat("T,1,base,1\n", 50)))
	if len(errs) != 21 {
		t.Fatalf("%d errors", len(errs))
	}
	refused(t, errs[20], say.Invalid, "exchange.csv-more", "")
	if want := "30 more lines do not fit, from line 22 on; correct those above first."; errs[20].Error() != want || errs[20].Line != 22 {
		t.Errorf("got %v at %d, want %s", errs[20], errs[20].Line, want)
	}
}
