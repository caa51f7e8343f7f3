package workbook_test

import (
	"bytes"
	"encoding/csv"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"keeperbook/model/exchange/workbook"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// made is a small record with its figures. What looks like a formula is there on purpose.
func made() (*record.Record, record.Figures) {
	in, ex := record.Position{Cylinder: "1", Role: record.Intake, N: 1}, record.Position{Cylinder: "1", Role: record.Exhaust, N: 1}
	height := func(at record.Position, n int, typed, read string, tenths int64) record.Reading {
		return record.Reading{
			At: at, Kind: record.BaseHeight, N: n, Quantity: unit.Quantity{Typed: typed, Read: read, Unit: unit.In, Value: tenths},
			Method: record.Typed, By: "T. Marl", When: "2026-03-02T12:00:00Z",
		}
	}
	first, second := height(in, 1, "1842", "1.842", 467_868_000), height(ex, 1, "1.8385", "1.8385", 466_979_000)
	first.Note = "=1+1"
	struck := height(ex, 2, "1.9", "1.9", 482_600_000)
	struck.Struck = &record.Strike{}
	r := &record.Record{
		Shop: record.Shop{Name: `=HYPERLINK("x")`}, Engine: record.Engine{ID: "E", Name: "Single"},
		Head:  record.Head{ID: "H", Engine: "E", Tag: "+T-1", Cylinders: []string{"1"}, Intakes: 1, Exhausts: 1},
		Setup: record.Setup{ID: "S", Head: "H", Kind: record.AsBuilt, Readings: []record.Reading{second, first, struck}},
	}
	f := record.Figures{
		Summary: "2 valves.\nOne is short.",
		Columns: []record.Column{{Key: "verdict", Title: "verdict"}, {Key: "margin", Title: "margin", Unit: "in"}, {Key: "load", Title: "seat load", Unit: "lbf"}},
		Rows: []record.Row{
			{Valve: "1 in", Cells: []string{"within", ".0810", "131"}},
			{Valve: "1 ex", Cells: []string{"short", "−.004", "120.5e"}},
		},
	}
	return r, f
}

func cautions() []say.Line { return []say.Line{say.New("caution.springs"), say.New("caution.solid")} }

// want is every cell of every sheet, as it is to be read.
var want = map[string][][]string{
	"Valves": {{"Valve", "verdict", "margin, in", "seat load, lbf"}, {"1 in", "within", ".0810", "131"}, {"1 ex", "short", "-.004", "120.5e"}},
	"Readings": {
		{"Valve", "What", "Coil", "As typed", "Read as", "Unit", "At the height", "Taken off", "Gauge", "How it came in", "By", "When", "Note"},
		{"1 in", "base height", "", "1842", "1.842", "in", "", "", "", "typed", "T. Marl", "2026-03-02T12:00:00Z", "=1+1"},
		{"1 ex", "base height", "", "1.8385", "1.8385", "in", "", "", "", "typed", "T. Marl", "2026-03-02T12:00:00Z", ""},
	},
}

func written(t *testing.T) []byte {
	t.Helper()
	r, f := made()
	data, err := workbook.Write(say.English(), r, f, cautions())
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// Numbers are numbers that look as they were printed, words are words, and nothing is a formula.
func TestCells(t *testing.T) {
	f, err := excelize.OpenReader(bytes.NewReader(written(t)))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if got := strings.Join(f.GetSheetList(), " "); got != "Valves Readings Set-up Cautions" {
		t.Errorf("sheets %q", got)
	}
	for _, sheet := range f.GetSheetList() {
		rows, err := f.GetRows(sheet)
		if err != nil {
			t.Fatal(err)
		}
		if w := want[sheet]; w != nil {
			same(t, sheet, rows, w)
		}
		for i, row := range rows {
			for j := range row {
				at, _ := excelize.CoordinatesToCellName(j+1, i+1)
				if formula, err := f.GetCellFormula(sheet, at); err != nil || formula != "" {
					t.Errorf("%s %s is the formula %q, %v", sheet, at, formula, err)
				}
			}
		}
	}
	for at, form := range map[string]string{"C2": ".0000", "C3": ".000", "D2": "0"} {
		id, err := f.GetCellStyle("Valves", at)
		if err != nil {
			t.Fatal(err)
		}
		if style, err := f.GetStyle(id); err != nil || style.CustomNumFmt == nil || *style.CustomNumFmt != form {
			t.Errorf("%s is shown otherwise than by %q: %+v, %v", at, form, style, err)
		}
	}
	for at, kind := range map[string]excelize.CellType{"C2": excelize.CellTypeUnset, "C3": excelize.CellTypeUnset, "D3": excelize.CellTypeSharedString} {
		if is, err := f.GetCellType("Valves", at); err != nil || is != kind {
			t.Errorf("%s is of the type %d, %v, want %d", at, is, err, kind)
		}
	}
}

// A language with a decimal comma has the same numbers in the same cells, shown with as many decimals; a month is no number.
func TestNumbersWithAComma(t *testing.T) {
	for _, language := range []string{"de", "es"} {
		words, ok := say.Of(language)
		if !ok {
			t.Fatal(language)
		}
		r, figures := made()
		figures.Rows = []record.Row{{Valve: "1 in", Cells: []string{"03.2026", "1,838", "131"}}, {Valve: "1 ex", Cells: []string{"0,5+0,25", "−,004", "120,5e"}}}
		data, err := workbook.Write(words, r, figures, cautions())
		if err != nil {
			t.Fatal(err)
		}
		f, err := excelize.OpenReader(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		sheet := f.GetSheetList()[0]
		for at, want := range map[string]struct{ value, form string }{
			"B2": {"03.2026", ""}, "C2": {"1.838", "0.000"}, "D2": {"131", "0"}, "B3": {"0,5+0,25", ""}, "C3": {"-0.004", ".000"}, "D3": {"120,5e", ""},
		} {
			kind, form := excelize.CellTypeUnset, ""
			if want.form == "" {
				kind = excelize.CellTypeSharedString
			}
			is, err := f.GetCellType(sheet, at)
			if err != nil || is != kind {
				t.Errorf("%s: %s is of the type %d, %v, want %d", language, at, is, err, kind)
			}
			if value, err := f.GetCellValue(sheet, at, excelize.Options{RawCellValue: true}); err != nil || value != want.value {
				t.Errorf("%s: %s is %q, %v, want %q", language, at, value, err, want.value)
			}
			id, err := f.GetCellStyle(sheet, at)
			if err != nil {
				t.Fatal(err)
			}
			if style, err := f.GetStyle(id); err != nil {
				t.Error(err)
			} else if style.CustomNumFmt != nil {
				form = *style.CustomNumFmt
			}
			if form != want.form {
				t.Errorf("%s: %s is shown by %q, want %q", language, at, form, want.form)
			}
		}
		// What was read stands with a point in the book, whatever is printed.
		if is, err := f.GetCellType(f.GetSheetList()[1], "E2"); err != nil || is != excelize.CellTypeUnset {
			t.Errorf("%s: what was read is of the type %d, %v", language, is, err)
		}
		f.Close()
	}
}

// LibreOffice, which knows nothing of this program, reads the same cells.
func TestLibreOfficeReadsEveryCell(t *testing.T) {
	office, err := exec.LookPath("soffice")
	if err != nil {
		if os.Getenv("CI") != "" {
			t.Fatal("soffice is not installed: ", err)
		}
		t.Skip("soffice is not installed")
	}
	folder := t.TempDir()
	path := filepath.Join(folder, "x.xlsx")
	if err := os.WriteFile(path, written(t), 0o600); err != nil {
		t.Fatal(err)
	}
	// Comma, quotes, UTF-8, every sheet: the tokens of its filter for text.
	cmd := exec.Command(office, "-env:UserInstallation=file://"+folder+"/profile", "--headless",
		"--convert-to", "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,true,false,false,false,-1", "--outdir", folder, path)
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	for sheet, w := range want {
		file, err := os.Open(filepath.Join(folder, "x-"+sheet+".csv"))
		if err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(file).ReadAll()
		file.Close()
		if err != nil {
			t.Fatal(err)
		}
		same(t, sheet, rows, w)
	}
	facts, err := os.ReadFile(filepath.Join(folder, "x-Set-up.csv"))
	if err != nil || !strings.Contains(string(facts), `"=HYPERLINK(""x"")"`) || !strings.Contains(string(facts), "+T-1") || !strings.Contains(string(facts), "One is short.") {
		t.Errorf("%s, %v", facts, err)
	}
}

// same compares texts; numbers may have another number of noughts.
func same(t *testing.T, sheet string, got, want [][]string) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%s has %d rows, want %d: %q", sheet, len(got), len(want), got)
	}
	for i := range want {
		for j, w := range want[i] {
			g := ""
			if j < len(got[i]) {
				g = got[i][j]
			}
			x, err1 := strconv.ParseFloat(g, 64)
			y, err2 := strconv.ParseFloat(w, 64)
			if g != w && (err1 != nil || err2 != nil || x != y) {
				t.Errorf("%s, row %d, column %d: %q, want %q", sheet, i+1, j+1, g, w)
			}
		}
	}
}
