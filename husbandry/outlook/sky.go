package outlook

import (
	"math"
	"math/rand/v2"
)

// sky is the air over a loop as it was: its daily course and its weather.
type sky struct {
	course              [int(noonToNoon)]float64 // degC by hours counted on from the end of the past
	known               bool
	level, slope, drift float64 // K above the course now, K a day, and how unsure that is
	anomaly             float64 // K by which the last day was off
	restless            float64 // K, spread of days
}

const (
	skyDays       = 21
	skyMemory     = 0.985 // of the weather from hour to hour: it halves in two days; common practice, no source
	leastRestless = 1.5   // K; common practice, no source
	seasonal      = 0.15  // K a day, spread of how the season moves on; common practice, no source
	alike         = 6.0   // as many days count as one, since weather lasts
)

// lookUp reads the sky from the last weeks of the past.
func lookUp(past []Hour) (s sky) {
	from := max(0, len(past)-skyDays*int(noonToNoon))
	sums, counts := [int(noonToNoon)]float64{}, [int(noonToNoon)]float64{}
	for i := from; i < len(past); i++ {
		if hour := hourOf(i - len(past)); !math.IsNaN(past[i].Air) {
			sums[hour], counts[hour] = sums[hour]+past[i].Air, counts[hour]+1
		}
	}
	for hour := range s.course {
		if counts[hour] == 0 {
			return sky{}
		}
		s.course[hour] = sums[hour] / counts[hour]
	}
	s.known = true
	s.weather(past, from)
	return s
}

// weather finds how the days moved on, how far they were off, and the last of them.
func (s *sky) weather(past []Hour, from int) {
	var ago, off []float64
	for end := len(past); end-int(noonToNoon) >= from; end -= int(noonToNoon) {
		day := meanOf(past[end-int(noonToNoon):end], func(h Hour) float64 { return h.Air })
		if mean := meanOf(s.course[:], func(v float64) float64 { return v }); !math.IsNaN(day) {
			ago, off = append(ago, float64(end-len(past))/noonToNoon-0.5), append(off, day-mean)
		}
	}
	s.restless = leastRestless
	if len(off) < 3 {
		s.drift = seasonal
		return
	}
	s.season(ago, off)
}

// season lays a line through the days, held towards none as far as passing
// weather could have made it.
func (s *sky) season(ago, off []float64) {
	n, meanAgo, meanOff := float64(len(ago)), 0.0, 0.0
	for i := range ago {
		meanAgo, meanOff = meanAgo+ago[i]/n, meanOff+off[i]/n
	}
	across, along, squares := 0.0, 0.0, 0.0
	for i := range ago {
		x, y := ago[i]-meanAgo, off[i]-meanOff
		across, along, squares = across+x*x, along+x*y, squares+y*y
	}
	noise := math.Max(leastRestless*leastRestless, squares/n) * alike
	certain := across / (across + noise/(seasonal*seasonal))
	s.slope, s.drift = along/across*certain, seasonal*math.Sqrt(1-certain)
	s.level = meanOff - s.slope*meanAgo
	rest := leastRestless * leastRestless
	for i := range ago {
		e := off[i] - s.level - s.slope*ago[i]
		rest += e * e
	}
	s.restless = math.Sqrt(rest / (n + 1))
	s.anomaly = off[0] - s.level - s.slope*ago[0]
}

// hourOf is an hour's place in the daily course, counted from the end of the past.
func hourOf(i int) int {
	const day = int(noonToNoon)
	return ((i % day) + day) % day
}

// weather is one way in which the air may go on.
type weather struct {
	*sky
	off, moves float64
}

func (s *sky) ahead(r *rand.Rand) weather {
	return weather{s, s.anomaly, s.slope + s.drift*r.NormFloat64()}
}

// next gives the air of an hour ahead, counted from 0.
func (w *weather) next(r *rand.Rand, hour int) float64 {
	if !w.known {
		return math.NaN()
	}
	w.off = skyMemory*w.off + math.Sqrt(1-skyMemory*skyMemory)*w.restless*r.NormFloat64()
	return w.course[hourOf(hour)] + w.level + w.off + w.moves*float64(hour)/noonToNoon
}
