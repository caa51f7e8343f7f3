package shell

import (
	"fyne.io/fyne/v2"

	"keeperbook/app/internal/kit"
	"keeperbook/model/say"
)

// speak chooses the language that is remembered, else that of the system, else English.
func (s *Shell) speak() {
	tag := s.memory.Look().Speaks
	if tag == "" {
		tag = s.cfg.Language
	}
	if !say.Speak(tag) {
		say.Speak("en")
	}
	s.words = say.Chosen()
	kit.Speak(s.words)
}

// Speak changes the language of the window. What is open is shown anew in it.
func (s *Shell) Speak(tag string) {
	s.leaving(func() {
		s.leave()
		s.memory.Show(func(l *Look) { l.Speaks = tag })
		s.speak()
		s.banner.SetWords(s.words)
		s.register, s.told = nil, ""
		s.anew()
	})
}

// languages are the items of the menu that choose one, each called as it calls itself.
func (s *Shell) languages() (items []*fyne.MenuItem) {
	now := s.line("shell.language")
	for _, tag := range say.Languages() {
		i := s.item("shell.language."+tag, nil, true, func() { s.Speak(tag) })
		i.Checked = tag == now
		items = append(items, i)
	}
	return items
}
