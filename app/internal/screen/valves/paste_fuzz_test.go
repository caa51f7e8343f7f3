package valves_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"keeperbook/app/internal/kit/table"
)

// Whatever is pasted, and whatever is answered to what the table asks then: the table goes on, the book holds what the table
// shows, and a block is kept whole or not at all.
func FuzzPaste(f *testing.F) {
	for _, text := range []string{
		"1.842\t.620\n1.840\t.618", "1842", "1.842 1.843*", "\"", "1.060 at-the-spring", "1.155 lid .095\n=1+1", ".030+.015", "1,842\r\n\r\n1,84",
		"\t\t\t\n", "none", "1.842\x00", "１.８４２", "−.030", "1e9", "\"1.8\n42\"\t\"",
	} {
		f.Add(text, uint8(0), uint8(0))
		f.Add(text, uint8(3), uint8(1))
	}
	columns := []string{"base", "seal", "shims", "check", "lift", "bind-1", "tip", "margin"}
	shop := newRig(f, four())
	f.Fuzz(func(t *testing.T, text string, column, choice uint8) {
		r := rigOn(t, shop.desk, shop.time, four()) // another head of the same book, which is quicker than another book
		r.on("1 in", columns[int(column)%len(columns)])
		before := len(r.bench.Record().Setup.Readings)
		r.Paste(text)
		for n := 0; r.Asked() != nil && n < 8; n++ {
			r.Answer(int(choice) % max(1, len(r.Asked().Choices)))
		}
		if d := cmp.Diff(r.bench.Record(), r.again()); d != "" {
			t.Errorf("the book holds something else than the table: %s", d)
		}
		if len(r.bench.Record().Setup.Readings) > before {
			r.press(table.Undo)
			if n := len(r.bench.Record().Setup.Readings); n != before {
				t.Errorf("one undo leaves %d readings, there were %d", n, before)
			}
		}
	})
}
