package study_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"keeperbook/app/internal/screen/study"
	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

func clock() time.Time { return time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC) }

// shop is a book with one gauge, a height gauge that shows thousandths of an inch, or hundredths of a
// millimetre where metric.
func shop(t testing.TB, metric bool) (*task.Desk, record.Gauge) {
	t.Helper()
	ctx := context.Background()
	desk, err := task.MakeBook(ctx, t.TempDir()+"/shop", "M. Ashlock", clock)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { desk.Close() })
	counter, err := desk.OpenCounter(ctx)
	if err != nil {
		t.Fatal(err)
	}
	g, err := counter.NewGauge("height gauge 1")
	if err != nil {
		t.Fatal(err)
	}
	step := unit.Worked(unit.Thou, unit.In, 3)
	if metric {
		step = unit.Worked(unit.MM/100, unit.Mm, 2)
	}
	g.Step = &step
	if err := counter.Keep(ctx, g); err != nil {
		t.Fatal(err)
	}
	return desk, g
}

func page(t testing.TB, desk *task.Desk, gauge string) *study.Presenter {
	t.Helper()
	studies, err := desk.OpenStudies(context.Background(), gauge)
	if err != nil {
		t.Fatal(err)
	}
	return study.NewPresenter(studies)
}

// read types readings, each of which has to be kept.
func read(t testing.TB, p *study.Presenter, texts ...string) {
	t.Helper()
	for _, text := range texts {
		if !p.Enter(context.Background(), text) {
			t.Fatalf("%q was set aside: %+v", text, p.Aside())
		}
	}
}

// inBook is the gauge as the book has it.
func inBook(t testing.TB, desk *task.Desk) record.Gauge {
	t.Helper()
	gauges, err := desk.Book.Gauges(context.Background())
	if err != nil || len(gauges) != 1 {
		t.Fatal(gauges, err)
	}
	return gauges[0]
}

func figures(p *study.Presenter) string {
	var all []string
	for _, f := range p.Figures() {
		all = append(all, f.Label+" "+f.Value)
	}
	return strings.Join(all, "; ")
}

