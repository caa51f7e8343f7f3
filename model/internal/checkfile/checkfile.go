// Package checkfile reads the check values that tests hold the program against.
//
// A check file opens with header lines and goes on with a table:
//
//	# kind: published | common-practice | other-program | hand
//	# source: author, title, edition, page or equation
//	# from-memory: yes | no
//	name | reading_in | lid_in | want_in | tolerance_in
//	through the lid | 1.155 | .095 | 1.060 | 0
//
// Column names carry their unit at the end. A header that is missing, an unknown one, a row with too
// few cells, and a column that the test never asked for fail the test: a check that is not read proves
// nothing. Values that the program made itself never stand in a check file.
package checkfile

import (
	"math/big"
	"os"
	"slices"
	"strings"
	"testing"

	"keeperbook/model/unit"
)

// Row is one line of a check file.
type Row struct {
	t     testing.TB
	where string
	cells map[string]string
	used  map[string]bool
}

// Each reads a check file and runs the test once for each row, named by its column "name".
func Each(t *testing.T, path string, test func(t *testing.T, row Row)) {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	headers, columns := map[string]string{}, []string(nil)
	used := map[string]bool{"name": true}
	for n, line := range strings.Split(string(text), "\n") {
		line = strings.TrimSpace(line)
		switch {
		case line == "":
		case line[0] == '#':
			key, value, ok := strings.Cut(strings.TrimSpace(line[1:]), ": ")
			if !ok || headers[key] != "" {
				t.Fatalf("%s:%d: header %q", path, n+1, line)
			}
			headers[key] = value
		case columns == nil:
			columns = cells(line)
		default:
			values := cells(line)
			if len(values) != len(columns) {
				t.Fatalf("%s:%d: %d cells in %d columns", path, n+1, len(values), len(columns))
			}
			row := Row{where: path, cells: map[string]string{}, used: used}
			for i, c := range columns {
				row.cells[c] = values[i]
			}
			t.Run(row.cells["name"], func(t *testing.T) {
				row.t = t
				test(t, row)
			})
		}
	}
	checkHeaders(t, path, headers)
	for _, c := range columns {
		if !used[c] {
			t.Errorf("%s: nobody read the column %q", path, c)
		}
	}
}

func checkHeaders(t *testing.T, path string, headers map[string]string) {
	t.Helper()
	if len(headers) != 3 || headers["source"] == "" {
		t.Errorf("%s: headers %v; kind, source and from-memory are asked for", path, headers)
	}
	if !slices.Contains([]string{"published", "common-practice", "other-program", "hand"}, headers["kind"]) {
		t.Errorf("%s: kind %q", path, headers["kind"])
	}
	if headers["from-memory"] != "yes" && headers["from-memory"] != "no" {
		t.Errorf("%s: from-memory %q", path, headers["from-memory"])
	}
}

func cells(line string) []string {
	all := strings.Split(line, "|")
	for i := range all {
		all[i] = strings.TrimSpace(all[i])
	}
	return all
}

// Text returns a cell.
func (r Row) Text(column string) string {
	r.t.Helper()
	text, ok := r.cells[column]
	if !ok {
		r.t.Fatalf("%s has no column %q", r.where, column)
	}
	r.used[column] = true
	return text
}

// Length returns a cell whose column ends in _in or _mm.
func (r Row) Length(column string) unit.Length { return unit.Length(r.value(column)) }

// Load returns a cell whose column ends in _lbf or _N.
func (r Row) Load(column string) unit.Load { return unit.Load(r.value(column)) }

// Rate returns a cell whose column ends in _lbf/in or _N/mm.
func (r Row) Rate(column string) unit.Rate { return unit.Rate(r.value(column)) }

// Pressure returns a cell whose column ends in _psi, _kPa or _bar.
func (r Row) Pressure(column string) unit.Pressure { return unit.Pressure(r.value(column)) }

// Rat returns a cell as an exact number.
func (r Row) Rat(column string) *big.Rat {
	r.t.Helper()
	x, ok := new(big.Rat).SetString(r.Text(column))
	if !ok {
		r.t.Fatalf("%s: %s is no number: %q", r.where, column, r.Text(column))
	}
	return x
}

func (r Row) value(column string) int64 {
	r.t.Helper()
	text := r.Text(column)
	if strings.HasPrefix(strings.TrimPrefix(text, "-"), ".") {
		text = strings.Replace(text, ".", "0.", 1)
	}
	at := strings.LastIndex(column, "_")
	v, err := unit.Value(text, unit.Symbol(column[at+1:]))
	if err != nil {
		r.t.Fatalf("%s: %s: %v", r.where, column, err)
	}
	return v
}
