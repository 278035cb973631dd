package quantity

// Pressures. For anything dissolved in water the station pressure counts: what
// the barometer shows at the site, not what a weather report gives reduced to
// sea level.
type (
	// Hectopascals is a pressure; a millibar is the same.
	Hectopascals float64
	// MillimetresOfMercury is a pressure.
	MillimetresOfMercury float64
	// InchesOfMercury is a pressure.
	InchesOfMercury float64
	// PoundsPerSquareInch is a pressure.
	PoundsPerSquareInch float64
)

const (
	hectopascalsPerAtmosphere = 1013.25                            // exact, by definition
	hectopascalsPerMmHg       = hectopascalsPerAtmosphere / 760    // the torr; the mmHg differs in the 7th figure
	hectopascalsPerInHg       = 25.4 * 13595.1 * 9.80665 * 0.00001 // mercury of 13595.1 kg/m3, NIST SP 811
	newtonsPerPound           = gramsPerPound / 1000 * 9.80665     // standard gravity
	hectopascalsPerPsi        = newtonsPerPound / (metresPerInch * metresPerInch) / 100
)

// Atmospheres converts exactly.
func (p Hectopascals) Atmospheres() Atmospheres { return Atmospheres(p / hectopascalsPerAtmosphere) }

// Hectopascals converts exactly.
func (p Atmospheres) Hectopascals() Hectopascals { return Hectopascals(p * hectopascalsPerAtmosphere) }

// Atmospheres converts exactly: 760 to the atmosphere.
func (p MillimetresOfMercury) Atmospheres() Atmospheres { return Atmospheres(p / 760) }

// MillimetresOfMercury converts exactly: 760 to the atmosphere.
func (p Atmospheres) MillimetresOfMercury() MillimetresOfMercury {
	return MillimetresOfMercury(p * 760)
}

// Hectopascals converts with mercury at 0 degC.
func (p InchesOfMercury) Hectopascals() Hectopascals { return Hectopascals(p * hectopascalsPerInHg) }

// Hectopascals converts exactly.
func (p PoundsPerSquareInch) Hectopascals() Hectopascals {
	return Hectopascals(p * hectopascalsPerPsi)
}

// Hectopascals converts exactly.
func (p Kilopascals) Hectopascals() Hectopascals { return Hectopascals(p * 10) }

// Atmospheres converts exactly.
func (p Kilopascals) Atmospheres() Atmospheres { return p.Hectopascals().Atmospheres() }

// Kilopascals converts exactly.
func (p Hectopascals) Kilopascals() Kilopascals { return Kilopascals(p / 10) }
