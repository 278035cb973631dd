package fish

import (
	"math"

	"freshet.example/husbandry/nitrogen"
	"freshet.example/husbandry/quantity"
)

// FAO's limits for small loops, second hand (FAO TP 589 p. 109 and p. 125).
const (
	faoPerLitre      = 0.020 // kg: 20 kg in 1000 L
	faoSmallPerLitre = 0.010 // kg: 1 kg in 100 L
	faoSmallTank     = 500.0 // L; smaller tanks hold half
)

// StockingLimit returns the most fish that FAO TP 589 advises for a tank of 1
// to 1e8 L.
func StockingLimit(tank quantity.Litres) (quantity.Kilograms, error) {
	if err := volumeBound.check(float64(tank)); err != nil {
		return 0, err
	}
	if tank < faoSmallTank {
		return quantity.Kilograms(float64(tank) * faoSmallPerLitre), nil
	}
	return quantity.Kilograms(float64(tank) * faoPerLitre), nil
}

// Each part returns the feed a day that it carries, and whether it is known.

func (l Loop) spaceFeed() (quantity.Grams, bool, error) {
	if l.Tank == 0 {
		return 0, false, nil
	}
	biomass, err := Biomass(l.Density, l.Tank.CubicMetres())
	if err != nil {
		return 0, false, err
	}
	feed, err := FeedForBiomass(biomass, l.Ration)
	return feed.Grams(), true, err
}

// The supply has to meet the hours of feeding, not the mean of the day.
func (l Loop) oxygenFeed() (quantity.Grams, bool, error) {
	if err := firstError(supplyBound.check(float64(l.OxygenSupply)), flowBound.check(float64(l.Flow)), oxygenBound.check(float64(l.OxygenDrop))); err != nil {
		return 0, false, err
	}
	if l.OxygenSupply == 0 && (l.Flow == 0 || l.OxygenDrop == 0) {
		return 0, false, nil
	}
	perHour := float64(l.OxygenSupply) + float64(l.Flow)*minutesPerHour*float64(l.OxygenDrop)/mgPerGram
	perDay := perHour * hoursPerDay * float64(meanUse/feedingUse)
	return quantity.Kilograms(perDay / float64(OxygenOfLoop)).Grams(), true, nil
}

func (l Loop) filterFeed() (quantity.Grams, bool, error) {
	if l.FilterSurface == 0 {
		return 0, false, nil
	}
	capacity, err := nitrogen.FilterCapacity(l.FilterSurface, l.FilterRate, l.Temperature, l.FilterAge)
	if err != nil {
		return 0, false, err
	}
	perGram, err := l.tanPerGram()
	if err != nil {
		return 0, false, err
	}
	return quantity.Grams(capacity / perGram), true, nil
}

// tanPerGram is the ammonia nitrogen of each gram of feed.
func (l Loop) tanPerGram() (nitrogen.GramsN, error) {
	perKilogram, err := nitrogen.TANFromProtein(1, l.Protein)
	return nitrogen.GramsN(perKilogram), err // kg for each kg is g for each g
}

func (l Loop) solidsFeed() (quantity.Grams, bool, error) {
	if l.SolidsRemoval == 0 {
		return 0, false, nil
	}
	if err := feedBound.check(float64(l.SolidsRemoval)); err != nil {
		return 0, false, err
	}
	perGram, err := nitrogen.SolidsFromFeed(1)
	return l.SolidsRemoval / perGram, true, err
}

// carbonateFeed is the lower of what alkalinity and what the removal of carbon
// dioxide allow.
func (l Loop) carbonateFeed() (quantity.Grams, bool, error) {
	if l.Alkalinity == 0 && l.CarbonDioxideRemoval == 0 {
		return 0, false, nil
	}
	if err := firstError(feedBound.check(float64(l.Alkalinity)), feedBound.check(float64(l.CarbonDioxideRemoval))); err != nil {
		return 0, false, err
	}
	feed := math.MaxFloat64
	if l.Alkalinity > 0 {
		perGram, err := l.alkalinityPerGram()
		if err != nil {
			return 0, false, err
		}
		feed = float64(l.Alkalinity / perGram)
	}
	if l.CarbonDioxideRemoval > 0 {
		perGram := float64(OxygenOfLoop) / perThousand * carbonDioxidePerOxygen
		feed = min(feed, float64(l.CarbonDioxideRemoval)/perGram)
	}
	return quantity.Grams(feed), true, nil
}

// alkalinityPerGram is what nitrifying the ammonia of each gram of feed uses.
func (l Loop) alkalinityPerGram() (quantity.Grams, error) {
	tan, err := l.tanPerGram()
	if err != nil {
		return 0, err
	}
	return nitrogen.EbelingSlides.AlkalinityUsed(tan)
}

func (l Loop) plantFeed() (quantity.Grams, bool, error) {
	if l.PlantArea == 0 {
		return 0, false, nil
	}
	feed, err := nitrogen.FeedForArea(l.PlantArea, l.PlantRatio)
	return feed, true, err
}
