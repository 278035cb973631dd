package coverage

import "math"

// score is how one kind of forecast did.
type score struct {
	n        float64
	held     [10]float64 // by level
	width    float64     // of intervals of 80 %
	crps     float64     // continuous ranked probability score
	interval float64     // interval score at 90 % (Gneiting & Raftery 2007)
	naive    float64     // score of the naive forecast
	usual    float64     // score of the usual forecast: what it always was
	groups   groups
}

// groups are sums over groups of forecasts that go together, as those of one season
// do: of squares of how many they are, of how many of them held at each level, and of
// products of both.
type groups struct {
	all        float64
	held, with [10]float64
}

// spread is a forecast: the value below which it stays with a chance.
type spread func(chance float64) float64

// count sets what came beside a forecast.
func (s *score) count(f spread, came float64) {
	s.n++
	for i, level := range levels {
		if low, high := f((1-level)/2), f((1+level)/2); low <= came && came <= high {
			s.held[i]++
		}
	}
	low, high := f(0.05), f(0.95)
	s.width += f(0.9) - f(0.1)
	s.interval += high - low + 20*math.Max(0, math.Max(low-came, came-high))
	s.crps += crpsOf(f, came)
}

// crpsOf is the continuous ranked probability score as the mean loss of many
// quantiles (Gneiting & Raftery 2007, J. Am. Stat. Assoc. 102:359).
func crpsOf(f spread, came float64) float64 {
	const quantiles = 50
	sum := 0.0
	for i := range quantiles {
		p := (float64(i) + 0.5) / quantiles
		q := f(p)
		loss := p * (came - q)
		if came < q {
			loss = (1 - p) * (q - came)
		}
		sum += 2 * loss / quantiles
	}
	return sum
}

func (s *score) add(o *score) {
	s.n, s.width, s.crps, s.interval, s.naive, s.usual = s.n+o.n, s.width+o.width, s.crps+o.crps, s.interval+o.interval, s.naive+o.naive, s.usual+o.usual
	s.groups.all += o.groups.all
	for i, h := range o.held {
		s.held[i] += h
		s.groups.held[i], s.groups.with[i] = s.groups.held[i]+o.groups.held[i], s.groups.with[i]+o.groups.with[i]
	}
}

// join adds a group of forecasts that go together.
func (s *score) join(o *score) {
	s.add(o)
	s.groups.all += o.n * o.n
	for i, h := range o.held {
		s.groups.held[i], s.groups.with[i] = s.groups.held[i]+h*h, s.groups.with[i]+h*o.n
	}
}

// doubt is the standard error of a share, of 100, by how groups differ: the
// linearised variance of a ratio (Cochran 1977, Sampling Techniques, section 6).
func (s *score) doubt(level int) float64 {
	p := s.held[level] / s.n
	squares := s.groups.held[level] - 2*p*s.groups.with[level] + p*p*s.groups.all
	return 100 * math.Sqrt(math.Max(0, squares)) / s.n
}

// share is how many of 100 held at a level.
func (s *score) share(level int) float64 { return 100 * s.held[level] / s.n }
