package task_test

import (
	"context"
	"testing"

	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

func TestReadRatio(t *testing.T) {
	for text, want := range map[string]string{
		"1.6": "1.6", "1,6": "1.6", "1": "1", " 1.75 ": "1.75", "1.5:1": "1.5", ".9": ".9",
		"": "", "0": "", "0.0": "", "one": "", "-1.6": "", "160.0": "", "1.6/1": "", "1.60001": "",
	} {
		got, err := task.ReadRatio(text)
		if got != want || (err == nil) != (want != "") {
			t.Errorf("%q is %q, %v; want %q", text, got, err, want)
		}
	}
}

func emptyBench(t *testing.T, units record.Units) *task.Bench {
	t.Helper()
	ctx, d := context.Background(), emptyDesk(t)
	head := newHead
	head.Units = units
	setup, err := d.Begin(ctx, head)
	if err != nil {
		t.Fatal(err)
	}
	b, err := d.OpenBench(ctx, setup)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// A pressure without a unit is in that of the set-up, and "none" is an answer too.
func TestReadBoost(t *testing.T) {
	for _, tt := range []struct {
		units record.Units
		text  string
		unit  unit.Symbol
		read  string
	}{
		{record.Units{Length: unit.In, Load: unit.Lbf}, "15", unit.Psi, "15"},
		{record.Units{Length: unit.In, Load: unit.Lbf}, "1.034 bar", unit.Bar, "1.034"},
		{record.Units{Length: unit.Mm, Load: unit.N}, "103.4", unit.KPa, "103.4"},
		{record.Units{Length: unit.Mm, Load: unit.N}, "None", unit.KPa, "0"},
	} {
		q, err := emptyBench(t, tt.units).ReadBoost(tt.text)
		if err != nil || q.Unit != tt.unit || q.Read != tt.read || q.Typed != tt.text {
			t.Errorf("%q is %+v, %v", tt.text, q, err)
		}
	}
	b := emptyBench(t, record.Units{Length: unit.In, Load: unit.Lbf})
	if q, err := b.ReadBoost(" "); q != nil || err != nil {
		t.Errorf("nothing typed is %v, %v", q, err)
	}
	if _, err := b.ReadBoost("a lot"); say.CodeOf(err) != say.Invalid {
		t.Errorf("a lot: %v", err)
	}
}

// Steps shown are steps typed: the one reads back as the other.
func TestStepsTyped(t *testing.T) {
	b := emptyBench(t, record.Units{Length: unit.In, Load: unit.Lbf})
	for text, want := range map[string]string{
		".095+.060": ".095+.060", "95": ".095", "0+95": ".000+.095", "none": "", "2.41 mm": ".0949",
		".060+-.020": ".060+−.020",
	} {
		steps, err := b.ReadSteps(unit.Signed, text)
		if err != nil {
			t.Errorf("%s: %v", text, err)
			continue
		}
		shown := b.StepsTyped(steps)
		if shown != want {
			t.Errorf("%s shows as %s, want %s", text, shown, want)
		}
		again, err := b.ReadSteps(unit.Signed, shown)
		if err != nil || b.StepsTyped(again) != shown {
			t.Errorf("%s reads back as %v, %v", shown, again, err)
		}
	}
}

// A part that no set-up names any more is not in the record, one of the book that is named now is.
func TestFit(t *testing.T) {
	ctx := context.Background()
	b := emptyBench(t, record.Units{Length: unit.In, Load: unit.Lbf})
	if err := b.Fit(ctx, record.Locks{ID: "a", Name: "a"}, record.Locks{ID: "b", Name: "b"}, record.Package{Role: record.Intake, Locks: "a"}); err != nil {
		t.Fatal(err)
	}
	if err := b.Fit(ctx, record.Package{Role: record.Intake, Locks: "b"}); err != nil {
		t.Fatal(err)
	}
	if l := b.Record().Parts.Locks; len(l) != 1 || l[0].ID != "b" {
		t.Errorf("the record holds %+v", l)
	}
	shelf, err := b.Shelf(ctx)
	if err != nil || len(shelf.Parts.Locks) != 2 {
		t.Errorf("the book holds %+v, %v", shelf.Parts.Locks, err)
	}
}
