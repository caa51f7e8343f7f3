package store

import (
	"context"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"keeperbook/model/record"
	"keeperbook/model/say"
)

var in1 = record.Position{Cylinder: "1", Role: record.Intake, N: 1}

func TestKeepOnceForAToken(t *testing.T) {
	ctx := context.Background()
	b := newBook(t)
	keepRecord(t, b, small("1"))
	first := keep(t, b, "a", "S-1", record.Put("S-1", height(in1, 1842)))
	if first.Repeated || first.Changes != 1 || first.Action == 0 {
		t.Fatalf("%+v", first)
	}
	keep(t, b, "b", "S-1", record.Put("S-1", height(in1, 1836)))
	again := keep(t, b, "a", "S-1", record.Put("S-1", height(in1, 1842)))
	if !again.Repeated || again.Action != first.Action || again.Changes != 1 {
		t.Fatalf("%+v", again)
	}
	r, err := b.Record(ctx, "S-1")
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff([]record.Reading{height(in1, 1836)}, r.Setup.Readings); d != "" {
		t.Error(d)
	}
	// The same token for another set-up, or for an undo, is no repeat.
	_, err = b.Keep(ctx, record.Action{Token: "a", Setup: "S-2", At: noon})
	refused(t, err, say.Conflict, "already used")
	_, err = b.Undo(ctx, "S-1", "Tamsin", noon, "a")
	refused(t, err, say.Conflict, "already used")
	_, err = b.Keep(ctx, record.Action{Setup: "S-1", At: noon})
	refused(t, err, say.Internal)
}

func TestNothingChangedWritesNoEvent(t *testing.T) {
	b := newBook(t)
	keepRecord(t, b, rich())
	before := b.chainEnd(t)
	k := keep(t, b, "same", "S-1", editsOf(rich())...)
	if k.Changes != 0 || k.Action != 0 {
		t.Errorf("%+v", k)
	}
	keep(t, b, "absent", "S-1", record.Remove("S-1", height(in1, 1)), record.Remove("", record.Owner{ID: "nobody"}))
	if after := b.chainEnd(t); after.seq != before.seq+1 { // the height that was there
		t.Errorf("%d events more", after.seq-before.seq)
	}
}

