package wear

import (
	"math"

	"keeperbook/model/say"
)

// Run is something that an engine did, in the measure in which somebody counts it. Speeds are crank turns per minute. A four-stroke
// engine opens each valve once in two turns.
type Run interface {
	// Cycles returns how often each valve opened. It fails (say.Invalid) where a number is missing, below nought or not finite.
	Cycles() (float64, error)
}

// Hours are hours at a time-mean speed: 60·h·n/2.
type Hours struct{ Hours, Mean float64 }

// Timed are passes or laps, each of so many seconds at a time-mean speed: count·s·n/120.
type Timed struct{ Count, Seconds, Mean float64 }

// Road is a distance at a speed over ground in the same unit per hour, at a time-mean engine speed: 30·d·n/v.
type Road struct{ Distance, PerHour, Mean float64 }

// Pulls are sweeps from one engine speed to a higher one at a rate in turns per minute and second: count·(n₂² − n₁²)/(240·rate).
type Pulls struct{ Count, From, To, Rate float64 }

// Cycles implements [Run].
func (r Hours) Cycles() (float64, error) { return counted(30*r.Hours*r.Mean, r.Hours, r.Mean) }

// Cycles implements [Run].
func (r Timed) Cycles() (float64, error) {
	return counted(r.Count*r.Seconds*r.Mean/120, r.Count, r.Seconds, r.Mean)
}

// Cycles implements [Run].
func (r Road) Cycles() (float64, error) {
	return counted(30*r.Distance*r.Mean/r.PerHour, r.Distance, r.PerHour, r.Mean)
}

// Cycles implements [Run].
func (r Pulls) Cycles() (float64, error) {
	return counted(r.Count*(r.To-r.From)*(r.To+r.From)/(240*r.Rate), r.Count, r.To-r.From, r.From, r.Rate)
}

// counted is an outcome of numbers that must all be more than nought, but for the speed that a pull begins at.
func counted(cycles float64, from ...float64) (float64, error) {
	for _, x := range from {
		if !(x >= 0) {
			return 0, say.Fail(say.Invalid, "wear.run-number")
		}
	}
	if !(cycles > 0) || math.IsInf(cycles, 1) {
		return 0, say.Fail(say.Invalid, "wear.run-number")
	}
	return cycles, nil
}
