package outlook

import (
	"math"
	"math/rand/v2"
)

// A trait is one thing about a loop that nobody measures and that its readings
// tell little by little.
type trait int

const (
	soaking   trait = iota // hours in which the water follows the air
	warmer                 // K by which the water stays above the air
	keeper                 // degC below which a heater does not let it fall
	given                  // share of the feed's nitrogen given off as ammonia
	ripeness               // how much ammonia the filter can turn, of what its surface usually can
	second                 // how much nitrite it can turn, of how much ammonia
	half                   // mg/L at which bacteria work at half speed
	vigour                 // how fast bacteria grow, 1/d at 25 degC
	uptake                 // nitrogen that plants take, g/m2/d
	losing                 // nitrate lost to the air from mud, 1/d
	breathing              // oxygen that fish use, mg/kg/h at 25 degC
	stirring               // how fast oxygen follows what the water can hold, 1/h
	venting                // how fast carbon dioxide leaves, of stirring
	greening               // oxygen that light adds at noon, mg/L
	leaking                // water lost with what is in it and made up for, unnoted, share a day
	traits
)

// nature is one guess at all of them.
type nature [traits]float64

// A prior is what a trait is taken for before anything is read: a median and a
// spread, of the logarithm but for warmer.
type prior struct{ median, spread float64 }

var priors = [traits]prior{
	soaking:   {60, 0.8},    // hours; common practice, no source
	warmer:    {1.5, 2.5},   // K; common practice, no source
	keeper:    {0, 3},       // K below the coldest read, never above; common practice, no source
	given:     {0.576, 0.2}, // 0.80 assimilated x 0.80 excreted x 0.90 as ammonia, Timmons & Ebeling, from memory
	ripeness:  {1, 0.8},     // of 0.56 g N/m2/d; common practice, no source
	second:    {1, 0.4},     // common practice, no source
	half:      {0.5, 0.5},   // mg/L as N, Henze et al. 1987 give 0.3 to 1 for nitrifiers, from memory
	vigour:    {0.1, 0.8},   // a tenth of free nitrifiers' 0.8 /d (Henze et al. 1987, from memory), since a film grows slowly
	uptake:    {0.4, 0.7},   // leafy crops 0.31 to 0.66, FAO TP 589 days and published dry matter
	losing:    {0.03, 0.8},  // common practice, no source
	breathing: {250, 0.4},   // fed fish in tanks, Boyd, from memory
	stirring:  {1.5, 0.8},   // common practice, no source
	venting:   {0.75, 0.8},  // carbon dioxide leaves slower than oxygen enters; common practice, no source
	greening:  {0.3, 0.8},   // common practice, no source
	leaking:   {0.005, 0.8}, // splashes, leaks, mud and harvests; common practice, no source
}

const (
	unheated  = 0.0  // keeper of a loop whose water was never read, degC: no water is colder
	surface   = 0.56 // g N/m2/d that ripe surface turns, Rakocy 2007
	mostGiven = 0.95
)

// guess draws a nature. Where the coldest water read is known, a heater may keep
// it there, or somewhere below, or there may be none, which is below all.
func guess(r *rand.Rand, coldest float64) (n nature) {
	for i, p := range priors {
		n[i] = p.median * math.Exp(p.spread*r.NormFloat64())
	}
	n[warmer] = priors[warmer].median + priors[warmer].spread*r.NormFloat64()
	n[keeper] = unheated
	if !math.IsNaN(coldest) {
		n[keeper] = coldest - priors[keeper].median - math.Abs(priors[keeper].spread*r.NormFloat64())
	}
	n[given] = math.Min(n[given], mostGiven)
	return n
}
