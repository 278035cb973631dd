package quantity

import "math"

// Light.
type (
	// PhotonFlux is light that plants use (400 to 700 nm), umol/m2/s.
	PhotonFlux float64
	// Lux is light as the human eye weighs it.
	Lux float64
)

// Lux in one umol/m2/s, by lamp: a lux meter must be told what it stands under.
// Source: Thimijan & Heins 1983, HortScience 18:818-822, table 3.
const (
	luxPerFluxSun         = 54
	luxPerFluxFluorescent = 74
	luxPerFluxHalide      = 71
	luxPerFluxSodium      = 82
)

// PhotonFlux turns a lux reading into the light that plants use. The basis
// says what shines: UnderSun, UnderFluorescent (cool white), UnderHalide or
// UnderSodium (high pressure); none is taken as daylight, any other is an error. Lamps of other
// spectra, LEDs above all, need a quantum meter.
// Source: Thimijan & Heins 1983.
func (l Lux) PhotonFlux(basis Basis) (PhotonFlux, error) {
	v, err := Canonical(Light, float64(l), UnitLux, basis)
	if err != nil {
		return PhotonFlux(math.NaN()), err
	}
	return PhotonFlux(v), nil
}
