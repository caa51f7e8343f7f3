package needs

import (
	"strings"

	"keeperbook/app/internal/kit"
)

// pages of help by what stands in the name of a field, the first that does.
var pages = []struct{ in, page string }{
	{".seat-load", "loads"}, {".open-load", "loads"}, {".least.", "least"}, {".most", "least"}, {".card", "lift"}, {".lash", "lash"},
}

// wordOf is the name of the page of help about a field: where it has none, that about set-ups.
func wordOf(field string) string {
	for _, p := range pages {
		if strings.Contains(field, p.in) {
			return p.page
		}
	}
	return "setup"
}

// Word is the name of the page of help about the field or the question that has the cursor.
func (v *View) Word() string {
	for name, in := range v.inputs {
		if f, ok := in.(*kit.Field); ok && f.Focused() {
			return wordOf(name)
		}
	}
	if at := v.questions.Cursor(); v.questions.Focused() && at.Row*2+at.Cell < len(v.asked) {
		return wordOf(v.asked[at.Row*2+at.Cell].Field)
	}
	return wordOf("")
}
