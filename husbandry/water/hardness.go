package water

import "freshet.example/husbandry/quantity"

// Hardness is the total hardness of water with the given calcium and magnesium,
// 0 to 1e5 mg/L each. Source: atomic weights.
func Hardness(calcium quantity.CalciumCa, magnesium quantity.MagnesiumMg) (quantity.HardnessCaCO3, error) {
	if err := first(checkLoad("calcium", float64(calcium)), checkLoad("magnesium", float64(magnesium))); err != nil {
		return quantity.HardnessCaCO3(nan), err
	}
	return calcium.CaCO3() + magnesium.CaCO3(), nil
}
