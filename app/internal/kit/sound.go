package kit

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"time"
)

// Sounds tells a reading that was kept from one that was refused, for ears that are nearer than eyes. The
// system's own player plays them; where there is none, there are no sounds and nothing is said of it.
type Sounds struct {
	mu      sync.Mutex
	on      bool
	folder  string // where the two files are; empty until the first sound
	play    func(ctx context.Context, file string) error
	playing chan struct{} // holds one: a sound that comes while another plays is left out
	done    sync.WaitGroup
}

// longest is how long a player may take before it is stopped.
const longest = 2 * time.Second

// NewSounds returns the sounds, on or off.
func NewSounds(on bool) *Sounds {
	s := &Sounds{on: on, playing: make(chan struct{}, 1)}
	s.play = player()
	return s
}

// player returns what plays a file on this system; nil where nothing does.
func player() func(context.Context, string) error {
	for _, words := range [][]string{{"pw-play"}, {"paplay"}, {"aplay", "-q"}, {"afplay"}} {
		program, err := exec.LookPath(words[0])
		if err != nil {
			continue
		}
		return func(ctx context.Context, file string) error {
			return exec.CommandContext(ctx, program, append(words[1:], file)...).Run()
		}
	}
	return nil
}

// Can reports whether there is a player. Without one the switch is better not shown.
func (s *Sounds) Can() bool { return s.play != nil }

// On reports whether sounds are switched on.
func (s *Sounds) On() bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.on
}

// Switch turns the sounds on or off.
func (s *Sounds) Switch(on bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.on = on
}

// Accepted plays one short high tone.
func (s *Sounds) Accepted() { s.sound("accepted.wav") }

// Refused plays two low tones.
func (s *Sounds) Refused() { s.sound("refused.wav") }

// sound plays a file beside the work. A sound that fails is no trouble worth a sentence.
func (s *Sounds) sound(name string) {
	if s.play == nil || !s.On() {
		return
	}
	select {
	case s.playing <- struct{}{}:
	default:
		return
	}
	s.done.Go(func() {
		defer func() { <-s.playing }()
		file, err := s.file(name)
		if err != nil {
			return
		}
		ctx, stop := context.WithTimeout(context.Background(), longest)
		defer stop()
		_ = s.play(ctx, file) // a player that fails has nothing to be told
	})
}

// file returns the path of a sound, and writes the sounds the first time.
func (s *Sounds) file(name string) (string, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.folder == "" {
		folder, err := os.MkdirTemp("", "keeperbook-sounds-")
		if err != nil {
			return "", err
		}
		for name, notes := range sounds() {
			if err := os.WriteFile(filepath.Join(folder, name), wave(notes), 0o600); err != nil {
				return "", err
			}
		}
		s.folder = folder
	}
	return filepath.Join(s.folder, name), nil
}

// Close waits for the sound that plays and takes the files away.
func (s *Sounds) Close() error {
	s.Switch(false)
	s.done.Wait()
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.folder == "" {
		return nil
	}
	err := os.RemoveAll(s.folder)
	s.folder = ""
	return err
}

// sounding is a [Host] with sounds.
type sounding interface{ Sounds() *Sounds }

// Accepted is heard where the window has sounds.
func Accepted(h Host) {
	if s, ok := h.(sounding); ok {
		s.Sounds().Accepted()
	}
}

// Refused is heard where the window has sounds.
func Refused(h Host) {
	if s, ok := h.(sounding); ok {
		s.Sounds().Refused()
	}
}
