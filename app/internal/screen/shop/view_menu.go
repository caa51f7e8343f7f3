package shop

import (
	"keeperbook/app/internal/kit"
	"keeperbook/model/record"
)

// menu is what can be done with a line of a list: opened, and of what is open what its buttons do.
func (v *View) menu(rows *kit.Rows, item record.Item) []kit.Item {
	p := v.presenter
	items := []kit.Item{rows.Enter(p.say("kit.menu-open"))}
	if item != p.Chosen() || !p.Known() {
		return items
	}
	for _, s := range p.Sections() {
		if s.Deed != "" {
			items = append(items, kit.Item{Label: s.Deed, Do: v.openStudies})
		}
	}
	if !p.InUse() {
		items = append(items, kit.Item{Label: p.say("shop.remove"), Do: v.remove})
	}
	return items
}

// wordOf names the page of help about each of the shop's pages, of those that have one.
var wordOf = map[Page]string{Springs: "loads", Shims: "shims", Gauges: "u", Signers: "setup", Rules: "least"}

// Word is the name of the page of help about what is in sight; "" where there is none.
func (v *View) Word() string {
	if v.studying != nil {
		return "u"
	}
	return wordOf[v.presenter.Page()]
}
