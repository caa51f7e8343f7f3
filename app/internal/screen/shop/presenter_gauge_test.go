package shop_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"keeperbook/app/internal/screen/shop"
	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// gaugeNamed is a gauge of the book.
func gaugeNamed(t testing.TB, c *task.Counter, name string) record.Gauge {
	t.Helper()
	at := slices.IndexFunc(c.Gauges(), func(g record.Gauge) bool { return g.Name == name })
	if at < 0 {
		t.Fatalf("no gauge %q", name)
	}
	return c.Gauges()[at]
}

// notes are what stands in the sections of what is open.
func notes(p *shop.Presenter) string {
	var all []string
	for _, s := range p.Sections() {
		all = append(all, s.Notes...)
	}
	return strings.Join(all, "\n")
}

// What is past due is said at the top of the page, in the list and beside the gauge, in words.
func TestGaugesInTheList(t *testing.T) {
	_, p := pages(t, demonstration(t))
	p.Go(shop.Gauges)
	l := p.Lists()[0]
	if l.Warn != "Past due for calibration, so that what they measure is marked: depth gauge 5 since 2026-02-10." {
		t.Errorf("at the top: %q", l.Warn)
	}
	for name, more := range map[string]string{
		"depth gauge 5":  "past due since 2026-02-10: what it measures is marked, depth gauge, LY-041",
		"height gauge 1": "height gauge, LY-011, due on 2026-09-15",
		"bind fixture":   "fixture, LY-027, due on 2026-10-06, lid .095 taken off",
		"feeler gauges":  "feeler gauge, LY-052, no certificate",
		"micrometer 3":   "micrometer, LY-019, due on 2026-12-01",
	} {
		if line := open(t, p, name); line.More != more {
			t.Errorf("%s: %q, want %q", name, line.More, more)
		}
	}
	for name, says := range map[string]string{
		"depth gauge 5":  "Past due since 2026-02-10: what it measures is marked until a new certificate is entered.",
		"height gauge 1": "Readings scatter by .0008 in at 24 degrees of freedom, from the study of 2026-01-14; people who took part: 3.",
		"feeler gauges":  "No certificate was entered: how far the gauge is off is in no ±.",
		"caliper 6":      "No study yet: a scatter of 0.025 mm is assumed for a caliper, with 8 degrees of freedom",
	} {
		if open(t, p, name); !strings.Contains(notes(p), says) {
			t.Errorf("%s: %s", name, notes(p))
		}
	}
}

// What is typed into each field of a gauge, how the book has it and how the field shows it. What stands on a
// certificate waits until U and its factor are there, in whichever order.
func TestFieldsOfAGauge(t *testing.T) {
	ctx := context.Background()
	counter, p := pages(t, demonstration(t))
	p.Go(shop.Gauges)
	if err := p.Add(ctx, record.GaugeItem, "height gauge 9"); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(notes(p), "Its step is assumed to be .001 in.") {
		t.Errorf("of its step: %s", notes(p))
	}
	for _, c := range []struct{ field, typed, shown, unit, says string }{
		{"step", ".0005", ".0005", "in", "scatter"},
		{"date", "2026-3-2", "2026-03-02", "", "Not in the book yet: it waits for this, uncertainty U"},
		{"by", " Sluice Gauge Room ", "Sluice Gauge Room", "", "waits"},
		{"u", ".0010", ".0010", "in", "waits for this, factor k"},
		{"k", "2,05", "2.05", "", "U counts as U/k"},
		{"u", "0.02 mm", "0.02 mm", "", "U counts as U/k"},
		{"due", "20270302", "2027-03-02", "", "U counts"},
		{"certificate", "SG-9", "SG-9", "", "U counts"},
		{"zero-offset", "-1", "−.001", "in", "U counts"},
	} {
		put(t, p, c.field, c.typed)
		if f := field(t, p, c.field); f.Value != c.shown || f.Unit != c.unit {
			t.Errorf("%s %q shows %q %q, want %q %q", c.field, c.typed, f.Value, f.Unit, c.shown, c.unit)
		}
		if waits := strings.Contains(c.says, "waits"); waits != (len(p.Waiting()) > 0) {
			t.Errorf("after %s %q wait %q", c.field, c.typed, p.Waiting())
		}
		if !strings.Contains(notes(p), c.says) {
			t.Errorf("after %s %q: %s", c.field, c.typed, notes(p))
		}
	}
	if err := counter.Load(ctx); err != nil {
		t.Fatal(err)
	}
	g := gaugeNamed(t, counter, "height gauge 9")
	if c := g.Calibration; c == nil || c.U.Typed != "0.02 mm" || c.K != "2.05" || c.Date != "2026-03-02" || c.Due != "2027-03-02" ||
		c.Certificate != "SG-9" || c.By != "Sluice Gauge Room" {
		t.Errorf("kept is %+v", g.Calibration)
	}
	if g.Step.Read != "0.0005" || len(g.Setting) != 1 || g.Setting[0].Part != record.ZeroOffset || g.Setting[0].Amount.Read != "-0.001" {
		t.Errorf("kept is %+v", g)
	}
	// It is taken away from its end.
	for _, name := range []string{"certificate", "by", "due", "date", "u"} {
		put(t, p, name, "")
	}
	if g := gaugeNamed(t, counter, "height gauge 9"); g.Calibration != nil || field(t, p, "k").Value != "2.05" {
		t.Errorf("emptied it is %+v", g.Calibration)
	}
}

