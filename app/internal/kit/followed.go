package kit

import (
	"image/color"

	"fyne.io/fyne/v2"
)

// followed is whatever theme the window has at the moment: a theme laid over a part of it is made once,
// and must follow when the room gets dark.
type followed struct{}

func now() fyne.Theme { return fyne.CurrentApp().Settings().Theme() }

func (followed) Color(n fyne.ThemeColorName, v fyne.ThemeVariant) color.Color {
	return now().Color(n, v)
}
func (followed) Font(s fyne.TextStyle) fyne.Resource     { return now().Font(s) }
func (followed) Icon(n fyne.ThemeIconName) fyne.Resource { return now().Icon(n) }
func (followed) Size(n fyne.ThemeSizeName) float32       { return now().Size(n) }