// From nothing to a gauge that counts with a study, and back. By hand: 2, 4, 3 over 1.840 by one and 3, 3, 6 by
// another have the means 3 and 4, s² = (2 + 6)/4, ν = 4; with another 3 by the first s² = 8/5, ν = 5, and people
// differ by s² = (12/7 − 8/5)/(24/7) = 1/30.
func TestStudyOfAGauge(t *testing.T) {
	ctx := context.Background()
	desk, g := shop(t, false)
	p := page(t, desk, g.ID)
	if got := p.Counting(); !strings.Contains(got, ".0010 in is assumed for a height gauge, with 8 degrees") {
		t.Errorf("at first: %s", got)
	}
	if got := figures(p); got != "readings that count 0 of 0" {
		t.Errorf("of nothing: %s", got)
	}
	if err := p.Name(ctx, "base height of one valve"); err != nil {
		t.Fatal(err)
	}
	read(t, p, "1842", "1.844", "1843")
	if got := figures(p); got != "readings that count 3 of 3; mean 1.8430 in; scatter s of one reading .0010 in; degrees of freedom ν 2" {
		t.Errorf("of three: %s", got)
	}
	if got := p.Remarks(); !strings.HasPrefix(got[0], "Read 3 more") {
		t.Errorf("of three: %q", got)
	}
	if _, err := p.Use(ctx); key(err) != "study.too-few" || inBook(t, desk).Repeat != nil {
		t.Errorf("used on three readings: %v", err)
	}
	if err := p.ReadBy(" J. Peverel "); err != nil {
		t.Fatal(err)
	}
	read(t, p, "1843", "1843", "1846")
	if err := p.NextReader(); err != nil || p.People()[p.Reader()] != "M. Ashlock" {
		t.Errorf("after the last comes %d of %q, %v", p.Reader(), p.People(), err)
	}
	read(t, p, "1843")
	want := "readings that count 7 of 7; mean 1.8434 in; scatter s of one reading .0013 in; degrees of freedom ν 5; " +
		"mean of M. Ashlock, of 4 readings 1.8430 in; mean of J. Peverel, of 3 readings 1.8440 in; people differ beyond that by s .0002 in"
	if got := figures(p); got != want {
		t.Errorf("of seven:\n%s\nwant\n%s", got, want)
	}
	told, err := p.Use(ctx)
	if err != nil || told.Key != "study.used" || !p.Fixed() {
		t.Fatalf("%v, %v", told, err)
	}
	if r := inBook(t, desk).Repeat; r == nil || r.S.Read != "0.00126" || r.Freedom != "5" || r.People != 2 {
		t.Errorf("the gauge has %+v", r)
	}
	if got := p.Counting(); got != "The gauge counts with a scatter of .00126 in at 5 degrees of freedom, from the study of 2026-06-01." {
		t.Errorf("in force: %s", got)
	}
	// It stays as it is.
	if p.Enter(ctx, "1843") || len(p.Aside()) != 1 || !strings.Contains(p.Aside()[0].Why, "begin a new one") {
		t.Errorf("a reading more: %+v", p.Aside())
	}
	if err := p.Strike(ctx, 0, "slipped"); key(err) != "study.fixed" {
		t.Errorf("a strike: %v", err)
	}
	if !p.CanTakeBack(ctx) {
		t.Fatal("it cannot be taken back")
	}
	if _, err := p.TakeBack(ctx); err != nil || inBook(t, desk).Repeat != nil || p.Fixed() || p.CanTakeBack(ctx) {
		t.Errorf("taken back: %+v, %v", inBook(t, desk).Repeat, err)
	}
	if n := len(p.Studies()); n != 1 || !strings.HasPrefix(figures(p), "readings that count 7 of 7") {
		t.Errorf("of the study are left %d, %s", n, figures(p))
	}
	// The gauge's undo has a place in the history, and the book is sound with it.
	if report, err := desk.Book.Examine(ctx); err != nil || !report.Sound() {
		t.Errorf("%+v, %v", report, err)
	}
}

// Every reading is in the book before it is acknowledged; the next day goes on where this one ended, and a study
// that the gauge counts with is followed by a new one.
func TestGoesOnTomorrow(t *testing.T) {
	ctx := context.Background()
	desk, g := shop(t, false)
	p := page(t, desk, g.ID)
	if err := p.ReadBy("J. Peverel"); err != nil {
		t.Fatal(err)
	}
	read(t, p, "1842", "1843", "1842")
	p = page(t, desk, g.ID)
	if got := figures(p); !strings.HasPrefix(got, "readings that count 3 of 3") || p.People()[p.Reader()] != "J. Peverel" {
		t.Errorf("the next day: %s by %s", got, p.People()[p.Reader()])
	}
	read(t, p, "1842", "1843", "1842")
	if _, err := p.Use(ctx); key(err) != "study.no-what" {
		t.Errorf("nobody said what was measured: %v", err)
	}
	if err := p.Name(ctx, "a ring gauge"); err != nil {
		t.Fatal(err)
	}
	if _, err := p.Use(ctx); err != nil {
		t.Fatal(err)
	}
	p = page(t, desk, g.ID)
	if p.Fixed() || p.What() != "" || figures(p) != "readings that count 0 of 0" {
		t.Errorf("after one in force: %q, %s", p.What(), figures(p))
	}
	lines := p.Studies()
	if len(lines) != 1 || lines[0].Text != "2026-06-01: a ring gauge" || lines[0].More != "s .00052 in, ν 5, people: 1, the gauge counts with it" {
		t.Errorf("%+v", lines)
	}
	p.Choose(lines[0].ID)
	if !p.Fixed() || p.What() != "a ring gauge" {
		t.Error("it does not open again")
	}
	p.Begin()
	if p.Fixed() || p.What() != "" {
		t.Error("a new one is not new")
	}
}

