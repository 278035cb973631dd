package quantity

// Factors between bases of the nitrogen species. They agree with the factors
// printed for test kits: 1.21589, 1.28786, 3.28443, 4.42664.
const (
	nh3PerN = WeightNH3 / WeightN
	nh4PerN = WeightNH4 / WeightN
	no2PerN = WeightNO2 / WeightN
	no3PerN = WeightNO3 / WeightN
)

// N counts the same ammonia as nitrogen.
func (a AmmoniaNH3) N() AmmoniaN { return AmmoniaN(a / nh3PerN) }

// N counts the same ammonia as nitrogen.
func (a AmmoniaNH4) N() AmmoniaN { return AmmoniaN(a / nh4PerN) }

// NH3 counts the same ammonia as NH3.
func (a AmmoniaN) NH3() AmmoniaNH3 { return AmmoniaNH3(a * nh3PerN) }

// NH4 counts the same ammonia as NH4.
func (a AmmoniaN) NH4() AmmoniaNH4 { return AmmoniaNH4(a * nh4PerN) }

// N counts the same nitrite as nitrogen.
func (a NitriteIon) N() NitriteN { return NitriteN(a / no2PerN) }

// Ion counts the same nitrite as NO2.
func (a NitriteN) Ion() NitriteIon { return NitriteIon(a * no2PerN) }

// N counts the same nitrate as nitrogen.
func (a NitrateIon) N() NitrateN { return NitrateN(a / no3PerN) }

// Ion counts the same nitrate as NO3.
func (a NitrateN) Ion() NitrateIon { return NitrateIon(a * no3PerN) }
