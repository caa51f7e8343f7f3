package life

import (
	"context"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/task"
	"keeperbook/assets"
	"keeperbook/model/life"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

func clock() time.Time { return time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC) }

// host is a window around the leaf that notes what it was told.
type host struct {
	win    fyne.Window
	told   string
	failed error
	follow record.SetupKind
}

func (h *host) Window() fyne.Window          { return h.win }
func (h *host) Tell(l say.Line)              { h.told = say.English().Line(l) }
func (h *host) Fail(err error)               { h.failed = err }
func (h *host) Changed()                     {}
func (h *host) Show(string)                  {}
func (h *host) AskFollow(k record.SetupKind) { h.follow = k }

func bench(t *testing.T, setup string) *task.Bench {
	t.Helper()
	ctx := context.Background()
	path, err := task.DemoBook(ctx, t.TempDir(), assets.Demo(), clock)
	if err != nil {
		t.Fatal(err)
	}
	desk, err := task.OpenBook(ctx, path, "M. Ashlock", clock)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { desk.Close() })
	b, err := desk.OpenBench(ctx, setup)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func shown(t *testing.T, setup string) (*host, *View) {
	t.Helper()
	test.NewTempApp(t).Settings().SetTheme(kit.NewTheme(false, 1))
	h := &host{win: test.NewTempWindow(t, nil)}
	v := New(h, bench(t, setup))
	h.win.SetContent(v.Object())
	h.win.Resize(fyne.NewSize(1280, 900))
	v.Focus()
	return h, v
}

func (h *host) write(text string, keys ...fyne.KeyName) {
	for _, r := range text {
		h.win.Canvas().Focused().TypedRune(r)
	}
	for _, k := range keys {
		h.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: k})
	}
}

// The demonstration's head has one spring going off, and one valve that sinks, whose spring is sound.
func TestSpringsOfTheDemonstration(t *testing.T) {
	p := NewPresenter(bench(t, "setup-ferry-built"))
	if err := p.Load(context.Background()); err != nil {
		t.Fatal(err)
	}
	verdicts, whys := map[string]string{}, map[string]string{}
	for _, r := range p.Springs() {
		verdicts[r.Label], whys[r.Label] = r.Verdict, r.Why
	}
	for label, want := range map[string]string{"3 ex": "replace", "5 ex": "keep", "2 in": "watch", "1 in": "keep", "4 in": ""} {
		if verdicts[label] != want {
			t.Errorf("%s is %q: %s", label, verdicts[label], whys[label])
		}
	}
	if !strings.Contains(whys["5 ex"], "lash tighter by .002") || p.Open() != 1 {
		t.Errorf("%q, %d open", whys["5 ex"], p.Open())
	}
	if dues := p.Dues(); len(dues) != 4 || !strings.HasPrefix(dues[0], "due: OF-2P, 3 ex: change the spring") {
		t.Errorf("%q", dues)
	}
	if sum := p.Sum(); !strings.HasPrefix(sum, "75 hours; ") || !strings.HasSuffix(sum, "Times beyond its speed: 1.") {
		t.Error(sum)
	}
}

// A day is logged with one line and Enter, and the next one follows; what is not understood stays as it was typed.
func TestLogADay(t *testing.T) {
	h, v := shown(t, "setup-launch-built")
	h.write("6 passes, 9.5 s, mean 6,800, top 7,800", fyne.KeyReturn)
	rows, _ := v.presenter.Runs()
	if len(rows) != 1 || rows[0].Text != "6 passes, 9.5 s, mean 6800, top 7800" || rows[0].Day != "2026-06-01" || v.line.Text() != "" {
		t.Fatalf("%+v, %q in the field, %v", rows, v.line.Text(), h.failed)
	}
	if !strings.Contains(h.told, "is kept") || v.presenter.Sum() != "6 passes; 3\u202f230 valve cycles." {
		t.Errorf("%q, %q", h.told, v.presenter.Sum())
	}
	v.line.Focus()
	h.write("7 what not", fyne.KeyReturn)
	if rows, _ := v.presenter.Runs(); len(rows) != 1 || v.line.Text() != "7 what not" || len(v.Unkept()) != 1 {
		t.Errorf("%+v, %q in the field", rows, v.line.Text())
	}
	h.write("", fyne.KeyEscape)
	// The same day twice would count twice.
	h.write("6 passes, 9.5 s, mean 6,800, top 7,800", fyne.KeyReturn)
	if rows, _ := v.presenter.Runs(); len(rows) != 1 || v.line.Text() == "" {
		t.Errorf("%+v, %q in the field", rows, v.line.Text())
	}
	h.write("", fyne.KeyEscape)
	if got := v.presenter.Understood(`8 passes, "`); got != "8 passes, 9.5 s, mean 6800" {
		t.Errorf("as last: %q", got)
	}
	if err := v.presenter.SetDay("2026-05-01"); err != nil {
		t.Fatal(err)
	}
	if _, err := v.presenter.Log(context.Background(), "6 passes"); say.CodeOf(err) != say.Invalid {
		t.Errorf("a run before the build: %v", err)
	}
	for _, day := range []string{"2026-06-05", "yesterday"} {
		if err := v.presenter.SetDay(day); err == nil {
			t.Errorf("%s was taken", day)
		}
	}
	if err := v.presenter.Forget(context.Background(), rows[0].Run); err != nil {
		t.Fatal(err)
	}
	if rows, _ := v.presenter.Runs(); len(rows) != 0 {
		t.Errorf("%+v", rows)
	}
}

