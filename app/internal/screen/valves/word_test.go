package valves_test

import (
	"io/fs"
	"testing"

	"keeperbook/app/internal/kit/table"
	"keeperbook/assets"
)

// Every column of the table has a page of help.
func TestEveryColumnHasAPage(t *testing.T) {
	r := newRig(t, four())
	r.on("1 in", "base")
	for range 40 {
		if _, err := fs.Stat(assets.Help(), r.Word()+".md"); err != nil {
			t.Errorf("%s: %v", r.SelectedColumn(), err)
		}
		before := r.SelectedColumn()
		if r.press(table.Right); r.SelectedColumn() == before {
			return
		}
	}
}
