package task_test

import (
	"context"
	"flag"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"keeperbook/app/internal/task"
	"keeperbook/assets"
	"keeperbook/model/evaluate"
	"keeperbook/model/record"
	"keeperbook/model/spring/curve"
	"keeperbook/model/unit"
	"keeperbook/pdf"
	"keeperbook/store"
)

var update = flag.Bool("update", false, "write the golden texts anew")

func clock() time.Time { return time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC) }

// demonstration opens a fresh demonstration book.
func demonstration(t testing.TB) *store.Book {
	t.Helper()
	path := filepath.Join(t.TempDir(), "demo.keeperbook")
	if _, err := task.Demo(context.Background(), path, assets.Demo(), clock); err != nil {
		t.Fatal(err)
	}
	book, err := store.Open(context.Background(), path, store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { book.Close() })
	return book
}

// setups lists every set-up of the book.
func setups(t *testing.T, book *store.Book) []string {
	t.Helper()
	heads, err := book.Heads(context.Background(), store.Filter{})
	if err != nil {
		t.Fatal(err)
	}
	var all []string
	for _, h := range heads {
		of, err := book.Setups(context.Background(), h.Head)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range of {
			all = append(all, s.ID)
		}
	}
	return all
}

// textOf reads a PDF with a reader that is not ours.
func textOf(t *testing.T, sheet []byte) string {
	t.Helper()
	if _, err := exec.LookPath("pdftotext"); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("pdftotext is missing; app/setup.sh installs it under CI")
		}
		t.Skip("pdftotext is not installed; sh app/setup.sh with CI=true installs it")
	}
	cmd := exec.Command("pdftotext", "-layout", "-", "-")
	cmd.Stdin = strings.NewReader(string(sheet))
	text, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// chain is the end of a history, which is another one each time.
var chain = regexp.MustCompile(`the last [0-9a-f ]+…`)

// Every number of the table, read back out of the printed page by another program, is the one that
// the evaluation has: printed anew here from its exact length, beside its valve, in its order.
func TestSheetsAgreeWithEvaluation(t *testing.T) {
	book := demonstration(t)
	for _, id := range setups(t, book) {
		t.Run(id, func(t *testing.T) {
			w, err := task.Work(context.Background(), book, id)
			if err != nil {
				t.Fatal(err)
			}
			sheet, err := task.Sheet(context.Background(), book, id, pdf.A4)
			if err != nil {
				t.Fatal(err)
			}
			text := textOf(t, sheet)
			numbers := 0
			for i := range w.Evaluation.Valves {
				v := &w.Evaluation.Valves[i]
				line := lineOf(text, v.Label)
				if line == "" {
					t.Errorf("no line for %s", v.Label)
					continue
				}
				rest := line
				for _, f := range []evaluate.Figure{v.Base, v.Seal, v.Installed, v.Check, v.Lift, v.Open, v.Bind, v.Margin, v.Least, v.UpTo, v.SealOpen, v.LashFound, v.LashShim, v.LashLeft} {
					if !f.Known {
						continue
					}
					want := evaluate.StyleOf(w.Record.Setup.Units).LengthIn(f.Value)
					at := strings.Index(rest, want)
					if at < 0 {
						t.Errorf("%s: %s is not on the page in its place: %s", v.Label, want, line)
						continue
					}
					rest = rest[at+len(want):]
					numbers++
				}
				for _, l := range []evaluate.Load{v.SeatLoad, v.OpenLoad} {
					if !l.Known {
						continue
					}
					want := evaluate.StyleOf(w.Record.Setup.Units).LoadIn(l.Value)
					if !slices.ContainsFunc(strings.Split(text, "\n"), func(line string) bool {
						return strings.HasPrefix(strings.TrimSpace(line), v.Label+" ") && strings.Contains(line, " "+want)
					}) {
						t.Errorf("%s: a load of %s is not on the page beside it", v.Label, want)
					}
					numbers++
				}
			}
			t.Logf("%d numbers compared", numbers)
			if numbers < 4*len(w.Evaluation.Valves) {
				t.Errorf("only %d numbers", numbers)
			}
			golden(t, id, chain.ReplaceAllString(text, "the last …"))
		})
	}
}

// lineOf returns the line of the table that begins with a valve's label.
func lineOf(text, label string) string {
	for _, line := range strings.Split(text, "\n") {
		if strings.HasPrefix(strings.TrimSpace(line), label+" ") {
			return line
		}
	}
	return ""
}

var spaces = regexp.MustCompile(` +`)

// golden holds the text of a sheet against the one kept. Readers place columns differently, so runs of
// spaces count as one.
func golden(t *testing.T, name, text string) {
	t.Helper()
	var lines []string
	for _, line := range strings.Split(text, "\n") {
		if line = strings.TrimSpace(spaces.ReplaceAllString(strings.ReplaceAll(line, "\f", ""), " ")); line != "" {
			lines = append(lines, line)
		}
	}
	got, path := strings.Join(lines, "\n")+"\n", filepath.Join("testdata", "golden", name+".txt")
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("the text of the sheet is not %s any more; look at the change and keep it with -update\n%s", path, firstDifference(got, string(want)))
	}
}

