package shell_test

import (
	"bytes"
	"context"
	"flag"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"keeperbook/app/internal/kit"
	"keeperbook/app/internal/shell"
	"keeperbook/app/internal/wire"
	"keeperbook/model/say"
)

var pictures = flag.Bool("pictures", false, "write the pictures of the screens into app/testdata/screens")

// language is that of the screens. Those of another one than English are written into the system's folder for temporary files,
// in a folder of their own.
var language = flag.String("language", "en", "language of the screens")

// folderOfScreens is where pictures go.
func folderOfScreens(t *testing.T) string {
	if *language == "en" {
		return filepath.Join("..", "..", "testdata", "screens")
	}
	folder := filepath.Join(os.TempDir(), "keeperbook-screens-"+*language)
	if err := os.MkdirAll(folder, 0o755); err != nil {
		t.Fatal(err)
	}
	return folder
}

// spoken is an English sentence of the catalogue in the language of the screens.
func spoken(label string) string {
	number := regexp.MustCompile(`[0-9]+`).FindString(label)
	for key, words := range say.English().Words {
		if words == label || number != "" && words == strings.Replace(label, number, "{0}", 1) {
			return say.Chosen().Line(say.New(key, number))
		}
	}
	return label
}

// TestScreens opens every screen of the demonstration book without a display and takes its picture, in
// light and dark and at both sizes. With -pictures they are kept for looking at; without, a screen that
// cannot be drawn or comes out empty fails.
func TestScreens(t *testing.T) {
	if testing.Short() {
		t.Skip("once a run is enough: drawing takes long under -race")
	}
	t.Setenv("DISPLAY", ":0") // never opened: the test's own driver draws
	for _, c := range []struct {
		suffix string
		dark   bool
		scale  float64
	}{{"light", false, 1}, {"dark", true, 1}, {"light-200", false, 2}, {"dark-200", true, 2}, {"marked", false, 1}} {
		t.Run(c.suffix, func(t *testing.T) {
			language, take := *language, take
			if c.suffix == "marked" { // nothing is drawn; every text is looked at
				language, take = markedTongue, lookOutFor(t)
			}
			folder := t.TempDir()
			app := test.NewTempApp(t)
			wire.Main{
				Clock: clock, Who: "test", Folder: func() (string, error) { return folder, nil }, Out: &bytes.Buffer{}, Err: os.Stderr,
				Signers: func() (string, error) { return signersHere(t), nil },
				Window: func(ctx context.Context, cfg shell.Config) error {
					cfg.Background, cfg.Language = func(work func()) { work() }, language
					cfg.Memory = shell.OpenMemory("")
					cfg.Memory.Show(func(l *shell.Look) { l.Dark, l.Scale = c.dark, c.scale })
					s := shell.New(ctx, app, cfg)
					s.Start()
					s.Window().Resize(fyne.NewSize(float32(1180*c.scale), float32(780*c.scale)))
					take(t, s, "welcome-"+c.suffix)
					s.FirstHead()
					take(t, s, "first-head-"+c.suffix)
					press(s, fyne.KeyEscape)
					s.CloseBook()
					s.DemoBook()
					take(t, s, "register-"+c.suffix)
					press(s, desktop.KeyMenu)
					take(t, s, "register-menu-"+c.suffix)
					press(s, fyne.KeyEscape)
					s.NewHead()
					take(t, s, "new-head-"+c.suffix)
					putAway(s)
					s.OpenSetup("setup-ferry-built")
					for _, leaf := range []string{"needs", "choose", "parts", "valves", "sheet", "life"} {
						s.Show(leaf)
						take(t, s, leaf+"-"+c.suffix)
						if leaf == "parts" || leaf == "sheet" {
							press(s, desktop.KeyMenu)
							take(t, s, leaf+"-menu-"+c.suffix)
							press(s, fyne.KeyEscape)
						}
					}
					pressButton(t, s, "Enter a check…")
					take(t, s, "life-check-"+c.suffix)
					press(s, fyne.KeyEscape)
					s.OpenSetup("setup-racer-built")
					s.Show("life")
					s.Window().Resize(fyne.NewSize(float32(1180*c.scale), float32(1900*c.scale)))
					take(t, s, "life-seasons-"+c.suffix)
					pressButton(t, s, "All valves in one plot")
					s.Window().Resize(fyne.NewSize(float32(1180*c.scale), float32(780*c.scale)))
					take(t, s, "life-all-"+c.suffix)
					s.OpenSetup("setup-launch-built")
					s.Show("life")
					take(t, s, "life-empty-"+c.suffix)
					s.OpenSetup("setup-ferry-built")
					s.Show("valves")
					press(s, fyne.KeyDown)
					press(s, fyne.KeyF8)
					take(t, s, "valves-sure-"+c.suffix)
					press(s, fyne.KeyF8)
					press(s, fyne.KeyUp)
					press(s, fyne.KeyDown)
					press(s, fyne.KeyEnd)
					press(s, fyne.KeyLeft)
					press(s, fyne.KeyLeft) // to the open load, where the curve takes the section's place
					take(t, s, "valves-loads-"+c.suffix)
					at := fyne.NewPos(330*float32(c.scale), 180*float32(c.scale))
					s.Window().Canvas().Focused().(fyne.SecondaryTappable).TappedSecondary(&fyne.PointEvent{Position: at, AbsolutePosition: at.AddXY(0, 60)})
					take(t, s, "valves-menu-"+c.suffix)
					s.Window().Canvas().Overlays().Remove(s.Window().Canvas().Overlays().Top())
					press(s, fyne.KeyEnd)
					press(s, fyne.KeyLeft)
					press(s, fyne.KeyLeft)
					press(s, fyne.KeyF1)
					take(t, s, "guide-curve-"+c.suffix)
					press(s, fyne.KeyEscape)
					press(s, fyne.KeyHome)
					for range 4 { // to the base height
						press(s, fyne.KeyRight)
					}
					press(s, fyne.KeyF1)
					take(t, s, "guide-"+c.suffix)
					for _, r := range map[string]string{"en": "save", "de": "speichern", "es": "guardar"}[say.Chosen().Language] {
						s.Window().Canvas().Focused().TypedRune(r)
					}
					take(t, s, "guide-found-"+c.suffix)
					press(s, fyne.KeyEscape)
					press(s, fyne.KeyEscape)
					s.LeaveAs()
					take(t, s, "leave-"+c.suffix)
					press(s, fyne.KeyEscape)
					mine := filepath.Join(folder, "my heights.csv")
					if err := os.WriteFile(mine, []byte("Valve,Height bare,Tip,Remark\n4 in,46.79,49.2,good\n4 ex,46.65,,\n6 in,no idea,,\nleft one,46.1,,\n"), 0o600); err != nil {
						t.Fatal(err)
					}
					if err := s.TakeFile(mine); err != nil {
						t.Fatal(err)
					}
					take(t, s, "take-in-"+c.suffix)
					press(s, fyne.KeyDown)
					press(s, fyne.KeyReturn)
					take(t, s, "take-in-column-"+c.suffix)
					tapButton(t, s, "base height")
					take(t, s, "take-in-refused-"+c.suffix)
					s.OpenSetup("setup-ferry-built")
					s.Show("valves")
					press(s, fyne.KeyHome)
					press(s, fyne.KeyUp)
					press(s, fyne.KeyF4)
					for range 3 { // to a valve of which both set-ups know enough to be drawn
						press(s, fyne.KeyDown)
					}
					take(t, s, "valves-beside-"+c.suffix)
					press(s, fyne.KeyF4)
					s.Due()
					take(t, s, "due-"+c.suffix)
					s.Copies()
					pressButton(t, s, "Copy now")
					take(t, s, "copies-"+c.suffix)
					s.OpenSetup("setup-ferry-built")
					s.History()
					take(t, s, "history-"+c.suffix)
					s.Check(signedSheet(t, folder, false))
					take(t, s, "check-"+c.suffix)
					press(s, fyne.KeyReturn)
					write(s, "M. Ashlock")
					press(s, fyne.KeyReturn)
					write(s, "by telephone")
					press(s, fyne.KeyReturn)
					take(t, s, "check-trusted-"+c.suffix)
					s.Check(signedSheet(t, folder, true))
					take(t, s, "check-changed-"+c.suffix)
					s.OpenSetup("setup-launch-found")
					s.Show("sheet")
					take(t, s, "signed-"+c.suffix)
					write(s, "s")
					take(t, s, "sign-second-"+c.suffix)
					press(s, fyne.KeyEscape)
					s.OpenSetup("setup-launch-built")
					s.Show("plan")
					take(t, s, "plan-empty-"+c.suffix)
					press(s, fyne.KeyReturn)
					take(t, s, "plan-"+c.suffix)
					s.OpenSetup("setup-hill-built")
					s.Show("sheet")
					write(s, "s")
					take(t, s, "sign-"+c.suffix)
					press(s, fyne.KeyReturn)
					take(t, s, "sign-secret-"+c.suffix)
					putAway(s)
					press(s, fyne.KeyEscape)
					s.OpenSetup("setup-ferry-built")
					s.Show("sheet")
					write(s, "s")
					write(s, "as the owner wants it until the new springs are there")
					take(t, s, "sign-reasons-"+c.suffix)
					press(s, fyne.KeyEscape)
					s.Show("valves")
					s.OpenSetup("setup-hill-built")
					s.Show("valves")
					take(t, s, "valves-metric-"+c.suffix)
					if c.suffix == "marked" {
						lookFurther(t, s, take)
					}
					s.ShopPages()
					take(t, s, "shop-"+c.suffix)
					for range 2 { // past the button to the single springs
						s.Window().Canvas().FocusNext()
					}
					for range 13 {
						press(s, fyne.KeyDown)
					}
					press(s, fyne.KeyReturn)
					s.Window().Resize(fyne.NewSize(float32(1180*c.scale), float32(2000*c.scale)))
					take(t, s, "part-"+c.suffix)
					s.Window().Resize(fyne.NewSize(float32(1180*c.scale), float32(780*c.scale)))
					s.ShopPages()
					press(s, fyne.KeyEnd) // to a type of which wire and turns are known
					press(s, fyne.KeyReturn)
					// High enough for all of it: the headless painter draws texts of fields that are scrolled out of sight.
					s.Window().Resize(fyne.NewSize(float32(1180*c.scale), float32(2560*c.scale)))
					take(t, s, "spring-"+c.suffix)
					s.Window().Resize(fyne.NewSize(float32(1180*c.scale), float32(780*c.scale)))
					s.ShopPages()
					shopPage(s, 1)
					take(t, s, "shims-"+c.suffix)
					pressButton(t, s, "Add the sizes of common practice")
					press(s, fyne.KeyReturn)
					write(s, "12")
					press(s, fyne.KeyReturn)
					take(t, s, "stock-"+c.suffix)
					s.ShopPages()
					shopPage(s, 4)
					s.Window().Canvas().FocusNext() // past how it is decided to the first rule
					write(s, "005")
					press(s, fyne.KeyReturn)
					s.Window().Resize(fyne.NewSize(float32(1180*c.scale), float32(2400*c.scale)))
					take(t, s, "rules-"+c.suffix)
					s.Window().Resize(fyne.NewSize(float32(1180*c.scale), float32(780*c.scale)))
					s.ShopPages()
					shopPage(s, 3)
					take(t, s, "signers-"+c.suffix)
					pressButton(t, s, "Draw…")
					take(t, s, "signers-draw-"+c.suffix)
					s.ShopPages()
					shopPage(s, 3)
					press(s, fyne.KeyDown)
					press(s, fyne.KeyReturn)
					pressButton(t, s, "Show…")
					write(s, "grinding paste")
					press(s, fyne.KeyReturn)
					take(t, s, "signers-hand-"+c.suffix)
					s.ShopPages()
					shopPage(s, 2)
					press(s, fyne.KeyDown) // to one that is past due
					press(s, fyne.KeyReturn)
					take(t, s, "gauges-"+c.suffix)
					s.ShopPages()
					shopPage(s, 2)
					for range 7 { // to a tester that weights were put on
						press(s, fyne.KeyDown)
					}
					press(s, fyne.KeyReturn)
					s.Window().Resize(fyne.NewSize(float32(1180*c.scale), float32(2620*c.scale)))
					take(t, s, "tester-"+c.suffix)
					s.Window().Resize(fyne.NewSize(float32(1180*c.scale), float32(780*c.scale)))
					s.ShopPages()
					shopPage(s, 2)
					press(s, fyne.KeyDown)
					press(s, fyne.KeyReturn)
					study(t, s)
					take(t, s, "study-"+c.suffix)
					s.CloseBook()
					return nil
				},
			}.Run(context.Background())
		})
	}
}