// What is refused, each with the sentence that a person reads, and that the book is as it was.
func TestRefusedOfAGauge(t *testing.T) {
	if testing.Short() {
		t.Skip("one goroutine: once a run is enough")
	}
	ctx := context.Background()
	for _, waits := range []bool{false, true} {
		counter, p := pages(t, demonstration(t))
		p.Go(shop.Gauges)
		name := "height gauge 1"
		if waits {
			name = "feeler gauges" // has no certificate, and something of one is typed first
		}
		open(t, p, name)
		if waits {
			put(t, p, "date", "2026-03-02")
		}
		before := gaugeNamed(t, counter, name)
		for _, c := range []struct{ field, text, key string }{
			// The step of height gauge 1 is 0 in; a gauge has a step above nought. Enter the digital step, or the smallest
			// part that is read on its scale.
			{"step", "0", "record.step"},
			// "-.001 in" reads as −.001 in; this column takes nothing below nought: type the number without a minus, such as .030.
			{"step", "-.001 in", "unit.negative"},
			{"step", "fine", "unit.letters"},
			{"u", "-.0010 in", "unit.negative"},
			{"u", "1 lbf", "unit.dimension"},
			// The coverage factor of height gauge 1 is "0"; it is a number above nought with at most four decimals, such as 2
			// or 2.05. Enter the k of the certificate.
			{"k", "0", "record.coverage"},
			{"k", "-2", "record.coverage"},
			{"k", "two", "record.coverage"},
			// The calibration of height gauge 1 is dated 2026-06-03, which is still to come. Enter the day that stands on the
			// certificate.
			{"date", "2026-06-03", "record.to-come"},
			// The calibration of height gauge 1 names the day "02.03.2026"; a day is written as year, month and day, such as
			// 2026-03-02. Correct it.
			{"date", "02.03.2026", "record.day"},
			{"due", "2026-02-30", "record.day"},
			// The calibration of height gauge 1 falls due on 2025-09-01, which is not after the day it was done, 2025-09-15.
			// Correct one of the two.
			{"due", "2025-09-01", "record.due"},
			{"name", " ", "shop.no-name"},
			{"lid", "abc", "unit.letters"},
		} {
			shown := field(t, p, c.field).Value
			if err := p.Put(ctx, c.field, c.text); key(err) != c.key {
				t.Errorf("%s %q: %s, %v, want %s", c.field, c.text, key(err), err, c.key)
			}
			if now := field(t, p, c.field).Value; now != shown {
				t.Errorf("%s %q was refused, and %q became %q", c.field, c.text, shown, now)
			}
		}
		if err := counter.Load(ctx); err != nil {
			t.Fatal(err)
		}
		after := gaugeNamed(t, counter, name)
		if *after.Step != *before.Step || (after.Calibration == nil) != waits || !waits && *after.Calibration != *before.Calibration {
			t.Errorf("%+v became %+v", before, after)
		}
	}
	// A certificate says nothing without U and its factor k; empty days, number and name first, or type the figure again.
	_, p := pages(t, demonstration(t))
	p.Go(shop.Gauges)
	open(t, p, "height gauge 1")
	for _, name := range []string{"u", "k"} {
		if err := p.Put(ctx, name, ""); key(err) != "shop.certificate-needs" || say.CodeOf(err) != say.Conflict || field(t, p, name).Value == "" {
			t.Errorf("%s left out: %v", name, err)
		}
	}
}

// A gauge that no set-up names goes with its studies; one that is named stays, and they with it.
func TestDiscardAGauge(t *testing.T) {
	ctx := context.Background()
	desk := demonstration(t)
	counter, p := pages(t, desk)
	p.Go(shop.Gauges)
	open(t, p, "height gauge 1")
	if err := p.Discard(ctx); say.CodeOf(err) != say.Conflict {
		t.Errorf("a gauge that set-ups name: %v", err)
	}
	if g := gaugeNamed(t, counter, "height gauge 1"); g.Repeat == nil {
		t.Error("it stayed without its study")
	}
	if err := p.Add(ctx, record.GaugeItem, "dial 8"); err != nil {
		t.Fatal(err)
	}
	studies, err := desk.OpenStudies(ctx, p.Chosen().Key)
	if err != nil {
		t.Fatal(err)
	}
	for _, text := range []string{".5", ".501", ".5", ".5", ".501", ".5"} {
		if err := studies.Take(ctx, text); err != nil {
			t.Fatal(err)
		}
	}
	if err := studies.Name(ctx, "a block"); err != nil {
		t.Fatal(err)
	}
	if err := studies.Use(ctx); err != nil {
		t.Fatal(err)
	}
	if err := p.Load(ctx); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(notes(p), "from the study of 2026-06-01; people who took part: 1.") {
		t.Error(notes(p))
	}
	n := len(counter.Gauges())
	if err := p.Discard(ctx); err != nil || len(counter.Gauges()) != n-1 {
		t.Errorf("%d of %d gauges are left, %v", len(counter.Gauges()), n, err)
	}
	if all, err := desk.Book.Studies(ctx); err != nil || len(all) != 2 {
		t.Errorf("%d studies are left, %v", len(all), err)
	}
}
