package needs

import (
	"io/fs"
	"testing"

	"fyne.io/fyne/v2"

	"keeperbook/assets"
)

// F1 opens the page about the field that has the keyboard, and each of those pages is there.
func TestWordOfAField(t *testing.T) {
	_, b := fresh(t)
	v, _ := window(t, b, false, 1, fyne.NewSize(1100, 800))
	for field, want := range map[string]string{
		"in.least.1": "least", "in.most": "least", "ex.seat-load.least": "loads", "in.lash.target": "lash", "needs.use": "setup",
	} {
		v.goTo(field)
		if got := v.Word(); got != want {
			t.Errorf("%s has the page %q, want %q", field, got, want)
		}
		if _, err := fs.Stat(assets.Help(), want+".md"); err != nil {
			t.Error(err)
		}
	}
}
