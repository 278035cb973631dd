package nitrogen

import (
	"strings"

	"freshet.example/husbandry/quantity"
)

// FAORate is the design rate of FAO TP 589, conservative by its own words
// (second hand).
const FAORate ArealNH3 = 0.57

// RaftRate is what the wetted surface of a planted raft hydroponics removed in
// the Virgin Islands' trials with romaine, as N. It serves as the areal rate
// of a working filter.
const RaftRate ArealN = 0.56

// Bounds of areal rates and of media.
const (
	minArealRate = 0.01
	maxArealRate = 5.0
	maxArea      = 1e6
	minSurface   = 10.0
	maxSurface   = 20000.0
	litresPerM3  = 1000
)

// FilterArea returns the surface that bacteria need to oxidize tan, 0 to 1e9 g
// N a day, at an areal rate of 0.01 to 5 g N/m2/d.
func FilterArea(tan GramsN, rate ArealN) (quantity.SquareMetres, error) {
	return filterArea(float64(tan), float64(rate))
}

// FilterAreaFAO returns the surface that bacteria need to oxidize ammonia, 0
// to 1e9 g NH3 a day, at a rate of 0.01 to 5 g NH3/m2/d, FAORate if in doubt.
func FilterAreaFAO(ammonia GramsNH3, rate ArealNH3) (quantity.SquareMetres, error) {
	return filterArea(float64(ammonia), float64(rate))
}

// The basis of both arguments is the same, so that it cancels.
func filterArea(perDay, rate float64) (quantity.SquareMetres, error) {
	if err := checkGrams("ammonia a day", perDay); err != nil {
		return 0, err
	}
	if err := checkRate(rate); err != nil {
		return 0, err
	}
	return quantity.SquareMetres(perDay / rate), nil
}

// FilterVolume returns the volume of media with the given surface, 10 to
// 20,000 m2/m3, that holds an area of 0 to 1e6 m2.
func FilterVolume(area quantity.SquareMetres, surface SpecificSurface) (quantity.Litres, error) {
	if err := checkArea(area); err != nil {
		return 0, err
	}
	if err := checkSurface(surface); err != nil {
		return 0, err
	}
	return quantity.Litres(float64(area) / float64(surface) * litresPerM3), nil
}

// MediaArea returns the surface inside a volume, 0 to 1e9 L, of media.
func MediaArea(volume quantity.Litres, surface SpecificSurface) (quantity.SquareMetres, error) {
	if err := quantity.Within("media volume", float64(volume), 0, maxGrams, "L", quantity.OwnBounds); err != nil {
		return 0, err
	}
	if err := checkSurface(surface); err != nil {
		return 0, err
	}
	return quantity.SquareMetres(float64(volume) / litresPerM3 * float64(surface)), nil
}

// FilterCapacity returns the ammonia nitrogen that a filter can oxidize in a
// day: its area, 0 to 1e6 m2, times the rate of a ripe warm filter, lowered
// for water temperature (7 to 35 degC) and for age since it was started.
func FilterCapacity(area quantity.SquareMetres, rate ArealN, t quantity.Celsius, age quantity.Days) (GramsN, error) {
	if err := checkArea(area); err != nil {
		return 0, err
	}
	if err := checkRate(float64(rate)); err != nil {
		return 0, err
	}
	warmth, err := TemperatureFactor(t)
	if err != nil {
		return 0, err
	}
	ripeness, err := AgeFactor(age)
	if err != nil {
		return 0, err
	}
	return GramsN(float64(area) * float64(rate) * float64(warmth) * float64(ripeness)), nil
}

// Wortman & Wheaton 1991, Aquacultural Engineering 10:183-205, from memory: the
// rate of a biodrum rose in a straight line, 140 + 8.5 T.
const (
	rateAtZero   = 140.0
	ratePerC     = 8.5
	warmC        = 25.0 // where the factor is 1; design rates are for warm water
	minFilterC   = 7.0
	maxFilterC   = 35.0
	filterSource = "Wortman & Wheaton 1991, from memory"
)

// TemperatureFactor returns how fast a filter works at a water temperature of
// 7 to 35 degC, against 1 at 25 degC.
func TemperatureFactor(t quantity.Celsius) (quantity.Fraction, error) {
	if err := quantity.Within("water temperature", float64(t), minFilterC, maxFilterC, "degC", filterSource); err != nil {
		return 0, err
	}
	return quantity.Fraction((rateAtZero + ratePerC*float64(t)) / (rateAtZero + ratePerC*warmC)), nil
}

const (
	ripeDays = 35.0 // FAO TP 589 5.1 has three to five weeks, from memory; the longer is taken
	maxAge   = 36500.0
)

// AgeFactor returns the share of its full rate that a filter has reached at an
// age of 0 to 36,500 days: a straight line up to day 35. The line itself is
// common practice without a source; cold water takes longer.
func AgeFactor(age quantity.Days) (quantity.Fraction, error) {
	if err := quantity.Within("age of the filter", float64(age), 0, maxAge, "d", quantity.OwnBounds); err != nil {
		return 0, err
	}
	return quantity.Fraction(min(1, float64(age)/ripeDays)), nil
}

// A Media is a filter material.
type Media struct {
	Name    string
	Surface SpecificSurface
	Source  string
}

var media = [...]Media{
	{"volcanic tuff", 300, "FAO TP 589, second hand"},
	{"expanded clay", 275, "FAO TP 589, second hand"},
	{"bio-balls", 600, "FAO TP 589, second hand"},
	{"moving bed", 500, "trade figure for carriers of the first generation, second hand"},
	{"pea gravel", 295, "trade figure, 90 ft2/ft3"},
}

// MediaByName returns a filter material by its name in lower case.
func MediaByName(name string) (Media, error) {
	for _, m := range media {
		if strings.EqualFold(m.Name, name) {
			return m, nil
		}
	}
	return Media{}, &UnknownError{"filter media", name}
}

// MediaNames lists the filter materials known.
func MediaNames() []string {
	names := make([]string, len(media))
	for i, m := range media {
		names[i] = m.Name
	}
	return names
}

func checkArea(area quantity.SquareMetres) error {
	return quantity.Within("area", float64(area), 0, maxArea, "m2", quantity.OwnBounds)
}

func checkRate(rate float64) error {
	return quantity.Within("areal rate", rate, minArealRate, maxArealRate, "g/m2/d", quantity.OwnBounds)
}

func checkSurface(surface SpecificSurface) error {
	return quantity.Within("specific surface", float64(surface), minSurface, maxSurface, "m2/m3", quantity.OwnBounds)
}
