package valves_test

import (
	"slices"
	"strings"
	"testing"

	"keeperbook/app/internal/kit/table"
	"keeperbook/app/internal/signer"
	"keeperbook/app/internal/task"
	"keeperbook/model/record"
)

// A signed set-up takes no reading any more: what arrives lies in the tray, for the set-up that follows.
func TestSignedTakesNoReading(t *testing.T) {
	head := four()
	head.Kind = record.AsFound
	r := newRig(t, head)
	r.coils("outer")
	r.fill("1 in", "1842", "30", ".600", "1.114")
	ring := signer.Ring{Folder: t.TempDir(), Rounds: 1, Clock: r.time.clock()}
	who, err := ring.Make(signer.New{Name: "J. Peverel", Secret: "grinding paste", Again: "grinding paste"})
	r.must(err)
	key, err := ring.Unlock(who.ID, "grinding paste")
	r.must(err)
	open, err := r.bench.Unsettled()
	r.must(err)
	s := task.Signing{Paper: task.A4}
	for _, u := range open {
		s.Reasons = append(s.Reasons, task.Reason{Of: u, Text: "as it came in"})
	}
	r.must(r.bench.Sign(r.ctx, key, s))
	r.Refresh()
	r.on("1 ex", "base")
	r.types("1.836⏎")
	if got := r.trayTexts(); !slices.Equal(got, []string{"1.836"}) || !slices.ContainsFunc(r.out.told, func(s string) bool { return strings.Contains(s, "signed by J. Peverel") }) {
		t.Errorf("the tray holds %q, told %q", got, r.out.told)
	}
	r.wantCell("1 ex", "base", "")
	r.on("1 in", "base")
	for _, k := range []table.Key{table.Modify, table.Delete, table.Undo} {
		r.Key(k, false)
	}
	r.wantCell("1 in", "base", "1.842")
	if r.State().Edit != nil {
		t.Error("something is being typed")
	}
}