// shopPage goes to one of the shop's pages by the keyboard: from the list to the choice above it.
func shopPage(s *shell.Shell, n int) {
	s.Window().Canvas().FocusPrevious()
	for range n {
		press(s, fyne.KeyRight)
	}
	press(s, fyne.KeyReturn)
}

// study reads on the gauge that is open, by two people; one reading lies far off, one is struck and one is no reading.
func study(t *testing.T, s *shell.Shell) {
	t.Helper()
	pressButton(t, s, "Study how it repeats…")
	lines := func(texts ...string) {
		for _, text := range texts {
			write(s, text)
			press(s, fyne.KeyReturn)
		}
	}
	lines("depth of one seat", "38.42", "38.43", "38.42", "38.44", "38.42", "38.41")
	press(s, fyne.KeyF3)
	lines("J. Peverel", "38.44", "38.43", "38.57", "38.45", "38.43", "38.44", "38.44")
	pressButton(t, s, "Strike reading 9…")
	lines("slipped off the land")
	pressButton(t, s, "Another person…")
	lines("E. Tolliver", "38.42", "38.43", "38.42", "38.43", "38.43", "38.52", "38.42", "38.4x")
}

// words are what stands on a button.
func words(b *kit.Button) string {
	for _, o := range test.WidgetRenderer(b).Objects() {
		if text, ok := o.(*canvas.Text); ok {
			return text.Text
		}
	}
	return ""
}

