package valves_test

import (
	"slices"
	"testing"
	"time"

	"keeperbook/app/internal/kit/table"
)

func TestUnkept(t *testing.T) {
	r := newRig(t, four())
	want := func(lines ...string) {
		t.Helper()
		var got []string
		for _, l := range r.Unkept() {
			got = append(got, r.out.words.Line(l))
		}
		if !slices.Equal(got, lines) {
			t.Errorf("unkept are %q, want %q", got, lines)
		}
	}
	want()
	r.on("1 in", "base")
	r.types("18")
	want(`1 in, base height: "18" is typed and not entered.`)
	r.types("42⏎")
	want()
	r.on("1 in", "base")
	r.press(table.Modify)
	want() // nothing was changed yet
	r.press(table.Escape)
	r.on("1 ex", "base")
	r.types("1.8x⏎")
	r.time.passes(2 * time.Second)
	r.types("1.836⏎")
	want(`1 ex, base height: "1.8x" is typed and not entered.`, `"1.836" lies in the tray.`)
	r.press(table.Escape)
	r.Drop(0)
	want()
	back := r.moveAway()
	r.on("1 ex", "base")
	r.types("1836⏎")
	if len(r.Unkept()) != 1 {
		t.Errorf("what the book did not take: %v", r.Unkept())
	}
	back()
	r.Save()
	want()
}