func firstDifference(got, want string) string {
	g, w := strings.Split(got, "\n"), strings.Split(want, "\n")
	for i := range min(len(g), len(w)) {
		if g[i] != w[i] {
			return "got  " + g[i] + "\nwant " + w[i]
		}
	}
	return "one is longer"
}

// The demonstration shows what it is there to show.
func TestDemonstration(t *testing.T) {
	book := demonstration(t)
	verdicts := map[string][]string{}
	for _, id := range setups(t, book) {
		w, err := task.Work(context.Background(), book, id)
		if err != nil {
			t.Fatal(err)
		}
		for i := range w.Evaluation.Valves {
			v := &w.Evaluation.Valves[i]
			verdicts[id] = append(verdicts[id], v.Label+" "+strings.TrimPrefix(v.Verdict.String(), "verdict."))
			if v.Verdict == evaluate.Short && v.Coils[v.Governing].Name != "inner" {
				t.Errorf("%s is short by its %s coil, and the inner should govern", v.Label, v.Coils[v.Governing].Name)
			}
		}
	}
	for id, want := range map[string][]string{
		"setup-ferry-found": {"5 in binds"},
		"setup-ferry-built": {"3 ex short", "4 in missing", "5 in within", "6 ex up-to"},
		"setup-hill-built":  {"1 in 1 within", "4 ex 2 within"},
	} {
		for _, one := range want {
			if !slices.Contains(verdicts[id], one) {
				t.Errorf("%s: no %q in %v", id, one, verdicts[id])
			}
		}
	}
	for _, v := range verdicts["setup-hill-built"] {
		if !strings.HasSuffix(v, " within") {
			t.Errorf("the metric head should be all within: %s", v)
		}
	}
	for _, v := range verdicts["setup-launch-built"] {
		if !strings.HasSuffix(v, " up-to") {
			t.Errorf("a head with lift by the card should be within up to a lift: %s", v)
		}
	}
}

// Undo works on what a table brought in, in one step, and a redo brings it back.
func TestReadInIsOneStep(t *testing.T) {
	book := demonstration(t)
	ctx := context.Background()
	before, err := book.Record(ctx, "setup-launch-built")
	if err != nil {
		t.Fatal(err)
	}
	d := &task.Desk{Book: book, Who: "test", Clock: clock}
	kept, err := d.ReadIn(ctx, []byte("head,valve,what,reading\nDR-1L,1 in,lift,.598\nDR-1L,1 ex,lift,.601\nDR-1L,1 ex,shims,none\n"))
	if err != nil || kept != 3 {
		t.Fatalf("kept %d: %v", kept, err)
	}
	if _, err := book.Undo(ctx, "setup-launch-built", "test", task.StampOf(clock()), task.NewID()); err != nil {
		t.Fatal(err)
	}
	after, err := book.Record(ctx, "setup-launch-built")
	if err != nil {
		t.Fatal(err)
	}
	if len(after.Setup.Readings) != len(before.Setup.Readings) {
		t.Errorf("%d readings after the undo, %d before", len(after.Setup.Readings), len(before.Setup.Readings))
	}
	stack := func(r *record.Record) int {
		return len(r.ValveAt(record.Position{Cylinder: "1", Role: record.Exhaust, N: 1}).Stack)
	}
	if stack(after) != stack(before) {
		t.Errorf("%d shims after the undo, %d before", stack(after), stack(before))
	}
}

// Two processes that write the demonstration get the same pages.
func TestSheetIsTheSameEachTime(t *testing.T) {
	a, b := demonstration(t), demonstration(t)
	for _, id := range setups(t, a) {
		one, err := task.Sheet(context.Background(), a, id, pdf.Letter)
		if err != nil {
			t.Fatal(err)
		}
		two, err := task.Sheet(context.Background(), b, id, pdf.Letter)
		if err != nil {
			t.Fatal(err)
		}
		if signed, err := a.Sheet(context.Background(), id); err != nil || signed != nil {
			continue // two books have two histories, and a signed sheet the end of its own; the next test is of those
		}
		if string(one) != string(two) {
			t.Errorf("%s: %d and %d bytes that differ", id, len(one), len(two))
		}
	}
}

// Two that sign the same copy of a book at the same moment with the same key get the same bytes.
func TestSignedSheetIsTheSameEachTime(t *testing.T) {
	ctx := context.Background()
	book := demonstration(t)
	key := signerKey(t)
	var files []string
	for range 2 {
		path := filepath.Join(t.TempDir(), "copy.keeperbook")
		if err := book.Copy(ctx, path); err != nil {
			t.Fatal(err)
		}
		desk, err := task.OpenBook(ctx, path, "test", clock)
		if err != nil {
			t.Fatal(err)
		}
		file, err := desk.Sign(ctx, "setup-hill-built", task.Signature{Key: key, Name: "J. Peverel", When: clock(), Paper: pdf.A4}, nil)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, string(file))
		if err := desk.Close(); err != nil {
			t.Fatal(err)
		}
	}
	if files[0] != files[1] {
		t.Errorf("%d and %d bytes that differ", len(files[0]), len(files[1]))
	}
}

