package shell_test

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"keeperbook/model/say"
)

// pages stand in for the shop's.
type pages struct {
	label  *widget.Label
	unkept []say.Line
}

func (p *pages) Object() fyne.CanvasObject { return p.label }
func (p *pages) Refresh()                  {}
func (p *pages) Focus()                    {}
func (p *pages) Unkept() []say.Line        { return p.unkept }

// What is kept on the shop's pages is told to the window, also where they stand in the place of an open
// head, whose leaves are gone for so long. Nothing typed goes with either of them.
func TestShopPagesInThePlaceOfAHead(t *testing.T) {
	const question = "Not everything is in the book yet"
	folder := t.TempDir()
	fill(t, folder+"/heads.keeperbook", 1)
	st := newStage(t, newApp(t), folder, folder+"/heads.keeperbook")
	st.press(fyne.KeyDown, fyne.KeyReturn)
	if st.bench == nil {
		t.Fatal("no head is open")
	}
	st.leaves["Valves"].unkept = []say.Line{say.New("task.draft-waits", ".612")}
	st.menu("Pages of the shop")
	st.sees(question)
	st.write("l")
	st.sees("what the shop has")
	st.shop.Changed()
	st.sees("what the shop has")
	st.pages.unkept = []say.Line{say.New("shop.unkept", "thick")}
	for _, leave := range []func(){st.ShopPages, st.CloseBook} {
		leave()
		st.sees(question)
		st.sees(`"thick" was typed on a page of the shop`)
		st.press(fyne.KeyEscape)
		st.sees("what the shop has")
	}
	st.pages.unkept = nil
	st.CloseBook()
	if all := st.words(); strings.Contains(all, question) || strings.Contains(all, "what the shop has") {
		t.Errorf("the book is closed, and the window says:\n%s", all)
	}
}
