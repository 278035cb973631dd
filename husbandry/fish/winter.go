package fish

import "freshet.example/husbandry/quantity"

const catfish = "channel catfish"

// Bands of the winter ration, Texas A&M AgriLife winter feeding note.
const (
	winterLow    quantity.Fahrenheit = 45
	winterMiddle quantity.Fahrenheit = 55
	winterHigh   quantity.Fahrenheit = 65
)

// A WinterRation is fed on some days only.
type WinterRation struct {
	Share       quantity.Percent // of body weight on a day of feeding
	DaysAWeek   float64
	Description string
}

const daysPerWeek = 7

// Daily is the mean of all days.
func (w WinterRation) Daily() quantity.Percent {
	return w.Share * quantity.Percent(w.DaysAWeek/daysPerWeek)
}

// CatfishWinterRation returns what channel catfish are fed in water of 45 to
// 65 degF: 1 % of their weight, every other day from 55, twice a week below.
func CatfishWinterRation(t quantity.Fahrenheit) (WinterRation, error) {
	if err := quantity.Within("water temperature", float64(t), float64(winterLow), float64(winterHigh), "degF", texas); err != nil {
		return WinterRation{}, err
	}
	if t < winterMiddle {
		return WinterRation{1, 2, "twice a week"}, nil
	}
	return WinterRation{1, 3.5, "every other day"}, nil
}
