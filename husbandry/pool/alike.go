package pool

import (
	"cmp"
	"math"
	"slices"

	"freshet.example/husbandry/quantity"
)

// Traits are what makes the figures of two sites comparable: climate, size and
// species. NaN and "" where they are not on record.
type Traits struct {
	WaterCelsius quantity.Celsius // mean of the months compared
	Latitude     float64          // degrees; only how far from the equator counts
	Covered      float64          // share of the beds' area under cover, 0 to 1
	Litres       quantity.Litres  // water in loops
	PlantedM2    float64          // beds in loops
	Species      string           // of the fish
}

// Spans at which two sites are as unlike as can be. Fixed, so that how alike two
// sites are never hangs on who else is compared: from cold-water to warm-water
// fish; from the equator to the polar circle; a hundred times the size (common
// practice, no source).
const (
	wholeCelsius  = 20
	wholeLatitude = 66.5
	wholeDecades  = 2
)

// Distance tells how unlike two sites are, 0 to 1: the mean of climate (water
// temperature, latitude, cover), size (water, beds) and species, each the mean
// of what is known of both sites (the general coefficient of Gower 1971,
// Biometrics 27:857, with fixed spans). Of sites that nothing is known of it is 1.
func Distance(a, b Traits) (float64, error) {
	for _, t := range []Traits{a, b} {
		if err := t.check(); err != nil {
			return 0, err
		}
	}
	return apartBy(a, b), nil
}

func (t Traits) check() error {
	for _, c := range []struct {
		name             string
		value, low, high float64
		unit             string
	}{
		{"water temperature", float64(t.WaterCelsius), -2, 45, "degC"},
		{"latitude", t.Latitude, -90, 90, "degrees"},
		{"share under cover", t.Covered, 0, 1, ""},
		{"water in loops", float64(t.Litres), 0, 1e10, "L"},
		{"area of beds", t.PlantedM2, 0, 1e8, "m2"},
	} {
		if math.IsNaN(c.value) {
			continue
		}
		if err := quantity.Within(c.name, c.value, c.low, c.high, c.unit, quantity.OwnBounds); err != nil {
			return err
		}
	}
	return nil
}

func apartBy(a, b Traits) float64 {
	var all means
	all.add(meanKnown(
		math.Abs(float64(a.WaterCelsius-b.WaterCelsius))/wholeCelsius,
		math.Abs(math.Abs(a.Latitude)-math.Abs(b.Latitude))/wholeLatitude,
		math.Abs(a.Covered-b.Covered)))
	all.add(meanKnown(decades(float64(a.Litres), float64(b.Litres))/wholeDecades, decades(a.PlantedM2, b.PlantedM2)/wholeDecades))
	all.add(unlike(a.Species, b.Species))
	if all.n == 0 {
		return 1
	}
	return all.sum / all.n
}

// means adds up what is known.
type means struct{ sum, n float64 }

func (m *means) add(v float64) {
	if !math.IsNaN(v) {
		m.sum, m.n = m.sum+min(v, 1), m.n+1
	}
}

func meanKnown(values ...float64) float64 {
	var m means
	for _, v := range values {
		m.add(v)
	}
	return m.sum / m.n
}

// decades is how many times ten one size is the other; none of either is not known.
func decades(a, b float64) float64 {
	if a == 0 || b == 0 {
		return math.NaN()
	}
	return math.Abs(math.Log10(a / b))
}

func unlike(a, b string) float64 {
	switch {
	case a == "" || b == "":
		return math.NaN()
	case a == b:
		return 0
	}
	return math.Inf(1) // the mean takes 1 of it
}

// mostAlike bounds the sites that are sorted into groups.
const mostAlike = 5000

// Alike sorts sites into groups of like ones, none of fewer keepers than least,
// so that what is told of a group is no keeper's own: microaggregation, where
// the site most unlike all that are left gathers those nearest to it, until too
// few for two groups are left (MDAV: Domingo-Ferrer & Torra 2005, Data Min.
// Knowl. Discov. 11:195, with mean distances for distances to means, so that
// traits may be missing). keepers tells whose each site is. The answer is each
// site's group, from 0; all in group 0 where they are too few for two.
func Alike(sites []Traits, keepers []int, least int) ([]int, error) {
	if err := quantity.Within("number of sites", float64(len(sites)), 1, mostAlike, "", quantity.OwnBounds); err != nil {
		return nil, err
	}
	if err := quantity.Within("number of keepers", float64(len(keepers)), float64(len(sites)), float64(len(sites)), "", "by definition: one a site"); err != nil {
		return nil, err
	}
	if err := quantity.Within("smallest group", float64(least), 2, mostAlike, "", quantity.OwnBounds); err != nil {
		return nil, err
	}
	for _, t := range sites {
		if err := t.check(); err != nil {
			return nil, err
		}
	}
	s := &sorting{sites: sites, keepers: keepers, group: make([]int, len(sites)), far: make([]float64, len(sites))}
	for i := range sites {
		s.left = append(s.left, i)
		for j := range sites {
			s.far[i] += apartBy(sites[i], sites[j])
		}
	}
	for n := 0; s.take(n, least); n++ {
	}
	return s.group, nil
}

// sorting is sites while they are being sorted into groups.
type sorting struct {
	sites   []Traits
	keepers []int
	group   []int
	left    []int     // sites without a group yet, in order
	far     []float64 // of each site, its distances to those that are left, summed
}

// take makes group n of those left around the one that is most unlike the rest.
// False where what is left is the last group.
func (s *sorting) take(n, least int) bool {
	first := slices.MaxFunc(s.left, func(a, b int) int {
		return cmp.Or(cmp.Compare(s.far[a], s.far[b]), b-a) // of equals the first
	})
	byDistance := slices.Clone(s.left)
	slices.SortStableFunc(byDistance, func(a, b int) int { return cmp.Compare(s.apart(first, a), s.apart(first, b)) })
	size := s.enough(byDistance, least)
	if s.enough(byDistance[size:], least) == 0 {
		for _, i := range s.left {
			s.group[i] = n
		}
		return false
	}
	taken := byDistance[:size]
	for _, i := range taken {
		s.group[i] = n
	}
	s.left = slices.DeleteFunc(s.left, func(i int) bool { return slices.Contains(taken, i) })
	for _, i := range s.left {
		for _, j := range taken {
			s.far[i] -= apartBy(s.sites[i], s.sites[j])
		}
	}
	return true
}

// apart is how unlike two sites are; a site, also one that nothing is known of, is
// nearer to itself than to any other.
func (s *sorting) apart(a, b int) float64 {
	if a == b {
		return math.Inf(-1)
	}
	return apartBy(s.sites[a], s.sites[b])
}

// enough is how many of the first sites it takes for so many keepers; 0 where
// all are too few.
func (s *sorting) enough(list []int, least int) int {
	seen := map[int]bool{}
	for n, i := range list {
		if seen[s.keepers[i]] = true; len(seen) == least {
			return n + 1
		}
	}
	return 0
}
