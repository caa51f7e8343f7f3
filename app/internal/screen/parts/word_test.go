package parts

import (
	"io/fs"
	"maps"
	"slices"
	"testing"

	"fyne.io/fyne/v2"

	"keeperbook/assets"
	"keeperbook/model/record"
)

// F1 opens the page about the field that has the keyboard, or about the part under the cursor, and each of those pages is there.
func TestWordOfAPart(t *testing.T) {
	_, b := demo(t, "setup-ferry-built")
	v, h := window(t, b, false, 1, fyne.NewSize(1100, 800))
	v.list.table.Focus()
	press(h, fyne.KeyDown)
	if got := v.Word(); got != "lid" {
		t.Errorf("the retainer in the list has the page %q", got)
	}
	for _, c := range []struct {
		at          Place
		field, want string
	}{
		{intakeSpring, "coil 1 bind", "bind"},
		{intakeSpring, "coil 1 least", "least"},
		{Place{What: AtSlot, Role: record.Intake, Slot: Retainer}, "steps", "steps"},
		{Place{What: AtSlot, Role: record.Intake, Slot: Locator}, "floor", "floor"},
		{Place{What: AtSlot, Role: record.Intake, Slot: Seal}, "outside", "seal"},
	} {
		v.open(c.at, c.field)
		if got := v.Word(); got != c.want {
			t.Errorf("%s has the page %q, want %q", c.field, got, c.want)
		}
	}
	all := slices.Collect(maps.Values(pagesOf))
	for _, page := range slices.AppendSeq(all, maps.Values(pages)) {
		if _, err := fs.Stat(assets.Help(), page+".md"); err != nil {
			t.Error(err)
		}
	}
}
