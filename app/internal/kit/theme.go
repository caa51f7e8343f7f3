package kit

import (
	"image/color"
	"sync"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"keeperbook/pdf/face"
)

// The smallest and the largest scale of a theme.
const (
	leastScale = 0.8
	mostScale  = 2.0
)

// sizeLarge is the size of what is read at arm's length: what is typed into a field, what comes next. Themes
// do not know the name; it is a multiple of running text.
const sizeLarge fyne.ThemeSizeName = "large"

const largeToText = 1.4

// look is the theme. It does not follow the system's variant: a shop chooses light or dark for its room.
type look struct {
	Palette
	dark  bool
	scale float32
}

// NewTheme returns the look of the window in light or dark greys. Scale multiplies every size, from
// 0.8 to 2.0; what lies outside is taken as the nearer end.
func NewTheme(dark bool, scale float32) fyne.Theme {
	return &look{Palette: Greys(dark), dark: dark, scale: max(leastScale, min(mostScale, scale))}
}

// Color returns the colour of a name. Error, warning and success are ink like everything else: what
// they mean is said in words and by weight.
func (l *look) Color(name fyne.ThemeColorName, _ fyne.ThemeVariant) color.Color {
	switch name {
	case theme.ColorNameBackground, theme.ColorNameInputBackground:
		return l.Paper
	case theme.ColorNameHeaderBackground, theme.ColorNameMenuBackground, theme.ColorNameOverlayBackground:
		return l.Raised
	case theme.ColorNameButton, theme.ColorNameDisabledButton, theme.ColorNameSelection:
		return l.Fill
	case theme.ColorNameForegroundOnPrimary, theme.ColorNameForegroundOnError,
		theme.ColorNameForegroundOnSuccess, theme.ColorNameForegroundOnWarning:
		return l.Paper
	case theme.ColorNamePlaceHolder, theme.ColorNameDisabled:
		return l.Faint
	case theme.ColorNameInputBorder, theme.ColorNameSeparator, theme.ColorNameScrollBar:
		return l.Rule
	case theme.ColorNameScrollBarBackground:
		return l.Raised
	case theme.ColorNameHover, theme.ColorNamePressed, theme.ColorNameFocus:
		// The toolkit lays these over buttons and rows; they darken or lighten by a step.
		return thinned(l.Rule, 0x18)
	case theme.ColorNameShadow:
		return thinned(grey(0), 0x50)
	}
	return l.Ink
}

func thinned(c color.NRGBA, alpha uint8) color.NRGBA {
	c.A = alpha
	return c
}

// Font returns the letters of sheets and drawings. They have no slant and need no second family for
// numbers, for their digits are of one width.
func (l *look) Font(style fyne.TextStyle) fyne.Resource {
	if style.Bold {
		return letters().bold
	}
	return letters().regular
}

// Icon returns the toolkit's sign; it is drawn in the colours of this theme.
func (l *look) Icon(name fyne.ThemeIconName) fyne.Resource { return theme.DefaultTheme().Icon(name) }

// Size returns a size in toolkit units.
func (l *look) Size(name fyne.ThemeSizeName) float32 { return l.scale * size(name) }

// size is a size at 100 %. A name it does not know has the toolkit's size.
func size(name fyne.ThemeSizeName) float32 {
	switch name {
	case theme.SizeNameText:
		return 15
	case theme.SizeNameCaptionText:
		return 13
	case theme.SizeNameSubHeadingText:
		return 18
	case theme.SizeNameHeadingText:
		return 24
	case theme.SizeNamePadding:
		return 5
	case theme.SizeNameInnerPadding:
		return 9
	case theme.SizeNameLineSpacing:
		return 5
	case theme.SizeNameScrollBar:
		return 14
	case theme.SizeNameScrollBarSmall:
		return 5
	case theme.SizeNameInputBorder:
		return 1.5
	case theme.SizeNameInputRadius, theme.SizeNameSelectionRadius, theme.SizeNameScrollBarRadius:
		return 3
	}
	return theme.DefaultTheme().Size(name)
}

// sizeOf returns a size in the theme that a widget is drawn in.
func sizeOf(w fyne.Widget, name fyne.ThemeSizeName) float32 {
	if name == sizeLarge {
		return largeToText * theme.SizeForWidget(theme.SizeNameText, w)
	}
	return theme.SizeForWidget(name, w)
}

type fonts struct{ regular, bold fyne.Resource }

// letters are handed out once, because the toolkit keeps what it has read of a font by its resource.
var letters = sync.OnceValue(func() fonts {
	return fonts{
		regular: fyne.NewStaticResource("DejaVuSansCondensed.ttf", face.RegularTTF()),
		bold:    fyne.NewStaticResource("DejaVuSansCondensed-Bold.ttf", face.BoldTTF()),
	}
})
