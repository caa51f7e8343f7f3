//go:build cgo && linux

package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/jezek/xgb/xproto"

	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// What a person waits for, in a real window drawn by the processor. The figures are printed and not
// asserted, because they are the machine's as much as the program's.
func TestSpeed(t *testing.T) {
	if testing.Short() {
		t.Skip("figures of a short run say nothing")
	}
	t.Run("key to pixel", keyToPixel)
	t.Run("start with 1,000 heads", startWithThousand)
}

// keyToPixel measures 200 keys in a cell of a head of 64 valves, from the key to the first pixel that changes.
func keyToPixel(t *testing.T) {
	const keys, backspace = 200, xproto.Keysym(0xff08)
	d := newDesktop(t)
	book := filepath.Join(d.home, "bench.keeperbook")
	bigHead(t, book, "64-1")
	p := d.start(book)
	p.listen()
	h := &hand{program: p, eye: d.look()}
	h.eye.calm()
	h.put("64-1")
	h.key("alt+4")

	before := h.eye.see(all)
	h.eye.press('1')
	h.eye.changed(all, before)
	h.eye.calm()
	cell := where(before, h.eye.see(all))
	if cell.Empty() || cell.Dx() > 200 || cell.Dy() > 60 {
		cell.Max.X, cell.Max.Y = min(cell.Max.X, cell.Min.X+200), min(cell.Max.Y, cell.Min.Y+60)
	}
	var took []time.Duration
	for i := range keys {
		key := xproto.Keysym('8')
		if i%2 == 1 {
			key = backspace
		}
		before := h.eye.see(cell)
		h.eye.press(key)
		pause, ok := h.eye.changed(cell, before)
		if !ok {
			t.Fatalf("key %d changes nothing", i)
		}
		took = append(took, pause)
		time.Sleep(40 * time.Millisecond) // the next key finds the window at rest, as a person's does
	}
	slices.Sort(took)
	t.Logf("%d keys: median %.1f ms, nine of ten within %.1f ms, slowest %.1f ms",
		keys, ms(took[keys/2]), ms(took[keys*9/10]), ms(took[keys-1]))
}

// startWithThousand measures the start with a book of 1,000 heads to the first whole frame, and what the
// window takes of a processor while nobody does anything.
func startWithThousand(t *testing.T) {
	d := newDesktop(t)
	book := filepath.Join(d.home, "thousand.keeperbook")
	ctx := context.Background()
	desk, err := task.MakeBook(ctx, book, "M. Tester", time.Now)
	if err != nil {
		t.Fatal(err)
	}
	for i := range 1000 {
		_, err := desk.Begin(ctx, task.NewHead{
			Owner: fmt.Sprintf("owner %d", i%40), Tag: fmt.Sprintf("T-%d", i), Cylinders: task.Cylinders("4"), Intakes: 1, Exhausts: 1,
			Kind: record.AsFound, Units: record.Units{Length: unit.In, Load: unit.Lbf},
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := desk.Close(); err != nil {
		t.Fatal(err)
	}
	var took []time.Duration
	var p *program
	for range 3 {
		if p != nil {
			p.stop()
		}
		begun := time.Now()
		p = d.start(book)
		took = append(took, time.Since(begun))
	}
	eye := d.look()
	eye.calm()
	const idle = 5 * time.Second
	spent := p.processor()
	time.Sleep(idle)
	spent = p.processor() - spent
	slices.Sort(took)
	width, height := p.size()
	t.Logf("start to the first frame in a window of %d × %d: %.2f s (median of three); doing nothing takes %.1f %% of a processor",
		width, height, took[1].Seconds(), 100*spent.Seconds()/idle.Seconds())
	p.stop()
}

// processor is the time that the program has had of the processor so far.
func (p *program) processor() time.Duration {
	p.t.Helper()
	data, err := os.ReadFile(fmt.Sprintf("/proc/%d/stat", p.cmd.Process.Pid))
	if err != nil {
		p.t.Fatal(err)
	}
	// Behind the name in brackets the 12th and 13th field are user and system time, in hundredths of a second.
	fields := strings.Fields(string(data[strings.LastIndexByte(string(data), ')')+1:]))
	var user, system int
	fmt.Sscan(fields[11], &user)
	fmt.Sscan(fields[12], &system)
	return time.Duration(user+system) * 10 * time.Millisecond
}

func ms(d time.Duration) float64 { return float64(d) / float64(time.Millisecond) }
