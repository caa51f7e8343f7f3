package valves_test

import (
	"flag"
	"fmt"
	"maps"
	"math/rand/v2"
	"reflect"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"keeperbook/app/internal/kit/table"
	"keeperbook/model/record"
)

// plain is what a set-up should be, kept in the plainest way: texts in places. It knows nothing of the
// program but what a person sees of it.
type plain struct {
	readings map[spot][]string // that count, in order
	stacks   map[string]string // shims by valve; absent where nothing was said
	cuts     map[string]int    // seats cut, by valve
	shared   string            // the valve that the intakes' lift is taken from
}

type spot struct{ label, column string }

func (p plain) clone() plain {
	c := plain{map[spot][]string{}, maps.Clone(p.stacks), maps.Clone(p.cuts), p.shared}
	for k, v := range p.readings {
		c.readings[k] = slices.Clone(v)
	}
	return c
}

// soak drives a table and the plain model side by side.
type soak struct {
	*rig
	rnd        *rand.Rand
	labels     []string
	is         plain
	done       []plain // states that undo goes back to
	undone     []plain // states that redo goes on to
	acted      map[string]int
	stackTexts []string
}

var measured = []string{"base", "seal", "check", "lift", "tip", "bind-1"}

func newSoak(r *rig, rnd *rand.Rand, acted map[string]int) *soak {
	s := &soak{rig: r, rnd: rnd, acted: acted, stackTexts: []string{"none", ".015", ".030", ".030+.015"}}
	s.is = plain{map[spot][]string{}, map[string]string{}, map[string]int{}, ""}
	for _, row := range r.State().Rows {
		s.labels = append(s.labels, row.Label)
	}
	return s
}

// change makes the model what it should be now; what changes nothing leaves nothing to undo.
func (s *soak) change(do func(p *plain)) {
	before := s.is.clone()
	do(&s.is)
	if !reflect.DeepEqual(before, s.is) {
		s.done, s.undone = append(s.done, before), nil
	}
}

func (s *soak) any() spot {
	return spot{s.labels[s.rnd.IntN(len(s.labels))], measured[s.rnd.IntN(len(measured))]}
}

// text is a reading that fits a column: no lift is longer than any spring.
func (s *soak) text(column string) string {
	switch column {
	case "base", "check":
		return fmt.Sprintf("1.%03d", 750+s.rnd.IntN(100))
	case "bind-1":
		return fmt.Sprintf("1.%03d", 50+s.rnd.IntN(50))
	}
	return fmt.Sprintf(".%03d", 500+s.rnd.IntN(100))
}

func (s *soak) typed(c spot, text string) {
	s.on(c.label, c.column)
	s.types(text + "⏎")
	switch filled := len(s.is.readings[c]) > 0; {
	case !filled:
		s.change(func(p *plain) { p.readings[c] = []string{text} })
	case s.Asked() == nil:
		s.Fatalf("%v: a filled cell took %s unasked", c, text)
	default:
		switch s.rnd.IntN(3) {
		case 0:
			s.answer("replace")
			// The same number again is still another reading, so this is always a step of its own.
			s.done, s.undone = append(s.done, s.is.clone()), nil
			s.is.readings[c] = []string{text}
		case 1:
			s.answer("keep both, as a repeat")
			s.change(func(p *plain) { p.readings[c] = append(p.readings[c], text) })
		default:
			s.press(table.Escape)
		}
	}
}

