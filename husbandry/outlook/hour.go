package outlook

import (
	"math"
	"math/rand/v2"
)

// member is one guess at a loop: its nature, and how its water stands.
type member struct {
	nature
	celsius                             float64
	ammonia, nitrite, nitrate           float64 // mg/L as N
	alkalinity                          float64 // mg/L as CaCO3
	oxygen, carbonDioxide               float64 // mg/L
	filter                              float64 // ammonia it can turn at 25 degC, g N/d
	passing                             float64 // nitrogen swallowed and not yet given off, g
	kept, taken, lost, replaced, gained float64 // ledger since the beginning, g N
	stirred, vented, renewed            fading
}

// fading is what share of a thing an hour leaves that goes at a rate. The rate is
// mostly that of the hour before, and then nothing is worked out anew.
type fading struct{ rate, stays float64 }

func (f *fading) at(rate float64) float64 {
	if rate != f.rate || f.stays == 0 {
		f.rate, f.stays = rate, math.Exp(-rate)
	}
	return f.stays
}

// Figures of the hour's balance. Rates at 25 degC.
const (
	warmReference  = 25.0
	nitrifiersPerK = 0.098     // of the logarithm, US EPA 1993, Nitrogen control, from memory
	fishPerK       = 0.0693147 // twofold each 10 degC, Boyd
	givingOff      = 1.0 / 8   // 1/h, ammonia peaks some hours after a meal; common practice, no source
	resting        = 0.4       // share of full speed at which a filter neither grows nor dwindles; common practice, no source
	plantHalf      = 2.0       // mg/L of nitrate as N at which plants take half; common practice, no source
	acidPerN       = 7.14      // alkalinity used for each N turned to nitrate, stoichiometry
	baseOfUptake   = 3.57      // alkalinity given back for each nitrate taken or lost, stoichiometry
	oxygenPerN     = 4.57      // oxygen for each N turned to nitrate, stoichiometry
	carbonOfOxygen = 1.375     // carbon dioxide breathed out for oxygen breathed in, 44/32
	carbonOfAir    = 0.6       // mg/L in water that stands open to the air
	stillStirring  = 0.1       // of stirring, when pump and air stand; common practice, no source
	stillFilter    = 0.05      // of the filter's speed, when no water runs through it; common practice, no source
	leastAlkaline  = 2.0       // mg/L
	dosedWithin    = 240.0     // hours in which what lacks is made up for; common practice, no source
	noonToNoon     = 24.0
	mgOfDailyGram  = 1000 / noonToNoon // in each hour
)

// hour moves a member on by an hour. Nitrogen is kept to the last digit: what
// is swallowed becomes fish and mud, ammonia, nitrite, nitrate, plants or air.
func (l *simulated) hour(m *member, h Hour) {
	m.warm(h)
	litres := float64(l.Litres)
	mgPerGram := 1000 / litres
	m.passing += m.nature[given] * h.Feed
	m.kept += (1 - m.nature[given]) * h.Feed
	off := m.passing * givingOff
	m.passing -= off
	m.gained += h.Feed
	pace := l.pace.at(m.celsius)
	turned := l.nitrify(m, h, off*mgPerGram, pace)
	m.draw(l, h, turned, pace)
	m.breathe(l, h, turned)
	l.replace(m, h.Changed/litres+m.nature[leaking]/noonToNoon)
}

func (m *member) warm(h Hour) {
	if !math.IsNaN(h.Air) {
		m.celsius += (h.Air + h.Warmer + m.nature[warmer] - m.celsius) / m.nature[soaking]
	}
	if !h.Still {
		m.celsius = max(m.celsius, m.nature[keeper])
	}
	m.celsius = max(0, min(m.celsius, hottest))
}

// power is e to a power. Near 0 the power series of six terms is as exact, and takes
// a third of the time.
func power(x float64) float64 {
	if math.Abs(x) < 0.01 {
		return 1 + x*(1+x*(1./2+x*(1./6+x*(1./24+x*(1./120+x/720)))))
	}
	return math.Exp(x)
}

// evenly is what share an hour leaves of what comes evenly over it, at a rate at which
// so much stays of a pool.
func evenly(rate, stays float64) float64 {
	if rate < 1e-9 {
		return 1
	}
	return (1 - stays) / rate
}

// eaten is a pool after an hour at a greatest speed and a half-speed
// concentration, by the rate at the middle of the hour.
func eaten(pool, coming, full, half float64) float64 {
	first := full / (half + pool)
	stays := power(-first)
	middle := (pool + pool*stays + coming*evenly(first, stays)) / 2
	rate := full / (half + middle)
	stays *= power(first - rate)
	return pool*stays + coming*evenly(rate, stays)
}

// nitrify turns ammonia to nitrite to nitrate and lets the bacteria follow
// their food (Monod 1949), at a pace by the water's warmth, 1 at 25 degC. It gives
// the mg/L that became nitrate.
func (l *simulated) nitrify(m *member, h Hour, coming, pace float64) float64 {
	speed := pace
	if h.Still {
		speed *= stillFilter
	}
	full := m.filter * speed * mgOfDailyGram / float64(l.Litres) // mg/L/h
	ammonia := eaten(m.ammonia, coming, full, m.nature[half])
	first := m.ammonia + coming - ammonia
	nitrite := eaten(m.nitrite, first, full*m.nature[second], m.nature[half])
	turned := m.nitrite + first - nitrite
	m.ammonia, m.nitrite = ammonia, nitrite
	used := m.ammonia / (m.nature[half] + m.ammonia)
	m.filter *= 1 + m.nature[vigour]*speed*(used-resting)/noonToNoon
	return turned
}

