//go:build cgo && linux

package main

import (
	"context"
	"fmt"
	"math"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/unit"
)

// A gauge of the shop is entered with its certificate and its step, and two people try how well it repeats,
// by the keyboard alone. The gauge then counts with what the readings come to, worked out here anew: the
// scatter within each person's readings, pooled.
func TestGaugeAndStudyInTheWindow(t *testing.T) {
	onceARun(t)
	d := newDesktop(t)
	book := filepath.Join(d.home, "gauges.keeperbook")
	bigHead(t, book, "64-1")
	p := d.start(book)
	p.listen()
	h := &hand{program: p, eye: d.look()}
	h.eye.calm()

	h.key("ctrl+p", "Right", "Right", "Return") // the shop's pages, the third of them
	h.key("Return")                             // a new gauge
	h.put("H")
	h.key("Return", "Return", "Return", "Return") // name, kind, number and note stay
	today := time.Now()
	date, due := today.AddDate(0, -2, 0).Format(time.DateOnly), today.AddDate(0, 10, 0).Format(time.DateOnly)
	for _, text := range []string{".0010", "2", date, due, "77"} {
		h.put(text)
	}
	h.key("Return") // who calibrated it is not known
	h.put(".0005")
	var g record.Gauge
	p.until("the gauge in the book", func() bool {
		gauges := gaugesIn(book)
		if len(gauges) != 1 {
			return false
		}
		g = gauges[0]
		return g.Step != nil && g.Calibration != nil && g.Calibration.Certificate == "77"
	})
	if g.Step.Length() != 5*unit.Thou/10 || g.Calibration.U.Length() != unit.Thou || g.Calibration.K != "2" ||
		string(g.Calibration.Date) != date || string(g.Calibration.Due) != due {
		t.Errorf("typed into the window and in the book: %+v, %+v", g.Step, g.Calibration)
	}

	h.key("Return") // the study of it
	h.put("a ring")
	people := [][]string{
		{"1.8400", "1.8405", "1.8395", "1.8400", "1.8410", "1.8400"},
		{"1.8410", "1.8405", "1.8400", "1.8405", "1.8410", "1.8400"},
	}
	for i, readings := range people {
		if i > 0 {
			h.key("F3")
			h.put("B")
		}
		for _, r := range readings {
			p.write(r)
			p.press("Return")
		}
		h.eye.calm()
	}
	h.key("Tab", "Return") // use it for the gauge
	p.until("the gauge's own scatter", func() bool {
		gauges := gaugesIn(book)
		if len(gauges) == 1 && gauges[0].Repeat != nil {
			g = gauges[0]
			return true
		}
		return false
	})
	var sum, freedom float64
	for _, readings := range people {
		var mean float64
		for _, r := range readings {
			mean += number(t, r) / float64(len(readings))
		}
		for _, r := range readings {
			sum += (number(t, r) - mean) * (number(t, r) - mean)
		}
		freedom += float64(len(readings) - 1)
	}
	want := math.Sqrt(sum / freedom)
	got := float64(g.Repeat.S.Length()) / float64(1000*unit.Thou)
	if math.Abs(got-want) > 0.000001 || g.Repeat.Freedom != fmt.Sprint(freedom) || g.Repeat.People != 2 {
		t.Errorf("s %.6f in with %s degrees of freedom by %d people, worked out anew %.6f with %v by 2",
			got, g.Repeat.Freedom, g.Repeat.People, want, freedom)
	}
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// gaugesIn are the gauges in the book beside the running program.
func gaugesIn(book string) []record.Gauge {
	ctx := context.Background()
	desk, err := task.ReadBook(ctx, book, "test", time.Now)
	if err != nil {
		return nil
	}
	defer desk.Close()
	gauges, err := desk.Book.Gauges(ctx)
	if err != nil {
		return nil
	}
	return gauges
}