// A check is entered valve after valve; what cannot be read is said where it stands, and Esc asks before anything is lost.
func TestEnterACheck(t *testing.T) {
	h, v := shown(t, "setup-launch-built")
	v.begin()
	h.write("moss", fyne.KeyReturn)
	if v.presenter.Typed() {
		t.Error("moss was taken")
	}
	h.write("", fyne.KeyEscape)
	v.valves[0].Focus()
	h.write("131, polish", fyne.KeyReturn)
	h.write("129 at 1.812", fyne.KeyReturn)
	if lines := v.Unkept(); len(lines) != 1 || lines[0].Key != "life.unkept-check" {
		t.Errorf("%v", lines)
	}
	v.drop()
	if !v.presenter.Checking() {
		t.Fatal("the check was dropped without a question")
	}
	h.write("", fyne.KeyReturn) // back to it
	v.keep()
	if h.failed != nil || v.presenter.Checking() || len(v.Unkept()) > 0 {
		t.Fatalf("%v", h.failed)
	}
	rows := v.presenter.Springs()
	if rows[0].Verdict != "watch" || rows[0].Loads != "131.0 → 131.0 lbf" || rows[2].Loads != "" {
		t.Errorf("%+v", rows)
	}
	// Another one of that day and time is refused, and what was typed stays.
	v.begin()
	v.presenter.Serve(1)
	h.write("130", fyne.KeyReturn)
	v.keep()
	if say.CodeOf(h.failed) != say.Conflict || !v.presenter.Checking() || v.presenter.draft.Lines[record.Position{Cylinder: "1", Role: record.Intake, N: 1}] != "130" {
		t.Errorf("%v", h.failed)
	}
}

// The demonstration's racer was watched over two seasons: one spring goes off and comes to its limit within weeks, one valve sinks
// while its spring is sound, and of the springs that hold nobody says more than how long they do at least.
func TestTwoSeasonsOfTheRacer(t *testing.T) {
	p := NewPresenter(bench(t, "setup-racer-built"))
	if err := p.Load(context.Background()); err != nil {
		t.Fatal(err)
	}
	if runs := p.read.Runs; len(runs) != 17 || runs[0].Day[:4] != "2025" || runs[16].Day[:4] != "2026" || p.read.Checks != 6 {
		t.Fatalf("%d runs, %d checks", len(runs), p.read.Checks)
	}
	rows := map[string]life.ValveWords{}
	for _, r := range p.Springs() {
		rows[r.Label] = r
	}
	if r := rows["2 ex"]; r.Verdict != "watch" || !strings.HasPrefix(r.Lost, "8.7") || !strings.Contains(r.Why, "10 % lost in 6 to 110 more laps") {
		t.Errorf("%+v", r)
	}
	if r := rows["3 ex"]; !r.Quiet || !strings.Contains(r.Why, "the valve sinks or stretches") {
		t.Errorf("%+v", r)
	}
	if r := rows["4 ex"]; !r.Quiet || !strings.Contains(r.Why, "10 % not lost before ") || strings.Contains(r.Why, " to ") {
		t.Errorf("%+v", r)
	}
}

// A day that comes often has a name, for all heads of the engine; with nothing behind it the name is forgotten.
func TestNamedDays(t *testing.T) {
	h, v := shown(t, "setup-ferry-built")
	before := len(v.presenter.read.Runs)
	h.write("ferry day = 5 hours, mean 2100, at ferry roads", fyne.KeyReturn)
	if h.told != "From now on ferry day is 5 hours, mean 2100, at ferry roads. Nothing was logged." || len(v.presenter.read.Runs) != before {
		t.Fatalf("%q, %d runs", h.told, len(v.presenter.read.Runs))
	}
	if !strings.Contains(v.presenter.Days(), "ferry day") || v.presenter.Understood("Ferry  Day, 1 start") == "" {
		t.Errorf("%q, %q", v.presenter.Days(), v.presenter.Understood("Ferry  Day, 1 start"))
	}
	h.write("ferry day, 1 start", fyne.KeyReturn)
	runs := v.presenter.read.Runs
	if len(runs) != before+1 || runs[before].Mean != "2100" || runs[before].Starts != 1 || runs[before].Where != "ferry roads" {
		t.Errorf("%q, %+v", h.told, runs[before:])
	}
	for _, wrong := range []string{"ferry day = twice around", "6 = 5 hours"} {
		if _, err := v.presenter.Log(context.Background(), wrong); say.CodeOf(err) != say.Invalid {
			t.Errorf("%q: %v", wrong, err)
		}
	}
	if _, err := v.presenter.Log(context.Background(), "ferry day ="); err != nil || v.presenter.Days() != "" {
		t.Errorf("%v, %q", err, v.presenter.Days())
	}
}

