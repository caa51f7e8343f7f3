package shell

import (
	"keeperbook/app/internal/task"
	"keeperbook/model/say"
)

// Keys shows the keys of the window.
func (s *Shell) Keys() {
	s.readOut("shell.keys", []say.Line{
		say.New("shell.keys-window"), say.New("shell.keys-register"), say.New("shell.keys-leaves"),
		say.New("shell.keys-entry"), say.New("shell.keys-help"), say.New("shell.keys-valves"), say.New("shell.keys-dialog"),
	})
}

// Cautions shows what has to be known of before a spring is compressed.
func (s *Shell) Cautions() { s.readOut("shell.cautions", task.Cautions()) }

// About shows what this program is, and under which terms.
func (s *Shell) About() {
	s.readOut("shell.about", []say.Line{
		say.New("shell.about-version", s.cfg.Version), say.New("shell.about-what"), say.New("shell.about-licence"),
		say.New("shell.about-font"),
	})
}
