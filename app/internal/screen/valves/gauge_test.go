package valves_test

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"keeperbook/app/internal/kit/table"
)

// sixteen cylinders with two intakes and two exhausts each: 64 valves.
func sixtyFour(t testing.TB) *rig {
	var cylinders []string
	for i := range 16 {
		cylinders = append(cylinders, fmt.Sprint(i+1))
	}
	head := headOf(cylinders...)
	head.Intakes, head.Exhausts = 2, 2
	return newRig(t, head)
}

// A gauge sends 200 readings as fast as it can, each a little different. One of them is refused, and for
// a while a dialog is open. Every reading is on the valve that was next when it came, or in the tray.
func TestGauge(t *testing.T) {
	r := sixtyFour(t)
	columns := []string{"base", "seal", "lift", "tip"}
	type sent struct {
		text          string
		label, column string // of the cell it belongs on; none where it belongs into the tray
	}
	var all []sent
	began := time.Now()
	send := func(text string) sent {
		s := r.State()
		it := sent{text: text, label: s.Rows[s.Cursor.Row].Label, column: s.Columns[s.Cursor.Column].Key}
		for _, c := range text {
			r.Rune(c)
			r.time.passes(2 * time.Millisecond)
		}
		r.Key(table.Enter, false)
		r.time.passes(5 * time.Millisecond)
		all = append(all, it)
		return it
	}
	r.on("1 in 1", "base")
	for n := range 200 {
		column := columns[n/64]
		if n%64 == 0 {
			r.on("1 in 1", column)
		}
		text := fmt.Sprintf("1.%03d", 800+n)
		if column != "base" {
			text = fmt.Sprintf(".%03d", 500+n)
		}
		switch {
		case n == 100: // refused: the gauge slipped into another display
			send("E-----")
			all = all[:len(all)-1] // it stands in its cell, and is dropped below
			if r.Held() == nil {
				t.Fatal("not refused")
			}
			send(text)
			all[len(all)-1].label = ""
		case n > 100 && n < 110: // still held
			send(text)
			all[len(all)-1].label = ""
		case n == 110:
			r.press(table.Escape)
			send(text)
		case n == 150: // a dialog opens while the reading comes in
			r.types(text[:2])
			r.SetBlocked(true)
			send(text[2:])
			all[len(all)-1] = sent{text: text}
		case n > 150 && n < 170:
			send(text)
			all[len(all)-1].label = ""
		case n == 170: // and is closed while another one does
			r.types(text[:3])
			r.SetBlocked(false)
			send(text[3:])
			all[len(all)-1] = sent{text: text}
		default:
			send(text)
		}
	}
	took := time.Since(began)
	tray := r.trayTexts()
	placed := 0
	for _, s := range all {
		if s.label == "" {
			if i := slices.Index(tray, s.text); i < 0 {
				t.Errorf("%s is lost", s.text)
			} else {
				tray = slices.Delete(tray, i, i+1)
			}
			continue
		}
		placed++
		r.wantCell(s.label, s.column, s.text)
	}
	if len(all) != 200 || len(tray) != 0 {
		t.Errorf("%d sent; the tray holds %q besides", len(all), tray)
	}
	if got := len(r.again().Setup.Readings); got != placed {
		t.Errorf("%d readings in the book, want %d", got, placed)
	}
	if r.Asked() != nil || r.Held() != nil {
		t.Error("something is open that a burst should not have opened")
	}
	t.Logf("%d readings on their valves, %d in the tray, in %v with the disk", placed, 200-placed, took.Round(time.Millisecond))
}

// full is a head of 64 valves with everything measured.
func full(t testing.TB) *rig {
	r := sixtyFour(t)
	r.coils("outer", "inner")
	block := ""
	for i := range 64 {
		block += fmt.Sprintf("1.8%02d\t.700\t.030+.015\t\t1.7%02d\t.600\t\t1.114 [at-the-spring]\t1.000 [at-the-spring]\n", i, i)
	}
	r.on("1 in 1", "base")
	r.Paste(block)
	if r.Asked() != nil {
		t.Fatalf("not pasted: %+v", r.Asked().Details)
	}
	return r
}

// BenchmarkKey is one key through the presenter and the state that is drawn after it, with 64 valves.
func BenchmarkKey(b *testing.B) {
	r := full(b)
	r.on("9 in 1", "tip")
	for name, key := range map[string]func(){
		"typed":     func() { r.Rune('1') },
		"arrow":     func() { r.press(table.Down) },
		"erased":    func() { r.press(table.Modify, table.Escape) },
		"previewed": func() { r.Rune('1'); r.Preview(r.Selected()) },
	} {
		b.Run(name, func(b *testing.B) {
			n := 0
			for b.Loop() {
				key()
				if s := r.State(); len(s.Rows) != 64 {
					b.Fatal("no table")
				}
				// A text of the length of a reading, then anew.
				if n++; n%5 == 0 {
					r.press(table.Escape)
					r.on("9 in 1", "tip")
				}
			}
			r.press(table.Escape)
		})
	}
}

// BenchmarkEnter is a reading kept: typed, read, written to the disk, worked out and laid out anew.
func BenchmarkEnter(b *testing.B) {
	r := full(b)
	r.on("9 in 1", "tip")
	for b.Loop() {
		r.types(".500*⏎")
		r.press(table.Undo)
		r.State()
	}
}