// Where a spring is to be changed the next set-up is one button away.
func TestChangingOpensTheNextSetup(t *testing.T) {
	h, v := shown(t, "setup-ferry-built")
	if v.Open() != 1 {
		t.Fatalf("%d to be changed", v.Open())
	}
	v.Change()
	if h.follow != record.AsBuilt {
		t.Errorf("asked for %q", h.follow)
	}
}

// All springs stand in one plot until one is chosen.
func TestAllValvesAndBack(t *testing.T) {
	_, v := shown(t, "setup-racer-built")
	p := v.presenter
	if _, ok := p.GraphAll(); ok {
		t.Error("all are drawn from the beginning")
	}
	v.All()
	g, ok := p.GraphAll()
	if !ok || len(g.Lines) != 8 || g.Watch != .05 || g.Replace != .10 {
		t.Fatalf("%+v", g)
	}
	for _, l := range g.Lines {
		last := l.At[len(l.At)-1]
		if l.At[0] != (life.LossAt{}) || len(l.At) != 6 || last.X < 364 || last.X > 366 {
			t.Errorf("%s: %+v", l.Of, l.At)
		}
		if l.Of == "2 ex" && (!l.Marked || last.Share < .086 || last.Share > .088) {
			t.Errorf("%+v", l)
		}
	}
	p.Choose(2)
	if _, ok := p.GraphAll(); ok {
		t.Error("all are still drawn")
	}
	if times, ok := p.Times(); !ok || times.From != "2025-03-08" || times.Until != "2026-06-28" || len(times.Days) != 17 || len(times.Checks) != 6 {
		t.Errorf("%+v", times)
	}
}

// The lash of the valve that sinks was found tighter check after check, and set again.
func TestLashLog(t *testing.T) {
	_, v := shown(t, "setup-racer-built")
	titles, rows, more := v.presenter.LashLog()
	if strings.Join(titles, " ") != "built 2025-08-26 2025-11-02 2026-04-20 2026-05-25 moved" || more != 1 || len(rows) != 8 {
		t.Fatalf("%q, %d rows, %d more", titles, len(rows), more)
	}
	if got := strings.Join(rows[5], "|"); got != "3 ex|.014|.012, left .014|.013, left .014|.012, left .014|.013, left .014|−.001" {
		t.Errorf("%s", got)
	}
	if got := strings.Join(rows[0], "|"); got != "1 in|.012|.012|.012|.012|.012|.000" {
		t.Errorf("%s", got)
	}
}

// A check that was kept is opened with what was typed, corrected in its place, and taken away.
func TestCorrectACheck(t *testing.T) {
	ctx := context.Background()
	h, v := shown(t, "setup-racer-built")
	p := v.presenter
	checks := p.Checks()
	if len(checks) != 6 || checks[0].Day != "2026-05-25" || checks[0].Text != "in use, 8 valves, spring tester 7" {
		t.Fatalf("%+v", checks)
	}
	p.Correct(checks[0].Check)
	v.enter()
	lines := p.Lines()
	if lines[3].Text != "115, lash .014, nothing" || lines[0].Text != "123, lash .012, polish" || p.Typed() {
		t.Fatalf("%+v", lines)
	}
	if day, in := p.Next(); day != "2026-06-28" || in != "120 laps" {
		t.Errorf("%q, %q", day, in)
	}
	if err := p.Found(lines[3].At, "118, lash .014, end tip"); err != nil || !p.Typed() {
		t.Fatal(err)
	}
	v.keep()
	if h.failed != nil || h.told != "The check of 2026-05-25 is corrected." {
		t.Fatalf("%v, %q", h.failed, h.told)
	}
	now := p.Checks()
	if len(now) != 6 || now[0].Check.ID != checks[0].Check.ID || now[0].Check.Valves[3].Load.Read != "118" || now[0].Check.NextOf != record.Laps {
		t.Errorf("%+v", now[0].Check)
	}
	// One that cannot be is refused, and stays as it was typed.
	p.Correct(now[0].Check)
	if err := p.Found(lines[3].At, "twelve"); err == nil {
		t.Error("a word is taken for a load")
	}
	p.NextDay("2026-05-01")
	if _, err := p.Keep(ctx); say.CodeOf(err) != say.Invalid || !p.Checking() {
		t.Errorf("%v", err)
	}
	p.Drop()
	if err := p.Forget(ctx, now[0].Check); err != nil || len(p.Checks()) != 5 {
		t.Errorf("%v, %d checks", err, len(p.Checks()))
	}
}
