package pdf_test

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"keeperbook/model/record"
	"keeperbook/pdf"
)

func form(t testing.TB, r *record.Record, p pdf.Paper, path ...record.Position) []byte {
	t.Helper()
	return formIn(t, "en", r, p, path...)
}

func formIn(t testing.TB, language string, r *record.Record, p pdf.Paper, path ...record.Position) []byte {
	t.Helper()
	var b bytes.Buffer
	f := pdf.Form{Record: r, Path: path, Paper: p, Words: sheetIn(language, r, p).Words}
	if err := pdf.WriteForm(&b, f); err != nil {
		t.Fatalf("%v, because %v", err, cause(err))
	}
	return b.Bytes()
}

// TestSixteenValvesGoOnOnePage on both papers, with a row of 8 mm at least for each.
func TestSixteenValvesGoOnOnePage(t *testing.T) {
	const eightMillimetres = 8 / 25.4 * 72
	for _, p := range papers {
		r := many(t, 4, 2, 2)
		pages := readPages(t, form(t, r, p))
		if len(pages) != 1 {
			t.Fatalf("%s: %d pages", p, len(pages))
		}
		var at []float64
		for _, pos := range r.Head.Positions() {
			found := pages[0].find(r.Head.Label(pos))
			if len(found) != 1 {
				t.Fatalf("%s: %s stands %d times", p, r.Head.Label(pos), len(found))
			}
			at = append(at, found[0].y)
		}
		for i := 1; i < len(at); i++ {
			if high := at[i-1] - at[i]; high < eightMillimetres {
				t.Errorf("%s: row %d is %.1f points high", p, i, high)
			}
		}
	}
}

// TestTheFormFollowsThePath: rows stand in the order in which the valves are measured.
func TestTheFormFollowsThePath(t *testing.T) {
	r := six(t)
	path := slices.Clone(r.Head.Positions())
	slices.Reverse(path)
	page := readPages(t, form(t, r, pdf.A4, path...))[0]
	last := page.height
	for _, pos := range path {
		found := page.find(r.Head.Label(pos))
		if len(found) != 1 || found[0].y >= last {
			t.Fatalf("%s does not follow in the path: %v under %.0f", r.Head.Label(pos), found, last)
		}
		last = found[0].y
	}
}

// TestTheFormAsksForWhatTheHeadNeeds: a column for each coil, depths where heights are taken by
// difference, lash where there is one to set.
func TestTheFormAsksForWhatTheHeadNeeds(t *testing.T) {
	nested := flat(readPages(t, form(t, six(t), pdf.A4)))
	for _, want := range []string{"bindouter", "binddamper", "bindinner", "baseheight", "inches", "readsthroughlid.095,notzeroed"} {
		if !strings.Contains(nested, want) {
			t.Errorf("the form of nested springs lacks %q", want)
		}
	}
	if strings.Contains(nested, "lashfound") {
		t.Error("the form asks for lash that nobody sets")
	}
	r := many(t, 4, 2, 2)
	r.Setup.Readings = append(r.Setup.Readings, record.Reading{At: r.Head.Positions()[0], Kind: record.SeatDepth})
	bucket := flat(readPages(t, form(t, r, pdf.A4)))
	for _, want := range []string{"datumtoseat", "datumtoretainer", "lashfound", "shimfound", "lashleft", "millimetres"} {
		if !strings.Contains(bucket, want) {
			t.Errorf("the form of buckets lacks %q", want)
		}
	}
	if strings.Contains(bucket, "baseheightseal") {
		t.Error("the form of buckets asks for a base height that no gauge reaches")
	}
}

// TestAnotherReaderReadsThePages: pdftotext finds every figure too.
func TestAnotherReaderReadsThePages(t *testing.T) {
	program, err := exec.LookPath("pdftotext")
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("pdftotext is not installed, and under CI the sheet must be read by it")
		}
		t.Skip("pdftotext is not installed: the sheet is read by this test's own reader only")
	}
	for name, r := range samples(t) {
		s := sheetOf(name, r, pdf.Letter)
		file := filepath.Join(t.TempDir(), name+".pdf")
		if err := os.WriteFile(file, written(t, s), 0o644); err != nil {
			t.Fatal(err)
		}
		out, err := exec.Command(program, "-layout", "-enc", "UTF-8", file, "-").CombinedOutput()
		if err != nil {
			t.Fatalf("%s: %v\n%s", name, err, out)
		}
		text := " " + strings.Join(strings.Fields(string(out)), " ") + " "
		for _, row := range s.Figures.Rows {
			for i, cell := range row.Cells {
				if strings.ContainsAny(cell, " +") {
					continue // such cells wrap, and come out among their neighbours
				}
				if !strings.Contains(text, " "+cell+" ") && cell != "" {
					t.Errorf("%s: %s %s %q is not in what pdftotext reads", name, row.Valve, s.Figures.Columns[i].Key, cell)
				}
			}
		}
	}
}
