package signers_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/screen/signers"
	"keeperbook/app/internal/signer"
)

// What the menu over a signer does is done to that one, whoever is open: the first is open, and the second is taken away.
func TestMenuOverASigner(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(kit.NewTheme(false, 1))
	p, _, _ := presenter(t)
	for _, name := range []string{"M. Ashlock", "J. Peverel"} {
		then, err := p.Make(signer.New{Name: name, Secret: secret, Again: secret})
		if err != nil || then() != nil {
			t.Fatal(err)
		}
	}
	h := &host{win: test.NewTempWindow(t, nil)}
	v := signers.New(h, p, func(work func()) { work() })
	h.win.SetContent(v.Object())
	h.win.Resize(fyne.NewSize(1280, 800))
	v.Refresh()
	v.Focus()
	press := func(keys ...fyne.KeyName) {
		for _, k := range keys {
			h.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: k})
		}
	}
	press(fyne.KeyDown, desktop.KeyMenu, fyne.KeyUp, fyne.KeyReturn) // the last of the menu
	if who, _ := p.Chosen(); who.Name != "M. Ashlock" {
		t.Errorf("%s is open", who.Name)
	}
	h.win.Canvas().Focused().TypedRune('t')
	if all := p.Lines(); len(all) != 1 || all[0].Name != "J. Peverel" {
		t.Errorf("left are %+v", all)
	}
}
