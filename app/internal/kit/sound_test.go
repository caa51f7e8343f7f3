package kit

import (
	"context"
	"encoding/binary"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"
)

// recorded returns sounds whose player notes what it is given. It plays until it is let go.
func recorded(t *testing.T, on bool) (s *Sounds, played chan string, end chan struct{}) {
	t.Setenv("TMPDIR", t.TempDir())
	played, end = make(chan string, 9), make(chan struct{})
	s = NewSounds(on)
	s.play = func(ctx context.Context, file string) error {
		if _, err := os.Stat(file); err != nil {
			t.Error(err)
		}
		if _, ok := ctx.Deadline(); !ok {
			t.Error("a player may run for ever")
		}
		played <- filepath.Base(file)
		<-end
		return nil
	}
	return s, played, end
}

func TestSounds(t *testing.T) {
	s, played, end := recorded(t, true)
	s.Accepted()
	if got := <-played; got != "accepted.wav" {
		t.Errorf("played %s", got)
	}
	s.Refused() // while the first plays: left out
	close(end)
	s.done.Wait()
	s.Refused()
	s.done.Wait()
	if got := <-played; got != "refused.wav" || len(played) != 0 {
		t.Errorf("played %s and %d more", got, len(played))
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	left, err := os.ReadDir(os.Getenv("TMPDIR"))
	if err != nil || len(left) != 0 {
		t.Errorf("left behind: %v, %v", left, err)
	}
	s.Accepted()
	s.done.Wait()
	if len(played) != 0 {
		t.Error("a sound after the end")
	}
}

func TestSoundsSwitch(t *testing.T) {
	s, played, end := recorded(t, false)
	close(end)
	s.Accepted()
	s.done.Wait()
	if len(played) != 0 || s.On() {
		t.Error("a sound though it is off")
	}
	s.Switch(true)
	s.Accepted()
	s.done.Wait()
	if len(played) != 1 || !s.On() {
		t.Error("no sound though it is on")
	}
}

func TestWithoutAPlayer(t *testing.T) {
	t.Setenv("PATH", t.TempDir())
	s := NewSounds(true)
	if s.Can() {
		t.Error("it says that it can")
	}
	s.Accepted()
	if err := s.Close(); err != nil {
		t.Error(err)
	}
}

// host has sounds, as the window does; mute has none.
type mute struct{ Host }

type host struct {
	Host
	sounds *Sounds
}

func (h host) Sounds() *Sounds { return h.sounds }

func TestSoundsOfAHost(t *testing.T) {
	s, played, end := recorded(t, true)
	close(end)
	Accepted(host{sounds: s})
	s.done.Wait()
	Refused(host{sounds: s})
	s.done.Wait()
	Accepted(mute{})
	Refused(mute{})
	if got := []string{<-played, <-played}; !slices.Equal(got, []string{"accepted.wav", "refused.wav"}) || len(played) != 0 {
		t.Errorf("played %q", got)
	}
}

// The fields of the header are those of a WAVE file of plain samples (from memory of the format).
func TestWave(t *testing.T) {
	for name, notes := range sounds() {
		w := wave(notes)
		var long time.Duration
		for _, n := range notes {
			long += n.long
		}
		bytes := int(binary.LittleEndian.Uint32(w[40:]))
		if string(w[:4]) != "RIFF" || string(w[8:16]) != "WAVEfmt " || string(w[36:40]) != "data" ||
			int(binary.LittleEndian.Uint32(w[4:])) != len(w)-8 || bytes != len(w)-44 {
			t.Fatalf("%s: header % x, %d bytes", name, w[:44], len(w))
		}
		near(t, name+" lasts", float64(bytes)/2/perSecond, long.Seconds(), 0.001)
		most := 0.0
		for i := 44; i < len(w); i += 2 {
			most = max(most, math.Abs(float64(int16(binary.LittleEndian.Uint16(w[i:])))))
		}
		near(t, name+" loudest", most/math.MaxInt16, loudness, 0.01)
		if long > 500*time.Millisecond {
			t.Errorf("%s lasts %v: the next reading is there already", name, long)
		}
	}
}
