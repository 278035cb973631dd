package watch

import (
	"math"

	"freshet.example/husbandry/chance"
	"freshet.example/husbandry/quantity"
)

// A Span is a forecast with its interval.
type Span struct{ Value, Low, High float64 }

// Naive forecasts that the last reading stays (period 1), or that the last
// season comes again (period from 2), with normal intervals whose variance
// grows with each step, or each season, ahead. More readings than one period;
// ahead from 1 to 1,000; confidence 0.5 to 0.9999. Any forecast worth its name
// beats these. (Hyndman & Athanasopoulos 2021, 5.2 and 5.5)
func Naive(values []float64, period, ahead int, confidence quantity.Fraction) (Span, error) {
	if err := ranged(values, period, ahead, confidence); err != nil {
		return Span{}, err
	}
	seasons := math.Ceil(float64(ahead) / float64(period))
	value := values[len(values)-1+ahead-period*int(seasons)]
	return spanned(value, lagRMS(values, period)*math.Sqrt(seasons), confidence), nil
}

// Drift forecasts that the mean step so far goes on. Three readings or more.
func Drift(values []float64, ahead int, confidence quantity.Fraction) (Span, error) {
	if err := ranged(values, 2, ahead, confidence); err != nil {
		return Span{}, err
	}
	n, h := float64(len(values)), float64(ahead)
	step := (values[len(values)-1] - values[0]) / (n - 1)
	squares := 0.0
	for i := 1; i < len(values); i++ {
		e := values[i] - values[i-1] - step
		squares += e * e
	}
	sigma := math.Sqrt(squares / (n - 2))
	return spanned(values[len(values)-1]+h*step, sigma*math.Sqrt(h*(1+h/(n-1))), confidence), nil
}

// recurring refuses a period that no forecast by the last one is made for.
func recurring(period int) error {
	return quantity.Within("period", float64(period), 1, 366, "readings", quantity.OwnBounds)
}

func ranged(values []float64, period, ahead int, confidence quantity.Fraction) error {
	if err := recurring(period); err != nil {
		return err
	}
	if err := smoothable(values, period+1, ahead); err != nil {
		return err
	}
	return confident(confidence)
}

func spanned(value, sd float64, confidence quantity.Fraction) Span {
	reach := sd * chance.NormalQuantile((1+float64(confidence))/2)
	return Span{value, value - reach, value + reach}
}

// lagRMS is the root of the mean squared step over one period.
func lagRMS(values []float64, period int) float64 {
	squares := 0.0
	for i := period; i < len(values); i++ {
		squares += (values[i] - values[i-period]) * (values[i] - values[i-period])
	}
	return math.Sqrt(squares / float64(len(values)-period))
}

// A Record is how forecasts made again and again would have done.
type Record struct {
	Coverage  float64 // share of readings that came inside the interval
	MeanWidth float64
	MAE       float64 // mean distance of forecast and reading
	Forecasts int
}

// Rolling makes a Naive forecast so far ahead from each reading on, from the
// given number of readings (more than a period) to the last that can be
// checked, and holds each against what came.
func Rolling(values []float64, period, ahead, from int, confidence quantity.Fraction) (Record, error) {
	var r Record
	if err := quantity.Within("readings before the first forecast", float64(from), float64(period+1), float64(len(values)-ahead), "", quantity.ByDefinition); err != nil {
		return r, err
	}
	inside := 0
	for t := from; t+ahead <= len(values); t++ {
		s, err := Naive(values[:t], period, ahead, confidence)
		if err != nil {
			return r, err
		}
		came := values[t+ahead-1]
		if came >= s.Low && came <= s.High {
			inside++
		}
		r.MeanWidth += s.High - s.Low
		r.MAE += math.Abs(came - s.Value)
		r.Forecasts++
	}
	n := float64(r.Forecasts)
	r.Coverage, r.MeanWidth, r.MAE = float64(inside)/n, r.MeanWidth/n, r.MAE/n
	return r, nil
}

// MASE is the mean distance of forecasts from what came, over the mean distance
// that the seasonal Naive had over the readings before: below 1 beats it.
// History longer than a period and not repeating exactly. (Hyndman & Koehler
// 2006, Int. J. Forecasting 22:679)
func MASE(history, came, forecast []float64, period int) (float64, error) {
	if err := recurring(period); err != nil {
		return 0, err
	}
	for list, least := range map[*[]float64]int{&history: period + 1, &came: 1, &forecast: len(came)} {
		if err := enough(*list, least); err != nil {
			return 0, err
		}
	}
	if err := quantity.Within("number of forecasts", float64(len(forecast)), float64(len(came)), float64(len(came)), "", "by definition: one a reading"); err != nil {
		return 0, err
	}
	scale, miss := 0.0, 0.0
	for i := period; i < len(history); i++ {
		scale += math.Abs(history[i]-history[i-period]) / float64(len(history)-period)
	}
	for i := range came {
		miss += math.Abs(came[i]-forecast[i]) / float64(len(came))
	}
	if err := spread(scale); err != nil {
		return 0, err
	}
	return miss / scale, nil
}

// LastSeasonMASE is MASE of the seasonal Naive for the last season, from all
// readings before it. More than two seasons.
func LastSeasonMASE(values []float64, period int) (float64, error) {
	if err := recurring(period); err != nil {
		return 0, err
	}
	if err := enough(values, 2*period+1); err != nil {
		return 0, err
	}
	cut := len(values) - period
	return MASE(values[:cut], values[cut:], values[cut-period:cut], period)
}
