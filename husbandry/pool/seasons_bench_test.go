package pool

import (
	"math"
	"math/rand/v2"
	"testing"
)

// A thousand sites that each noted a few to all months of a year.
func manySites(n int, seed uint64, least int) (amounts, exposures [][]float64) {
	r := rand.New(rand.NewPCG(seed, 7))
	for range n {
		y, e := make([]float64, 12), make([]float64, 12)
		level, first, long := math.Exp(r.NormFloat64()/2), r.IntN(12), least+r.IntN(13-least)
		for k := range long {
			j := (first + k) % 12
			e[j] = 1.0 / 12
			y[j] = e[j] * level * (1.2 + math.Sin(float64(j)/2)) * r.ExpFloat64()
		}
		amounts, exposures = append(amounts, y), append(exposures, e)
	}
	return amounts, exposures
}

func BenchmarkStandardise(b *testing.B) {
	for name, least := range map[string]int{"4 months or more": 4, "1 month or more": 1, "all months": 12} {
		amounts, exposures := manySites(1000, 1, least)
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Standardise(amounts, exposures); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
