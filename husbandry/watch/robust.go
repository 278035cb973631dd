package watch

import (
	"math"

	"freshet.example/husbandry/chance"
	"freshet.example/husbandry/quantity"
)

// MAD is the median distance from the median, times 1.4826 so that it
// estimates the standard deviation of normal readings (Hampel 1974, J. Am.
// Stat. Assoc. 69:383). Two readings or more. It is 0 when more than half of
// the readings agree, as coarse sensors' do.
func MAD(values []float64) (float64, error) {
	if err := enough(values, 2); err != nil {
		return 0, err
	}
	return 1.4826 * rawMAD(values), nil
}

func rawMAD(values []float64) float64 {
	centre := median(values)
	away := make([]float64, len(values))
	for i, v := range values {
		away[i] = math.Abs(v - centre)
	}
	return median(away)
}

// ModifiedZ is how far each reading lies from the median in units of the raw
// median distance over 0.6745, the upper quartile of the normal curve (Iglewicz
// & Hoaglin 1993, How to Detect and Handle Outliers, who call a reading an
// outlier from 3.5 on). Floor, above 0, is the smallest distance that the sensor can
// tell (half its last digit, say); it stands in where more than half of the
// readings agree. Two readings or more.
func ModifiedZ(values []float64, floor float64) ([]float64, error) {
	if err := enough(values, 2); err != nil {
		return nil, err
	}
	if err := quantity.Within("smallest distance told", floor, 1e-150, 1e150, "", "by definition: above 0"); err != nil {
		return nil, err
	}
	centre, unit := median(values), max(rawMAD(values), floor)/chance.NormalQuantile(0.75)
	z := make([]float64, len(values))
	for i, v := range values {
		z[i] = (v - centre) / unit
	}
	return z, nil
}

// Farthest is the largest of sizes, such as those of modified z.
func Farthest(z []float64) float64 {
	var most float64
	for _, one := range z {
		most = max(most, math.Abs(one))
	}
	return most
}

// Beyond counts those farther from 0 than limit.
func Beyond(z []float64, limit float64) int {
	n := 0
	for _, one := range z {
		if math.Abs(one) > limit {
			n++
		}
	}
	return n
}
