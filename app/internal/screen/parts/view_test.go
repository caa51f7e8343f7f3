package parts

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
	"keeperbook/model/unit"
)

// host is a window that notes what a page asks of it.
type host struct {
	win    fyne.Window
	failed error
	leaf   string
	page   *View
}

func (h *host) Window() fyne.Window { return h.win }
func (h *host) Tell(say.Line)       {}
func (h *host) Fail(err error)      { h.failed = err }
func (h *host) Show(leaf string)    { h.leaf = leaf }
func (h *host) Changed()            { h.page.Refresh() }

// window shows the page in a window of its own.
func window(t *testing.T, b *task.Bench, dark bool, scale float32, size fyne.Size) (*View, *host) {
	t.Helper()
	app := test.NewTempApp(t)
	app.Settings().SetTheme(kit.NewTheme(dark, scale))
	h := &host{}
	v := New(h, b)
	v.apart = func(work func() func()) { work()() } // one goroutine at a time
	h.page, h.win = v, test.NewTempWindow(t, v.Object())
	h.win.SetPadded(false)
	h.win.Resize(size)
	return v, h
}

func typed(h *host, text string) { test.Type(h.win.Canvas().Focused(), text) }

func press(h *host, keys ...fyne.KeyName) {
	for _, k := range keys {
		h.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: k})
	}
}

// A spring is made from the keyboard, coil by coil, and given to the other role with one key.
func TestSpringWithTheKeyboard(t *testing.T) {
	_, b := fresh(t)
	v, h := window(t, b, false, 1, fyne.NewSize(1100, 800))
	v.Focus()
	press(h, fyne.KeyReturn) // the intakes' spring: nothing to choose from yet, so its name is asked for
	typed(h, "pair")
	press(h, fyne.KeyReturn)
	if p := b.Record().PackageOf(record.Intake); p.Spring == "" {
		t.Fatal("no spring was made")
	}
	if got := v.detail.inputs["new"].(*kit.Field).Text(); got != "" {
		t.Errorf("the next new spring begins with %q", got)
	}
	v.detail.focus("do coil")
	press(h, fyne.KeyReturn)
	v.detail.focus("coil 1 bind")
	typed(h, "1155")
	press(h, fyne.KeyReturn)
	typed(h, "60") // the least margin comes next
	press(h, fyne.KeyReturn)
	s := b.Record().Parts.Springs[0]
	if len(s.Coils) != 2 || s.Coils[0].Bind == nil || s.Coils[0].Bind.Reading.Length() != 1155*unit.Thou {
		t.Fatalf("the spring is %+v", s)
	}
	if l, ok := task.LeastOf(b.Record().PackageOf(record.Intake), 1); !ok || l.Margin.Length() != 60*unit.Thou {
		t.Errorf("least margin %+v", l)
	}
	if got := v.detail.inputs["coil 1 bind"].(*kit.Field).Text(); got != "1.155" {
		t.Errorf("the bind shows as %q", got)
	}
	v.back()
	typed(h, "=")
	if b.Record().PackageOf(record.Exhaust).Spring != s.ID {
		t.Error("the exhausts did not get it")
	}
}

// What is missing leads into its field.
func TestMissingLeadsToItsField(t *testing.T) {
	p, b := fresh(t)
	commit(t, p, intakeSpring, "new", "pair")
	v, h := window(t, b, false, 1, fyne.NewSize(1100, 800))
	for i, l := range v.list.missing.links {
		if l.Field != "coil 1 bind" {
			continue
		}
		v.list.missing.rows.Choose(kit.RowAt{Row: i})
		typed(h, "1.114")
		press(h, fyne.KeyReturn)
		if b.Record().Parts.Springs[0].Coils[0].Bind == nil {
			t.Error("the bind was typed somewhere else")
		}
		return
	}
	t.Fatalf("the bind is not missing: %v", v.list.missing.links)
}

// A gauge that was made is open, and the reading's setting is typed into it.
func TestNewGauge(t *testing.T) {
	_, b := fresh(t)
	v, h := window(t, b, false, 1, fyne.NewSize(1100, 800))
	v.list.newGauge()
	typed(h, "bind fixture")
	press(h, fyne.KeyReturn)
	if v.detail.at.ID == "" {
		t.Fatal("the new gauge is not open")
	}
	v.detail.focus(string(record.Lid))
	typed(h, "95")
	press(h, fyne.KeyReturn)
	if got := v.list.gauges.links[0].More; got != "height gauge, lid −.095" {
		t.Errorf("the gauge reads through %q", got)
	}
	if _, ok := v.detail.inputs["lid zero"]; !ok {
		t.Error("nothing asks whether the gauge was zeroed on the lid")
	}
}

// A refused text is there again, with its reason, when its place is opened again; Esc gives the book's back.
func TestRefusedTextComesBack(t *testing.T) {
	_, b := demo(t, "setup-ferry-built")
	v, h := window(t, b, false, 1, fyne.NewSize(1100, 800))
	retainer := Place{What: AtSlot, Role: record.Intake, Slot: Retainer}
	v.open(retainer, "lid")
	typed(h, "a lot")
	press(h, fyne.KeyReturn)
	v.open(intakeSpring, "")
	v.open(retainer, "lid")
	f := v.detail.inputs["lid"].(*kit.Field)
	if f.Text() != "a lot" || !f.Pending() {
		t.Errorf("the field has %q", f.Text())
	}
	press(h, fyne.KeyEscape)
	if f.Text() != ".100" {
		t.Errorf("Esc gave %q back", f.Text())
	}
}

// In a narrow window the one side takes the place of the other, and back.
func TestNarrow(t *testing.T) {
	_, b := demo(t, "setup-ferry-built")
	v, _ := window(t, b, false, 2, fyne.NewSize(1100, 800))
	if !v.list.form.Visible() || v.detail.form.Visible() {
		t.Fatal("a narrow window does not begin with the list")
	}
	v.open(intakeSpring, "")
	if v.list.form.Visible() || !v.detail.form.Visible() {
		t.Error("what was opened is not seen")
	}
	v.back()
	if !v.list.form.Visible() {
		t.Error("back leads nowhere")
	}
}

// A tag that is typed on a valve opens what can be said of the spring, and says who else has it.
func TestTagWithTheKeyboard(t *testing.T) {
	_, b := demo(t, "setup-ferry-built")
	v, h := window(t, b, false, 1, fyne.NewSize(1100, 800))
	at := v.presenter.ValveOf("2/in/1")
	v.open(at, "piece new")
	typed(h, "B-12 2")
	press(h, fyne.KeyReturn)
	if got := b.Record().ValveAt(at.At).Spring; got != "B-12 2" {
		t.Fatalf("the valve has spring %q", got)
	}
	if got := v.detail.uses.Text(); got != "Only this set-up has spring B-12 2." {
		t.Errorf("says %q", got)
	}
	press(h, fyne.KeyRight, fyne.KeyReturn) // from "not said" to new
	typed(h, "B")
	press(h, fyne.KeyReturn)
	if n := b.Record().Parts.Pieces[0]; n.Condition != record.New || n.Batch != "B" {
		t.Errorf("kept %+v", n)
	}
}