// draw lets plants and mud take nitrate, and settles the alkalinity.
func (m *member) draw(l *simulated, h Hour, turned, pace float64) {
	litres := float64(l.Litres)
	plants := m.nature[uptake] * float64(l.Planted) * mgOfDailyGram / (litres * (plantHalf + m.nitrate))
	mud := m.nature[losing] / noonToNoon * pace
	pool := power(-plants - mud)
	fresh := evenly(plants+mud, pool)
	before := m.nitrate + turned
	m.nitrate = m.nitrate*pool + turned*fresh
	gone := before - m.nitrate
	if plants+mud > 0 {
		m.taken += gone * litres / 1000 * plants / (plants + mud)
		m.lost += gone * litres / 1000 * mud / (plants + mud)
	}
	base := max(0, h.Base+h.Mends*(h.Level-m.alkalinity-h.Base))
	if h.Keep > 0 { // more where there is less than wanted, less where there is more
		base = max(0, base+(h.Keep-m.alkalinity)/dosedWithin)
	}
	m.alkalinity = max(leastAlkaline, m.alkalinity+base+baseOfUptake*gone-acidPerN*turned)
}

// breathe settles oxygen and carbon dioxide.
func (m *member) breathe(l *simulated, h Hour, turned float64) {
	use := h.Fish*m.nature[breathing]*l.breath.at(m.celsius)/float64(l.Litres) + oxygenPerN*turned
	stir := m.nature[stirring]
	if h.Still {
		stir *= stillStirring
	}
	even := at(l.full, m.celsius) + m.nature[greening]*h.Sun - use/stir
	m.oxygen = max(0, even+(m.oxygen-even)*m.stirred.at(stir))
	vent := stir * m.nature[venting]
	evenCarbon := carbonOfAir + use*carbonOfOxygen/vent
	m.carbonDioxide = evenCarbon + (m.carbonDioxide-evenCarbon)*m.vented.at(vent)
}

// acidity is the pH of so much alkalinity beside so much carbon dioxide. It is worked
// out where it is asked for: no hour of the balance goes by it.
func (m *member) acidity(l *simulated) float64 {
	const carbonate = carbonWeight / alkalinityWeight
	return at(l.acid, m.celsius) + math.Log10E*math.Log(m.alkalinity/m.carbonDioxide*carbonate)
}

const (
	alkalinityWeight = 50.04 // mg of CaCO3 for each milliequivalent
	carbonWeight     = 44.01 // mg of carbon dioxide for each millimole
)

// little is a share so small that what the new water takes away of itself does not count.
const little = 1e-4

// replace exchanges a share of the water for source water.
func (l *simulated) replace(m *member, share float64) {
	if share <= 0 {
		return
	}
	stays := 1 - share
	if share > little {
		stays = m.renewed.at(share)
	}
	grams := float64(l.Litres) / 1000
	m.replaced += (1 - stays) * grams * (m.ammonia + m.nitrite + m.nitrate - float64(l.SourceNitrate))
	m.ammonia *= stays
	m.nitrite *= stays
	m.nitrate = m.nitrate*stays + (1-stays)*float64(l.SourceNitrate)
	m.alkalinity = max(leastAlkaline, m.alkalinity*stays+(1-stays)*float64(l.SourceAlkalinity))
}

// wander lets what a model leaves out move a member by chance, one hour.
func (m *member) wander(r *rand.Rand, h Hour) {
	const (
		celsius = 0.08 // K in an hour
		blind   = 0.2  // K in an hour, where nobody knows the air
		filter  = 0.01 // of the logarithm in an hour: 5 % in a day
		plants  = 0.01
		base    = 0.15 // mg/L of alkalinity in an hour
		pools   = 0.02 // of ammonia and nitrite in an hour
		nitrate = 0.005
		carbon  = 0.03
		oxygen  = 0.03 // mg/L in an hour
	)
	step := celsius
	if math.IsNaN(h.Air) {
		step = blind
	}
	m.celsius = max(0, m.celsius+step*r.NormFloat64())
	m.filter *= 1 + filter*r.NormFloat64()
	m.nature[uptake] *= 1 + plants*r.NormFloat64()
	m.ammonia *= 1 + pools*r.NormFloat64()
	m.nitrite *= 1 + pools*r.NormFloat64()
	m.nitrate *= 1 + nitrate*r.NormFloat64()
	m.carbonDioxide *= 1 + carbon*r.NormFloat64()
	m.oxygen = max(0, m.oxygen+oxygen*r.NormFloat64())
	m.drift(r)
	m.alkalinity = max(leastAlkaline, m.alkalinity+base*r.NormFloat64())
	if h.Cleaned {
		m.filter *= 0.1 + 0.9*r.Float64()
	}
}

// drift moves one trait of the many a little in each hour, so that none is ever
// held for certain: some 2 % in a day, of what spreads evenly 0.07 K.
func (m *member) drift(r *rand.Rand) {
	const evenly, share = 0.05, 0.015
	t := trait(r.IntN(int(traits)))
	if v, even := m.where(part(t)); even {
		*v += evenly * r.NormFloat64()
	} else {
		*v *= 1 + share*r.NormFloat64()
	}
}
