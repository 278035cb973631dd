package fish

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// Span of the trout chart.
const (
	chartLow  quantity.Fahrenheit = 36
	chartHigh quantity.Fahrenheit = 68
)

// A LengthClass is a column of the trout chart.
type LengthClass int

var lengthClasses = [...]string{"<1", "1-2", "2-3", "3-4", "4-5", "5-6", "6-7", "7-8", "8-9", "9-10", ">10"}

// fishPerPound are the bounds between the classes as the chart prints them:
// more than the first are under an inch, fewer than the last over ten.
var fishPerPound = [...]float64{2542, 304, 88.3, 37.8, 19.7, 11.6, 7.35, 4.94, 3.47, 2.53}

// String gives the class as the chart heads its column, in inches.
func (c LengthClass) String() string { return lengthClasses[c] }

// LengthClassByName returns the class called "<1", "1-2" ... "9-10" or ">10"
// inches.
func LengthClassByName(name string) (LengthClass, error) {
	for i, c := range lengthClasses {
		if c == name {
			return LengthClass(i), nil
		}
	}
	return 0, &UnknownError{"length class of trout", name}
}

// TroutLengthClass returns the class of a trout of a weight, by the chart's
// count of fish to the pound.
func TroutLengthClass(weight quantity.Grams) LengthClass {
	perPound := 1 / float64(weight.Pounds())
	for i, least := range fishPerPound {
		if perPound > least {
			return LengthClass(i)
		}
	}
	return LengthClass(len(fishPerPound))
}

// TroutRation returns the feed of rainbow trout in percent of body weight a
// day, at 36 to 68 degF taken to the nearest degree. Dry feed of the 1970s;
// richer feeds need less.
func TroutRation(t quantity.Fahrenheit, class LengthClass) (quantity.Percent, error) {
	if err := quantity.Within("water temperature", float64(t), float64(chartLow), float64(chartHigh), "degF", chart); err != nil {
		return 0, err
	}
	if class < 0 || int(class) >= len(lengthClasses) {
		return 0, &UnknownError{"length class of trout", "number outside the chart"}
	}
	return troutChart[int(math.Round(float64(t-chartLow)))][class], nil // Leitritz & Lewis 1980
}
