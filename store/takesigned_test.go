package store

import (
	"bytes"
	"context"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

// closedRich is a record that fills every field, as it is once it was signed, with its sheet.
func closedRich(signers ...string) (*record.Record, SignedFile) {
	r := rich()
	r.Setup.State = record.Closed
	s := SignedFile{File: []byte("%PDF")}
	for i, name := range signers {
		s.File = append(s.File, []byte(" signed by "+name)...)
		s.Signatures = append(s.Signatures, record.Signed{
			Setup: "S-1", N: i + 1, Record: strings.Repeat("ab", 32), Name: name, When: noon, Root: strings.Repeat("cd", 32),
		})
	}
	return r, s
}

// everything is all that is in a book, by item.
func everything(t *testing.T, b *Book) map[record.Item]string {
	t.Helper()
	all := map[record.Item]string{}
	for _, kind := range itemKinds() {
		s, err := shelfOf(kind)
		if err != nil {
			t.Fatal(err)
		}
		err = s.all(context.Background(), b.desk, func(item record.Item, body []byte, _ bool) error {
			all[item] = string(body)
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	return all
}

// What is otherwise here stays as it is, byte for byte; parts and gauges of the sheet come in beside it, and its set-up refers
// to its own.
func TestSignedSheetComesInBesideOurs(t *testing.T) {
	ctx := context.Background()
	b := newBook(t)
	r, s := closedRich("M. Ashlock")
	ours := rich()
	ours.Owner.Name, ours.Engine.Note, ours.Head.Casting = "another owner", "ours", "our casting"
	gauge := record.Gauge{ID: "G-1", Name: "our height gauge", Kind: record.HeightGauge} // which springs and readings of theirs name
	keep(t, b, "ours", "", record.Put("", *ours.Owner), record.Put("", ours.Engine), record.Put("", ours.Head), record.Put("", gauge),
		record.Put("", ours.Parts.Springs[0])) // the same as theirs, and yet measured on another gauge
	before := everything(t, b)
	taken, err := b.TakeInSigned(ctx, r, s, record.Action{Token: "take", By: "x", At: noon})
	if err != nil {
		t.Fatal(err)
	}
	if len(taken.Stays) != 3 || len(taken.Named) != 2 || taken.Already {
		t.Errorf("%+v", taken)
	}
	after := everything(t, b)
	for item, body := range before {
		if after[item] != body {
			t.Errorf("%v was written over: %s", item, after[item])
		}
	}
	// Up to the names, what the rows come to is what was signed.
	names := map[record.Item]string{}
	for _, n := range taken.Named {
		names[record.Item{Kind: n.Item.Kind, Key: n.Key}] = n.Item.Key
		if n.Item.Key == "G-1" && !strings.HasPrefix(n.Key, "G-1-") {
			t.Errorf("%+v", n)
		}
	}
	is, err := b.Record(ctx, "S-1")
	if err != nil {
		t.Fatal(err)
	}
	back := func(n record.Noun) record.Noun {
		n = record.Referring(n, func(kind record.ItemKind, key *string) {
			if was, ok := names[record.Item{Kind: kind, Key: *key}]; ok {
				*key = was
			}
		})
		if was, ok := names[record.ItemOf("", n)]; ok {
			n = record.Named(n, was)
		}
		return n
	}
	theirs := map[record.Item]record.Noun{}
	for _, e := range editsOf(r) {
		theirs[e.Item] = e.Noun
		if s, ok := e.Noun.(record.Setup); ok {
			theirs[e.Item] = bare(s)
		}
	}
	compared := 0
	for _, e := range editsOf(is) {
		n := back(e.Noun)
		if s, ok := n.(record.Setup); ok {
			n = bare(s) // its lists come one by one
		}
		switch e.Item.Kind {
		case record.ShopItem, record.OwnerItem, record.EngineItem, record.HeadItem:
			continue
		}
		if d := cmp.Diff(theirs[record.ItemOf(e.Item.Setup, n)], n); d != "" {
			t.Errorf("%v:\n%s", e.Item, d)
		}
		compared++
	}
	if compared < 15 {
		t.Errorf("only %d things compared", compared)
	}
	again, err := b.TakeInSigned(ctx, r, s, record.Action{Token: "again", By: "x", At: noon})
	if err != nil || !again.Already || again.Changes != 0 {
		t.Errorf("%v, %+v", err, again)
	}
	sound(t, b)
}

// A set-up that is open here is not closed by a sheet; one that came in as a record alone gets its signature.
func TestSignedSheetOfASetupHere(t *testing.T) {
	ctx := context.Background()
	r, s := closedRich("M. Ashlock")
	open := newBook(t)
	keepRecord(t, open, rich())
	if _, err := open.TakeInSigned(ctx, r, s, record.Action{Token: "take", By: "x", At: noon}); say.CodeOf(err) != say.Conflict {
		t.Errorf("%v", err)
	}
	if is, err := open.Record(ctx, "S-1"); err != nil || is.Setup.State != record.Open {
		t.Errorf("it was closed: %v", err)
	}
	b := newBook(t)
	if _, err := b.TakeIn(ctx, r, record.Action{Token: "record", By: "x", At: noon}); err != nil {
		t.Fatal(err)
	}
	if _, err := b.TakeInSigned(ctx, r, s, record.Action{Token: "sheet", By: "x", At: noon}); err != nil {
		t.Fatal(err)
	}
	if all, err := b.Signatures(ctx, "S-1"); err != nil || len(all) != 1 {
		t.Errorf("%+v, %v", all, err)
	}
	sound(t, b)
}

// A second signature that comes later is added, the file with it; one fewer changes nothing; another record is refused.
func TestSecondSignatureComesIn(t *testing.T) {
	ctx := context.Background()
	b := newBook(t)
	take := func(token string, s SignedFile) (Taken, error) {
		r, _ := closedRich()
		return b.TakeInSigned(ctx, r, s, record.Action{Token: token, By: "x", At: noon})
	}
	_, one := closedRich("M. Ashlock")
	_, two := closedRich("M. Ashlock", "E. Tolliver")
	if _, err := take("one", one); err != nil {
		t.Fatal(err)
	}
	taken, err := take("two", two)
	if err != nil || !taken.Already || taken.Changes != 1 {
		t.Errorf("%v, %+v", err, taken)
	}
	for token, s := range map[string]SignedFile{"one again": one, "two again": two} {
		if taken, err := take(token, s); err != nil || !taken.Already || taken.Changes != 0 {
			t.Errorf("%s: %v, %+v", token, err, taken)
		}
	}
	all, err := b.Signatures(ctx, "S-1")
	if err != nil || len(all) != 2 || all[0].Name != "M. Ashlock" || all[1].Name != "E. Tolliver" {
		t.Errorf("%v, %+v", err, all)
	}
	if s, err := b.Sheet(ctx, "S-1"); err != nil || !bytes.Equal(s.File, two.File) {
		t.Errorf("%v, the file is not the last one", err)
	}
	other := two
	other.Signatures = append([]record.Signed(nil), two.Signatures...)
	other.Signatures[0].Record = strings.Repeat("ef", 32)
	_, three := closedRich("M. Ashlock", "E. Tolliver", "J. Peverel")
	three.File = []byte("%PDF of another")
	for token, s := range map[string]SignedFile{"another record": other, "another first": three} {
		if _, err := take(token, s); say.CodeOf(err) != say.Conflict {
			t.Errorf("%s: %v", token, err)
		}
	}
	sound(t, b)
}

// Two that sign with one sheet have two rows and one file, whole.
func TestTwoSignaturesInOneSheet(t *testing.T) {
	ctx := context.Background()
	b := newBook(t)
	r, s := closedRich("M. Ashlock", "E. Tolliver")
	if _, err := b.TakeInSigned(ctx, r, s, record.Action{Token: "take", By: "x", At: noon}); err != nil {
		t.Fatal(err)
	}
	all, err := b.Signatures(ctx, "S-1")
	if err != nil || len(all) != 2 || all[0].Sheet != all[1].Sheet {
		t.Errorf("%v, %+v", err, all)
	}
	sound(t, b)
}

// Something that is kept while somebody signs makes the end of the history on the sheet an old one.
func TestSigningSeesTheHistory(t *testing.T) {
	ctx := context.Background()
	b, r := signedBook(t)
	end, err := b.History(ctx)
	if err != nil || end == nil || end.Events != b.chainEnd(t).seq || len(end.Head) != 64 {
		t.Fatalf("%+v, %v", end, err)
	}
	keep(t, b, "an owner", "", record.Put("", record.Owner{ID: "O-9", Name: "somebody"}))
	if _, err := b.Sign(ctx, sheetOf(1, "%PDF"), r, end, record.Action{Token: "sign", By: "x", At: noon}); say.CodeOf(err) != say.Conflict {
		t.Errorf("%v", err)
	}
	if end, err = b.History(ctx); err != nil {
		t.Fatal(err)
	}
	if _, err := b.Sign(ctx, sheetOf(1, "%PDF"), r, end, record.Action{Token: "sign again", By: "x", At: noon}); err != nil {
		t.Error(err)
	}
}

// What became of a set-up, the newest first: its own and nobody else's, with who did it, what was taken back and who signed.
func TestHappenings(t *testing.T) {
	ctx := context.Background()
	b, _ := signedBook(t)
	keep(t, b, "a height", "S-1", record.Put("S-1", height(in1, 1842)))
	keep(t, b, "another", "S-1", record.Put("S-1", height(in1, 1836)))
	if _, err := b.Undo(ctx, "S-1", "Orla", noon, "back"); err != nil {
		t.Fatal(err)
	}
	keep(t, b, "elsewhere", "", record.Put("", record.Owner{ID: "O-9", Name: "somebody"}))
	r, err := b.Record(ctx, "S-1")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := b.Sign(ctx, sheetOf(1, "%PDF"), r, nil, record.Action{Token: "sign", By: "M. Ashlock", At: noon}); err != nil {
		t.Fatal(err)
	}
	all, err := b.Happenings(ctx, "S-1")
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, h := range all {
		line := string(h.How) + " " + h.By
		for _, ch := range h.Changes {
			line += " " + string(ch.Item.Kind)
		}
		got = append(got, line)
	}
	want := []string{
		"keep M. Ashlock setup signed", "undo Orla reading", "keep Tamsin reading", "keep Tamsin reading", "keep Tamsin valve", "keep Tamsin setup",
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
	undone := all[1]
	if undone.Undoes != all[2].Action || undone.Changes[0].Before.(record.Reading).Quantity.Read == undone.Changes[0].After.(record.Reading).Quantity.Read {
		t.Errorf("%+v", undone)
	}
	if none, err := b.Happenings(ctx, "S"); err != nil || len(none) != 0 {
		t.Errorf("of a set-up that is not there: %v, %v", none, err)
	}
}
