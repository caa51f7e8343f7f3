package store

import (
	"bytes"
	"compress/gzip"
	"context"
	"io"
	"os"
	"path/filepath"
	"testing"

	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// form1 is a book that the program wrote while its bodies had form 1: a record that fills every field
// there was, a base height that was replaced, and one that was taken back.
func form1(t *testing.T) string {
	t.Helper()
	packed, err := os.ReadFile("testdata/book-1.keeperbook.gz")
	if err != nil {
		t.Fatal(err)
	}
	r, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		t.Fatal(err)
	}
	book, err := io.ReadAll(r)
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "bench.keeperbook")
	writeFile(t, path, string(book))
	return path
}

// A book of form 1 opens, means what it meant, has a whole history, and takes entries of form 2 beside
// those of form 1.
func TestABookOfForm1(t *testing.T) {
	ctx := context.Background()
	b, err := Open(ctx, form1(t), options())
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	sound(t, b)
	r, err := b.Record(ctx, "S-1")
	if err != nil {
		t.Fatal(err)
	}
	if r.Setup.Rules.Decision != record.Plain || r.Setup.Rules.Assumed != nil || r.Setup.Rules.ShimTolerance != nil {
		t.Errorf("the rules became %+v", r.Setup.Rules)
	}
	if len(r.Gauges) != 3 || r.Gauges[0].Step != nil || r.Gauges[0].Calibration != nil || r.Gauges[0].Setting[0].Gauge != "" {
		t.Errorf("the gauges became %+v", r.Gauges)
	}
	if all := r.ReadingsAt(in1, record.BaseHeight, 0); len(all) != 2 || all[0].Quantity.Length() != 1700*unit.Thou {
		t.Errorf("the base heights became %+v", all)
	}
	if _, err := b.Undo(ctx, "S-1", "Tamsin", noon, "back to 1842"); err != nil {
		t.Fatal(err)
	}
	if r, err = b.Record(ctx, "S-1"); err != nil || r.ReadingsAt(in1, record.BaseHeight, 0)[0].Quantity.Length() != 1842*unit.Thou {
		t.Errorf("undone it is %+v, %v", r.ReadingsAt(in1, record.BaseHeight, 0), err)
	}
	gauge := r.Gauges[0]
	gauge.Step = q(".001", 254_000)
	keep(t, b, "gauge", "", record.Put("", gauge), record.Put("", study()))
	for what, want := range map[string]int{
		`SELECT version FROM part WHERE id = 'G-1'`: 2, `SELECT version FROM part WHERE id = 'G-2'`: 1,
		`SELECT version FROM event ORDER BY seq DESC LIMIT 1`: 2, `SELECT version FROM event ORDER BY seq LIMIT 1`: 1,
	} {
		var version int
		if _, err := one(ctx, b.desk, what, nil, &version); err != nil || version != want {
			t.Errorf("%s: %d, %v, want %d", what, version, err, want)
		}
	}
	sound(t, b)
}

// A form that this program does not know is not guessed at.
func TestAFormToComeIsNotRead(t *testing.T) {
	for _, version := range []int{0, bodyVersion + 1} {
		if _, err := current(record.SealItem, version, []byte(`{}`)); err == nil {
			t.Errorf("a body of form %d was taken", version)
		}
		if _, err := decode(record.SealItem, version, []byte(`{}`)); err == nil {
			t.Errorf("a body of form %d was read", version)
		}
	}
}
