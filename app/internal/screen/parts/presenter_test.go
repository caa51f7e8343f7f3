package parts

import (
	"context"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"keeperbook/app/internal/task"
	"keeperbook/assets"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

func clock() time.Time { return time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC) }

// demo is the page of a set-up of the demonstration book.
func demo(t *testing.T, setup string) (*Presenter, *task.Bench) {
	t.Helper()
	ctx := context.Background()
	path := filepath.Join(t.TempDir(), "demo.keeperbook")
	if _, err := task.Demo(ctx, path, assets.Demo(), clock); err != nil {
		t.Fatal(err)
	}
	d, err := task.OpenBook(ctx, path, "M. Tester", clock)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { d.Close() })
	return open(t, d, setup)
}

func open(t *testing.T, d *task.Desk, setup string) (*Presenter, *task.Bench) {
	t.Helper()
	b, err := d.OpenBench(context.Background(), setup)
	if err != nil {
		t.Fatal(err)
	}
	p := NewPresenter(b)
	if err := p.Load(context.Background()); err != nil {
		t.Fatal(err)
	}
	return p, b
}

// fresh is the page of a new head with two cylinders.
func fresh(t *testing.T) (*Presenter, *task.Bench) {
	t.Helper()
	ctx := context.Background()
	d, err := task.MakeBook(ctx, filepath.Join(t.TempDir(), "new"), "M. Tester", clock)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { d.Close() })
	setup, err := d.Begin(ctx, task.NewHead{
		Engine: "Engine", Tag: "T-1", Cylinders: []string{"1", "2"}, Intakes: 1, Exhausts: 1,
		Kind: record.AsBuilt, Units: record.Units{Length: unit.In, Load: unit.Lbf},
	})
	if err != nil {
		t.Fatal(err)
	}
	return open(t, d, setup)
}

func field(t *testing.T, p *Presenter, at Place, name string) Field {
	t.Helper()
	for _, g := range p.Detail(at).Groups {
		for _, f := range g.Fields {
			if f.Name == name {
				return f
			}
		}
	}
	t.Fatalf("no field %s at %+v", name, at)
	return Field{}
}

func commit(t *testing.T, p *Presenter, at Place, name, text string) {
	t.Helper()
	if err := p.Commit(context.Background(), at, name, text); err != nil {
		t.Fatalf("%s %s: %v", name, text, err)
	}
}

var intakeSpring = Place{What: AtSlot, Role: record.Intake, Slot: Spring}