// pressButton goes on by the keyboard to a button and presses it.
func pressButton(t *testing.T, s *shell.Shell, label string) {
	t.Helper()
	toButton(t, s, label)
	press(s, fyne.KeyReturn)
}

// tapButton has the pointer on a button: behind an Enter a dialog takes no key for a while, and the clock stands still here.
func tapButton(t *testing.T, s *shell.Shell, label string) {
	t.Helper()
	toButton(t, s, label).Tapped(&fyne.PointEvent{})
}

func toButton(t *testing.T, s *shell.Shell, label string) *kit.Button {
	t.Helper()
	label = spoken(label)
	for range 60 {
		s.Window().Canvas().FocusNext()
		if b, ok := s.Window().Canvas().Focused().(*kit.Button); ok && words(b) == label {
			return b
		}
	}
	t.Fatalf("no button %q", label)
	return nil
}

// write types a text where the keyboard is.
func write(s *shell.Shell, text string) {
	for _, r := range text {
		s.Window().Canvas().Focused().TypedRune(r)
	}
}

// putAway puts a dialog away.
func putAway(s *shell.Shell) { press(s, fyne.KeyEscape) }

// press presses a key in what has the keyboard.
func press(s *shell.Shell, key fyne.KeyName) {
	if f := s.Window().Canvas().Focused(); f != nil {
		f.TypedKey(&fyne.KeyEvent{Name: key})
	}
}

