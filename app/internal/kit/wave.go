package kit

import (
	"encoding/binary"
	"math"
	"time"
)

// note is one tone; of frequency nought it is silence.
type note struct {
	hertz float64
	long  time.Duration
}

// sounds are far apart in pitch and in number, so that either is known without the other beside it.
func sounds() map[string][]note {
	return map[string][]note{
		"accepted.wav": {{1320, 70 * time.Millisecond}},
		"refused.wav":  {{220, 140 * time.Millisecond}, {0, 60 * time.Millisecond}, {185, 220 * time.Millisecond}},
	}
}

const (
	perSecond = 22050 // samples
	loudness  = 0.35  // of the loudest a sample can be
	edge      = 5 * time.Millisecond
)

// wave returns notes as a WAVE file with one channel of 16 bits.
func wave(notes []note) []byte {
	var samples []int16
	for _, n := range notes {
		count, fade := int(n.long.Seconds()*perSecond), edge.Seconds()*perSecond
		for i := range count {
			// Without the rise and the fall a tone begins and ends with a click.
			gain := min(1, float64(i)/fade, float64(count-i)/fade)
			v := math.Sin(2*math.Pi*n.hertz*float64(i)/perSecond) * gain * loudness * math.MaxInt16
			samples = append(samples, int16(v))
		}
	}
	bytes := 2 * len(samples)
	out := append([]byte(nil), "RIFF"...)
	out = binary.LittleEndian.AppendUint32(out, uint32(36+bytes))
	out = append(out, "WAVEfmt "...)
	out = binary.LittleEndian.AppendUint32(out, 16) // length of what follows about the format
	for _, v := range []uint16{1, 1} {              // plain samples, one channel
		out = binary.LittleEndian.AppendUint16(out, v)
	}
	out = binary.LittleEndian.AppendUint32(out, perSecond)
	out = binary.LittleEndian.AppendUint32(out, 2*perSecond)
	for _, v := range []uint16{2, 16} { // bytes and bits of a sample
		out = binary.LittleEndian.AppendUint16(out, v)
	}
	out = append(out, "data"...)
	out = binary.LittleEndian.AppendUint32(out, uint32(bytes))
	for _, s := range samples {
		out = binary.LittleEndian.AppendUint16(out, uint16(s))
	}
	return out
}
