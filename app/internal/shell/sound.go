package shell

import "keeperbook/app/internal/kit"

// silent is the key under which the memory keeps that sounds are switched off. They are on until somebody
// does so.
const silent = "silent"

// Sounds are what a leaf is heard by, for eyes that are on the gauge.
func (s *Shell) Sounds() *kit.Sounds { return s.sounds }

// TurnSounds switches the sounds on or off, and remembers it.
func (s *Shell) TurnSounds() {
	s.sounds.Switch(!s.sounds.On())
	s.memory.SetBool(silent, !s.sounds.On())
	s.menu()
}
