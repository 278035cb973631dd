package crop

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// A CropCoefficient is what a crop uses of water beside the grass reference,
// at three times of its life (FAO-56 Table 12).
type CropCoefficient struct {
	Crop      string
	Initial   float64
	Middle    float64
	End       float64
	HeightMax quantity.Metres // 0 where the table gives none
}

// Stages are the lengths of a crop's four stages, days (FAO-56 Table 11).
type Stages struct {
	Crop        string // crop, months of planting, region
	Initial     int
	Development int
	Middle      int
	Late        int
}

// Total returns the days of all four stages. For two rows (green gram; sweet
// corn in Idaho) the table prints a total of 110 that their stages do not give.
func (s Stages) Total() int { return s.Initial + s.Development + s.Middle + s.Late }

// CropCoefficientOf returns the crop's row of FAO-56 Table 12. A crop without a
// row, or with several that fit, is a NotListedError that names them.
func CropCoefficientOf(crop string) (CropCoefficient, error) {
	return rowOf("FAO-56 Table 12", cropCoefficients, func(c CropCoefficient) string { return c.Crop }, crop)
}

// StagesOf returns the row of FAO-56 Table 11 for the words: crop, and month of
// planting or region where there are several. Several that fit are a
// NotListedError that names them.
func StagesOf(crop string) (Stages, error) {
	return rowOf("FAO-56 Table 11", stageLengths, func(s Stages) string { return s.Crop }, crop)
}

// Adjusted returns the coefficient for another climate than the table's: wind 2
// m/s and lowest humidity 45 % (FAO-56 eq. 62 and 65). Wind 1 to 6 m/s, lowest
// humidity 20 to 80 %, height 0.1 to 10 m; a coefficient below 0.45 stands.
func Adjusted(coefficient float64, wind MetresPerSecond, humidMin quantity.Percent, height quantity.Metres) (float64, error) {
	err := firstError(
		coefficientBound.check(coefficient),
		usualWindBound.check(float64(wind)),
		dryHourBound.check(float64(humidMin)),
		cropHeightBound.check(float64(height)))
	if err != nil {
		return 0, err
	}
	if coefficient < 0.45 {
		return coefficient, nil
	}
	drier := 0.04*(float64(wind)-2) - 0.004*(float64(humidMin)-45)
	return coefficient + drier*math.Pow(float64(height)/3, 0.3), nil
}

// On returns the crop coefficient on a day of the crop's life, day 1 being the
// day of planting: level in the initial and middle stages, a straight line in
// between and to the end (FAO-56 eq. 66).
func (c CropCoefficient) On(day int, s Stages) (float64, error) {
	if err := quantity.Within("day of the crop", float64(day), 1, float64(s.Total()), "", fao56); err != nil {
		return 0, err
	}
	d := day - s.Initial
	if d <= 0 {
		return c.Initial, nil
	}
	if d <= s.Development {
		return c.Initial + float64(d)/float64(s.Development)*(c.Middle-c.Initial), nil
	}
	d -= s.Development
	if d <= s.Middle {
		return c.Middle, nil
	}
	d -= s.Middle
	return c.Middle + float64(d)/float64(s.Late)*(c.End-c.Middle), nil
}

// CropEvapotranspiration returns the water that a well-watered crop uses, mm or
// litres on a square metre, from the reference in the same period (FAO-56 eq.
// 58). Reference 0 to 20 mm, coefficient 0 to 1.5.
func CropEvapotranspiration(reference Millimetres, coefficient float64) (Millimetres, error) {
	err := firstError(
		referenceBound.check(float64(reference)),
		coefficientBound.check(coefficient))
	if err != nil {
		return 0, err
	}
	return reference * Millimetres(coefficient), nil
}

// WaterUse returns the litres that an area of crop uses, from its
// evapotranspiration in mm. 0 to 30 mm, 0.01 to 100,000 m2.
func WaterUse(crop Millimetres, area quantity.SquareMetres) (quantity.Litres, error) {
	err := firstError(cropWaterBound.check(float64(crop)), bedArea(area))
	if err != nil {
		return 0, err
	}
	return quantity.Litres(float64(crop) * float64(area)), nil
}
