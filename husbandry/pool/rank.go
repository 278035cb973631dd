package pool

import (
	"math"

	"freshet.example/husbandry/chance"
	"freshet.example/husbandry/quantity"
)

// A Place is where a site stands among all, 1 for the largest true mean, with
// how sure that is. A rank without its interval is not to be shown.
type Place struct {
	Expected  float64 // mean of the possible ranks (Lin, Louis, Paddock & Ridgeway 2006, Bayesian Anal. 1:915)
	Low, High int     // ranks between which it lies at the confidence asked for
}

// Rank places every site by its shrunken mean. The chance of each rank is
// computed, not drawn: given the mean of all and the site's own true mean, the
// other sites lie above it independently, and both are averaged over. When
// the sites do not differ (Tau2 of 0) every rank is possible for each. Up to
// 200 sites; confidence 0.5 to 0.9999.
func (s Summary) Rank(confidence quantity.Fraction) ([]Place, error) {
	k := len(s.y)
	if err := sensible(confidence); err != nil {
		return nil, err
	}
	if err := quantity.Within("number of sites", float64(k), 2, 200, "", quantity.OwnBounds); err != nil {
		return nil, err
	}
	places := make([]Place, k)
	for i := range places {
		if s.Tau2 == 0 {
			places[i] = Place{float64(k+1) / 2, 1, k}
			continue
		}
		places[i] = placed(s.rankChances(i), (1-float64(confidence))/2)
	}
	return places, nil
}

// rankChances gives the chance of 0, 1, 2 ... other sites lying above site i.
func (s Summary) rankChances(i int) []float64 {
	total := make([]float64, len(s.y))
	own := s.site(i, 0)
	for _, mu := range normalGrid {
		shift := s.SE * mu.at
		for _, theta := range normalGrid {
			at := own.Mean + (1-own.Weight)*shift + own.CondSE*theta.at
			for above, p := range s.countAbove(i, at, shift) {
				total[above] += mu.weight * theta.weight * p
			}
		}
	}
	return total
}

// countAbove is the distribution of the number of other sites above a value
// when the mean of all is moved by shift: a sum of unlike coin tosses.
func (s Summary) countAbove(i int, value, shift float64) []float64 {
	counts := make([]float64, len(s.y))
	counts[0] = 1
	n := 0
	for j := range s.y {
		if j == i {
			continue
		}
		other := s.site(j, 0)
		p := chance.NormalSurvival((value - other.Mean - (1-other.Weight)*shift) / other.CondSE)
		n++
		for c := n; c > 0; c-- {
			counts[c] = counts[c]*(1-p) + counts[c-1]*p
		}
		counts[0] *= 1 - p
	}
	return counts
}

func placed(chances []float64, tail float64) Place {
	p := Place{Low: 1, High: len(chances)}
	below, found := 0.0, false
	for above, c := range chances {
		p.Expected += float64(above+1) * c
		if below += c; !found && below > tail {
			p.Low, found = above+1, true
		}
	}
	below = 0
	for above := len(chances) - 1; above >= 0; above-- {
		if below += chances[above]; below > tail {
			p.High = above + 1
			break
		}
	}
	return p
}

type node struct{ at, weight float64 }

// normalGrid stands for a standard normal value: even steps of 1/3 from -5 to
// 5, where the trapezoid rule is right to better than 1e-6.
var normalGrid = func() []node {
	var grid []node
	for i := -15; i <= 15; i++ {
		at := float64(i) / 3
		grid = append(grid, node{at, math.Exp(-at*at/2) / (3 * math.Sqrt(2*math.Pi))})
	}
	return grid
}()
