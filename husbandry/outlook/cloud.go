package outlook

import (
	"math"
	"math/rand/v2"
	"slices"
)

// simulated is a loop with its tables.
type simulated struct {
	Loop
	*tables
}

// cloud is many guesses at a loop, each as likely as any other.
type cloud struct {
	*simulated
	members            []member
	seed, lived        uint64 // hours lived
	r                  *rand.Rand
	told, pull, values []float64 // for heed: a number for each member
}

// newCloud has chances of its own for each seed, hour and number of guesses.
func newCloud(l *simulated, members []member, seed, lived uint64) *cloud {
	const hours = 32                                                    // bits that leave room for the guesses
	r := rand.New(rand.NewPCG(seed, lived<<hours|uint64(len(members)))) // #nosec G404 -- the same forecast for the same seed
	c := &cloud{simulated: l, members: members, seed: seed, lived: lived, r: r}
	c.told, c.pull, c.values = make([]float64, len(members)), make([]float64, len(members)), make([]float64, len(members))
	return c
}

// gather draws a cloud from what is known beforehand and each figure's first reading.
func gather(l *simulated, n int, seed uint64, readings []Reading, past []Hour) *cloud {
	c := newCloud(l, make([]member, n), seed, 0)
	first, coldest := firstOf(readings)
	for i := range c.members {
		m := &c.members[i]
		m.nature = guess(c.r, coldest)
		about := func(f Figure, median, spread float64) float64 {
			if read := first[f]; !math.IsNaN(read) {
				median, spread = math.Max(read, doubts[f].least), math.Min(spread, 2*errorOf(f, read)/math.Max(read, doubts[f].least))
			}
			return median * math.Exp(spread*c.r.NormFloat64())
		}
		m.celsius = about(Warmth, usualWarmth(past), 0.2)
		m.ammonia, m.nitrite, m.nitrate = about(Ammonia, 0.3, 1), about(Nitrite, 0.1, 1), about(Nitrate, 20, 1)
		m.alkalinity = about(Alkalinity, math.Max(20, float64(l.SourceAlkalinity)), 0.5)
		m.oxygen, m.carbonDioxide = at(l.full, m.celsius), carbonOfAir
		m.filter = m.nature[ripeness] * l.usualFilter(past)
		m.passing = m.nature[given] * meanFeed(past) / givingOff
		m.breathe(l, Hour{Fish: fishAt(past)}, 0)
	}
	return c
}

// firstOf finds the first reading of each figure, NaN where there is none, and the coldest water read.
func firstOf(readings []Reading) (first [readable]float64, coldest float64) {
	for f := range first {
		first[f] = math.NaN()
	}
	coldest = math.NaN()
	for _, r := range readings {
		if math.IsNaN(first[r.Figure]) && !r.Below {
			first[r.Figure] = r.Value
		}
		if r.Figure == Warmth && !(coldest <= r.Value) {
			coldest = r.Value
		}
	}
	return first, coldest
}

func usualWarmth(past []Hour) float64 {
	const usual = 18.0 // degC; common practice, no source
	sum, n := 0.0, 0.0
	for _, h := range past {
		if !math.IsNaN(h.Air) {
			sum, n = sum+h.Air, n+1
		}
	}
	if n == 0 {
		return usual
	}
	return math.Max(1, sum/n)
}

// usualFilter is the ammonia that ripe media turn, g N/d; where nobody noted
// their surface, as much again as comes in.
func (l *simulated) usualFilter(past []Hour) float64 {
	const least = 0.1 // g N/d
	if l.Media > 0 {
		return surface * float64(l.Media)
	}
	return math.Max(least, 2*meanFeed(past)*priors[given].median*noonToNoon)
}

func meanFeed(past []Hour) float64 { return meanOf(past, func(h Hour) float64 { return h.Feed }) }

func meanOf[T any](list []T, of func(T) float64) float64 {
	sum := 0.0
	for _, v := range list {
		sum += of(v)
	}
	return sum / math.Max(1, float64(len(list)))
}

func fishAt(past []Hour) float64 {
	if len(past) == 0 {
		return 0
	}
	return past[0].Fish
}

// branch is the first n guesses, to be led elsewhere with a chance of their
// own: one look ahead does not change the next.
func (c *cloud) branch(n int) *cloud {
	return newCloud(c.simulated, slices.Clone(c.members[:n]), c.seed, c.lived)
}

// now is the mean of each figure by a few of the guesses.
func (c *cloud) now() (mean [Figures]float64) {
	const few = 30
	some := c.members[:few]
	for i := range some {
		for f := range Figures {
			mean[f] += some[i].of(f, c.simulated) / few
		}
	}
	return mean
}

// live moves all members through an hour.
func (c *cloud) live(h Hour) {
	c.lived++
	for i := range c.members {
		c.members[i].wander(c.r, h)
		c.hour(&c.members[i], h)
	}
}
