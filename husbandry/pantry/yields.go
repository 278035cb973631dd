package pantry

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// A Yield is what the guide prints of a food's weight and the jars it fills.
// Zero stands where nothing is printed in our copies.
type Yield struct {
	Food        string
	SevenQuarts quantity.Pounds // for a canner load of 7 quarts
	NinePints   quantity.Pounds // for a canner load of 9 pints
	Bushel      quantity.Pounds
	QuartsLow   float64 // quarts a bushel fills
	QuartsHigh  float64
	PerQuart    quantity.Pounds // average, rounded in print
}

// yields: AIB 539 (copies).
var yields = []Yield{
	{"tomatoes whole/halved", 21, 13, 53, 15, 21, 3},
	{"tomato juice", 23, 14, 53, 15, 18, 3.25},
	{"tomato sauce thin", 35, 0, 53, 10, 12, 5},
	{"tomato sauce thick", 46, 28, 53, 0, 0, 0},
	{"snap beans", 14, 9, 30, 12, 20, 2},
	{"cucumbers for pickles", 14, 9, 48, 16, 24, 2},
}

// Foods returns the foods whose yields we hold.
func Foods() []string {
	names := make([]string, len(yields))
	for i := range yields {
		names[i] = yields[i].Food
	}
	return names
}

// yieldOf finds a food by name, or by a part of its name that only it has.
func yieldOf(food string) (*Yield, error) {
	y, ok := named(yields, func(y *Yield) string { return y.Food }, food)
	if !ok {
		return nil, &NotInTableError{"yield of \"" + food + "\""}
	}
	return y, nil
}

// printed refuses figures that our copies of the guide do not print.
func printed[T ~float64](v T, what, food string) (Canning[T], error) {
	if v == 0 {
		return Canning[T]{}, &NotInTableError{what + " of " + food}
	}
	return Canning[T]{v}, nil
}

// Load returns the pounds that fill a canner once: 7 quarts or 9 pints.
func Load(food string, jar Jar) (Canning[quantity.Pounds], error) {
	y, err := yieldOf(food)
	if err != nil {
		return Canning[quantity.Pounds]{}, err
	}
	if jar == Quart {
		return printed(y.SevenQuarts, "canner load of 7 quarts", y.Food)
	}
	return printed(y.NinePints, "canner load of 9 pints", y.Food)
}

// BushelWeight returns what a bushel of the food weighs.
func BushelWeight(food string) (Canning[quantity.Pounds], error) {
	y, err := yieldOf(food)
	if err != nil {
		return Canning[quantity.Pounds]{}, err
	}
	return printed(y.Bushel, "bushel", y.Food)
}

// A Span is a published range.
type Span struct{ Low, High float64 }

// QuartsPerBushel returns the range of quarts that a bushel fills.
func QuartsPerBushel(food string) (Canning[Span], error) {
	y, err := bushelled(food)
	if err != nil {
		return Canning[Span]{}, err
	}
	return Canning[Span]{Span{y.QuartsLow, y.QuartsHigh}}, nil
}

// PoundsPerQuart returns the average that the guide prints. It is rounded: for
// whole tomatoes a bushel gives 2.5 to 3.5 pounds a quart, printed 3.
func PoundsPerQuart(food string) (Canning[quantity.Pounds], error) {
	y, err := yieldOf(food)
	if err != nil {
		return Canning[quantity.Pounds]{}, err
	}
	return printed(y.PerQuart, "pounds per quart", y.Food)
}

// bushelled returns a food whose bushel and quarts are printed.
func bushelled(food string) (*Yield, error) {
	y, err := yieldOf(food)
	if err == nil && y.QuartsLow == 0 {
		err = &NotInTableError{"quarts per bushel of " + y.Food}
	}
	return y, err
}

// perQuart returns how many jars hold a quart.
func (j Jar) perQuart() float64 {
	if j == Pint {
		return 2
	}
	return 1
}

const (
	mostPounds = 100_000 // a harvest of this size is weighed in tons; common sense, no source
	mostJars   = 100_000
)

// JarsFrom returns how many whole jars a weight of produce fills, at least and at
// most, for weights of 0 to 100,000 lb.
func JarsFrom(food string, produce quantity.Pounds, jar Jar) (Canning[Span], error) {
	if err := quantity.Within("produce", float64(produce), 0, mostPounds, "lb", quantity.OwnBounds); err != nil {
		return Canning[Span]{}, err
	}
	y, err := bushelled(food)
	if err != nil {
		return Canning[Span]{}, err
	}
	bushels := float64(produce/y.Bushel) * jar.perQuart()
	return canned(Span{math.Floor(bushels * y.QuartsLow), math.Floor(bushels * y.QuartsHigh)}, nil)
}

// ProduceFor returns the pounds of produce that fill n jars, at least and at
// most, for 0 to 100,000 jars.
func ProduceFor(food string, n float64, jar Jar) (Canning[Span], error) {
	if err := quantity.Within("jars", n, 0, mostJars, "", quantity.OwnBounds); err != nil {
		return Canning[Span]{}, err
	}
	y, err := bushelled(food)
	if err != nil {
		return Canning[Span]{}, err
	}
	quarts := n / jar.perQuart()
	return canned(Span{float64(y.Bushel) * quarts / y.QuartsHigh, float64(y.Bushel) * quarts / y.QuartsLow}, nil)
}
