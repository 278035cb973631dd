package outlook

import "math"

// A Figure is one thing that is read or told of the water.
type Figure int

// What can be read, and below it what only follows from that.
const (
	Warmth     Figure = iota // water temperature, degC
	Ammonia                  // total, mg/L as N
	Nitrite                  // mg/L as N
	Nitrate                  // mg/L as N
	Alkalinity               // mg/L as CaCO3
	Acidity                  // pH
	Oxygen                   // mg/L
	Unionized                // ammonia that harms, mg/L as N
	Figures                  // how many there are
)

const readable = Unionized

// A Reading is what was read in an hour of the past, counted from 0.
type Reading struct {
	Hour   int
	Figure Figure
	Value  float64
	Below  bool // all that the test showed is that it lies below Value
}

// doubts are the errors of a reading: at least so much, and at least such a share of itself.
// Common practice, no source.
var doubts = [readable]struct{ least, share float64 }{
	Warmth: {0.2, 0}, Ammonia: {0.05, 0.1}, Nitrite: {0.03, 0.1}, Nitrate: {1, 0.1}, Alkalinity: {5, 0.05}, Acidity: {0.1, 0}, Oxygen: {0.2, 0},
}

func errorOf(f Figure, value float64) float64 {
	return math.Max(doubts[f].least, doubts[f].share*math.Abs(value))
}

// highest is what no reading of a figure can pass.
var highest = [readable]float64{Warmth: 50, Ammonia: 1000, Nitrite: 1000, Nitrate: 10_000, Alkalinity: 5000, Acidity: 14, Oxygen: 40}

// of gives a figure of a member.
func (m *member) of(f Figure, l *simulated) float64 {
	switch f {
	case Warmth:
		return m.celsius
	case Ammonia:
		return m.ammonia
	case Nitrite:
		return m.nitrite
	case Nitrate:
		return m.nitrate
	case Alkalinity:
		return m.alkalinity
	case Acidity:
		return m.acidity(l)
	case Oxygen:
		return m.oxygen
	}
	return m.ammonia / (1 + math.Exp(math.Ln10*(at(l.free, m.celsius)-m.acidity(l))))
}

// doubt is the variance of a reading on its scale. Where a test showed only that
// it lies below, half of that is taken, and doubted as widely.
func (s scale) doubt(r Reading) float64 {
	sd := errorOf(r.Figure, r.Value)
	switch {
	case r.Below && s.proportion:
		sd = math.Ln2
	case r.Below:
		sd = r.Value / 2
	case s.proportion:
		sd /= math.Max(r.Value, doubts[r.Figure].least)
	}
	return sd * sd
}

// thinned keeps at most one reading of a figure in so many hours: a probe that
// speaks each minute knows no more of what a model leaves out. Of pH a fourth of
// that is enough: it follows from gases that come and go by the hour, and read
// more often it would outvote a week's test of alkalinity.
func thinned(readings []Reading, hours int) []Reading {
	const seldom = 4
	var kept []Reading
	next := [readable]int{}
	for _, r := range readings {
		if r.Hour >= next[r.Figure] {
			kept = append(kept, r)
			step := hours
			if r.Figure == Acidity {
				step *= seldom
			}
			next[r.Figure] = (r.Hour/step + 1) * step
		}
	}
	return kept
}
