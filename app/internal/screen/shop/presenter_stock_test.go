package shop_test

import (
	"context"
	"strings"
	"testing"

	"keeperbook/app/internal/screen/shop"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// The sizes of common practice are offered, blank until they are counted; counts go up and down and never
// below nought.
func TestShimsOnTheShelf(t *testing.T) {
	ctx := context.Background()
	counter, p := pages(t, empty(t))
	p.Go(shop.Shims)
	if l := p.Lists()[0]; len(l.Lines) != 0 || !strings.Contains(l.Empty, "Press Enter on New shim") || l.Deed == "" {
		t.Errorf("the empty shelf is %+v", l)
	}
	if err := p.AddUsual(ctx); err != nil {
		t.Fatal(err)
	}
	l := p.Lists()[0]
	if got := texts(l)[1:]; strings.Join(got, " ") != ".010 in .015 in .020 in .030 in .045 in .060 in" || l.Deed != "" {
		t.Fatalf("on the shelf are %q, and offered is %q", got, l.Deed)
	}
	p.Choose(l.Lines[3].Item)
	if f := field(t, p, "count"); f.Value != "" || l.Lines[3].More != "not counted, under the locator" {
		t.Errorf("never counted it shows %q, %q", f.Value, l.Lines[3].More)
	}
	for _, c := range []struct{ field, text, count string }{
		{"count", "12", "12"}, {"move", "+8", "20"}, {"move", "-5", "15"}, {"count", "0", "0"}, {"move", "3", "3"},
	} {
		put(t, p, c.field, c.text)
		if f := field(t, p, "count"); f.Value != c.count {
			t.Errorf("%s %s: %q, want %q", c.field, c.text, f.Value, c.count)
		}
	}
	if err := p.Put(ctx, "move", "-4"); say.CodeOf(err) != say.Conflict {
		t.Errorf("four of three: %v", err)
	}
	for _, c := range []struct{ field, text, key string }{
		{"count", "-1", "stock.count"}, {"count", "", "stock.count"}, {"move", "0", "stock.move"},
		{"thickness", "", "stock.no-thickness"}, {"gauge", "G-1", "stock.measured"},
	} {
		if err := p.Put(ctx, c.field, c.text); key(err) != c.key {
			t.Errorf("%s %q: %v, want %s", c.field, c.text, err, c.key)
		}
	}
	put(t, p, "measured", ".0305")
	put(t, p, "under", "outer")
	put(t, p, "hardened", "yes")
	put(t, p, "outside", "1.550")
	put(t, p, "inside", ".570")
	s := counter.Shims()[3]
	if s.Count != 3 || s.Thick().Length() != 305*unit.Thou/10 || s.Under != record.UnderOuter || !s.Hardened {
		t.Errorf("kept is %+v", s)
	}
	if more := p.Lists()[0].Lines[3].More; more != "3 there, under the outer coil, measured .0305 in, hardened" &&
		more != "3 there, under the outer coil, measured .0305, hardened" {
		t.Errorf("in the list: %q", more)
	}
	if err := p.Discard(ctx); err != nil || len(p.Lists()[0].Lines) != 5 {
		t.Errorf("taken away: %v", err)
	}
	if err := p.Add(ctx, record.StockShimItem, "25"); err != nil || p.Title() != ".025 in" {
		t.Errorf("added: %q, %v", p.Title(), err)
	}
}
