package shop_test

import (
	"context"
	"testing"

	"keeperbook/app/internal/screen/shop"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// A clearance that the shop sets reaches new set-ups; an empty field asks for nothing, and turned round it is refused.
func TestClearances(t *testing.T) {
	ctx := context.Background()
	desk := empty(t)
	_, p := pages(t, desk)
	p.Go(shop.Rules)
	if f := field(t, p, "in fit cup least"); f.Value != "" || f.Unit != "in" {
		t.Errorf("before anything is typed it shows %q %q", f.Value, f.Unit)
	}
	if fits := begun(t, desk, unit.In).Fits; fits != nil {
		t.Errorf("a set-up begins with %+v", fits)
	}
	put(t, p, "in fit cup least", "10")
	put(t, p, "in fit cup most", ".030")
	put(t, p, "mm fit seal least", "0,4")
	for typed, want := range map[string]string{"5": "record.clearance", "-5": "unit.negative", "600": "shop.rule-range", "tight": "unit.letters"} {
		if err := p.Put(ctx, "in fit cup most", typed); key(err) != want {
			t.Errorf("%s: %v, want %s", typed, err, want)
		}
	}
	if f := field(t, p, "in fit cup most"); f.Value != ".030" {
		t.Errorf("shows %q", f.Value)
	}
	fits := begun(t, desk, unit.In).Fits
	if fits == nil || fits.Cup == nil || fits.Cup.Least.Length() != 10*unit.Thou || fits.Cup.Most.Length() != 30*unit.Thou || fits.Seal != nil {
		t.Errorf("a set-up begins with %+v", fits)
	}
	if fits := begun(t, desk, unit.Mm).Fits; fits == nil || fits.Seal == nil || fits.Seal.Least.Length() != 4*unit.MM/10 || fits.Cup != nil {
		t.Errorf("in millimetres it begins with %+v", fits)
	}
	put(t, p, "in fit cup least", "")
	put(t, p, "in fit cup most", "")
	if fits := begun(t, desk, unit.In).Fits; fits != nil {
		t.Errorf("emptied, a set-up begins with %+v", fits)
	}
	put(t, p, "in lost-watch", "4")
	put(t, p, "in offsets", "-30 30")
	r := begun(t, desk, unit.In)
	if r.LoadLost.Watch != "4" || r.LoadLost.Replace != "10" || len(r.LockOffsets) != 2 || r.LockOffsets[0].Length() != -30*unit.Thou {
		t.Errorf("a set-up begins with %+v, %+v", r.LoadLost, r.LockOffsets)
	}
	usual := record.DefaultRules(unit.In)
	if usual.LoadLost.Watch != "5" {
		t.Error("common practice was changed")
	}
}
