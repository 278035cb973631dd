package crop

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// SeedsNeeded returns how many seeds to sow for so many plants: the plants and
// a spare share of them, over the share that comes up. 1 to 1,000,000 plants,
// germination 0.01 to 1, spare 0 to 2.
func SeedsNeeded(plants int, germination, spare quantity.Fraction) (int, error) {
	err := firstError(plantsBound.check(float64(plants)), germinationBound.check(float64(germination)), spareBound.check(float64(spare)))
	if err != nil {
		return 0, err
	}
	return roundUp(float64(plants) * float64(1+spare) / float64(germination)), nil
}

// SeedsForChance returns the fewest seeds with which at least so many plants
// come up with that chance, each seed by itself (binomial). 1 to 10,000 plants,
// germination 0.01 to 1, chance 0.5 to 0.999.
func SeedsForChance(plants int, germination, chance quantity.Fraction) (int, error) {
	err := firstError(fewPlantsBound.check(float64(plants)), germinationBound.check(float64(germination)), chanceBound.check(float64(chance)))
	if err != nil {
		return 0, err
	}
	seeds := plants
	for enoughComeUp(seeds, plants, float64(germination)) < float64(chance) {
		seeds++
	}
	return seeds, nil
}

// enoughComeUp returns the chance that at least wanted of the seeds come up.
func enoughComeUp(seeds, wanted int, p float64) float64 {
	if p == 1 {
		return 1
	}
	all, _ := math.Lgamma(float64(seeds + 1))
	sum := 0.0
	for k := wanted; k <= seeds; k++ {
		up, _ := math.Lgamma(float64(k + 1))
		not, _ := math.Lgamma(float64(seeds - k + 1))
		sum += math.Exp(all - up - not + float64(k)*math.Log(p) + float64(seeds-k)*math.Log1p(-p))
	}
	return sum
}

// SeedMass returns the grams of so many seeds of the crop, by the fewest seeds
// in a gram that its row gives, so that it is rather too much than too little.
func SeedMass(crop string, seeds int) (quantity.Grams, error) {
	if err := seedsBound.check(float64(seeds)); err != nil {
		return 0, err
	}
	c, err := Find(crop)
	if err != nil {
		return 0, err
	}
	return orNothing(quantity.Grams(float64(seeds)/c.SeedsPerGram.Low), c.SeedsPerGram.orNotKnown(c.Name, "seeds in a gram"))
}

// roundUp rounds up to a whole number, forgiving the rounding of floating point.
func roundUp(v float64) int {
	const dust = 1e-9
	return int(math.Ceil(v - dust))
}
