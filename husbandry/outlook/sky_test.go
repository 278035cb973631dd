package outlook

import (
	"math"
	"math/rand/v2"
	"testing"
)

// TestCourseOfTheLastWeeks is the mean of each hour over three weeks, and of no day
// before them; one day is enough, and an hour never read is not.
func TestCourseOfTheLastWeeks(t *testing.T) {
	past := make([]Hour, 22*24)
	for i := range past {
		past[i].Air = float64(i % 24)
		if i < 24 {
			past[i].Air = 50 // three weeks and a day ago
		}
	}
	s := lookUp(past)
	for hour, v := range s.course {
		near(t, "course", v, float64(hour), 1e-12)
	}
	if !s.known || !lookUp(past[24:48]).known || lookUp(past[:23]).known {
		t.Error("what is known is not")
	}
	if past[30].Air = math.NaN(); lookUp(past[24:48]).known {
		t.Error("an hour that nobody read is known")
	}
}

// TestSeasonByHand: five days, the latest first, each at its noon. Their line by least
// squares rises by 1 K a day; of it (days across)/(days across + noise/0.15^2) is
// believed, noise six times the mean square of 1.5 K or of the days, if that is more.
func TestSeasonByHand(t *testing.T) {
	ago, off := []float64{-0.5, -1.5, -2.5, -3.5, -4.5}, []float64{5, -1, 0, -3, 1} // mean 0.4 at -2.5
	s := &sky{}
	s.season(ago, off)
	const across, slope, noise = 10.0, (9.2 - 1.4 + 3.4 - 1.2) / 10, (21.16 + 1.96 + 0.16 + 11.56 + 0.36) / 5 * 6
	certain := across / (across + noise/0.0225)
	near(t, "slope", s.slope, slope*certain, 1e-12)
	near(t, "how unsure it is", s.drift, 0.15*math.Sqrt(1-certain), 1e-12)
	near(t, "level now", s.level, 0.4+2.5*slope*certain, 1e-12)
	near(t, "how far the last day was off", s.anomaly, 5-s.level+0.5*s.slope, 1e-12)
	rest := 2.25
	for i := range ago {
		left := off[i] - s.level - s.slope*ago[i]
		rest += left * left
	}
	near(t, "how restless days are", s.restless, math.Sqrt(rest/6), 1e-12)
	calm := &sky{}
	calm.season([]float64{-0.5, -1.5, -2.5}, []float64{0.2, 0, 0.1}) // days that hardly differ are doubted by 1.5 K
	near(t, "a calm season", calm.slope, 0.05*2/(2+6*2.25/0.0225), 1e-12)
}

// TestWeatherNeedsThreeDays before it tells where a season goes: of two nothing is
// said. Days are held against the course at their noon.
func TestWeatherNeedsThreeDays(t *testing.T) {
	rising := func(days int) sky {
		past := make([]Hour, days*24)
		for i := range past {
			past[i].Air = 10 + 4*float64(i/24)
		}
		return lookUp(past)
	}
	two, three := rising(2), rising(3)
	near(t, "slope of two days", two.slope, 0, 0)
	near(t, "doubt of two days", two.drift, 0.15, 0)
	near(t, "restlessness of two days", two.restless, 1.5, 0)
	certain := 2 / (2 + math.Max(2.25, 32.0/3)*6/0.0225)
	near(t, "slope of three days", three.slope, 4*certain, 1e-12)
	near(t, "level of three days", three.level, 1.5*4*certain, 1e-12) // their middle was a day and a half ago
}

// TestWeatherHalvesInTwoDays and spreads as restless days do, however long it goes on.
func TestWeatherHalvesInTwoDays(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6)) // #nosec G404 -- the same case each time
	s := &sky{known: true, restless: 2}
	near(t, "of one hour in the next two days", math.Pow(skyMemory, 48), 0.5, 0.02)
	squares, pairs, n := 0.0, 0.0, 0.0
	w := s.ahead(r)
	before := 0.0
	for i := range 40_000 {
		v := w.next(r, i)
		squares, pairs, n, before = squares+v*v, pairs+v*before, n+1, v
	}
	near(t, "spread", math.Sqrt(squares/n), 2, 0.2)
	near(t, "from hour to hour", pairs/squares, 0.985, 0.005)
	unknown := (&sky{}).ahead(r)
	if v := unknown.next(r, 0); !math.IsNaN(v) {
		t.Errorf("air that nobody knows is %g", v)
	}
}