// step does one thing that a person may do.
func (s *soak) step() {
	c := s.any()
	n := s.rnd.IntN(100)
	name := ""
	switch {
	case n < 40:
		name = "typed"
		s.typed(c, s.text(c.column))
	case n < 50:
		name = "undone"
		s.press(table.Undo)
		if last := len(s.done) - 1; last >= 0 {
			s.undone = append(s.undone, s.is)
			s.is, s.done = s.done[last], s.done[:last]
		}
	case n < 57:
		name = "redone"
		s.press(table.Redo)
		if last := len(s.undone) - 1; last >= 0 {
			s.done = append(s.done, s.is)
			s.is, s.undone = s.undone[last], s.undone[:last]
		}
	case n < 64:
		name = "repeated"
		text := s.text(c.column)
		s.on(c.label, c.column)
		s.types(text + "*⏎")
		s.change(func(p *plain) { p.readings[c] = append(p.readings[c], text) })
	case n < 70:
		name = "pasted"
		s.pasted()
	case n < 78:
		name = "shims"
		s.shims(c.label, s.stackTexts[s.rnd.IntN(len(s.stackTexts))])
	case n < 83:
		name = "shims moved"
		to := s.any().label
		text, ok := s.is.stacks[c.label]
		if ok && to != c.label && text != "none" {
			s.shims(to, text)
			s.shims(c.label, "none")
		}
	case n < 88:
		name = "seat cut"
		s.on(c.label, "base")
		s.must(s.CutSeat("2"))
		s.change(func(p *plain) { p.cuts[c.label]++ })
	case n < 93:
		name = "struck"
		s.on(c.label, c.column)
		s.press(table.Delete)
		if len(s.is.readings[c]) > 1 {
			s.answer("misread")
		}
		if len(s.is.readings[c]) > 0 {
			s.change(func(p *plain) { p.readings[c] = p.readings[c][:len(p.readings[c])-1] })
		}
	case n < 96:
		name = "refused"
		s.on(c.label, c.column)
		s.types("1.8.4⏎")
		if s.Held() == nil {
			s.Fatalf("%v took 1.8.4", c)
		}
		s.types("1.842⏎")
		s.press(table.Escape)
		s.Drop(len(s.Tray()) - 1)
	case n < 98:
		name = "shared"
		c = spot{s.labels[2*s.rnd.IntN(len(s.labels)/2)], "lift"}
		s.on(c.label, "lift")
		s.Share()
		if len(s.is.readings[c]) > 0 {
			s.change(func(p *plain) { p.shared = c.label })
		}
	default:
		name = "typed and given up"
		s.on(c.label, c.column)
		s.types(s.text(c.column))
		s.press(table.Escape)
	}
	s.acted[name]++
	if s.Asked() != nil || s.Held() != nil {
		s.Fatalf("%s leaves something open", name)
	}
}

func (s *soak) shims(label, text string) {
	s.on(label, "shims")
	s.types(text + "⏎")
	if _, said := s.is.stacks[label]; said {
		if s.Asked() == nil {
			s.Fatalf("%s: other shims were taken unasked", label)
		}
		s.answer("replace")
	}
	s.change(func(p *plain) { p.stacks[label] = text })
}

// pasted pastes a block of two by two or three; where one cell of it is filled nothing is taken.
func (s *soak) pasted() {
	row, rows := s.rnd.IntN(len(s.labels)-3), 2+s.rnd.IntN(2)
	new, filled := map[spot]string{}, false
	var block []string
	for i := range rows {
		a, b := s.text("base"), s.text("seal")
		block = append(block, a+"\t"+b)
		label := s.labels[row+i]
		new[spot{label, "base"}], new[spot{label, "seal"}] = a, b
		filled = filled || len(s.is.readings[spot{label, "base"}]) > 0 || len(s.is.readings[spot{label, "seal"}]) > 0
	}
	s.on(s.labels[row], "base")
	s.Paste(strings.Join(block, "\n"))
	if filled {
		s.answer("put it away")
		return
	}
	s.change(func(p *plain) {
		for c, text := range new {
			p.readings[c] = []string{text}
		}
	})
}