// From nothing to a package that lacks nothing: each missing thing is typed where its sentence leads.
func TestNewPackage(t *testing.T) {
	ctx := context.Background()
	p, b := fresh(t)
	if !p.Empty() || p.Open() != 2 {
		t.Fatalf("a new head is not empty, or lacks %v", p.Missing())
	}
	commit(t, p, intakeSpring, "new", "pair")
	if err := p.Act(ctx, intakeSpring, "coil"); err != nil {
		t.Fatal(err)
	}
	retainer := Place{What: AtSlot, Role: record.Intake, Slot: Retainer}
	commit(t, p, retainer, "new", "step")
	answers := map[string]string{"steps": ".095", "coil 1 bind": "1155", "coil 2 bind": "1.080", "coil 1 least": "60", "coil 2 least": "70"}
	for range 20 {
		missing := slices.DeleteFunc(p.Missing(), func(l Link) bool { return l.To.Role == record.Exhaust })
		if len(missing) == 0 {
			break
		}
		l := missing[0]
		if answers[l.Field] == "" {
			t.Fatalf("%q leads to %s, which nobody answers", l.Text, l.Field)
		}
		commit(t, p, l.To, l.Field, answers[l.Field])
	}
	if got := p.Open(); got != 1 { // the exhausts' spring
		t.Errorf("still missing: %v", p.Missing())
	}
	s := b.Record().Parts.Springs[0]
	if bind := s.Coils[0].Bind; bind.By != "M. Tester" || bind.Source != record.Measured || bind.At != "2026-06-01T12:00:00Z" {
		t.Errorf("bind kept as %+v", bind)
	}
	// Each commit was one action: as many undos take the page back to where it began.
	for range 2 + 1 + 5 {
		if _, err := b.Undo(ctx); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := b.Undo(ctx); say.CodeOf(err) != say.NotFound || len(b.Record().Setup.Packages) != 0 {
		t.Errorf("after undoing all of it: %v, %+v", err, b.Record().Setup.Packages)
	}
}

func TestCommit(t *testing.T) {
	if testing.Short() {
		t.Skip("once a run is enough: it works on one goroutine")
	}
	slot := func(s Slot) Place { return Place{What: AtSlot, Role: record.Intake, Slot: s} }
	for _, tt := range []struct {
		at          Place
		field, text string
		shows, key  string
	}{
		{slot(Retainer), "steps", "95+60", ".095+.060", ""},
		{slot(Retainer), "steps", "none", "", ""},
		{slot(Retainer), "steps", ".095+", ".095+", "unit.gap"},
		{slot(Retainer), "lid", "100", ".100", ""},
		{slot(Retainer), "lid", "-5", "-5", "unit.negative"},
		{slot(Retainer), "name", "", "", "parts.no-name"},
		{slot(Locks), "offset", "+50", "+.050", ""},
		{slot(Locks), "offset", "-.050", "−.050", ""},
		{slot(Locks), "groove", "multi", "multi", ""},
		{slot(Locator), "steps", "-20", "−.020", ""},
		{slot(Locator), "floor", "1.5 mm", ".0591", ""},
		{slot(Seal), "sits", "locator", "locator", ""},
		{slot(Retainer), "register 2", "790", ".790", ""},
		{slot(Retainer), "outside", "1.600", "1.600", ""},
		{slot(Retainer), "groove", "single", "single", ""},
		{slot(Locks), "stem", ".342", ".342", ""},
		{slot(Locator), "bore", "570", ".570", ""},
		{slot(Locator), "register 1", "none", "none", "unit.letters"},
		{slot(Locator), "cup", "1.560", "1.560", ""},
		{slot(Seal), "outside", "640", ".640", ""},
		{slot(Seal), "height", "500", ".500", ""},
		{slot(Valve), "angle", "10", "10", ""},
		{slot(Valve), "groove", "multi", "multi", ""},
		{slot(Valve), "head", "2.02", "2.02", ""},
		{slot(Spring), "rate", "420", "420 lbf/in", ""},
		{slot(Spring), "rated", "650", ".650", ""},
		{slot(Spring), "coil 1 name", "flat outer", "flat outer", ""},
		{slot(Spring), "coil 1 bind", "1.155", "1.155", ""},
		{slot(Spring), "coil 1 bind", "12", "12", "unit.ambiguous"},
		{slot(Spring), "coil 1 least from", "maker", "maker", "parts.least-first"},
	} {
		t.Run(string(tt.at.Slot)+" "+tt.field+" "+tt.text, func(t *testing.T) {
			p, _ := fresh(t)
			for _, s := range Slots() {
				commit(t, p, slot(s), "new", "a "+string(s))
			}
			err := p.Commit(context.Background(), tt.at, tt.field, tt.text)
			if got := keyOf(err); got != tt.key {
				t.Fatalf("refused with %q (%v), want %q", got, err, tt.key)
			}
			f := field(t, p, tt.at, tt.field)
			if f.Value != tt.shows || (f.Refused != "") != (tt.key != "") {
				t.Errorf("shows %q, says %q; want %q", f.Value, f.Refused, tt.shows)
			}
		})
	}
}

// Registers stand in the order of their coils, and go away one by one.
func TestRegisters(t *testing.T) {
	p, b := fresh(t)
	at := Place{What: AtSlot, Role: record.Intake, Slot: Retainer}
	commit(t, p, at, "new", "stepped")
	commit(t, p, at, "register 2", ".790")
	commit(t, p, at, "register 1", "1.140")
	registers := func() []record.Register { return b.Record().Parts.Retainers[0].Registers }
	if r := registers(); len(r) != 2 || r[0].Coil != 1 || r[1].Diameter.Length() != 790*unit.Thou {
		t.Errorf("kept is %+v", r)
	}
	commit(t, p, at, "register 1", "")
	commit(t, p, at, "register 2", "")
	if registers() != nil {
		t.Errorf("there is still %+v", registers())
	}
}

func keyOf(err error) string {
	e, ok := err.(*say.Error)
	switch {
	case err == nil:
		return ""
	case !ok:
		return err.Error()
	}
	return e.Line.Key
}

// The bind that is shown is the bind that the valves are judged by: 1.155 − .095 = 1.060, and a part that
// the gauge was zeroed on is in no reading. Worked example of the trade, common practice.
func TestBindThroughStack(t *testing.T) {
	p, b := fresh(t)
	commit(t, p, intakeSpring, "new", "single")
	commit(t, p, intakeSpring, "coil 1 bind", "1155")
	commit(t, p, Place{What: AtGauge}, "new", "fixture")
	g := p.Gauges()[0].To
	commit(t, p, g, "kind", "fixture")
	commit(t, p, g, "lid", "95")
	coil := Place{What: AtCoil, ID: b.Record().Parts.Springs[0].ID, Coil: 1}
	says := func(want string) {
		t.Helper()
		if got := p.Detail(coil).Groups[0].Notes[0]; got != want {
			t.Errorf("says %q, want %q", got, want)
		}
		at := record.Position{Cylinder: "1", Role: record.Intake, N: 1}
		for _, v := range b.Evaluation().Valves {
			if v.At == at && !strings.Contains(want, "bind "+unit.Inches.LengthIn(v.Coils[0].Bind.Value)) {
				t.Errorf("the valve has %s, the page says %q", unit.Inches.LengthIn(v.Coils[0].Bind.Value), want)
			}
		}
	}
	says("bind 1.155, measured")
	commit(t, p, coil, "gauge", g.ID)
	says("bind 1.060 ⟵ 1.155 − .095, measured")
	commit(t, p, coil, "jaws", "60")
	says("bind 1.000 ⟵ 1.155 − .095 − .060, measured")
	commit(t, p, coil, "jaws zero", "zeroed")
	says("bind 1.060 ⟵ 1.155 − .095 (zeroed on jaws), measured")
	commit(t, p, coil, "lid", "")
	says("bind 1.155 (zeroed on jaws), measured")
	commit(t, p, coil, "source", "estimated")
	says("bind 1.155 (zeroed on jaws), an estimate")
	// The gauge's own setting stayed as it was, and a reading keeps its copy.
	if got := p.Gauges()[0].More; got != "fixture, lid −.095" {
		t.Errorf("the gauge reads through %q", got)
	}
	commit(t, p, g, "lid", "")
	if got := p.Gauges()[0].More; got != "fixture" {
		t.Errorf("the gauge reads through %q", got)
	}
}

func TestSame(t *testing.T) {
	ctx := context.Background()
	p, b := fresh(t)
	for _, s := range Slots() {
		commit(t, p, Place{What: AtSlot, Role: record.Intake, Slot: s}, "new", "a "+string(s))
	}
	if !p.Differs(record.Intake) {
		t.Error("nothing differs before")
	}
	if err := p.Same(ctx, record.Intake); err != nil {
		t.Fatal(err)
	}
	if p.Differs(record.Intake) {
		t.Error("something differs after")
	}
	in, ex := b.Record().PackageOf(record.Intake), b.Record().PackageOf(record.Exhaust)
	if ex.Spring != in.Spring || ex.Seal != in.Seal || ex.Valve != "" {
		t.Errorf("the exhausts carry %+v", ex)
	}
	if _, err := b.Undo(ctx); err != nil || b.Record().PackageOf(record.Exhaust).Spring != "" {
		t.Errorf("one undo does not take it back: %v", err)
	}
}

// What a valve carries differently, what was cut there, and what was accepted.
func TestValve(t *testing.T) {
	p, b := demo(t, "setup-ferry-built")
	at := record.Position{Cylinder: "3", Role: record.Exhaust, N: 1}
	here := p.ValveOf(at.String())
	commit(t, p, here, "note", "stem tip dressed")
	commit(t, p, here, "piece", "B-17")
	if err := p.Commit(context.Background(), p.ValveOf("3/in/1"), "piece", "B-17"); keyOf(err) != "parts.piece-elsewhere" {
		t.Errorf("one spring on two valves: %v", err)
	}
	commit(t, p, here, "cut", "4")
	commit(t, p, here, "cut", "6")
	if n := len(b.Record().Setup.SeatWork); n != 4 { // two are in the demonstration
		t.Fatalf("%d cuts", n)
	}
	if f := field(t, p, here, "cut"); f.Value != "" {
		t.Errorf("the next cut begins with %q", f.Value)
	}
	mine := func() record.SeatWork {
		i := slices.IndexFunc(b.Record().Setup.SeatWork, func(w record.SeatWork) bool {
			return w.By == "M. Tester" && w.Depth.Length() != 4*unit.Thou
		})
		return b.Record().Setup.SeatWork[i]
	}
	w := mine()
	commit(t, p, here, "cut."+w.ID, "5")
	if got := mine(); got.Depth.Length() != 5*unit.Thou || got.ID != w.ID {
		t.Errorf("corrected to %+v", got)
	}
	commit(t, p, here, "cut."+w.ID, "")
	if n := len(b.Record().Setup.SeatWork); n != 3 {
		t.Errorf("%d cuts after one was taken away", n)
	}
	var more string
	for _, l := range p.Differing() {
		if l.To == here {
			more = l.More
		}
	}
	if more != "spring B-17; seat cut by .004; stem tip dressed" {
		t.Errorf("said to differ by %q", more)
	}

	before := p.Findings()
	l := before[0]
	if err := p.Commit(context.Background(), l.To, l.Field, " "); keyOf(err) != "task.reason" {
		t.Errorf("accepted without a reason: %v", err)
	}
	commit(t, p, l.To, l.Field, "agreed with the owner")
	if len(p.Findings()) != len(before)-1 {
		t.Errorf("%d findings after one of %d was accepted", len(p.Findings()), len(before))
	}
	commit(t, p, l.To, l.Field, "agreed with the owner by telephone")
	if n := len(b.Record().Setup.Deviations); n != 2 { // one is in the demonstration
		t.Errorf("%d accepted: changing a reason is no second one", n)
	}
	commit(t, p, l.To, l.Field, "")
	if len(p.Findings()) != len(before) {
		t.Error("a reason that was cleared still accepts")
	}
}

// Another part of the book is chosen by its name, and the record then holds that one only.
func TestChooseFromTheBook(t *testing.T) {
	p, b := demo(t, "setup-launch-built")
	at := Place{What: AtSlot, Role: record.Intake, Slot: Retainer}
	options := field(t, p, at, "fitted").Options
	i := slices.IndexFunc(options, func(o Option) bool { return o.Value == "retainer-bucket-m" })
	if i < 0 {
		t.Fatalf("the book's retainers are not offered: %v", options)
	}
	commit(t, p, at, "fitted", options[i].Value)
	held := func(id string) bool {
		return slices.ContainsFunc(b.Record().Parts.Retainers, func(r record.Retainer) bool { return r.ID == id })
	}
	if !held("retainer-bucket-m") || !held("retainer-beehive") { // the exhausts still carry the other
		t.Errorf("holds %+v", b.Record().Parts.Retainers)
	}
	commit(t, p, Place{What: AtSlot, Role: record.Exhaust, Slot: Retainer}, "fitted", options[i].Value)
	for _, r := range b.Record().Setup.Readings {
		if r.Over != nil && r.Over.Retainer == "retainer-beehive" {
			return // readings taken over it keep it in the record
		}
	}
	if held("retainer-beehive") {
		t.Error("the record still holds a part that nothing names")
	}
}

func TestUsedIn(t *testing.T) {
	p, b := demo(t, "setup-ferry-built")
	uses, err := b.UsedIn(context.Background(), p.part(Locks, "locks-7-std"))
	if err != nil || len(uses) != 5 {
		t.Errorf("%v, %v; want the two set-ups of the ferry and of the launch, and that of the racer", uses, err)
	}
}

// Every demonstration set-up shows every place it leads to, and commits nothing by being looked at.
func TestEveryPlaceOfTheDemonstration(t *testing.T) {
	if testing.Short() {
		t.Skip("once a run is enough: drawing takes long under -race")
	}
	for _, setup := range []string{"setup-ferry-found", "setup-ferry-built", "setup-hill-built", "setup-launch-built"} {
		t.Run(setup, func(t *testing.T) {
			p, b := demo(t, setup)
			before, _ := b.PeekUndo(context.Background())
			links := slices.Concat(p.Missing(), p.Differing(), p.Findings(), p.Gauges())
			for _, row := range p.Package() {
				for _, c := range row.Cells {
					links = append(links, Link{To: c.Place})
				}
			}
			for i := 0; i < len(links); i++ {
				d := p.Detail(links[i].To)
				if links[i].Leaf == "" && (d.Title == "" || len(d.Groups) == 0) {
					t.Errorf("%+v leads to nothing", links[i])
				}
				for _, g := range d.Groups {
					for _, l := range g.Links {
						if l.To.What == AtCoil {
							links = append(links, l)
						}
					}
					for _, f := range g.Fields {
						if err := p.Commit(context.Background(), links[i].To, f.Name, f.Value); err != nil {
							t.Errorf("%s of %s: %v", f.Name, d.Title, err)
						}
						if !slices.ContainsFunc(f.Options, func(o Option) bool { return o.Value == f.Value }) && f.Options != nil {
							t.Errorf("%s of %s shows %q, which cannot be chosen", f.Name, d.Title, f.Value)
						}
					}
				}
				if links[i].Field != "" {
					field(t, p, links[i].To, links[i].Field)
				}
			}
			if after, _ := b.PeekUndo(context.Background()); (after == nil) != (before == nil) || after != nil && after.Action != before.Action {
				t.Error("looking wrote")
			}
		})
	}
}
