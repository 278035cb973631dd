package fish

import (
	"strings"

	"freshet.example/husbandry/quantity"
)

// A Class sorts fish by the water they live in.
type Class int

// The classes.
const (
	Warm Class = iota // tilapia, catfish, carp
	Cool              // yellow perch
	Cold              // trout
)

// String names the class.
func (c Class) String() string {
	return [...]string{"warm", "cool", "cold"}[c]
}

// A Sourced is a figure and who states it.
type Sourced[T ~float64] struct {
	Value  T
	Source string
}

// A Species is a kind of fish, with the figures a grower needs.
type Species struct {
	Name  string // "Nile tilapia"
	Latin string
	Class Class

	LethalLow   Sourced[quantity.Celsius] // fish die at or below it, sooner or later
	FeedLow     Sourced[quantity.Celsius] // below it nothing is fed
	GrowthLow   Sourced[quantity.Celsius] // below it there is no growth
	OptimumLow  Sourced[quantity.Celsius]
	OptimumHigh Sourced[quantity.Celsius]
	FeedHigh    Sourced[quantity.Celsius] // above it nothing is fed
	LethalHigh  Sourced[quantity.Celsius]

	OxygenMinimum Sourced[quantity.MgPerL]   // keep above it
	AmmoniaLimit  Sourced[quantity.AmmoniaN] // un-ionized ammonia as N, keep below it
	Conversion    Sourced[float64]           // usual feed conversion ratio
	Density       Sourced[KilogramsPerM3]    // most that guidance for small loops allows

	rations []rationClass // nil: the trout chart
}

// SpeciesByName returns a species by its common or Latin name.
func SpeciesByName(name string) (Species, error) {
	for _, s := range species {
		if strings.EqualFold(s.Name, name) || strings.EqualFold(s.Latin, name) {
			return s, nil
		}
	}
	return Species{}, &UnknownError{"species", name}
}

// SpeciesNames lists the common names of the species known.
func SpeciesNames() []string {
	names := make([]string, len(species))
	for i, s := range species {
		names[i] = s.Name
	}
	return names
}

// optimum is the middle of the best temperatures.
func (s Species) optimum() float64 { return float64(s.OptimumLow.Value+s.OptimumHigh.Value) / 2 }

// alive refuses temperatures at which the species dies, where rations and
// growth have no meaning.
func (s Species) alive(t quantity.Celsius) error {
	return quantity.Within("water temperature", float64(t), float64(s.LethalLow.Value), float64(s.LethalHigh.Value), "degC", s.LethalLow.Source)
}
