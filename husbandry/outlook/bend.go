package outlook

import "math"

// heed bends every guess towards a reading, as far as the guesses differ in what
// goes with it: the ensemble Kalman filter with perturbed readings (Evensen
// 1994, J. Geophys. Res. 99:10143; Burgers, van Leeuwen & Evensen 1998, Mon.
// Weather Rev. 126:1719). It takes one reading at a time.
func (c *cloud) heed(r Reading) {
	s := scaleOf(r.Figure)
	for i := range c.members {
		c.told[i] = s.on(c.members[i].of(r.Figure, c.simulated))
	}
	mean, variance := moments(c.told)
	value, noise := s.on(r.Value), s.doubt(r)
	if r.Below {
		if mean <= value {
			return // as expected
		}
		value = s.on(r.Value / 2)
	}
	noise = withDoubt(value-mean, variance, noise)
	for i, v := range c.told {
		c.pull[i] = (value + math.Sqrt(noise)*c.r.NormFloat64() - v) / (variance + noise)
	}
	for part := range parts {
		c.bend(part, mean, variance)
	}
}

// withDoubt raises the variance of a reading that lies further off than three
// spreads so that it counts as one of three: a slip of a hand, a unit mistaken.
func withDoubt(off, variance, noise float64) float64 {
	const believed = 3.0
	return math.Max(noise, off*off/(believed*believed)-variance)
}

// bend moves one part of every guess by how it goes with what was read. Where
// the two go together no more than by chance it leaves it.
func (c *cloud) bend(p part, meanTold, variance float64) {
	n := float64(len(c.told))
	for i := range c.values {
		c.values[i] = c.members[i].part(p)
	}
	mean, spread := moments(c.values)
	together := covariation(c.values, mean, c.told, meanTold)
	const chanceOnly = 4.0 // squared correlation times guesses: two standard errors
	if together*together*n < chanceOnly*spread*variance || spread == 0 {
		return
	}
	for i, v := range c.values {
		c.members[i].setPart(p, v+together*c.pull[i])
	}
}

func moments(values []float64) (mean, variance float64) {
	n := float64(len(values))
	for _, v := range values {
		mean += v / n
	}
	for _, v := range values {
		variance += (v - mean) * (v - mean) / n
	}
	return mean, variance
}

// A part is one number of a guess that readings may bend: its traits, then how
// its water stands; on the scale on which it spreads evenly.
type part int

const (
	partWarmth part = part(traits) + iota
	partAmmonia
	partNitrite
	partNitrate
	partAlkalinity
	partOxygen
	partCarbon
	partFilter
	partPassing
	parts
)

// where a part is kept, and whether it spreads evenly rather than in proportion.
func (m *member) where(p part) (v *float64, evenly bool) {
	if p < part(traits) {
		return &m.nature[p], p == part(warmer) || p == part(keeper)
	}
	switch p {
	case partWarmth:
		return &m.celsius, true
	case partAmmonia:
		return &m.ammonia, false
	case partNitrite:
		return &m.nitrite, false
	case partNitrate:
		return &m.nitrate, false
	case partAlkalinity:
		return &m.alkalinity, false
	case partOxygen:
		return &m.oxygen, true
	case partCarbon:
		return &m.carbonDioxide, false
	case partFilter:
		return &m.filter, false
	}
	return &m.passing, false
}

const leastPart = 1e-6 // of what spreads in proportion

func (m *member) part(p part) float64 {
	v, evenly := m.where(p)
	if evenly {
		return *v
	}
	return math.Log(math.Max(*v, leastPart))
}

func (m *member) setPart(p part, value float64) {
	v, evenly := m.where(p)
	if *v = value; !evenly {
		*v = math.Exp(value)
	}
	m.nature[given] = math.Min(m.nature[given], mostGiven)
	m.celsius, m.oxygen = math.Max(0, m.celsius), math.Max(0, m.oxygen)
}
