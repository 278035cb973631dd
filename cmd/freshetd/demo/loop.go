package demo

import "math"

// loop is the water of one site, mixed well, in mg/L and degC.
type loop struct {
	litres                float64
	fullLitres            float64
	celsius               float64
	tan, nitrite, nitrate float64 // as N
	alkalinity            float64 // as CaCO3
	carbonDioxide, oxygen float64
	ph                    float64
	ammoniaEaters         float64 // g N a day at 25 degC and plenty
	nitriteEaters         float64
	excreting             float64 // g N swallowed and not yet given off
	solids                float64 // g N settled
	elevationM            float64
	dormant               float64 // what a hungry filter keeps, g N a day
}

func newLoop(g *grower) *loop {
	var litres, media float64
	for _, v := range g.vessels {
		litres += v.volumeL
		media += v.mediaL * v.ssa / 1000
	}
	l := &loop{
		litres: litres, fullLitres: litres, celsius: 18, tan: 0.2, nitrite: 0.05, nitrate: 12,
		alkalinity: g.site.SourceAlkalinityMgPerL, carbonDioxide: 4, oxygen: 8,
		ammoniaEaters: 0.35 * media, nitriteEaters: 0.4 * media, elevationM: g.site.ElevationM, dormant: 0.08 * media,
	}
	l.settlePH()
	return l
}

// surroundings are what one hour brings to the water.
type surroundings struct {
	airC       float64 // under cover
	heatTo     float64
	pump       bool
	fishKg     float64
	swallowed  float64 // g N of feed swallowed that fish do not keep
	plantsTake float64 // g N that plants could take
	light      float64
}

// hour moves the water on by one hour.
func (l *loop) hour(s surroundings) {
	l.warm(s)
	l.excreting += s.swallowed * 0.88
	l.solids += s.swallowed * 0.12
	given := l.excreting * 0.12
	l.excreting -= given
	l.add(&l.tan, given)
	nitrified := l.nitrify(s.pump)
	taken := l.plants(s.plantsTake)
	lost := l.grams(l.nitrate) * 0.0028 * warmth(l.celsius) // denitrification in the settler's mud
	l.add(&l.nitrate, -lost)
	l.alkalinity += (-7.14*nitrified + 3.57*(taken+lost)) / l.litres * 1000
	l.alkalinity = math.Max(4, l.alkalinity)
	l.breathe(s, nitrified)
	l.settlePH()
	l.litres -= l.fullLitres * 0.0004 * math.Max(0.2, l.celsius/20) * (0.4 + s.light)
}

func (l *loop) grams(mgPerL float64) float64 { return mgPerL * l.litres / 1000 }

func (l *loop) add(what *float64, grams float64) {
	*what = math.Max(0.005, *what+grams/l.litres*1000)
}

func (l *loop) warm(s surroundings) {
	l.celsius += (s.airC - l.celsius) / 60
	if l.celsius < s.heatTo && s.pump {
		l.celsius += math.Min(0.35, s.heatTo-l.celsius)
	}
	l.celsius = math.Max(0.5, l.celsius)
}

// warmth doubles a rate for ten degrees, from 1 at 25 degC.
func warmth(celsius float64) float64 { return math.Pow(2, (celsius-25)/10) }

// nitrify turns ammonia to nitrite to nitrate and lets the bacteria follow
// their food; it gives the g N that were turned.
func (l *loop) nitrify(pump bool) float64 {
	flow := 1.0
	if !pump {
		flow = 0.05
	}
	ease := warmth(l.celsius) * flow / 24 / (1 + math.Pow(10, 6.3-l.ph))
	first := math.Min(l.ammoniaEaters*ease*l.tan/(l.tan+0.4), 0.9*l.grams(l.tan))
	l.add(&l.tan, -first)
	l.add(&l.nitrite, first)
	second := math.Min(l.nitriteEaters*ease*l.nitrite/(l.nitrite+0.3), 0.9*l.grams(l.nitrite))
	l.add(&l.nitrite, -second)
	l.add(&l.nitrate, second)
	l.ammoniaEaters = follow(l.ammoniaEaters, first*24, ease*24, l.dormant)
	l.nitriteEaters = follow(l.nitriteEaters, second*24, ease*24, l.dormant)
	return (first + second) / 2
}

// follow lets a filter grow while it is used hard and dwindle while it idles.
func follow(eaters, turnedADay, ease, dormant float64) float64 {
	used := turnedADay / math.Max(0.001, eaters*math.Max(ease, 0.05))
	return math.Max(dormant, eaters*(1+0.0035*(used-0.45)))
}

func (l *loop) plants(couldTake float64) float64 {
	taken := couldTake * l.nitrate / (l.nitrate + 4)
	taken = math.Min(taken, 0.2*l.grams(l.nitrate))
	l.add(&l.nitrate, -taken)
	return taken
}

// breathe balances oxygen and carbon dioxide over the hour.
func (l *loop) breathe(s surroundings, nitrified float64) {
	saturated := l.saturation()
	used := (s.fishKg*0.19*warmth(l.celsius)*1000 + nitrified*4570) / l.litres // mg/L an hour
	exchange := 1.6
	if !s.pump {
		exchange = 0.18
	}
	even := saturated - used/exchange + 0.6*s.light
	l.oxygen = math.Max(0.4, even+(l.oxygen-even)*math.Exp(-exchange))
	l.carbonDioxide = 0.6 + used*1.375/(exchange*0.75)
}

// saturation is good to a few hundredths between 0 and 35 degC.
func (l *loop) saturation() float64 {
	t := l.celsius
	return (14.6 - 0.394*t + 0.00717*t*t - 0.0000558*t*t*t) * math.Exp(-l.elevationM/8200)
}

func (l *loop) settlePH() {
	l.ph = 6.38 - 0.003*(l.celsius-20) + math.Log10((l.alkalinity/50)/(l.carbonDioxide/44))
	l.ph = math.Min(8.7, l.ph)
}

// topUp fills the loop with source water and gives the litres it took.
func (l *loop) topUp(sourceAlkalinity, sourceNitrate float64) float64 {
	litres := math.Max(0, l.fullLitres-l.litres)
	share := litres / l.fullLitres
	for _, c := range []*float64{&l.tan, &l.nitrite, &l.nitrate, &l.alkalinity} {
		*c *= 1 - share
	}
	l.alkalinity += sourceAlkalinity * share
	l.nitrate += sourceNitrate * share
	l.litres = l.fullLitres
	return litres
}

// conductivity follows nitrate and alkalinity well enough for a rooftop.
func (l *loop) conductivity() float64 { return 180 + 7.5*l.nitrate + 1.9*l.alkalinity }
