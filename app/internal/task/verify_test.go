package task_test

import (
	"context"
	"encoding/hex"
	"errors"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"keeperbook/app/internal/task"
	"keeperbook/model/evaluate"
	"keeperbook/model/exchange"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/pdf"
	"keeperbook/pdf/seal"
	"keeperbook/store"
)

func signerKey(t testing.TB) task.Key {
	t.Helper()
	key, err := seal.NewKey(seal.Person{Name: "J. Peverel"}, time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC))
	if err != nil {
		t.Fatal(err)
	}
	return key
}

// closed is a record of the demonstration as it is signed, with its sheet and document.
func closed(t testing.TB, book *store.Book, setup string, s task.Signature) (pdf.Sheet, []byte) {
	t.Helper()
	rec, err := book.Record(context.Background(), setup)
	if err != nil {
		t.Fatal(err)
	}
	rec.Setup.State = record.Closed
	words := evaluate.WordsIn(s.Language, rec.Setup.Units)
	ev := evaluate.Evaluate(rec)
	sheet := pdf.Sheet{
		Record: rec, Evaluation: ev, Figures: ev.Figures(words, rec.Setup.Units), Paper: s.Paper, Words: words,
		Signed: &pdf.Signed{Name: s.Name, Role: s.Role, When: s.When, Second: s.Second},
	}
	if sheet.Fingerprint, err = exchange.Fingerprint(rec); err != nil {
		t.Fatal(err)
	}
	document, err := exchange.Export(rec, sheet.Figures)
	if err != nil {
		t.Fatal(err)
	}
	return sheet, document
}

// Whatever is signed agrees with its record to the last line; the figures can be read off its pages too, as those of another
// version are. A page that shows one digit otherwise is found out, and so is one that another version laid out.
func TestVerifyPages(t *testing.T) {
	if testing.Short() {
		t.Skip("once a run is enough: drawing takes long under -race")
	}
	book := demonstration(t)
	key := signerKey(t)
	for _, setup := range setups(t, book) {
		for _, on := range []struct {
			paper    pdf.Paper
			language string
			only     string // the one set-up that is enough
		}{{pdf.A4, "", ""}, {pdf.Letter, "en", "setup-hill-built"}, {pdf.A4, "de", "setup-ferry-built"}, {pdf.Letter, "es", "setup-hill-built"}} {
			if on.only != "" && on.only != setup {
				continue
			}
			paper := on.paper
			t.Run(setup+" "+string(paper)+" "+on.language, func(t *testing.T) {
				s := task.Signature{Key: key, Language: on.language, Name: "J. Peverel", Role: "head porter", When: time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC), Paper: paper, Second: paper == pdf.A4}
				sheet, document := closed(t, book, setup, s)
				verify := func(sheet pdf.Sheet, document []byte) task.Verified {
					t.Helper()
					file, err := pdf.Seal(sheet, key, document)
					if err != nil {
						t.Fatal(err)
					}
					v, err := task.Verify(context.Background(), file)
					if err != nil || !v.Whole {
						t.Fatalf("%v, %+v", err, v)
					}
					return v
				}
				if v := verify(sheet, document); v.Pages != task.PagesAgree || v.Otherwise {
					t.Errorf("the pages %s, other figures: %v", v.Pages, v.Otherwise)
				} else if pages, err := v.PagesOf(); err != nil || len(pages) < 3 {
					t.Errorf("%d pages to look at, %v", len(pages), err)
				}
				other := sheet
				other.Figures.Notes = append(slices.Clone(other.Figures.Notes), "A line that another version adds.")
				if v := verify(other, document); v.Pages != task.PagesFigures || !v.Good() {
					t.Errorf("of another version the pages %s", v.Pages)
				}
				forged := sheet
				forged.Figures = altered(t, sheet.Figures)
				if v := verify(forged, document); v.Pages != task.PagesDiffer || v.Good() {
					t.Errorf("with one digit changed the pages %s", v.Pages)
				}
				moved := sheet
				moved.Fingerprint = strings.Repeat("0", 64)
				if v := verify(moved, document); v.Pages != task.PagesDiffer {
					t.Errorf("pages of another record %s", v.Pages)
				}
				if pages, err := verify(forged, document).PagesOf(); err != nil || pages != nil {
					t.Error("pages that are not the record's are drawn anew")
				}
				// What rides along is altered as the page is: then this version says that it works out other figures.
				doc, err := exchange.Export(sheet.Record, forged.Figures)
				if err != nil {
					t.Fatal(err)
				}
				if v := verify(forged, doc); v.Pages != task.PagesFigures || !v.Otherwise {
					t.Errorf("the pages %s, other figures: %v", v.Pages, v.Otherwise)
				}
			})
		}
	}
}

