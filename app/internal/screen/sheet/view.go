package sheet

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"gonum.org/v1/plot/vg"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/task"
	"keeperbook/model/say"
)

// View is the leaf: the pages, and beside them what is open and what can be done.
type View struct {
	host      kit.Host
	presenter *Presenter
	pages     *kit.Pages
	title     *kit.Text
	points    *kit.Rows
	none      *kit.Text
	panel     *kit.Form
	usual     fyne.CanvasObject // of the panel, while nobody is about to sign
	on        *fyne.Container   // of that, the choices of paper and language
	sign      *kit.Button       // hidden where nobody can sign any more
	signed    *kit.Text         // who signed; hidden where nobody did
	object    fyne.CanvasObject

	// Of whoever is about to sign.
	asks       bool // the panel is theirs
	reasons    []*kit.Field
	role       *kit.Field
	signs      *kit.Button
	background func(work func())
}

// panelHalf is the least width of half the panel in letters of running text; in a narrow one the halves
// lie under each other.
const panelHalf = 15

// New returns the leaf of a set-up.
func New(host kit.Host, _ *task.Desk, bench *task.Bench) *View {
	v := &View{host: host, presenter: NewPresenter(bench), pages: kit.NewPages(), background: func(work func()) { go work() }}
	v.title = kit.NewHeading("")
	v.points = kit.NewRows(nil, func(kit.RowAt) { host.Show("valves") }).Named(v.say("kit.menu-go"))
	v.none = kit.NewText(v.say("sheet.nothing-open"))
	v.sign = kit.NewButton(v.say("sign.sign"), "S", v.Sign)
	v.signed = kit.NewText("")
	v.signed.Bold(true)
	v.on = container.NewStack()
	v.chooses()
	v.usual = kit.Halves(panelHalf,
		kit.Column(v.signed, v.whats(), v.on, kit.Buttons(
			kit.NewButton(v.say("sheet.export-pdf"), "P", v.ExportPDF),
			kit.NewButton(v.say("sheet.export-record"), "R", v.ExportRecord),
			kit.NewButton(v.say("sheet.copy"), "C", v.Copy),
			v.sign,
		)),
		kit.Column(v.title, v.none, v.points),
	)
	v.panel = kit.NewForm(v.usual)
	v.pages.Typed, v.pages.Menu = v.letter, v.menu
	v.object = container.New(beside{}, v.panel, v.pages)
	v.Refresh()
	return v
}

func (v *View) say(key string, args ...any) string {
	return v.presenter.Words().Line(say.New(key, args...))
}

func (v *View) whats() fyne.CanvasObject {
	var words []string
	for _, w := range Whats() {
		words = append(words, v.say("sheet.what."+string(w)))
	}
	return kit.NewChoice(v.say("sheet.what"), words, 0, func(i int) error {
		v.presenter.Show(Whats()[i])
		return v.draw()
	})
}

// chooses shows what pages are printed on, and in which language.
func (v *View) chooses() {
	on := []fyne.CanvasObject{v.papers()}
	if len(v.presenter.Signed()) == 0 { // what was signed stays in the language that it was signed in
		on = append(on, v.languages())
	}
	v.on.Objects = []fyne.CanvasObject{kit.Column(on...)}
	v.on.Refresh()
}

func (v *View) papers() fyne.CanvasObject {
	var words []string
	for _, p := range Papers() {
		words = append(words, v.say("sheet.paper."+string(p)))
	}
	return kit.NewChoice(v.say("sheet.paper"), words, slices.Index(Papers(), v.presenter.Paper()), func(i int) error {
		v.presenter.On(Papers()[i])
		return v.draw()
	})
}

func (v *View) languages() fyne.CanvasObject {
	var words []string
	for _, l := range Languages() {
		words = append(words, v.say("shell.language."+l))
	}
	return kit.NewChoice(v.say("sheet.language"), words, slices.Index(Languages(), v.presenter.Language()), func(i int) error {
		v.presenter.In(Languages()[i])
		return v.draw()
	})
}

// Object returns what is to be shown.
func (v *View) Object() fyne.CanvasObject { return v.object }

// Work says what runs what takes longer than a key press.
func (v *View) Work(background func(work func())) { v.background = background }

// Focus puts the keyboard on the pages.
func (v *View) Focus() { v.pages.Focus() }

// Open returns how many points are open on the sheet.
func (v *View) Open() int { return v.presenter.Open() }