// What is refused is set aside with the sentence that says why, and the next reading is taken.
func TestSetAside(t *testing.T) {
	ctx := context.Background()
	for _, c := range []struct {
		metric bool
		text   string
		why    string
	}{
		// "E----" is not a number; type digits with at most one decimal mark, such as .030.
		{false, "E----", "unit.letters"},
		// "1,842" has a comma, and this column takes a decimal point; type 1.842 if that is meant.
		{false, "1,842", "unit.comma"},
		// """ repeats the cell above, and there is nothing in it; type the number, such as .030.
		{false, `"`, "unit.above"},
		// "388 lbf" is in a unit of another kind; the units of this column are in, thou, mm: type a number such as .030.
		{false, "388 lbf", "unit.dimension"},
		// "1.842.1" has more than one decimal mark; type a number with one, such as .030.
		{false, "1.842.1", "unit.marks"},
		// "1.84200001 in" has 8 decimals; at most 6 are taken: round it as the gauge shows it.
		{false, "1.84200001", "unit.decimals"},
		// "99999 in" is as large as 1000 mm or larger, and nothing on a cylinder head is; check the unit and type it again.
		{false, "99999 in", "unit.large"},
		// "46.79 kPa" is in a unit of another kind; the units of this column are in, thou, mm: type a number such as 0,75.
		{true, "46.79 kPa", "unit.dimension"},
		{false, "40", ""}, // thousandths
		{true, "46,79", ""},
		{true, "-0.02", ""}, // an indicator that stands below nought
		{true, "+0.02", ""}, // and one that sends its sign
	} {
		desk, g := shop(t, c.metric)
		p := page(t, desk, g.ID)
		kept := p.Enter(ctx, c.text)
		if kept != (c.why == "") {
			t.Errorf("%q kept is %v, %+v", c.text, kept, p.Aside())
			continue
		}
		if c.why == "" {
			continue
		}
		studies, err := desk.OpenStudies(ctx, g.ID)
		if err != nil {
			t.Fatal(err)
		}
		if got := key(studies.Take(ctx, c.text)); got != c.why {
			t.Errorf("%q is refused by %s, want %s", c.text, got, c.why)
		}
		a := p.Aside()
		if len(a) != 1 || a[0].Text != c.text || !strings.HasSuffix(a[0].Why, ".") {
			t.Errorf("%q: set aside is %+v", c.text, a)
		}
		read(t, p, "1.5", "1.5")
		if text := p.PutBack(0); text != c.text || len(p.Aside()) != 0 {
			t.Errorf("put back is %q", text)
		}
	}
}

func key(err error) string {
	if err == nil {
		return ""
	}
	return task.Told(err).Key
}

// A number where words belong was meant for the study; nobody's name is refused.
func TestWordsAndNames(t *testing.T) {
	ctx := context.Background()
	desk, g := shop(t, false)
	p := page(t, desk, g.ID)
	if err := p.Name(ctx, "1.842"); err != nil || p.What() != "" || len(p.Aside()) != 1 || p.Aside()[0].Text != "1.842" {
		t.Errorf("a number is what is measured: %q, %+v, %v", p.What(), p.Aside(), err)
	}
	if err := p.ReadBy("  "); key(err) != "study.no-name" || p.Reader() != 0 {
		t.Errorf("nobody reads: %v", err)
	}
	p.Stray("1.850")
	if a := p.Aside(); len(a) != 2 || a[1].Text != "1.850" {
		t.Errorf("%+v", a)
	}
	if got := figures(p); got != "readings that count 0 of 0" {
		t.Errorf("something of it counts: %s", got)
	}
}

