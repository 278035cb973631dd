package loop

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// RectangularTank returns what a tank with straight walls holds, from its inside
// length, width and water depth in metres.
func RectangularTank(length, width, depth quantity.Metres) (quantity.CubicMetres, error) {
	err := firstError(lengthBound.check(float64(length)), lengthBound.check(float64(width)), depthBound.check(float64(depth)))
	if err != nil {
		return 0, err
	}
	return quantity.CubicMetres(length * width * depth), nil
}

// RoundTank returns what an upright round tank holds, from its inside diameter
// and water depth in metres.
func RoundTank(diameter, depth quantity.Metres) (quantity.CubicMetres, error) {
	if err := firstError(tankBound.check(float64(diameter)), depthBound.check(float64(depth))); err != nil {
		return 0, err
	}
	return quantity.CubicMetres(circle(float64(diameter)) * float64(depth)), nil
}

// PipeVolume returns the litres that stand in a full pipe of the given inside
// diameter and length in metres.
func PipeVolume(diameter, length quantity.Metres) (quantity.Litres, error) {
	if err := firstError(diameterBound.check(float64(diameter)), lengthBound.check(float64(length))); err != nil {
		return 0, err
	}
	return quantity.Litres(circle(float64(diameter)) * float64(length) * litresPerCubic), nil
}

// RetentionTime returns how long water stays in a vessel on average, which is
// also the time of one turnover: volume over flow.
func RetentionTime(volume quantity.CubicMetres, flow quantity.LitresPerMinute) (quantity.Hours, error) {
	if err := firstError(volumeBound.check(float64(volume)), flowBound.check(float64(flow))); err != nil {
		return 0, err
	}
	return quantity.Hours(float64(volume) / cubicMetresPerSecond(flow) / secondsPerHour), nil
}

// FlowForRetention returns the flow that keeps water in a vessel for the given
// time.
func FlowForRetention(volume quantity.CubicMetres, time quantity.Hours) (quantity.LitresPerMinute, error) {
	if err := firstError(volumeBound.check(float64(volume)), timeBound.check(float64(time))); err != nil {
		return 0, err
	}
	return litresPerMinute(float64(volume) / float64(time) / secondsPerHour), nil
}

// Turnovers returns how many times an hour the flow moves the whole volume.
// FAO 589 (second hand) asks for one an hour at low and two at high stocking.
func Turnovers(volume quantity.CubicMetres, flow quantity.LitresPerMinute) (float64, error) {
	hours, err := RetentionTime(volume, flow)
	if err != nil {
		return 0, err
	}
	return 1 / float64(hours), nil
}

// circle returns the area of a circle.
func circle(diameter float64) float64 { return math.Pi / 4 * diameter * diameter }
