package crop

import "freshet.example/husbandry/quantity"

// photosyntheticShare is the share of sunlight's energy that plants can use,
// 400 to 700 nm, and molesPerMegajoule the light quanta in it: 4.57 umol in a
// joule (McCree 1972, Agricultural Meteorology 10:443, from memory).
const (
	photosyntheticShare = 0.45
	molesPerMegajoule   = 4.57
)

// DailyLight returns the light that plants can use in a day, mol/m2, from solar
// radiation outside, 0 to 50 MJ/m2, and the share that the cover lets through,
// 0 to 1 (open ground 1).
func DailyLight(solar MJPerM2, through quantity.Fraction) (MolPerM2, error) {
	err := firstError(radiation("solar radiation", solar),
		shareBound.checkAs("light let through by the cover", float64(through)))
	if err != nil {
		return 0, err
	}
	return MolPerM2(float64(solar) * photosyntheticShare * molesPerMegajoule * float64(through)), nil
}

// LampLight returns the light that lamps of a steady photon flux give in their
// hours, mol/m2. Flux 0 to 3000 umol/m2/s, 0 to 24 h.
func LampLight(flux quantity.PhotonFlux, lit quantity.Hours) (MolPerM2, error) {
	err := firstError(fluxBound.check(float64(flux)), lampBound.check(float64(lit)))
	if err != nil {
		return 0, err
	}
	const seconds = 3600.0 // in an hour
	const micro = 1e-6     // moles in a micromole
	return MolPerM2(float64(flux) * float64(lit) * seconds * micro), nil
}

// LightNeed returns the daily light with which the crop does well, mol/m2.
func LightNeed(crop string) (Figure, error) {
	c, err := Find(crop)
	if err != nil {
		return Figure{}, err
	}
	switch c.Kind {
	case Leafy, Herb:
		return Figure{12, 17, Practice}, nil
	case Fruiting, PerennialFruit:
		return Figure{20, 30, Practice}, nil
	}
	return Figure{15, 25, Practice}, nil
}
