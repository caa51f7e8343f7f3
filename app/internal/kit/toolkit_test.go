package kit_test

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2/driver/desktop"

	"keeperbook/app/internal/kit"
	"keeperbook/model/say"
)

// The menu over a text that is typed is in the chosen language whatever that of the system is, and changes with it.
func TestToolkitSpeaksTheChosenLanguage(t *testing.T) {
	f := kit.NewField("what", "", nil)
	s := newStage(t, f)
	t.Cleanup(func() { kit.Speak(say.English()) })
	for _, name := range []string{"LC_ALL", "LC_MESSAGES", "LANGUAGE"} {
		t.Setenv(name, "")
	}
	for _, system := range []string{"", "C", "en_US.UTF-8", "de_AT.UTF-8", "es", "pl_PL.UTF-8", "zh_CN.UTF-8", "tlh"} {
		t.Setenv("LANG", system)
		for _, tag := range []string{"de", "es", "en", "de"} {
			words, _ := say.Of(tag)
			kit.Speak(words)
			var want []string
			for _, key := range []string{"kit.entry-cut", "kit.entry-copy", "kit.entry-paste", "kit.entry-all"} {
				want = append(want, words.Line(say.New(key)))
			}
			f.Focus()
			s.press(desktop.KeyMenu)
			if got, want := s.says(), strings.Join(want, " "); got != want {
				t.Errorf("LANG=%s in %s: the menu says %s, want %s", system, tag, got, want)
			}
			s.win.Canvas().Overlays().Remove(s.win.Canvas().Overlays().Top())
		}
	}
}