// Refresh draws the pages and the list as the set-up is now.
func (v *View) Refresh() {
	if err := v.draw(); err != nil {
		v.host.Fail(err)
	}
	if v.presenter.Signing() {
		v.panel.Set(v.signing()...)
		v.asks = true
		return
	}
	if v.asks {
		v.chooses() // whoever was about to sign may have chosen otherwise
		v.panel.Set(v.usual)
		v.asks = false
	}
	if all := v.presenter.Signed(); len(all) > 0 {
		v.signed.Set(v.say("sign.closed", strings.Join(all, "; ")))
		v.signed.Show()
		v.sign.SetLabel(v.say("sign.sign-second"))
	} else {
		v.signed.Hide()
	}
	if v.presenter.CanSign() {
		v.sign.Show()
	} else {
		v.sign.Hide()
	}
	v.title.Set(v.presenter.Words().Line(v.presenter.Title()))
	var rows []kit.Row
	for _, p := range v.presenter.Points() {
		rows = append(rows, kit.Row{Label: p.Valve, Cells: []kit.RowCell{{Text: v.presenter.Words().Line(p.Line)}}})
	}
	v.points.Set(rows)
	if len(rows) == 0 {
		v.points.Hide()
		v.none.Show()
	} else {
		v.none.Hide()
		v.points.Show()
	}
	v.panel.Refresh()
}

func (v *View) draw() error {
	pages, err := v.presenter.Pages()
	if err != nil {
		return err
	}
	shown := make([]kit.Page, len(pages))
	for i, p := range pages {
		shown[i] = kit.Page{Width: vg.Length(p.Width), Height: vg.Length(p.Height), Draw: p.Draw}
	}
	v.pages.Set(shown)
	return nil
}

// menu is what can be done with the pages: what the buttons beside them do.
func (v *View) menu() []kit.Item {
	items := []kit.Item{
		{Label: v.say("sheet.export-pdf"), Key: "P", Do: v.ExportPDF},
		{Label: v.say("sheet.export-record"), Key: "R", Do: v.ExportRecord},
		{Label: v.say("sheet.copy"), Key: "C", Do: v.Copy},
	}
	if v.presenter.CanSign() {
		items = append(items, kit.Item{Label: v.say("sign.sign"), Key: "S", Do: v.Sign})
	}
	return items
}

// Word is the name of the page of help about what is in sight.
func (v *View) Word() string { return "setup" }

// letter does what the button with that letter does.
func (v *View) letter(r rune) {
	switch r {
	case 'p', 'P':
		v.ExportPDF()
	case 'r', 'R':
		v.ExportRecord()
	case 'c', 'C':
		v.Copy()
	case 's', 'S':
		v.Sign()
	}
}

// ExportPDF asks where the pages in sight go, and writes them.
func (v *View) ExportPDF() { v.export(v.presenter.Shown(), v.presenter.Path(v.presenter.Shown())) }

// ExportRecord asks where the record goes, and writes it.
func (v *View) ExportRecord() { v.export(task.OutRecord, v.presenter.Path(task.OutRecord)) }

func (v *View) export(out task.Out, path string) {
	kit.Save(v.host, kit.Saving{
		Title: v.say("sheet.export." + string(out)), Label: v.say("sheet.path"), Path: path,
		Replace: v.say("sheet.replace"), Cancel: v.say("kit.cancel"),
		Write: func(path string, replace bool) (say.Line, error) { return v.presenter.Save(out, path, replace) },
	})
}

// Copy puts the figures on the clipboard.
func (v *View) Copy() {
	fyne.CurrentApp().Clipboard().SetContent(v.presenter.Table())
	v.host.Tell(say.New("sheet.copied"))
}

// beside gives the panel as much width as its words need and the pages the rest. Where the letters are so
// large that the pages would get too small to be read, the panel lies above them.
type beside struct{}

func (beside) wide() float32 { return 21 * theme.TextSize() }

func (b beside) MinSize(objects []fyne.CanvasObject) fyne.Size {
	panel, pages := objects[0].MinSize(), objects[1].MinSize()
	return fyne.NewSize(max(panel.Width, pages.Width), panel.Height+pages.Height)
}

func (b beside) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	panel, pages := fyne.NewSize(b.wide(), size.Height), fyne.NewSize(size.Width-b.wide(), size.Height)
	at := fyne.NewPos(b.wide(), 0)
	if pages.Width < 1.3*b.wide() {
		panel = fyne.NewSize(size.Width, 0.42*size.Height)
		pages = fyne.NewSize(size.Width, size.Height-panel.Height)
		at = fyne.NewPos(0, panel.Height)
	}
	objects[0].Move(fyne.NewPos(0, 0))
	objects[0].Resize(panel)
	objects[1].Move(at)
	objects[1].Resize(pages)
}
