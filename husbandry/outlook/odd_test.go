package outlook

import (
	"math"
	"testing"
)

// odd readings of four weeks, hour by hour where they are a probe's.
var odd = map[string]func(hour int) []Reading{
	"one alone": func(hour int) []Reading {
		if hour != 300 {
			return nil
		}
		return []Reading{{Hour: hour, Figure: Ammonia, Value: 0.3}}
	},
	"all alike": func(hour int) []Reading {
		return []Reading{{Hour: hour, Figure: Warmth, Value: 21}, {Hour: hour, Figure: Ammonia, Value: 0.2}, {Hour: hour, Figure: Oxygen, Value: 7}, {Hour: hour, Figure: Acidity, Value: 7}}
	},
	"all nought": func(hour int) []Reading {
		return []Reading{{Hour: hour, Figure: Warmth}, {Hour: hour, Figure: Ammonia}, {Hour: hour, Figure: Nitrate}, {Hour: hour, Figure: Oxygen}}
	},
	"all below what a test shows": func(hour int) []Reading {
		return []Reading{{Hour: hour, Figure: Ammonia, Value: 0.05, Below: true}, {Hour: hour, Figure: Nitrite, Value: 0.03, Below: true}}
	},
	"two that contradict each other": func(hour int) []Reading {
		return []Reading{{Hour: hour, Figure: Nitrate, Value: 1}, {Hour: hour, Figure: Nitrate, Value: 400}, {Hour: hour, Figure: Warmth, Value: 2}, {Hour: hour, Figure: Warmth, Value: 38}}
	},
	"set to mislead": func(hour int) []Reading {
		return []Reading{{Hour: hour, Figure: Ammonia, Value: math.Pow(10, float64(hour%5)-2)}, {Hour: hour, Figure: Acidity, Value: 3 + 3*float64(hour%3)}, {Hour: hour, Figure: Alkalinity, Value: 1500 * float64(hour%2)}}
	},
	"in another unit for the last weeks": func(hour int) []Reading {
		v := 20.0
		if hour > 300 {
			v *= 62.0049 / 14.0067
		}
		return []Reading{{Hour: hour, Figure: Nitrate, Value: v}}
	},
}

// TestOddReadings: whatever was read, each figure is told of as what it can be, with
// some width.
func TestOddReadings(t *testing.T) {
	for name, read := range odd {
		past, _, _ := lived(t, plain(), 28)
		var readings []Reading
		for i := range past {
			readings = append(readings, read(i)...)
		}
		_, a := outlookOf(t, past, readings)
		for f := range Figures {
			for _, day := range []int{0, 6, 13} {
				for s := Mean; s <= Highest; s++ {
					got, err := a.Fan(f, s, day, 0.8)
					passes, other := a.Past(f, day, 5, true)
					most := 1e5
					if f == Acidity {
						most = 14
					}
					if err != nil || other != nil || !(0 <= got.Low && got.Low <= got.Middle && got.Middle <= got.High && got.High <= most) || !(passes >= 0 && passes <= 1) {
						t.Errorf("%s: figure %d on day %d: %+v, %g, %v, %v", name, f, day, got, passes, err, other)
					}
					if got.Low == got.High && got.High > 0 {
						t.Errorf("%s: figure %d on day %d is known without doubt: %+v", name, f, day, got)
					}
				}
			}
		}
	}
}