// altered changes the last digit of one number.
func altered(t *testing.T, f record.Figures) record.Figures {
	t.Helper()
	f.Rows = slices.Clone(f.Rows)
	for i, row := range f.Rows {
		for j, cell := range row.Cells {
			if plain := strings.Replace(cell, ",", ".", 1); strings.HasPrefix(plain, "1.8") || strings.HasPrefix(plain, "36.") {
				f.Rows[i].Cells = slices.Clone(row.Cells)
				last := cell[len(cell)-1]
				f.Rows[i].Cells[j] = cell[:len(cell)-1] + string('0'+(last-'0'+1)%10)
				return f
			}
		}
	}
	t.Fatal("there is no height to change")
	return f
}

// A shop that trusts who signed says so, by whom and how it was compared, until it withdraws that; and it says whether its book
// holds the record.
func TestVerifyInABook(t *testing.T) {
	ctx := context.Background()
	book := demonstration(t)
	desk := &task.Desk{Book: book, Who: "M. Ashlock", Clock: func() time.Time { return time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC) }}
	sheet, err := book.Sheet(ctx, "setup-launch-found")
	if err != nil || sheet == nil {
		t.Fatal(err)
	}
	v, err := desk.Verify(ctx, sheet.File)
	if err != nil || v.Book.Trusts[0] != nil || v.Book.Here != task.HereSame {
		t.Fatalf("%v, %+v", err, v.Book)
	}
	root := hex.EncodeToString(v.Signatures[0].Root[:])
	for _, c := range []struct{ root, name, how, key string }{
		{"zz", "x", "y", "trust.root"}, {strings.ToUpper(root), "x", "y", "trust.root"}, {root, " ", "y", "trust.name"}, {root, "x", "", "trust.how"},
	} {
		if err := desk.Trust(ctx, c.root, c.name, c.how); keyOf(err) != c.key {
			t.Errorf("%v, want %s", err, c.key)
		}
	}
	if err := desk.Trust(ctx, root, "M. Ashlock", "by telephone"); err != nil {
		t.Fatal(err)
	}
	v, err = desk.Verify(ctx, sheet.File)
	if err != nil || v.Book.Trusts[0] == nil {
		t.Fatalf("%v, %+v", err, v.Book)
	}
	if said := say.English().Line(v.SignatureLines(0)[1]); said != "Trusted by this shop as M. Ashlock's (by telephone; M. Ashlock, 2026-06-01)." {
		t.Error(said)
	}
	if err := desk.Withdraw(ctx, root); err != nil {
		t.Fatal(err)
	}
	if v, err := desk.Verify(ctx, sheet.File); err != nil || v.Book.Trusts[0] != nil {
		t.Errorf("withdrawn, and still there: %v", err)
	}
	if err := desk.Withdraw(ctx, root); keyOf(err) != "trust.none" {
		t.Errorf("%v", err)
	}

	// The same set-up in another state is another record; an empty book has none.
	open, document := closed(t, book, "setup-hill-built", task.Signature{Paper: pdf.A4, Name: "J. Peverel", When: desk.Clock()})
	file, err := pdf.Seal(open, signerKey(t), document)
	if err != nil {
		t.Fatal(err)
	}
	if v, err := desk.Verify(ctx, file); err != nil || v.Book.Here != task.HereOther {
		t.Errorf("%v, %+v", err, v.Book)
	}
	empty, err := store.Create(ctx, filepath.Join(t.TempDir(), "other.keeperbook"), store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer empty.Close()
	if v, err := (&task.Desk{Book: empty}).Verify(ctx, file); err != nil || v.Book.Here != task.HereAbsent {
		t.Errorf("%v, %+v", err, v.Book)
	}
}

// keyOf is the sentence of an error.
func keyOf(err error) string {
	var e *say.Error
	if !errors.As(err, &e) {
		return ""
	}
	return e.Line.Key
}