// read writes a record down as the plain model does.
func (s *soak) read(rec *record.Record) plain {
	is := plain{map[spot][]string{}, map[string]string{}, map[string]int{}, ""}
	column := map[record.Kind]string{
		record.BaseHeight: "base", record.SealGap: "seal", record.CheckHeight: "check", record.LiftChecking: "lift",
		record.Tip: "tip", record.BindReading: "bind-1",
	}
	readings := slices.Clone(rec.Setup.Readings)
	slices.SortFunc(readings, func(a, b record.Reading) int { return a.N - b.N })
	for _, r := range readings {
		if r.Struck == nil {
			c := spot{rec.Head.Label(r.At), column[r.Kind]}
			is.readings[c] = append(is.readings[c], strings.TrimPrefix(r.Quantity.Read, "0"))
		}
	}
	for _, v := range rec.Setup.Valves {
		var shims []string
		for _, shim := range v.Stack {
			shims = append(shims, strings.TrimPrefix(shim.Thickness.Read, "0"))
		}
		if text := strings.Join(shims, "+") + v.NoShim; text != "" {
			is.stacks[rec.Head.Label(v.At)] = text
		}
	}
	for _, w := range rec.Setup.SeatWork {
		is.cuts[rec.Head.Label(w.At)]++
	}
	for _, sh := range rec.Setup.Shared {
		is.shared = rec.Head.Label(sh.From)
	}
	return is
}

// compare holds the book, the record in memory and the cells of the table against the model.
func (s *soak) compare() {
	for c, texts := range s.is.readings {
		if len(texts) == 0 {
			delete(s.is.readings, c)
		}
	}
	for what, rec := range map[string]*record.Record{"book": s.again(), "record": s.bench.Record()} {
		if got := s.read(rec); !reflect.DeepEqual(got, s.is) {
			s.Fatalf("the %s holds %v, want %v", what, got, s.is)
		}
	}
	state := s.State()
	for _, label := range s.labels {
		for _, column := range measured {
			p := s.place(label, column)
			if cell := state.Cells[p.Row][p.Column]; cell.Strong != (len(s.is.readings[spot{label, column}]) > 0) {
				s.Fatalf("%s, %s shows %+v, want %v", label, column, cell, s.is.readings[spot{label, column}])
			}
		}
	}
}

var soakHeads = flag.Int("soak", 40, "heads on each of which the soak does five hundred things")

// Twenty thousand things that a person may do, in any order, on one book: after each five hundred book,
// record and table are what a plain model says. Then work goes on with another head, as it does in a shop.
// What is held in memory does not grow with the heads that were worked on.
func TestSoak(t *testing.T) {
	heads := *soakHeads
	if testing.Short() {
		heads = 2
	}
	const each = 500
	began, acted := time.Now(), map[string]int{}
	var held []uint64 // bytes, at a quarter of the way and at its end
	cylinders := []string{"1", "2", "3", "4"}
	r := newRig(t, headOf(cylinders...))
	for n := range heads {
		if n > 0 {
			head := headOf(cylinders...)
			head.Tag = fmt.Sprintf("T-%d", n+1)
			r = rigOn(t, r.desk, r.time, head)
		}
		s := newSoak(r, rand.New(rand.NewPCG(3, uint64(n))), acted)
		for range each {
			s.step()
		}
		s.compare()
		if n == heads/4 || n == heads-1 {
			held = append(held, inMemory())
			t.Logf("after %d actions %d KiB are held", (n+1)*each, held[len(held)-1]>>10)
		}
	}
	if from, to := held[0], held[len(held)-1]; to > from+from/2 {
		t.Errorf("what is held grew from %d to %d bytes", from, to)
	}
	t.Logf("%d actions %v in %v", heads*each, acted, time.Since(began).Round(time.Millisecond))
	for _, name := range []string{
		"typed", "undone", "redone", "repeated", "pasted", "shims", "shims moved", "seat cut", "struck", "refused", "shared",
	} {
		if acted[name] == 0 {
			t.Errorf("nothing was %s", name)
		}
	}
}

// inMemory is how many bytes are held once what nobody needs is given back.
func inMemory() uint64 {
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}
