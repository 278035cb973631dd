package fish

import (
	"errors"

	"freshet.example/husbandry/nitrogen"
	"freshet.example/husbandry/quantity"
)

// A Loop is what a stocking limit is reckoned from. A part left at zero is not
// there or not known: its limit is left out and named as missing.
type Loop struct {
	Ration      quantity.Percent  // a day's feed as share of body weight, 0.05 to 30; ties feed to fish
	Protein     quantity.Fraction // of the feed, 0.1 to 0.7
	Temperature quantity.Celsius  // of the water, 7 to 35 where a filter counts

	Tank    quantity.Litres // water in which fish swim
	Density KilogramsPerM3  // most fish wanted in it

	OxygenSupply GramsPerHour             // what aeration puts in
	Flow         quantity.LitresPerMinute // through the fish tank
	OxygenDrop   quantity.MgPerL          // what that water may give up: inflow less the least allowed

	FilterSurface quantity.SquareMetres // of media, rafts and walls
	FilterRate    nitrogen.ArealN       // of a ripe warm filter
	FilterAge     quantity.Days         // since it was started

	SolidsRemoval quantity.Grams // dry solids that can be taken out in a day

	Alkalinity           quantity.Grams // replaced in a day, counted as CaCO3
	CarbonDioxideRemoval quantity.Grams // driven off in a day

	PlantArea  quantity.SquareMetres
	PlantRatio nitrogen.FeedRatio // feed for a square metre of plants
}

// A Limit is what one part of a loop can carry.
type Limit struct {
	Name    string // "space", "oxygen", "nitrification", "solids", "carbonate", "plants"
	Feed    quantity.Grams
	Biomass quantity.Kilograms
	Source  string
}

// A Carrying says what a loop can carry and which part binds it.
type Carrying struct {
	Limits  []Limit
	Binding int      // index of the lowest
	Missing []string // limits that could not be reckoned

	// What 10 % more of the binding part would buy, before the next part binds.
	FeedGained    quantity.Grams
	BiomassGained quantity.Kilograms
	Next          string // the part that binds then; the same when it still does
}

// ErrNothingKnown says that a loop has no part from which a limit follows.
var ErrNothingKnown = errors.New("no part of the loop is known: give at least the tank and its density")

const relaxed = 1.1 // ten percent more

// Capacity returns every limit of a loop that its parts allow to be told, as
// feed a day and as fish, the one that binds, and what relaxing it buys. Fish
// grow: stock so that the fish to be harvested stay within it.
func Capacity(l Loop) (Carrying, error) {
	if err := rationBound.check(float64(l.Ration)); err != nil {
		return Carrying{}, err
	}
	var c Carrying
	for _, part := range [...]struct {
		name, source string
		feed         func(Loop) (quantity.Grams, bool, error)
	}{
		{"space", faoStock, Loop.spaceFeed},
		{"oxygen", "0.5 kg oxygen for each kg of feed, Timmons & Ebeling, from memory; peak of the hours of feeding", Loop.oxygenFeed},
		{"nitrification", "0.092 x protein, areal rate, temperature and age of the filter", Loop.filterFeed},
		{"solids", "a quarter of feed, Rakocy 2007", Loop.solidsFeed},
		{"carbonate", "7.14 g alkalinity for each g N; 1.375 g carbon dioxide for each g oxygen", Loop.carbonateFeed},
		{"plants", "feed for a square metre of plants", Loop.plantFeed},
	} {
		feed, known, err := part.feed(l)
		switch {
		case err != nil:
			return Carrying{}, err
		case known:
			c.Limits = append(c.Limits, Limit{part.name, feed, l.biomass(feed), part.source})
		default:
			c.Missing = append(c.Missing, part.name)
		}
	}
	if len(c.Limits) == 0 {
		return Carrying{}, ErrNothingKnown
	}
	c.bind(l)
	return c, nil
}

func (l Loop) biomass(feed quantity.Grams) quantity.Kilograms {
	return feed.Kilograms() / quantity.Kilograms(l.Ration/percent)
}

// bind finds the lowest limit and the feed at which another takes its place.
func (c *Carrying) bind(l Loop) {
	for i, limit := range c.Limits {
		if limit.Feed < c.Limits[c.Binding].Feed {
			c.Binding = i
		}
	}
	lowest := c.Limits[c.Binding]
	feed := lowest.Feed * relaxed
	c.Next = lowest.Name
	for i, limit := range c.Limits {
		if i != c.Binding && limit.Feed < feed {
			feed, c.Next = limit.Feed, limit.Name
		}
	}
	c.FeedGained = feed - lowest.Feed
	c.BiomassGained = l.biomass(c.FeedGained)
}
