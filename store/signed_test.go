package store

import (
	"context"
	"strings"
	"testing"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// signedBook is a book with the demonstration of a record in it, signed; the file is any bytes.
func signedBook(t *testing.T) (*Book, *record.Record) {
	t.Helper()
	ctx := context.Background()
	b := newBook(t)
	keep(t, b, "a set-up", "", record.Put("", record.Engine{ID: "E-1", Name: "Ferry"}),
		record.Put("", record.Head{ID: "H-1", Engine: "E-1", Tag: "OF-2P", Cylinders: []string{"1"}, Intakes: 1, Exhausts: 1}),
		record.Put("", record.Setup{ID: "S-1", Head: "H-1", Kind: record.AsBuilt, State: record.Open, Begun: noon}))
	keep(t, b, "a valve", "S-1", record.Put("S-1", record.Valve{At: in1, NoShim: "none"}))
	r, err := b.Record(ctx, "S-1")
	if err != nil {
		t.Fatal(err)
	}
	return b, r
}

func sheetOf(n int, file string) SignedSheet {
	return SignedSheet{
		Signed: record.Signed{Setup: "S-1", N: n, Record: strings.Repeat("ab", 32), Name: "M. Ashlock", Role: "head porter", When: noon, Root: strings.Repeat("cd", 32)},
		File:   []byte(file),
	}
}

// A signed set-up is closed by the store itself: nothing of it is kept, nothing undone, and its sheet stays byte for byte.
func TestSignedSetupIsClosed(t *testing.T) {
	ctx := context.Background()
	b, r := signedBook(t)
	action := record.Action{Token: "sign", By: "M. Ashlock", At: noon}
	if _, err := b.Sign(ctx, sheetOf(1, "%PDF one"), r, nil, action); err != nil {
		t.Fatal(err)
	}
	if again, err := b.Sign(ctx, sheetOf(1, "%PDF one"), r, nil, action); err != nil || !again.Repeated {
		t.Errorf("asked again: %+v, %v", again, err)
	}
	s, err := b.Sheet(ctx, "S-1")
	if err != nil || string(s.File) != "%PDF one" || s.Name != "M. Ashlock" || len(s.Sheet) != 64 {
		t.Fatalf("%+v, %v", s, err)
	}
	_, err = b.Keep(ctx, record.Action{Token: "later", Setup: "S-1", By: "x", At: noon, Edits: []record.Edit{record.Put("S-1", record.Valve{At: in1, Note: "changed"})}})
	if say.CodeOf(err) != say.ReadOnly {
		t.Errorf("a change was kept: %v", err)
	}
	if _, err := b.Undo(ctx, "S-1", "x", noon, "undo"); say.CodeOf(err) != say.ReadOnly {
		t.Errorf("undone: %v", err)
	}
	if step, err := b.PeekUndo(ctx, "S-1"); err != nil || step != nil {
		t.Errorf("there is something to take back: %v, %v", step, err)
	}
	_, err = b.Keep(ctx, record.Action{Token: "open", By: "x", At: noon, Edits: []record.Edit{record.Put("", record.Setup{ID: "S-1", Head: "H-1", Kind: record.AsBuilt, State: record.Open, Begun: noon})}})
	if say.CodeOf(err) != say.ReadOnly {
		t.Errorf("opened again: %v", err)
	}
	// The tables refuse it too.
	for _, statement := range []string{`UPDATE signed SET n = 2`, `DELETE FROM signed`, `UPDATE signed_sheet SET file = x'00'`, `DELETE FROM signed_sheet`} {
		if err := b.desk.exec(ctx, statement); err == nil {
			t.Errorf("%s went through", statement)
		}
	}
	sound(t, b)
}

func TestSecondSignature(t *testing.T) {
	ctx := context.Background()
	b, r := signedBook(t)
	sign := func(token string, s SignedSheet) error {
		_, err := b.Sign(ctx, s, r, nil, record.Action{Token: token, By: "x", At: noon})
		return err
	}
	if err := sign("too early", sheetOf(2, "%PDF two")); say.CodeOf(err) != say.Conflict {
		t.Errorf("a second one without a first: %v", err)
	}
	if err := sign("first", sheetOf(1, "%PDF one")); err != nil {
		t.Fatal(err)
	}
	if err := sign("first again", sheetOf(1, "%PDF other")); say.CodeOf(err) != say.Conflict {
		t.Errorf("signed twice: %v", err)
	}
	if err := sign("second", sheetOf(2, "%PDF two")); err != nil {
		t.Fatal(err)
	}
	s, err := b.Sheet(ctx, "S-1")
	if err != nil || string(s.File) != "%PDF two" || s.N != 2 {
		t.Errorf("%+v, %v", s, err)
	}
	if err := sign("nobody's", SignedSheet{Signed: record.Signed{Setup: "S-9", N: 1}}); say.CodeOf(err) != say.NotFound {
		t.Errorf("of a set-up that is not there: %v", err)
	}
	sound(t, b)
}

// What changed since somebody saw it is not signed.
func TestSigningSeesChanges(t *testing.T) {
	ctx := context.Background()
	b, r := signedBook(t)
	keep(t, b, "later", "S-1", record.Put("S-1", record.Valve{At: in1, NoShim: "none", Note: "later"}))
	if _, err := b.Sign(ctx, sheetOf(1, "%PDF"), r, nil, record.Action{Token: "sign", By: "x", At: noon}); say.CodeOf(err) != say.Conflict {
		t.Errorf("%v", err)
	}
	if s, err := b.Sheet(ctx, "S-1"); s != nil || err != nil {
		t.Errorf("%+v, %v", s, err)
	}
	if r, err := b.Record(ctx, "S-1"); err != nil || r.Setup.State != record.Open {
		t.Errorf("%+v, %v", r.Setup.State, err)
	}
}

// A sheet whose bytes rotted is named, by examine and by whoever asks for it.
func TestRottenSheet(t *testing.T) {
	ctx := context.Background()
	b, r := signedBook(t)
	if _, err := b.Sign(ctx, sheetOf(1, "%PDF one"), r, nil, record.Action{Token: "sign", By: "x", At: noon}); err != nil {
		t.Fatal(err)
	}
	for _, statement := range []string{`DROP TRIGGER signed_sheet_stays`, `UPDATE signed_sheet SET file = x'2550'`} {
		if err := b.desk.exec(ctx, statement); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := b.Sheet(ctx, "S-1"); say.CodeOf(err) != say.Damaged {
		t.Errorf("%v", err)
	}
	report, err := b.Examine(ctx)
	if err != nil {
		t.Fatal(err)
	}
	for _, one := range report.Results {
		if one.Name == CheckSigned && (one.OK || !strings.Contains(say.English().Line(one.Line), "1 signed sheets")) {
			t.Errorf("%+v", one)
		}
	}
}
