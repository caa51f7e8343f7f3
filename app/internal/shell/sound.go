package shell

import "keeperbook/app/internal/kit"

// Sounds are what a leaf is heard by, for eyes that are on the gauge.
func (s *Shell) Sounds() *kit.Sounds { return s.sounds }

// TurnSounds switches the sounds on or off, and remembers it.
func (s *Shell) TurnSounds() {
	s.sounds.Switch(!s.sounds.On())
	silent := !s.sounds.On()
	s.memory.Show(func(l *Look) { l.Silent = silent })
	s.menu()
}
