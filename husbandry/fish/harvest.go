package fish

import (
	"strings"

	"freshet.example/husbandry/nitrogen"
	"freshet.example/husbandry/quantity"
)

// HarvestDensity returns the fish in a cubic metre at harvest, from 0.1 to
// 100,000 stocked in it, the share of them that live, and their weight.
func HarvestDensity(stocked float64, survival quantity.Fraction, weight quantity.Grams) (KilogramsPerM3, error) {
	if err := firstError(numberBound.check(stocked), shareBound.check(float64(survival)), weightBound.check(float64(weight))); err != nil {
		return 0, err
	}
	return KilogramsPerM3(stocked * float64(survival) * float64(weight.Kilograms())), nil
}

const (
	weeksPerYear      = 52
	kilogramsPerTonne = 1000
)

// AnnualProduction returns the harvest of a year when a tank of 0.001 to 1e5 m3
// is emptied at a density of 0.1 to 300 kg/m3 every 0.1 to 520 weeks.
func AnnualProduction(density KilogramsPerM3, tank quantity.CubicMetres, every float64) (TonnesPerYear, error) {
	if err := firstError(densityBound.check(float64(density)), tankBound.check(float64(tank)), weeksBound.check(every)); err != nil {
		return 0, err
	}
	return TonnesPerYear(float64(density) * float64(tank) * weeksPerYear / every / kilogramsPerTonne), nil
}

// Biomass returns the fish in a tank of 0.001 to 1e5 m3 at a density of 0.1 to
// 300 kg/m3.
func Biomass(density KilogramsPerM3, tank quantity.CubicMetres) (quantity.Kilograms, error) {
	if err := firstError(densityBound.check(float64(density)), tankBound.check(float64(tank))); err != nil {
		return 0, err
	}
	return quantity.Kilograms(float64(density) * float64(tank)), nil
}

// DensityFromGallons turns pounds of fish in a US gallon, 0 to 2, into
// kilograms in a cubic metre.
func DensityFromGallons(poundsPerUSGallon float64) (KilogramsPerM3, error) {
	if err := poundsPerGallon.check(poundsPerUSGallon); err != nil {
		return 0, err
	}
	kg := quantity.Pounds(poundsPerUSGallon).Kilograms()
	return KilogramsPerM3(float64(kg) / float64(quantity.USGallons(1).Litres().CubicMetres())), nil
}

// A Yield is what is left of a fish after a cut. Sources trim differently, so
// that a yield means nothing without the name of its cut.
type Yield struct {
	Species   string
	Cut       string
	Low, High quantity.Percent // of live weight
	Source    string
}

var yields = [...]Yield{
	{"Nile tilapia", "fillet", 36.50, 36.84, "Souza & Maranhao, Acta Sci. Anim. Sci. 23:897-901 (abstract), fish of 300 to 500 g"},
	{"Nile tilapia", "dress-out by strain", 29.6, 33.1, "J. Applied Aquaculture 2012 24:342-348 (abstract)"},
	{"Nile tilapia", "headless carcass", 78.18, 78.18, "tilapia processing trial (abstract)"},
	{"rainbow trout", "eviscerated", 83, 83, "Souza et al. 2015, Acta Sci. Anim. Sci. 37(2):103-108 (abstract), fish of 300 to 370 g"},
}

// YieldOf returns the published yield of a species for a cut: fillet, dress-out
// by strain, or headless carcass of Nile tilapia; eviscerated rainbow trout.
func YieldOf(name, cut string) (Yield, error) {
	for _, y := range yields {
		if strings.EqualFold(y.Species, name) && strings.EqualFold(y.Cut, cut) {
			return y, nil
		}
	}
	return Yield{}, &UnknownError{"yield", name + ", " + cut}
}

// Dressed returns what is left of live fish of 0 to 1e6 kg at a yield of 0 to
// 100 %.
func Dressed(live quantity.Kilograms, yield quantity.Percent) (quantity.Kilograms, error) {
	if err := firstError(massBound.check(float64(live)), yieldBound.check(float64(yield))); err != nil {
		return 0, err
	}
	return live * quantity.Kilograms(yield/percent), nil
}

// NitrogenPercent returns the nitrogen in fish, percent of wet weight, from
// crude protein of 0 to 100 % and the protein for each weight of nitrogen, 4
// to 8 (6.25 as analysts take it).
func NitrogenPercent(protein quantity.Percent, factor float64) (quantity.Percent, error) {
	if err := firstError(proteinBound.check(float64(protein)), factorBound.check(factor)); err != nil {
		return 0, err
	}
	return protein / quantity.Percent(factor), nil
}

// Nitrogen in the wet weight of whole fish, and how unsure it is.
const (
	WholeFishN      quantity.Fraction = 0.0285 // eviscerated rainbow trout, 17.81 % protein, Souza et al. 2015; taken for whole fish of all species
	WholeFishNError quantity.Fraction = 0.002  // spread among species and sizes, from memory
)

// GrowthN returns the nitrogen that fish put on with a gain within 1e6 kg.
// Fish that lost weight give a negative amount.
func GrowthN(gain quantity.Kilograms) (nitrogen.Amount, error) {
	return nitrogen.AmountOf(gain.Grams(), 0, WholeFishN, WholeFishNError)
}
