package shop_test

import (
	"context"
	"strings"
	"testing"

	"keeperbook/app/internal/screen/shop"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// allNotes is everything that is said beside the fields.
func allNotes(p *shop.Presenter) string {
	var all []string
	for _, s := range p.Sections() {
		all = append(all, s.Notes...)
	}
	return strings.Join(all, "\n")
}

// The spring of Shigley's Mechanical Engineering Design, 9th edition, example 10-1, typed field by field: 4.13 lbf/in
// (from memory; 4.1 on the unrounded mean diameter).
func TestWoundIsTyped(t *testing.T) {
	counter, p := pages(t, demonstration(t))
	if err := p.Add(context.Background(), record.SpringItem, "handbook"); err != nil {
		t.Fatal(err)
	}
	if got := allNotes(p); !strings.Contains(got, "It is an estimate") {
		t.Errorf("before anything is typed it says %q", got)
	}
	for _, f := range [][2]string{
		{"outside 1", ".4375"}, {"section 1", "round"}, {"wire 1", "37"}, {"steel 1", "music"}, {"modulus 1", "11.85"}, {"modulus from 1", "handbook"},
		{"surface 1", "unpeened"}, {"total 1", "12,5"}, {"ends 1", "squared"}, {"mass 1", "3.3"}, {"acts 1", "carries"}, {"form 1", "cylindrical"},
	} {
		put(t, p, f[0], f[1])
	}
	if got := allNotes(p); !strings.Contains(got, "Still needed for rate, solid height and stress: the free height.") {
		t.Errorf("it says %q", got)
	}
	put(t, p, "free 1", "2.06")
	c := counter.SpringOf(p.Chosen().Key).Coils[0]
	if c.Total != "12.5" || c.Wire.Diameter.Length() != 37*unit.Thou || c.Wire.G.Unit != unit.Mpsi || c.Ends != record.Squared || c.Mass.Unit != unit.Gram {
		t.Errorf("kept is %+v, wire %+v", c, c.Wire)
	}
	if got := allNotes(p); !strings.Contains(got, "Rate 4.1 lbf/in") {
		t.Errorf("it says %q", got)
	}
	// A cone asks for its small end; taken back, what was said of that stays in sight.
	put(t, p, "form 1", "beehive")
	put(t, p, "small 1", ".400")
	put(t, p, "conical 1", "2")
	put(t, p, "form 1", "cylindrical")
	if field(t, p, "small 1").Value == "" || field(t, p, "conical 1").Value == "" {
		t.Error("the small end is out of sight and still in the book")
	}
	for name, typed := range map[string]string{"total 1": "many", "wire 1": "900", "modulus 1": "soft", "small 1": ".500"} {
		before := counter.SpringOf(p.Chosen().Key)
		if err := p.Put(context.Background(), name, typed); err == nil {
			t.Errorf("%s: %q was taken", name, typed)
		}
		if after := counter.SpringOf(p.Chosen().Key); after.Coils[0].Total != before.Coils[0].Total || *after.Coils[0].Wire != *before.Coils[0].Wire {
			t.Errorf("%s: refused, and yet changed", name)
		}
	}
	// Emptied, nothing of the wire is left.
	for _, name := range []string{"wire 1", "modulus 1", "modulus from 1", "section 1", "steel 1", "surface 1"} {
		put(t, p, name, "")
	}
	if w := counter.SpringOf(p.Chosen().Key).Coils[0].Wire; w != nil {
		t.Errorf("emptied, the wire is %+v", w)
	}
}

// A nest tested as one, of the type and of a single spring, on its parts.
func TestTestedAsOne(t *testing.T) {
	ctx := context.Background()
	counter, p := pages(t, demonstration(t))
	if err := p.Add(ctx, record.SpringItem, "nest 3"); err != nil {
		t.Fatal(err)
	}
	for _, s := range p.Sections() {
		if s.Title == "Tested as one spring" {
			t.Error("a single coil is asked for as a nest")
		}
	}
	put(t, p, "coils", "2")
	put(t, p, "coil 0", "1.060")
	put(t, p, "loads 0", "1.900 140; 1.300 410")
	retainer, locator := counter.Parts().Retainers[0], counter.Parts().Locators[0]
	put(t, p, "one retainer", retainer.ID)
	put(t, p, "one locator", locator.ID)
	kind := counter.SpringOf(p.Chosen().Key)
	if a := kind.Assembly; a == nil || a.Bind.Reading.Length() != 1060*unit.Thou || len(a.Loads.Points) != 2 || a.Retainer != retainer.ID || a.Locator != locator.ID {
		t.Fatalf("kept is %+v", a)
	}
	if err := p.Add(ctx, record.PieceItem, "N3-1"); err != nil {
		t.Fatal(err)
	}
	put(t, p, "free", "2.305")
	put(t, p, "loads 0", "1.900 138; 1.300 405")
	put(t, p, "one retainer", retainer.ID)
	n := counter.Parts().Pieces[len(counter.Parts().Pieces)-1]
	for _, piece := range counter.Parts().Pieces {
		if piece.Tag == "N3-1" {
			n = piece
		}
	}
	if n.Free.Length() != 2305*unit.Thou || len(n.Loads) != 1 || n.Loads[0].Coil != 0 || n.Loads[0].Retainer != retainer.ID || n.Loads[0].Locator != "" {
		t.Errorf("kept is %+v", n)
	}
	// With nothing read of it as one, the parts go too.
	open(t, p, "nest 3")
	put(t, p, "coil 0", "")
	put(t, p, "loads 0", "")
	if a := counter.SpringOf(kind.ID).Assembly; a != nil {
		t.Errorf("emptied, it is %+v", a)
	}
}
