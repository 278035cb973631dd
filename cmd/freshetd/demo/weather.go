package demo

import (
	"math"
	"math/rand/v2"
)

// climate is a site's air outside: a yearly and a daily wave, and weather that comes and goes.
type climate struct {
	mean     float64 // degC over the year
	swing    float64 // degC from mean to the warmest month
	daily    float64 // degC from mean to mid-afternoon
	restless float64 // degC, one standard deviation of passing weather
	south    bool
}

// sky is the weather as it runs on.
type sky struct {
	climate
	passing float64
}

// season is 1 in high summer and -1 in midwinter.
func (c climate) season(yearDay int) float64 {
	wave := math.Cos(2 * math.Pi * float64(yearDay-200) / 365.25)
	if c.south {
		return -wave
	}
	return wave
}

// hour gives the air outside in one hour, degC, and moves the weather on.
func (s *sky) hour(r *rand.Rand, yearDay, hour int) float64 {
	const memory = 0.985 // passing weather halves in two days
	s.passing = memory*s.passing + math.Sqrt(1-memory*memory)*s.restless*r.NormFloat64()
	return s.mean + s.swing*s.season(yearDay) + s.daily*sun(hour-2) + s.passing
}

// sun is 1 at noon and -1 at midnight.
func sun(hour int) float64 { return math.Cos(2 * math.Pi * float64(hour-12) / 24) }

// light is the share of full summer sun, 0 by night.
func (c climate) light(yearDay, hour int) float64 {
	return math.Max(0, sun(hour)+0.15*c.season(yearDay)) * (0.65 + 0.35*c.season(yearDay))
}
