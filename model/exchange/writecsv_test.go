package exchange

import (
	"bytes"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"keeperbook/model/record"
	"keeperbook/model/unit"
)

func TestWriteCSV(t *testing.T) {
	r := sample()
	r.Setup.Readings[3].Struck = &record.Strike{By: "AB", When: "2026-03-01T09:00:00Z"}
	r.Setup.Readings[1].Note = "=SUM(A1:A9)"
	want := strings.ReplaceAll(`head,valve,what,coil,reading,correction,gauge,method,by,when,note,height,height-gauge
T-7,1 ex,base,,1.842 in,,,typed,AB,2026-03-01T08:05:00Z,,,
T-7,1 ex,base,,1.843 in*,,,typed,AB,2026-03-01T08:06:00Z,'=SUM(A1:A9),,
T-7,1 ex,seat-load,,133 lbf,lid 0.095 in,g3,typed,AB,2026-03-01T08:09:00Z,,1.892 in,g2
T-7,1 ex,bind,1,1.155 in,lid 0.095 in,g1,sent,AB,2026-03-01T08:07:00Z,,,
T-7,1 ex,shims,,0.030 in,,g2,,,,,,
T-7,1 ex,shims-outer,,0.015 in,,,,,,,,
`, "\n", "\r\n")
	if diff := cmp.Diff(want, string(WriteCSV(&r))); diff != "" {
		t.Error(diff)
	}
}

// A table without loads that were taken at heights of their own has no columns for them.
func TestATableWithoutHeightsHasNoColumnsForThem(t *testing.T) {
	r := sample()
	r.Setup.Readings = r.Setup.Readings[:1]
	want := "head,valve,what,coil,reading,correction,gauge,method,by,when,note\r\nT-7,1 ex,base,,1.842 in,,,typed,AB,2026-03-01T08:05:00Z,\r\n"
	if got := string(WriteCSV(&r)); !strings.HasPrefix(got, want) {
		t.Errorf("got\n%s", got)
	}
}

// A stack that was measured on two gauges has no gauge of its own in a table: one cell cannot name both.
func TestAStackMeasuredOnTwoGaugesNamesNone(t *testing.T) {
	r := sample()
	r.Setup.Valves[0].Stack[1] = record.Shim{Thickness: of("0.015", unit.In), Under: record.UnderLocator, Gauge: "g1"}
	if row := stackRows(r.Setup.Valves[0].At, r.Setup.Valves[0])[0]; row.Text != "0.030 in+0.015 in" || row.Gauge != "" {
		t.Errorf("%+v", row)
	}
}

func TestEveryTableComesBackEqual(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRecord(t)
		if strings.TrimSpace(r.Head.Tag) == "" {
			r.Head.Tag = "T-7"
		}
		want := rows(&r)
		sheet, errs := ReadCSV(WriteCSV(&r))
		if len(errs) > 0 {
			t.Fatal(errs)
		}
		if diff := cmp.Diff(want, sheet.Rows, cmpopts.EquateEmpty(), cmpopts.IgnoreFields(Row{}, "Line")); diff != "" {
			t.Fatalf("%s\n%s", diff, WriteCSV(&r))
		}
	})
}

// TestWrittenReadingsMeanTheSame holds the texts of a table against the readings they were made of,
// through the parser that takes them in: for sizes that a bench meets, in any column.
func TestWrittenReadingsMeanTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := drawer{t}.thickness()
		if q.Length() < 100*unit.Thou {
			q = of("1.842", unit.In)
		}
		for _, column := range []unit.Column{
			{Unit: unit.In, Kind: unit.Height}, {Unit: unit.Mm, Kind: unit.Height}, {Unit: unit.In, Kind: unit.Plain}, {Unit: unit.Mm, Kind: unit.Signed},
		} {
			entry, err := unit.Parse(column, q.Plain()+"*")
			if err != nil {
				t.Fatal(err)
			}
			if got := entry.Quantity; got.Read != q.Read || got.Unit != q.Unit || got.Value != q.Value || !entry.Repeat {
				t.Fatalf("%q became %+v", q.Plain(), entry)
			}
		}
	})
	for _, stack := range [][]string{{"0.030"}, {"0.030", "0.015"}, {"0.015", "0.0152", "0.06"}} {
		v := record.Valve{}
		for _, read := range stack {
			v.Stack = append(v.Stack, record.Shim{Thickness: of(read, unit.In), Under: record.UnderLocator})
		}
		text := stackRows(record.Position{}, v)[0].Text
		shims, _, err := unit.ParseStack(unit.Column{Unit: unit.Mm}, text)
		if err != nil || len(shims) != len(stack) {
			t.Fatalf("%q: %v %v", text, shims, err)
		}
		for i, s := range shims {
			if s.Read != stack[i] || s.Unit != unit.In {
				t.Errorf("%q: shim %d is %+v", text, i+1, s)
			}
		}
	}
}

func TestNoCellRunsInASpreadsheet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cell := texts.Draw(t, "cell")
		if got := unguard(guard(cell)); got != cell {
			t.Fatalf("%q came back as %q", cell, got)
		}
		if begins(guard(cell), formula) {
			t.Fatalf("%q would run", guard(cell))
		}
	})
}

func TestAHeadWithoutATagGoesByItsIdentifier(t *testing.T) {
	r := sample()
	r.Head.Tag = ""
	if !bytes.Contains(WriteCSV(&r), []byte("\r\nh1,1 ex,base,")) {
		t.Errorf("no identifier in\n%s", WriteCSV(&r))
	}
}
