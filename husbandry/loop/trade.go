package loop

import "freshet.example/husbandry/quantity"

// tradeSizes are the columns of tradeTable.
var tradeSizes = [...]NominalInches{0.75, 1, 1.25, 1.5, 2, 2.5, 3, 4}

// A tradeRow is one flow of the table and the feet lost in 100 feet of pipe of
// each size; zero where the table is empty.
type tradeRow struct {
	gpm  quantity.USGallonsPerMinute
	loss [8]float64
}

// tradeLength is the length of pipe that the table prints losses for.
const tradeLength quantity.Feet = 100

// tradeTable: a pump maker's friction table for schedule 40 plastic, as printed
// in an installer's manual (feet of head per 100 feet).
var tradeTable = [...]tradeRow{
	{1, [8]float64{0.356, 0.11}},
	{2, [8]float64{1.21, 0.38, 0.10}},
	{3, [8]float64{2.51, 0.77, 0.21, 0.10}},
	{4, [8]float64{4.21, 1.30, 0.35, 0.16}},
	{5, [8]float64{6.33, 1.92, 0.51, 0.24}},
	{6, [8]float64{8.83, 2.69, 0.71, 0.33, 0.10}},
	{8, [8]float64{15.18, 4.58, 1.19, 0.55, 0.17}},
	{10, [8]float64{25.98, 6.88, 1.78, 0.83, 0.25, 0.11}},
	{15, [8]float64{49.68, 14.63, 3.75, 1.74, 0.52, 0.22}},
	{20, [8]float64{86.94, 25.07, 6.39, 2.94, 0.86, 0.36, 0.13}},
	{25, [8]float64{0, 38.41, 9.71, 4.44, 1.29, 0.54, 0.19}},
	{30, [8]float64{0, 0, 13.62, 6.26, 1.81, 0.75, 0.26}},
	{35, [8]float64{0, 0, 18.17, 8.37, 2.42, 1.00, 0.35, 0.09}},
	{40, [8]float64{0, 0, 23.55, 10.70, 3.11, 1.28, 0.44, 0.12}},
	{45, [8]float64{0, 0, 29.44, 13.46, 3.84, 1.54, 0.55, 0.15}},
	{50, [8]float64{0, 0, 0, 16.45, 4.67, 1.93, 0.66, 0.17}},
	{60, [8]float64{0, 0, 0, 23.48, 6.60, 2.71, 0.93, 0.25}},
	{70, [8]float64{0, 0, 0, 0, 8.83, 3.66, 1.24, 0.33}},
	{80, [8]float64{0, 0, 0, 0, 11.43, 4.67, 1.58, 0.41}},
	{90, [8]float64{0, 0, 0, 0, 14.26, 5.82, 1.98, 0.52}},
	{100, [8]float64{0, 0, 0, 0, 0, 7.11, 2.42, 0.63}},
	{125, [8]float64{0, 0, 0, 0, 0, 10.83, 3.80, 0.95}},
	{150, [8]float64{0, 0, 0, 0, 0, 0, 5.15, 1.33}},
	{175, [8]float64{0, 0, 0, 0, 0, 0, 6.90, 1.78}},
	{200, [8]float64{0, 0, 0, 0, 0, 0, 8.90, 2.27}},
}

// TradeFriction returns the head lost in a length of schedule 40 plastic by the
// pump maker's table, which prints it for 100 feet. Flows and sizes that are not
// printed are refused, not interpolated.
func TradeFriction(nominal NominalInches, flow quantity.USGallonsPerMinute, length quantity.Feet) (quantity.Feet, error) {
	if err := lengthBound.check(float64(length.Metres())); err != nil {
		return 0, err
	}
	for _, row := range tradeTable {
		if row.gpm != flow {
			continue
		}
		for i, size := range tradeSizes {
			if size == nominal && row.loss[i] > 0 {
				return quantity.Feet(row.loss[i]) * length / tradeLength, nil
			}
		}
	}
	return 0, &UnknownError{"cell of the pump maker's friction table", short(float64(nominal)) + " inch, " + short(float64(flow)) + " gpm"}
}

// smoothPlastic is the Hazen-Williams C of new plastic pipe.
const smoothPlastic = 150

// TradeBias returns the printed friction over that of Hazen-Williams at C 150
// with the true inside diameter: mostly 1.1 to 1.3. Makers print for older,
// rougher pipe; the larger figure is the one to size by.
func TradeBias(nominal NominalInches, flow quantity.USGallonsPerMinute) (float64, error) {
	printed, err := TradeFriction(nominal, flow, tradeLength)
	inside, insideErr := InsideDiameter(nominal)
	smooth, smoothErr := HazenWilliams(tradeLength.Metres(), inside, flow.LitresPerMinute(), smoothPlastic)
	if err := firstError(err, insideErr, smoothErr); err != nil {
		return 0, err
	}
	return float64(printed.Metres() / smooth), nil
}