// take takes a picture of the window and keeps it where that is asked for.
func take(t *testing.T, s *shell.Shell, name string) {
	t.Helper()
	choosable(t, s, name)
	img := s.Window().Canvas().Capture()
	grey := grey(t, name, img)
	if n := shades(grey); n < 8 {
		t.Errorf("%s shows %d shades: there is nothing on it", name, n)
	}
	if !*pictures {
		return
	}
	var b bytes.Buffer
	if err := (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&b, grey); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(folderOfScreens(t), name+".png"), b.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
}

// grey returns a picture in greys, and fails where something on it has a hue: hue carries nothing here.
func grey(t *testing.T, name string, img image.Image) *image.Gray {
	t.Helper()
	out := image.NewGray(img.Bounds())
	hued := 0
	for y := img.Bounds().Min.Y; y < img.Bounds().Max.Y; y++ {
		for x := img.Bounds().Min.X; x < img.Bounds().Max.X; x++ {
			r, g, b, _ := img.At(x, y).RGBA()
			if low, high := min(r, g, b)>>8, max(r, g, b)>>8; high-low > 4 {
				hued++
			}
			out.SetGray(x, y, color.Gray{Y: uint8(g >> 8)})
		}
	}
	if hued > 0 {
		t.Errorf("%s has %d points with a hue", name, hued)
	}
	return out
}

// shades counts the different greys of a picture, up to a few.
func shades(img *image.Gray) int {
	seen := map[uint8]bool{}
	for _, v := range img.Pix {
		if seen[v] = true; len(seen) > 8 {
			break
		}
	}
	return len(seen)
}
