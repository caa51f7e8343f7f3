package shop_test

import (
	"testing"

	"fyne.io/fyne/v2"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/screen/shop"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// With the keyboard alone: a rule is typed, Enter goes on to the next rule and not to the button that would
// take back what was typed; the button gives it back.
func TestRuleByKeyboard(t *testing.T) {
	if testing.Short() {
		t.Skip("one goroutine: once a run is enough")
	}
	desk, h, v := shown(t)
	v.Show(shop.Rules)
	v.Focus()
	h.keys(t, fyne.KeyDown, fyne.KeyDown) // past how it is decided to the first rule in inches
	h.types("4")
	h.keys(t, fyne.KeyReturn)
	h.types("60")
	h.keys(t, fyne.KeyReturn)
	rules := counter(t, desk).Rules(unit.In)
	if rules.Lengths[record.RuleAgree].Length() != 4*unit.Thou || rules.Lengths[record.RuleSeal].Length() != 60*unit.Thou {
		t.Fatalf("kept %+v", rules)
	}
	// What is refused is not kept; Esc gives the old value back.
	h.types("nothing")
	h.keys(t, fyne.KeyReturn)
	if lines := v.Unkept(); len(lines) != 1 || lines[0].Args[0] != "nothing" {
		t.Errorf("not kept are %v", lines)
	}
	h.keys(t, fyne.KeyEscape, fyne.KeyUp) // to the button beside the second rule
	if lines := v.Unkept(); len(lines) > 0 {
		t.Errorf("given up, there are still %v", lines)
	}
	if _, ok := h.win.Canvas().Focused().(*kit.Button); !ok {
		t.Fatalf("above the third rule the keyboard is on %T", h.win.Canvas().Focused())
	}
	h.keys(t, fyne.KeyReturn)
	rules = counter(t, desk).Rules(unit.In)
	if rules.Own(record.RuleSeal) || !rules.Own(record.RuleAgree) || h.failed != nil {
		t.Errorf("given back, the rules are %+v; failed with %v", rules, h.failed)
	}
	if _, ok := h.win.Canvas().Focused().(*kit.Button); ok {
		t.Error("the keyboard is on a button that is gone")
	}
}

// Sizes are added one after the other, taken off, and given back to common practice.
func TestSizesByKeyboard(t *testing.T) {
	if testing.Short() {
		t.Skip("one goroutine: once a run is enough")
	}
	desk, h, v := shown(t)
	sizes := func() []unit.Quantity { return counter(t, desk).Rules(unit.In).Rules().Sizes }
	usual := record.DefaultRules(unit.In).Sizes
	v.Show(shop.Shims)
	v.Focus()
	for range 9 { // past both lists to the field for another size
		if _, ok := h.win.Canvas().Focused().(*kit.Rows); !ok {
			break
		}
		h.win.Canvas().FocusNext()
	}
	for _, size := range []string{"25", "0.75 mm"} {
		h.types(size)
		h.keys(t, fyne.KeyReturn)
	}
	if got := sizes(); len(got) != len(usual)+2 {
		t.Fatalf("%v after two sizes", got)
	}
	h.types("25")
	h.keys(t, fyne.KeyReturn)
	if got := sizes(); len(got) != len(usual)+2 {
		t.Errorf("a size that is there was taken twice: %v", got)
	}

	v.Focus()
	h.keys(t, fyne.KeyHome, fyne.KeyReturn, fyne.KeyReturn) // open it, and the button beside it
	if len(sizes()) != len(usual)+2 {
		t.Fatal("a size was taken off without a question")
	}
	h.win.Canvas().Focused().TypedRune('r')
	if got := sizes(); len(got) != len(usual)+1 || got[0].Length() != 15*unit.Thou || len(h.told) != 1 || h.failed != nil {
		t.Errorf("taken off: %v; told %q, failed %v", got, h.told, h.failed)
	}
	// The list can go back to common practice, after a question too.
	h.keys(t, fyne.KeyEnd, fyne.KeyDown, fyne.KeyReturn, fyne.KeyEscape)
	if len(counter(t, desk).Rules(unit.In).Sizes) == 0 {
		t.Error("Esc gave the list back")
	}
	h.keys(t, fyne.KeyReturn)
	h.win.Canvas().Focused().TypedRune('b')
	if got := counter(t, desk).Rules(unit.In).Sizes; got != nil || h.failed != nil {
		t.Errorf("given back, the shop's own list is %v; failed %v", got, h.failed)
	}
}