// The scatter that the demonstration's gauges are said to have is what the readings of their studies
// come to: the standard deviations of the people, pooled by their degrees of freedom. Struck readings
// do not count.
func TestDemoStudiesGiveTheirScatter(t *testing.T) {
	ctx, book := context.Background(), demonstration(t)
	studies, err := book.Studies(ctx)
	if err != nil {
		t.Fatal(err)
	}
	gauges, err := book.Gauges(ctx)
	if err != nil {
		t.Fatal(err)
	}
	compared := 0
	for _, s := range studies {
		byWhom := map[string][]float64{}
		for _, r := range s.Readings {
			if r.Struck == nil {
				byWhom[r.By] = append(byWhom[r.By], float64(r.Quantity.Value))
			}
		}
		squares, freedom := 0.0, 0
		for _, all := range byWhom {
			mean := 0.0
			for _, x := range all {
				mean += x / float64(len(all))
			}
			for _, x := range all {
				squares += (x - mean) * (x - mean)
			}
			freedom += len(all) - 1
		}
		at := slices.IndexFunc(gauges, func(g record.Gauge) bool { return g.ID == s.Gauge })
		if at < 0 || gauges[at].Repeat == nil || gauges[at].Repeat.Study != s.ID {
			t.Errorf("study %s is of no gauge that names it", s.ID)
			continue
		}
		r := gauges[at].Repeat
		// In the last digit that the scatter is said with, a ten-thousandth of an inch.
		digit := float64(unit.Thou) / 10
		if math.Round(math.Sqrt(squares/float64(freedom))/digit) != math.Round(float64(r.S.Value)/digit) {
			t.Errorf("%s: readings scatter by %v, said is %v", s.ID, math.Sqrt(squares/float64(freedom)), r.S)
		}
		if r.Freedom != strconv.Itoa(freedom) || r.People != len(byWhom) {
			t.Errorf("%s: %d degrees of freedom and %d people, said are %s and %d", s.ID, freedom, len(byWhom), r.Freedom, r.People)
		}
		compared++
	}
	if compared != 2 {
		t.Errorf("%d studies compared", compared)
	}
}

// The demonstration's springs can be drawn: what was read of each goes together, and three coils that were
// tested alone carry what they carry as one, but for the friction of the damper.
func TestDemoSprings(t *testing.T) {
	book := demonstration(t)
	parts, err := book.Parts(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	through := func(l *record.Loads) []curve.Point {
		var points []curve.Point
		for _, p := range l.Points {
			h := p.Height.Length()
			for _, c := range l.Correction {
				if c.Zero == record.NotZeroed {
					h -= c.Amount.Length()
				}
			}
			points = append(points, curve.Point{Height: h, Load: unit.Load(p.Load.Value)})
		}
		return points
	}
	tested := 0
	for _, s := range parts.Springs {
		if err := evaluate.DoubtPart(s); err != nil {
			t.Error(err)
		}
		if s.Assembly != nil && s.Assembly.Loads != nil || s.Coils[0].Loads != nil {
			tested++
		}
	}
	for _, p := range parts.Pieces {
		if err := evaluate.DoubtPart(p); err != nil {
			t.Error(err)
		}
		if len(p.Loads) != 1 || len(p.Loads[0].Loads.Points) != 4 {
			t.Errorf("%s has %+v", p.Tag, p.Loads)
		}
	}
	if tested != 4 || len(parts.Pieces) != 18 {
		t.Errorf("%d types of springs tested, %d single ones", tested, len(parts.Pieces))
	}
	nest := parts.Springs[slices.IndexFunc(parts.Springs, func(s record.Spring) bool { return s.ID == "spring-nest-12" })]
	steps := []unit.Length{0, 95 * unit.Thou} // of its retainer; its locator has none
	var spring curve.Spring
	for _, c := range nest.Coils {
		one, err := curve.New(through(c.Loads), 0)
		if err != nil {
			t.Fatal(err)
		}
		spring.Coils = append(spring.Coils, one)
	}
	if spring.Assembly, err = curve.Assembly(through(nest.Assembly.Loads), 0, steps...); err != nil {
		t.Fatal(err)
	}
	for _, h := range []unit.Length{1800 * unit.Thou, 1750 * unit.Thou, 1400 * unit.Thou, 1190 * unit.Thou} {
		off, err := spring.Difference(h, steps...)
		if err != nil || off < 6_000 || off > 16_000 {
			t.Errorf("as one it carries %d mN more than its coils at %d, %v", off, h, err)
		}
	}
}
