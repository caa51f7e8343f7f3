package exchange_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"keeperbook/model/exchange"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// A shop's own table, with a decimal comma, a column that says nothing of valves and an empty cell.
func TestAnyTable(t *testing.T) {
	data := "\ufeffVentil;Grundhöhe mm;wer;Scheiben;Hub;Bind\r\n1 in;46,79;Ana;0,5+0,25;14,2 mm;27,1\r\n\r\n1 ex;46.65;;none;;\r\nvier;1;;;;\r\n"
	table, err := exchange.ReadAny([]byte(data))
	if err != nil {
		t.Fatal(err)
	}
	uses := table.Guess()
	if d := cmp.Diff([]exchange.Use{exchange.OfValve, "base", exchange.LeftOut, exchange.OfShims, "lift", exchange.OfBind1}, uses); d != "" {
		t.Error(d)
	}
	rows, wrong := table.Rows(uses, unit.Mm, "T-1")
	at := func(role record.Role) record.Position { return record.Position{Cylinder: "1", Role: role, N: 1} }
	want := []exchange.Row{
		{Line: 2, Head: "T-1", Position: at(record.Intake), Kind: record.BaseHeight, Text: "46,79 mm"},
		{Line: 2, Head: "T-1", Position: at(record.Intake), Stack: record.UnderLocator, Text: "0,5+0,25 mm"},
		{Line: 2, Head: "T-1", Position: at(record.Intake), Kind: record.LiftChecking, Text: "14,2 mm"},
		{Line: 2, Head: "T-1", Position: at(record.Intake), Kind: record.BindReading, Coil: 1, Text: "27,1 mm", Correction: exchange.Correction{Said: exchange.AtTheSpring}},
		{Line: 4, Head: "T-1", Position: at(record.Exhaust), Kind: record.BaseHeight, Text: "46.65 mm"},
		{Line: 4, Head: "T-1", Position: at(record.Exhaust), Stack: record.UnderLocator, Text: "none"},
	}
	if d := cmp.Diff(want, rows); d != "" {
		t.Error(d)
	}
	if len(wrong) != 1 || wrong[0].Line != 5 || wrong[0].Err.Line.Key != "exchange.csv-valve" {
		t.Errorf("%+v", wrong)
	}
	if _, wrong := table.Rows(make([]exchange.Use, len(uses)), unit.Mm, "T-1"); len(wrong) != 1 || wrong[0].Err.Line.Key != "exchange.any-valve" {
		t.Errorf("%+v", wrong)
	}
}

// A repeat keeps its star behind the unit, and an inch stays an inch where the table is in millimetres.
func TestAnyTableUnits(t *testing.T) {
	table, err := exchange.ReadAny([]byte("valve,base\n3 ex 2,1.842*\n3 ex 2,1.842 in\n3 ex 2,\"1.842\"\"\"\n"))
	if err != nil {
		t.Fatal(err)
	}
	rows, _ := table.Rows(table.Guess(), unit.In, "T-1")
	for i, want := range []string{"1.842 in*", "1.842 in", `1.842"`} {
		if rows[i].Text != want || rows[i].Position.N != 2 {
			t.Errorf("%+v, want %s", rows[i], want)
		}
	}
}

// A stack without a unit is in the unit of the table, with a count before a shim as well, whatever the set-up is in.
func TestAnyTableStacks(t *testing.T) {
	cells := map[unit.Symbol]map[string][]string{
		unit.Mm: {
			"2x0.4": {"0.4 mm", "0.4 mm"}, "2X0.4": {"0.4 mm", "0.4 mm"}, "2×0.4": {"0.4 mm", "0.4 mm"}, "2 x 0.4+0.5": {"0.4 mm", "0.4 mm", "0.5 mm"},
			"0.4+0.5": {"0.4 mm", "0.5 mm"}, "0.4 mm+.015 in": {"0.4 mm", "0.015 in"}, "2x.030 in": {"0.030 in", "0.030 in"}, "none": nil,
		},
		unit.In: {
			".060+.020": {"0.060 in", "0.020 in"}, "2x.030+.015": {"0.030 in", "0.030 in", "0.015 in"}, ".030+2×.015": {"0.030 in", "0.015 in", "0.015 in"},
			"0.4 mm+.015 in": {"0.4 mm", "0.015 in"}, "2x0.4 mm": {"0.4 mm", "0.4 mm"}, "none": nil,
		},
	}
	for length, all := range cells {
		for cell, want := range all {
			table, err := exchange.ReadAny([]byte("valve;shims\n1 in;" + cell + "\n"))
			if err != nil {
				t.Fatal(err)
			}
			rows, wrong := table.Rows(table.Guess(), length, "T-1")
			if len(rows) != 1 || len(wrong) != 0 {
				t.Fatalf("%s: %+v, %+v", cell, rows, wrong)
			}
			for _, setup := range []record.Units{{Length: unit.Mm, Load: unit.N}, {Length: unit.In, Load: unit.Lbf}} {
				shims, none, err := unit.ParseStack(record.ShimColumn(setup), rows[0].Text)
				var got []string
				for _, q := range shims {
					got = append(got, q.Read+" "+string(q.Unit))
				}
				if d := cmp.Diff(want, got); d != "" || err != nil || none != (want == nil) {
					t.Errorf("%s of a table in %s on a set-up in %s: none %v, %v, %s", cell, length, setup.Length, none, err, d)
				}
			}
		}
	}
}

// Decimal commas between commas make cells that belong to no column: such a line stays out and says so, the others go in. What a
// spreadsheet fills a line up with is nothing.
func TestAnyTableWithTooManyCells(t *testing.T) {
	table, err := exchange.ReadAny([]byte("valve,base,check,\n1 in,46,79,46,12\n1 ex,46.65,,,,\n2 in,\"46,79\",46.12\n2 ex,1,842,9,\n"))
	if err != nil {
		t.Fatal(err)
	}
	rows, wrong := table.Rows(table.Guess(), unit.Mm, "T-1")
	var kept []string
	for _, r := range rows {
		kept = append(kept, r.Position.String()+" "+r.Text)
	}
	if d := cmp.Diff([]string{"1/ex/1 46.65 mm", "2/in/1 46,79 mm", "2/in/1 46.12 mm"}, kept); d != "" {
		t.Error(d)
	}
	var told []string
	for _, w := range wrong {
		told = append(told, w.Error())
	}
	if d := cmp.Diff([]string{
		"Line 2 has 5 cells, and the first line names only 3 columns. If the numbers have decimal commas, save the table with semicolons or tabs between the cells.",
		"Line 5 has 4 cells, and the first line names only 3 columns. If the numbers have decimal commas, save the table with semicolons or tabs between the cells.",
	}, told); d != "" {
		t.Error(d)
	}
}

func FuzzReadAny(f *testing.F) {
	for _, s := range []string{"valve,base\n1 in,1.8\n", "a;b\n\"x", "\ufeff\tvalve\n1 ex\t", "valve,valve\n1 in,2 ex", ",,,\n1 in"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		table, err := exchange.ReadAny(data)
		if err != nil {
			return
		}
		rows, wrong := table.Rows(table.Guess(), unit.Mm, "T-1")
		for _, r := range rows {
			if r.Text == "" || r.Line < 2 || r.Position.Cylinder == "" {
				t.Errorf("%+v", r)
			}
		}
		if len(wrong) > len(table.Lines)+len(table.Wrong)+1 {
			t.Errorf("%d lines are wrong of %d", len(wrong), len(table.Lines))
		}
	})
}
