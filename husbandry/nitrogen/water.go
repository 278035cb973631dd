package nitrogen

import "freshet.example/husbandry/quantity"

const maxReading = 1e5 // mg/L as N

// DissolvedN returns the nitrogen dissolved in 0 to 1e9 L of water, from its
// ammonia, nitrite and nitrate, each 0 to 1e5 mg/L as N. Nitrogen in dissolved
// organic matter is not counted.
func DissolvedN(volume quantity.Litres, ammonia quantity.AmmoniaN, nitrite quantity.NitriteN, nitrate quantity.NitrateN) (GramsN, error) {
	if err := quantity.Within("volume", float64(volume), 0, maxGrams, "L", quantity.OwnBounds); err != nil {
		return 0, err
	}
	for _, r := range [...]float64{float64(ammonia), float64(nitrite), float64(nitrate)} {
		if err := quantity.Within("dissolved nitrogen", r, 0, maxReading, "mg/L as N", quantity.OwnBounds); err != nil {
			return 0, err
		}
	}
	return GramsN(float64(volume) * (float64(ammonia) + float64(nitrite) + float64(nitrate)) / mgPerGram), nil
}