// An outlying reading is named by the rule that finds it and counts; struck, with a reason, it stays.
func TestOutlyingAndStruck(t *testing.T) {
	ctx := context.Background()
	desk, g := shop(t, false)
	p := page(t, desk, g.ID)
	read(t, p, "1842", "1843", "1842", "1842", "1841", "1842", "1862", "1843", "1842")
	remarks := p.Remarks()
	if p.Outlying() != 6 || !strings.Contains(remarks[len(remarks)-1], "Reading 7, 1.862 by M. Ashlock, lies 2.6") || !strings.Contains(remarks[len(remarks)-1], "Grubbs' test at 1 %") {
		t.Fatalf("%d, %q", p.Outlying(), remarks)
	}
	if !strings.HasPrefix(figures(p), "readings that count 9 of 9") {
		t.Error("it does not count")
	}
	for _, reason := range []string{"", "   "} {
		if err := p.Strike(ctx, 6, reason); key(err) != "record.study-strike" {
			t.Errorf("struck for %q: %v", reason, err)
		}
	}
	if err := p.Strike(ctx, 6, " locks not seated "); err != nil {
		t.Fatal(err)
	}
	if reason, struck := p.Struck(6); !struck || reason != "locks not seated" || p.Outlying() >= 0 {
		t.Errorf("%q", reason)
	}
	if !strings.HasPrefix(figures(p), "readings that count 8 of 9") {
		t.Error(figures(p))
	}
	rows := page(t, desk, g.ID).Readings()
	if len(rows) != 2 || rows[0].Who != "M. Ashlock" || rows[1].Who != "" || len(rows[0].Cells) != 5 || len(rows[1].Cells) != 4 {
		t.Fatalf("%+v", rows)
	}
	if c := rows[1].Cells[1]; c.At != 6 || c.Text != "1.862" || !c.Struck || c.More != "struck: locks not seated" {
		t.Errorf("%+v", c)
	}
	if err := p.CountAgain(ctx, 6); err != nil || !strings.HasPrefix(figures(p), "readings that count 9 of 9") {
		t.Errorf("%v, %s", err, figures(p))
	}
}

// What the gauge was changed in since is not undone with the study.
func TestTakenBackOverAChange(t *testing.T) {
	ctx := context.Background()
	desk, g := shop(t, false)
	p := page(t, desk, g.ID)
	if err := p.Name(ctx, "one valve"); err != nil {
		t.Fatal(err)
	}
	read(t, p, "1842", "1843", "1842", "1842", "1841", "1842")
	if _, err := p.Use(ctx); err != nil {
		t.Fatal(err)
	}
	counter, err := desk.OpenCounter(ctx)
	if err != nil {
		t.Fatal(err)
	}
	changed := inBook(t, desk)
	changed.Number = "LY-9"
	if err := counter.Keep(ctx, changed); err != nil {
		t.Fatal(err)
	}
	if _, err := p.TakeBack(ctx); key(err) != "study.changed" || inBook(t, desk).Repeat == nil || inBook(t, desk).Number != "LY-9" {
		t.Errorf("%v, %+v", err, inBook(t, desk))
	}
}

// A gauge that is gone, and people of other studies.
func TestOpening(t *testing.T) {
	ctx := context.Background()
	desk, g := shop(t, true)
	if _, err := desk.OpenStudies(ctx, "gone"); key(err) != "study.no-gauge" || say.CodeOf(err) != say.NotFound {
		t.Errorf("%v", err)
	}
	p := page(t, desk, g.ID)
	for _, name := range []string{"J. Peverel", "E. Tolliver"} {
		if err := p.ReadBy(name); err != nil {
			t.Fatal(err)
		}
		read(t, p, "46.79")
	}
	p = page(t, desk, g.ID)
	if got := fmt.Sprint(p.People()); got != "[M. Ashlock J. Peverel E. Tolliver]" || p.Unit() != "mm" {
		t.Errorf("%s in %s", got, p.Unit())
	}
	if !slices.Equal([]string{p.Understand("46.8"), p.Understand("x")}, []string{"46.8 mm", ""}) {
		t.Errorf("46.8 reads as %q", p.Understand("46.8"))
	}
}
