package parts

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/task"
	"keeperbook/model/record"
	"keeperbook/model/say"
)

// View is the page in the window: what the head carries on the left, and on the right what is known of
// the part, the gauge or the valve that is open. In a narrow window the one takes the place of the other.
type View struct {
	host      kit.Host
	presenter *Presenter
	object    *fyne.Container
	sides     *sides
	list      *list
	detail    *detail
	// apart does work beside the window, and then what the work returns in it.
	apart func(work func() (then func()))
}

// New returns the page of a set-up.
func New(host kit.Host, bench *task.Bench) *View {
	v := &View{host: host, presenter: NewPresenter(bench), sides: &sides{}, apart: apart}
	if err := v.presenter.Load(context.Background()); err != nil {
		host.Fail(v.said(err))
	}
	v.list, v.detail = newList(v), newDetail(v)
	v.object = container.New(v.sides, v.list.form, v.detail.form)
	return v
}

func apart(work func() (then func())) {
	go func() {
		then := work()
		fyne.Do(then)
	}()
}

// Object is the page.
func (v *View) Object() fyne.CanvasObject { return v.object }

// Open is how many things the evaluation misses of the parts.
func (v *View) Open() int { return v.presenter.Open() }

// Unkept names the texts on the page that are not in the book.
func (v *View) Unkept() []say.Line { return v.presenter.drafts.Unkept() }

// Refresh draws the page as the set-up is now. What is being typed stays.
func (v *View) Refresh() {
	if err := v.presenter.Load(context.Background()); err != nil {
		v.host.Fail(v.said(err))
	}
	v.list.fill()
	v.detail.fill()
}

// Focus puts the keyboard on what is missing, or on the parts.
func (v *View) Focus() {
	v.front(false)
	v.list.focus()
}

// follow goes where a link leads.
func (v *View) follow(l Link) {
	if l.Leaf != "" {
		v.host.Show(l.Leaf)
		return
	}
	v.open(l.To, l.Field)
}

// open shows a place on the right and puts the keyboard into a field of it, or into the first.
func (v *View) open(at Place, field string) {
	v.detail.open(at)
	v.list.mark(at)
	v.front(true)
	v.detail.focus(field)
}

// back goes from what is open to where it was chosen.
func (v *View) back() {
	v.front(false)
	v.list.back()
}

// front says which side is seen where there is room for one only.
func (v *View) front(detail bool) {
	if v.sides.detail == detail {
		return
	}
	v.sides.detail = detail
	v.object.Refresh()
}

// commit keeps a text; the field shows the sentence of an error.
func (v *View) commit(at Place, field, text string) error {
	if err := v.presenter.Commit(context.Background(), at, field, text); err != nil {
		return v.said(err)
	}
	v.host.Changed()
	return nil
}

// do does what a button stands for.
func (v *View) do(what func(context.Context) error) {
	if err := what(context.Background()); err != nil {
		v.host.Fail(v.said(err))
		return
	}
	v.host.Changed()
}

// sameAll gives the exhausts the parts of the intakes.
func (v *View) sameAll() {
	v.do(func(ctx context.Context) error { return v.presenter.Same(ctx, record.Intake) })
}

func (v *View) said(err error) error { return kit.Said(v.presenter.bench.Words(), err) }

func (v *View) say(key string, args ...any) string { return v.presenter.bench.Say(key, args...) }

func (v *View) role(role record.Role) say.Line { return say.New("role." + string(role)) }

// sides sets list and detail side by side, or the one that is at the front alone.
type sides struct {
	detail bool
	narrow bool
}

// widths of both sides, in letters of running text, below which only one of them is seen.
const (
	widthOfBoth = 58
	shareOfList = 0.54
)

// MinSize is the toolkit's.
func (s *sides) MinSize(objects []fyne.CanvasObject) fyne.Size {
	size := fyne.NewSize(0, 0)
	for _, o := range objects {
		size = size.Max(o.MinSize())
	}
	return size
}

// Layout is the toolkit's.
func (s *sides) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	list, detail := objects[0], objects[1]
	s.narrow = size.Width < widthOfBoth*theme.TextSize()
	if s.narrow {
		for i, o := range objects {
			o.Move(fyne.NewPos(0, 0))
			o.Resize(size)
			if (i == 1) == s.detail {
				o.Show()
			} else {
				o.Hide()
			}
		}
		return
	}
	left := shareOfList * size.Width
	list.Show()
	detail.Show()
	list.Move(fyne.NewPos(0, 0))
	list.Resize(fyne.NewSize(left, size.Height))
	detail.Move(fyne.NewPos(left, 0))
	detail.Resize(fyne.NewSize(size.Width-left, size.Height))
}
