package fish

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// Oxygen used for each kilogram of feed.
const (
	// OxygenOfFish is what cutthroat trout used, standard deviation 32: a
	// journal abstract on a Snake River stock.
	OxygenOfFish GramsPerKgFeed = 274
	// OxygenOfLoop is what fish (250), nitrifying bacteria (120) and the
	// bacteria that feed on solids (130) use together: Timmons & Ebeling, from
	// memory.
	OxygenOfLoop GramsPerKgFeed = 500
)

// Uses of fish in the same abstract: mean, and mean over the hours of feeding.
const (
	meanUse    MgPerKgHour = 149
	feedingUse MgPerKgHour = 167
)

const (
	mgPerGram      = 1000
	hoursPerDay    = 24
	minutesPerHour = 60
)

// OxygenUse returns the mean oxygen use of fish fed 0.05 to 30 % of their
// weight a day, at 50 to 2000 g of oxygen for each kilogram of feed.
func OxygenUse(share quantity.Percent, perFeed GramsPerKgFeed) (MgPerKgHour, error) {
	if err := firstError(rationBound.check(float64(share)), perFeedBound.check(float64(perFeed))); err != nil {
		return 0, err
	}
	return MgPerKgHour(float64(share) / percent * float64(perFeed) * mgPerGram / hoursPerDay), nil
}

const doublingC = 10 // Boyd: consumption about doubles for each 10 degC

// OxygenUseAt carries an oxygen use of 10 to 3000 mg/kg/h from one water
// temperature to another, each 0 to 45 degC: doubled for each 10 degC (Boyd).
// Not for temperatures that harm the fish.
func OxygenUseAt(use MgPerKgHour, from, to quantity.Celsius) (MgPerKgHour, error) {
	if err := firstError(useBound.check(float64(use)), waterBound.check(float64(from)), waterBound.check(float64(to))); err != nil {
		return 0, err
	}
	return use * MgPerKgHour(math.Exp2(float64(to-from)/doublingC)), nil
}

// OxygenMinutes returns how long the oxygen in the tank lasts: what is between
// the start and the critical level, each 0 to 40 mg/L, in 1 to 1e8 L, used by
// 0.001 to 1e6 kg of fish at 10 to 3000 mg/kg/h. Nothing is counted for the
// surface. It is 0 when the start is not above the critical level.
func OxygenMinutes(volume quantity.Litres, biomass quantity.Kilograms, start, critical quantity.MgPerL, use MgPerKgHour) (quantity.Minutes, error) {
	if err := firstError(volumeBound.check(float64(volume)), someMassBound.check(float64(biomass)), oxygenBound.check(float64(start)),
		oxygenBound.check(float64(critical)), useBound.check(float64(use))); err != nil {
		return 0, err
	}
	spare := max(0, float64(start-critical)) * float64(volume)
	return quantity.Minutes(minutesPerHour * spare / (float64(biomass) * float64(use))), nil // t = (DO0 - DOc) V / (B r)
}

// What air through a diffuser brings into clean water.
const (
	// AirStones is the standard efficiency of coarse bubbles, the middle of 0.6
	// to 1.2: Timmons & Ebeling, from memory.
	AirStones KilogramsPerKWh = 0.9

	standardFull    = 9.09  // mg/L, saturated water at 20 degC and sea level: the standard test
	standardCelsius = 20.0  // of the standard test
	transferPerC    = 1.024 // ASCE 2, Measurement of oxygen transfer in clean water, from memory
)

// Aeration returns the oxygen that air pumps of 0 to 1e6 W put in each hour at
// a standard efficiency of 0.05 to 10 kg for each kWh, into water of 0 to 45
// degC that would hold full mg/L and is kept at held mg/L, each 0 to 40. It is
// 0 when the water holds as much as it can.
func Aeration(power quantity.Watts, efficiency KilogramsPerKWh, celsius quantity.Celsius, full, held quantity.MgPerL) (GramsPerHour, error) {
	if err := firstError(airPowerBound.check(float64(power)), efficiencyBound.check(float64(efficiency)), waterBound.check(float64(celsius)),
		oxygenBound.check(float64(full)), oxygenBound.check(float64(held))); err != nil {
		return 0, err
	}
	share := max(0, float64(full-held)) / standardFull * math.Pow(transferPerC, float64(celsius)-standardCelsius)
	return GramsPerHour(float64(power) * float64(efficiency) * share), nil // W kg/kWh is g/h
}

// Bacteria that feed on solids live in the tank's water and go on breathing
// when the pump stops: 130 g to the fish's 250 (Timmons & Ebeling, from memory).
const (
	tankBacteria = 130.0
	tankFish     = 250.0
)

// CautiousUse returns the oxygen use to reckon with when something fails: that
// of the hours of feeding, for fish fed a share of their weight of 0.05 to 30 %
// a day, never below the published 167 mg/kg/h, with the tank's bacteria added.
func CautiousUse(share quantity.Percent) (MgPerKgHour, error) {
	mean, err := OxygenUse(share, OxygenOfFish)
	if err != nil {
		return 0, err
	}
	fish := max(feedingUse, mean*(feedingUse/meanUse))
	return fish * (tankFish + tankBacteria) / tankFish, nil
}

// PumpStopMinutes returns how long fish have when pump and air stop, from the
// oxygen now down to the least the species should have. It reckons once with
// the cautious use of fish fed a share of their weight, and once with the
// expected use, and gives the shorter time. Fish in trouble gasp earlier than
// any such number; keep a back-up and watch oxygen, not the power alone.
func PumpStopMinutes(s Species, volume quantity.Litres, biomass quantity.Kilograms, now quantity.MgPerL, share quantity.Percent, expected MgPerKgHour) (quantity.Minutes, error) {
	cautious, err := CautiousUse(share)
	if err != nil {
		return 0, err
	}
	if err := useBound.check(float64(expected)); err != nil {
		return 0, err
	}
	return OxygenMinutes(volume, biomass, now, s.OxygenMinimum.Value, max(cautious, expected))
}

// Molar masses of carbon dioxide over oxygen, at one molecule for one.
const carbonDioxidePerOxygen = quantity.WeightCO2 / quantity.WeightO2

// CarbonDioxideFromOxygen returns the carbon dioxide that fish and bacteria
// give off for oxygen of 0 to 1e9 g, at a respiratory quotient of 1.
func CarbonDioxideFromOxygen(used quantity.Grams) (quantity.Grams, error) {
	if err := feedBound.check(float64(used)); err != nil {
		return 0, err
	}
	return used * carbonDioxidePerOxygen, nil
}
