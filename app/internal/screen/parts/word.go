package parts

import (
	"strings"

	"keeperbook/app/internal/kit"
)

// pages of help by the last word in the name of a field.
var pages = map[string]string{
	"lid": "lid", "steps": "steps", "step": "steps", "locator-step": "steps", "floor": "floor", "locator": "floor", "jaws": "jaws",
	"bind": "bind", "least": "least", "rate": "loads", "rated": "lift", "cut": "base",
}

// pagesOf are pages of help by what a role carries.
var pagesOf = map[Slot]string{Spring: "bind", Retainer: "lid", Locks: "base", Locator: "floor", Seal: "seal", Valve: "tip"}

// wordOf is the name of the page of help about a field of a place, or about the place; "" where there is none.
func wordOf(at Place, field string) string {
	words := strings.Fields(field)
	if len(words) > 0 && words[len(words)-1] == "zero" {
		words = words[:len(words)-1]
	}
	if len(words) > 0 {
		if page, ok := pages[words[len(words)-1]]; ok {
			return page
		}
	}
	if at.What == AtCoil {
		return "bind"
	}
	return pagesOf[at.Slot]
}

// Word is the name of the page of help about the field that has the cursor, or about the part.
func (v *View) Word() string {
	for name, in := range v.detail.inputs {
		if f, ok := in.(*kit.Field); ok && f.Focused() {
			return wordOf(v.detail.at, name)
		}
	}
	if l := v.list; l.table.Focused() {
		at := l.table.Cursor()
		return wordOf(l.cells[at.Row][at.Cell].Place, "")
	}
	return wordOf(v.detail.at, "")
}
