package water

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// Dose is the mass that gives 0 to 1e9 L a concentration of 0 to 1e5 mg/L.
func Dose(rise quantity.MgPerL, volume quantity.Litres) (quantity.Grams, error) {
	if err := first(checkLoad("concentration", float64(rise)), checkVolume(volume)); err != nil {
		return quantity.Grams(nan), err
	}
	return quantity.Grams(float64(rise) * float64(volume) / 1000), nil
}

// DailyDoses splits a dose of 0 to 1e12 g into equal daily ones, each of which
// raises 0.001 to 1e9 L by no more than 0.001 to 1e5 mg/L of the product. More
// than a year of doses is a RangeError.
func DailyDoses(all quantity.Grams, volume quantity.Litres, mostADay quantity.MgPerL) ([]quantity.Grams, error) {
	err := first(
		quantity.Within("dose", float64(all), 0, mostMass, "g", ofPackage),
		quantity.Within("volume", float64(volume), 0.001, mostVolume, "L", ofPackage),
		quantity.Within("most a day", float64(mostADay), 0.001, mostLoad, "mg/L", ofPackage))
	if err != nil {
		return nil, err
	}
	days := math.Ceil(float64(all) / (float64(mostADay) * float64(volume) / 1000))
	if err := quantity.Within("days of dosing", days, 0, mostDays, "d", ofPackage); err != nil {
		return nil, err
	}
	doses := make([]quantity.Grams, int(days))
	for i := range doses {
		doses[i] = all / quantity.Grams(days)
	}
	return doses, nil
}

// IronTarget is the iron to dose to when it is given every 2 to 3 weeks.
// Source: University of the Virgin Islands, nutrients page: 2 mg/L of iron as
// chelate once every three weeks. FAO TP 589: 1 to 2 mg/L.
func IronTarget(weeks float64) (quantity.MgPerL, error) {
	if err := quantity.Within("interval", weeks, 2, 3, "weeks", "University of the Virgin Islands"); err != nil {
		return quantity.MgPerL(nan), err
	}
	return 2, nil
}

// IronDose is the chelate that gives 0 to 1e9 L of water 0 to 5 mg/L of iron,
// when 0.005 to 1 of the product is iron.
// Source: 137 g of a 7 % chelate for 2 mg/L in 4,800 L.
func IronDose(volume quantity.Litres, rise quantity.MgPerL, iron quantity.Fraction) (quantity.Grams, error) {
	err := first(
		quantity.Within("rise of iron", float64(rise), 0, 5, "mg/L", ofPackage),
		quantity.Within("iron in the product", float64(iron), 0.005, 1, "", ofPackage))
	if err != nil {
		return quantity.Grams(nan), err
	}
	pure, err := Dose(rise, volume)
	return pure / quantity.Grams(iron), err
}
