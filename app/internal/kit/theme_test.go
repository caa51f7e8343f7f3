package kit_test

import (
	"fmt"
	"image/color"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"

	"keeperbook/app/internal/kit"
)

// luminance is the relative luminance of WCAG 2.x (W3C, Web Content Accessibility Guidelines, definition of
// relative luminance; from memory): each sRGB channel made linear, weighted .2126, .7152 and .0722.
func luminance(c color.NRGBA) float64 {
	linear := func(v uint8) float64 {
		s := float64(v) / 255
		if s <= 0.04045 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
}

// contrast is the contrast ratio of WCAG 2.x (from memory): (lighter + .05) / (darker + .05).
func contrast(a, b color.NRGBA) float64 {
	x, y := luminance(a), luminance(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

// laid returns a colour laid over an opaque ground, the way the toolkit lays hover and focus over buttons.
func laid(over, ground color.NRGBA) color.NRGBA {
	mix := func(o, g uint8) uint8 {
		a := float64(over.A) / 255
		return uint8(math.Round(float64(o)*a + float64(g)*(1-a)))
	}
	return color.NRGBA{R: mix(over.R, ground.R), G: mix(over.G, ground.G), B: mix(over.B, ground.B), A: 0xFF}
}

// The two ends of the scale are given by the definition: 21:1 for black on white, 1:1 for a colour on itself.
func TestContrastFormula(t *testing.T) {
	black, white := color.NRGBA{A: 0xFF}, color.NRGBA{R: 0xFF, G: 0xFF, B: 0xFF, A: 0xFF}
	if got := contrast(black, white); math.Abs(got-21) > 1e-9 {
		t.Errorf("black on white: %.3f", got)
	}
	if got := contrast(white, white); got != 1 {
		t.Errorf("white on white: %.3f", got)
	}
	// #767676 is the darkest grey commonly named as 4.54:1 on white; common practice, from memory.
	if got := contrast(color.NRGBA{R: 0x76, G: 0x76, B: 0x76, A: 0xFF}, white); math.Abs(got-4.54) > 0.005 {
		t.Errorf("#767676 on white: %.3f", got)
	}
}

var (
	letterNames = []fyne.ThemeColorName{
		theme.ColorNameForeground, theme.ColorNamePlaceHolder, theme.ColorNameDisabled, theme.ColorNameHyperlink,
		theme.ColorNameError, theme.ColorNameSuccess, theme.ColorNameWarning, theme.ColorNamePrimary,
	}
	groundNames = []fyne.ThemeColorName{
		theme.ColorNameBackground, theme.ColorNameInputBackground, theme.ColorNameButton, theme.ColorNameDisabledButton,
		theme.ColorNameHeaderBackground, theme.ColorNameMenuBackground, theme.ColorNameOverlayBackground, theme.ColorNameSelection,
		theme.ColorNameScrollBarBackground,
	}
	// onStrong are the letters on a button of a strong colour, and that colour.
	onStrong = map[fyne.ThemeColorName]fyne.ThemeColorName{
		theme.ColorNameForegroundOnPrimary: theme.ColorNamePrimary,
		theme.ColorNameForegroundOnError:   theme.ColorNameError,
		theme.ColorNameForegroundOnSuccess: theme.ColorNameSuccess,
		theme.ColorNameForegroundOnWarning: theme.ColorNameWarning,
	}
	overNames = []fyne.ThemeColorName{theme.ColorNameHover, theme.ColorNamePressed, theme.ColorNameFocus}
	lineNames = []fyne.ThemeColorName{
		theme.ColorNameInputBorder, theme.ColorNameSeparator, theme.ColorNameScrollBar, theme.ColorNameShadow, "nobody.knows",
	}
)

func TestEverythingCanBeRead(t *testing.T) {
	for _, dark := range []bool{false, true} {
		th := kit.NewTheme(dark, 1)
		of := func(n fyne.ThemeColorName) color.NRGBA {
			return color.NRGBAModel.Convert(th.Color(n, theme.VariantLight)).(color.NRGBA)
		}
		lowest, pair := 21.0, ""
		see := func(text, ground color.NRGBA, what string) {
			if c := contrast(text, ground); c < lowest {
				lowest, pair = c, what
			}
		}
		// A ground is also looked at with each overlay on it.
		seeAll := func(text, ground fyne.ThemeColorName) {
			see(of(text), of(ground), fmt.Sprintf("%s on %s", text, ground))
			for _, over := range overNames {
				see(of(text), laid(of(over), of(ground)), fmt.Sprintf("%s on %s under %s", text, ground, over))
			}
		}
		for _, text := range letterNames {
			for _, ground := range groundNames {
				seeAll(text, ground)
			}
		}
		for text, ground := range onStrong {
			seeAll(text, ground)
		}
		p := kit.Greys(dark)
		for _, ink := range []color.NRGBA{p.Ink, p.Soft, p.Faint} {
			for _, ground := range []color.NRGBA{p.Paper, p.Raised, p.Fill} {
				see(ink, ground, fmt.Sprintf("ink %v on %v", ink, ground))
			}
		}
		if lowest < 7 {
			t.Errorf("dark %v: %s has %.2f:1", dark, pair, lowest)
		}
		t.Logf("dark %v: lowest contrast of a text %.2f:1, %s", dark, lowest, pair)

		// WCAG 2.1, 1.4.11, asks 3:1 for the edge of what can be used (from memory).
		for _, ground := range []color.NRGBA{p.Paper, p.Raised} {
			if c := contrast(p.Rule, ground); c < 3 {
				t.Errorf("dark %v: a line has %.2f:1 on %v", dark, c, ground)
			}
		}
	}
}

func TestNothingHasAHue(t *testing.T) {
	for _, dark := range []bool{false, true} {
		th := kit.NewTheme(dark, 1)
		names := append(append(append([]fyne.ThemeColorName{}, letterNames...), groundNames...), append(overNames, lineNames...)...)
		for text := range onStrong {
			names = append(names, text)
		}
		for _, n := range names {
			for _, v := range test.KnownThemeVariants() {
				c := color.NRGBAModel.Convert(th.Color(n, v)).(color.NRGBA)
				if max(c.R, c.G, c.B)-min(c.R, c.G, c.B) > 2 {
					t.Errorf("dark %v: %s is %v", dark, n, c)
				}
			}
		}
		look := kit.Look(dark, 9)
		for _, c := range []color.Color{look.Ink, look.Faint, look.Fill, look.Paper} {
			if r, g, b, _ := c.RGBA(); r != g || g != b {
				t.Errorf("dark %v: %v in a drawing", dark, c)
			}
		}
	}
}

// The shop chooses light or dark; the system's own wish changes nothing.
func TestThemeDoesNotFollowTheSystem(t *testing.T) {
	for _, dark := range []bool{false, true} {
		th := kit.NewTheme(dark, 1)
		if th.Color(theme.ColorNameBackground, theme.VariantLight) != th.Color(theme.ColorNameBackground, theme.VariantDark) {
			t.Errorf("dark %v: the ground changes", dark)
		}
	}
}

func TestEveryStyleHasLetters(t *testing.T) {
	th := kit.NewTheme(false, 1)
	for i := range 32 {
		style := fyne.TextStyle{Bold: i&1 > 0, Italic: i&2 > 0, Monospace: i&4 > 0, Symbol: i&8 > 0, Underline: i&16 > 0}
		want := map[bool]string{false: "DejaVuSansCondensed.ttf", true: "DejaVuSansCondensed-Bold.ttf"}[style.Bold]
		if f := th.Font(style); f == nil || f.Name() != want {
			t.Errorf("%+v: got %v", style, f)
		}
	}
}

func TestSizesFollowTheScale(t *testing.T) {
	names := []fyne.ThemeSizeName{
		theme.SizeNameText, theme.SizeNameCaptionText, theme.SizeNameHeadingText, theme.SizeNameSubHeadingText, theme.SizeNamePadding,
		theme.SizeNameInnerPadding, theme.SizeNameLineSpacing, theme.SizeNameScrollBar, theme.SizeNameInputBorder, theme.SizeNameInlineIcon,
	}
	test.NewTempApp(t)
	for _, tt := range []struct{ scale, want float32 }{{0.8, 0.8}, {1.25, 1.25}, {2, 2}, {0.1, 0.8}, {9, 2}} {
		for _, n := range names {
			whole, got := kit.NewTheme(false, 1).Size(n), kit.NewTheme(false, tt.scale).Size(n)
			if whole <= 0 || math.Abs(float64(got-tt.want*whole)) > 1e-4 {
				t.Errorf("%s at %g: got %g of %g", n, tt.scale, got, whole)
			}
		}
	}
}

// Without animations the caret of an entry stands still; a blinking one keeps a processor busy.
func TestCalm(t *testing.T) {
	a := test.NewTempApp(t)
	calm := kit.Calm(a)
	if fyne.CurrentApp() != calm {
		t.Error("the calm application is not the current one")
	}
	if fyne.CurrentApp().Settings().ShowAnimations() {
		t.Error("animations are still shown")
	}
	calm.Settings().SetTheme(kit.NewTheme(true, 1))
	if got := a.Settings().Theme().Color(theme.ColorNameBackground, 0); got != (kit.Greys(true).Paper) {
		t.Errorf("the theme was not passed on: %v", got)
	}
}