func (b *Book) chainEnd(t *testing.T) (end chain) {
	t.Helper()
	err := b.read(context.Background(), func(src source) (err error) {
		end, err = endOfChain(context.Background(), src)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return end
}

// What is refused leaves nothing of the whole action behind.
func TestRefusedEdits(t *testing.T) {
	ctx := context.Background()
	b := newBook(t)
	keepRecord(t, b, rich())
	closed := small("2")
	closed.Setup.State = record.Closed
	keepRecord(t, b, closed)
	signs := height(in1, 1700)
	signs.N, signs.Over = 7, &record.Over{Locks: "<&>"}
	keep(t, b, "signs", "S-1", record.Put("", record.Locks{ID: "<&>", Name: "odd"}), record.Put("S-1", signs))
	again := height(in1, 1701)
	again.N = 7
	reopened := closed.Setup
	reopened.State = record.Open
	broken := height(in1, 1842)
	broken.Note = "half a sign \xff"
	for _, c := range []struct {
		name  string
		edit  record.Edit
		code  say.Code
		words string
	}{
		{"reading in a closed set-up", record.Put("S-2", height(in1, 1842)), say.ReadOnly, "Set-up S-2 is closed"},
		{"reopening", record.Put("", reopened), say.ReadOnly, "Begin a new set-up"},
		{"removing a closed set-up", record.Remove("", closed.Setup), say.ReadOnly, "S-2 is closed"},
		{"reading without set-up", record.Put("S-9", height(in1, 1842)), say.NotFound, "no set-up S-9"},
		{"set-up without head", record.Put("", record.Setup{ID: "S-3", Head: "H-9"}), say.NotFound, "no head H-9"},
		{"head without engine", record.Put("", record.Head{ID: "H-3", Engine: "E-9"}), say.NotFound, "no engine E-9"},
		{"engine without its owner", record.Put("", record.Engine{ID: "E-3", Owner: "O-9"}), say.NotFound, "no owner O-9"},
		{"owner with engines", record.Remove("", record.Owner{ID: "O-1"}), say.Conflict, "belong to it"},
		{"head with set-ups", record.Remove("", record.Head{ID: "H-1"}), say.Conflict, "belong to it"},
		{"set-up with entries", record.Remove("", record.Setup{ID: "S-1"}), say.Conflict, "belong to it"},
		{"spring of a package", record.Remove("", record.Spring{ID: "SP-1"}), say.Conflict, "SP-1 is used"},
		{"locks under a reading", record.Remove("", record.Locks{ID: "LK-2"}), say.Conflict, "LK-2 is used"},
		{"retainer of an assembly", record.Remove("", record.Retainer{ID: "RT-3"}), say.Conflict, "RT-3 is used"},
		{"gauge of a reading", record.Remove("", record.Gauge{ID: "G-2"}), say.Conflict, "G-2 is used"},
		{"locks with signs under a reading", record.Remove("", record.Locks{ID: "<&>"}), say.Conflict, "<&> is used"},
		{"fresh where something is", record.Edit{Item: record.ItemOf("S-1", signs), Noun: again, Fresh: true}, say.Conflict, "not written over"},
		{"no text", record.Put("S-1", broken), say.Invalid, "UTF-8"},
		{"not the item it names", record.Edit{Item: record.Item{Kind: record.OwnerItem, Key: "O-1"}, Noun: record.Owner{ID: "O-2"}}, say.Internal, ""},
		{"no kind", record.Edit{Item: record.Item{Kind: "camshaft", Key: "1"}}, say.Internal, ""},
		{"no key of a reading", record.Edit{Item: record.Item{Kind: record.ReadingItem, Setup: "S-1", Key: "1"}}, say.Internal, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			before := b.chainEnd(t)
			first := record.Put("", record.Owner{ID: "O-new", Name: "left behind"})
			_, err := b.Keep(ctx, record.Action{Token: c.name, By: "Tamsin", At: noon, Edits: []record.Edit{first, c.edit}})
			refused(t, err, c.code, c.words)
			if after := b.chainEnd(t); after != before {
				t.Error("something was kept")
			}
		})
	}
	sound(t, b)
	// A part that nothing names may go.
	keep(t, b, "unused", "", record.Put("", record.Seal{ID: "SL-8", Sits: record.OnGuide}))
	if k := keep(t, b, "gone", "", record.Remove("", record.Seal{ID: "SL-8"})); k.Changes != 1 {
		t.Errorf("%+v", k)
	}
}

// The character that stands for broken bytes may be typed, and so may its escape.
func TestReplacementCharacterMayBeTyped(t *testing.T) {
	for text, bad := range map[string]bool{"\ufffd": false, `\ufffd`: false, `\\ufffd`: false, "\xff": true, `\` + "\xff": true} {
		_, err := encode(record.Owner{ID: "1", Name: text})
		if (err != nil) != bad {
			t.Errorf("%q: %v", text, err)
		}
	}
}

func TestHistoryIsNeverRewritten(t *testing.T) {
	b := newBook(t)
	keepRecord(t, b, small("1"))
	for _, statement := range []string{`UPDATE event SET by = 'somebody else' WHERE seq = 2`, `DELETE FROM event WHERE seq = 2`} {
		err := b.desk.exec(context.Background(), statement)
		if err == nil || !strings.Contains(err.Error(), "history is never") {
			t.Errorf("%s: %v", statement, err)
		}
	}
}

// An event names who, when, what changed, and what it was before and after.
func TestEventSaysWhatChanged(t *testing.T) {
	ctx := context.Background()
	b := newBook(t)
	keepRecord(t, b, small("1"))
	keep(t, b, "a", "S-1", record.Put("S-1", height(in1, 1842)))
	later := height(in1, 1836)
	later.By = "Piran"
	keep(t, b, "b", "S-1", record.Put("S-1", later))
	step, err := b.PeekUndo(ctx, "S-1")
	if err != nil {
		t.Fatal(err)
	}
	want := &Step{Action: step.Action, By: "Tamsin", At: noon, Changes: []Change{{
		Item: record.ItemOf("S-1", later), Fields: []string{"by", "quantity"}, Before: later, After: height(in1, 1842),
	}}}
	if d := cmp.Diff(want, step); d != "" {
		t.Error(d)
	}
}

func TestKeepAfterClose(t *testing.T) {
	b := newBook(t)
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	if _, err := b.Keep(context.Background(), entry(1)); say.CodeOf(err) != say.Internal {
		t.Error(err)
	}
}
