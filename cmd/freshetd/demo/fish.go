package demo

import (
	"math"
	"math/rand/v2"
)

// school is a cohort as it lives.
type school struct {
	cohortPlan
	id     string
	alive  int
	grams  float64 // mean weight
	eatenN float64 // g N of feed today
	keptN  float64 // g N kept as fish today
}

// response is the share of full growth at a temperature, a bell that ends.
func (s *school) response(celsius float64) float64 {
	off := (celsius - s.optimumC) / s.toleranC
	return math.Max(0, 1-off*off)
}

// appetite is the share of a full ration they will take, 0 to 1.
func (s *school) appetite(l *loop) float64 {
	unionized := l.tan / (1 + math.Pow(10, 0.09018+2729.92/(273.15+l.celsius)-l.ph))
	spoiled := math.Max(0, unionized-0.03)*6 + math.Max(0, 5-l.oxygen)*0.25
	return s.response(l.celsius) * math.Max(0, 1-spoiled)
}

// dayRation is the feed a careful grower would give today, g.
func (s *school) dayRation(l *loop) float64 {
	percent := s.ration * math.Pow(math.Max(1, s.grams)/100, -0.30)
	return float64(s.alive) * s.grams * percent / 100 * s.appetite(l)
}

// eat lets the school grow by what it ate, and counts the nitrogen.
func (s *school) eat(feedG, proteinPercent float64, l *loop) {
	s.eatenN, s.keptN = feedG*proteinPercent/100*0.16, 0
	if s.alive == 0 || feedG <= 0 {
		return
	}
	grown := math.Pow(math.Cbrt(s.grams)+s.growth*s.response(l.celsius), 3) - s.grams
	gain := math.Min(grown, feedG/float64(s.alive)/0.95)
	s.grams += gain
	s.keptN = math.Min(gain*float64(s.alive)*0.0265, 0.55*s.eatenN)
}

// losses is how many die today.
func (s *school) losses(r *rand.Rand, l *loop) int {
	chance := 0.00012
	if s.grams < 60 {
		chance *= 2
	}
	if l.oxygen < 2.5 {
		chance += 0.004 * (2.5 - l.oxygen)
	}
	n := 0
	for range s.alive {
		if r.Float64() < chance {
			n++
		}
	}
	s.alive -= n
	return n
}

func (s *school) kg() float64 { return float64(s.alive) * s.grams / 1000 }
