package words

import (
	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/quantity"
)

// A carried unit is how the contract carries a unit that a person types. Shift
// is how many digits the point moves, where the contract has only the unit a
// power of ten away.
type carried struct {
	typed quantity.Unit
	as    freshetv1.Unit
	shift int
}

// carriedUnits lists them; the first row of a contract unit is how it is shown.
var carriedUnits = []carried{
	{quantity.UnitCelsius, freshetv1.Unit_UNIT_CELSIUS, 0},
	{quantity.UnitFahrenheit, freshetv1.Unit_UNIT_FAHRENHEIT, 0},
	{quantity.UnitKelvin, freshetv1.Unit_UNIT_KELVIN, 0},
	{quantity.UnitPH, freshetv1.Unit_UNIT_NONE, 0},
	{quantity.UnitMgPerL, freshetv1.Unit_UNIT_MG_PER_L, 0},
	{quantity.UnitPpm, freshetv1.Unit_UNIT_MG_PER_L, 0},
	{quantity.UnitGPerL, freshetv1.Unit_UNIT_MG_PER_L, 3},
	{quantity.UnitUgPerL, freshetv1.Unit_UNIT_UG_PER_L, 0},
	{quantity.UnitPpb, freshetv1.Unit_UNIT_UG_PER_L, 0},
	{quantity.UnitMmolPerL, freshetv1.Unit_UNIT_MMOL_PER_L, 0},
	{quantity.UnitUmolPerL, freshetv1.Unit_UNIT_MMOL_PER_L, -3},
	{quantity.UnitMeqPerL, freshetv1.Unit_UNIT_MEQ_PER_L, 0},
	{quantity.UnitDKH, freshetv1.Unit_UNIT_DEGREES_KH, 0},
	{quantity.UnitDGH, freshetv1.Unit_UNIT_DEGREES_KH, 0},
	{quantity.UnitPercent, freshetv1.Unit_UNIT_PERCENT, 0},
	{quantity.UnitUSPerCm, freshetv1.Unit_UNIT_US_PER_CM, 0},
	{quantity.UnitMSPerCm, freshetv1.Unit_UNIT_MS_PER_CM, 0},
	{quantity.UnitDSPerM, freshetv1.Unit_UNIT_MS_PER_CM, 0},
	{quantity.UnitGPerKg, freshetv1.Unit_UNIT_G_PER_KG, 0},
	{quantity.UnitPpt, freshetv1.Unit_UNIT_G_PER_KG, 0},
	{quantity.UnitPSU, freshetv1.Unit_UNIT_G_PER_KG, 0},
	{quantity.UnitSpecificGravity, freshetv1.Unit_UNIT_SPECIFIC_GRAVITY, 0},
	{quantity.UnitLPerH, freshetv1.Unit_UNIT_L_PER_H, 0},
	{quantity.UnitM3PerH, freshetv1.Unit_UNIT_L_PER_H, 3},
	{quantity.UnitLPerMin, freshetv1.Unit_UNIT_L_PER_MIN, 0},
	{quantity.UnitGallonPerMin, freshetv1.Unit_UNIT_GAL_PER_MIN, 0},
	{quantity.UnitGallonPerH, freshetv1.Unit_UNIT_GAL_PER_H, 0},
	{quantity.UnitMetre, freshetv1.Unit_UNIT_M, 0},
	{quantity.UnitCentimetre, freshetv1.Unit_UNIT_CM, 0},
	{quantity.UnitMillimetre, freshetv1.Unit_UNIT_CM, -1},
	{quantity.UnitInch, freshetv1.Unit_UNIT_IN, 0},
	{quantity.UnitPhotonFlux, freshetv1.Unit_UNIT_UMOL_PER_M2_S, 0},
	{quantity.UnitLux, freshetv1.Unit_UNIT_LUX, 0},
	{quantity.UnitHectopascal, freshetv1.Unit_UNIT_HPA, 0},
	{quantity.UnitMillibar, freshetv1.Unit_UNIT_HPA, 0},
	{quantity.UnitPascal, freshetv1.Unit_UNIT_HPA, -2},
	{quantity.UnitKilopascal, freshetv1.Unit_UNIT_KPA, 0},
	{quantity.UnitMmHg, freshetv1.Unit_UNIT_MMHG, 0},
	{quantity.UnitInHg, freshetv1.Unit_UNIT_INHG, 0},
	{quantity.UnitRank, freshetv1.Unit_UNIT_WORD, 0},
}

func carry(u quantity.Unit) (carried, bool) {
	for _, c := range carriedUnits {
		if c.typed == u {
			return c, true
		}
	}
	return carried{}, false
}

// typedUnit is how a unit of the contract is typed and shown for a quantity.
func typedUnit(u freshetv1.Unit, q quantity.Quantity) quantity.Unit {
	if q == quantity.Hardness && u == freshetv1.Unit_UNIT_DEGREES_KH {
		return quantity.UnitDGH
	}
	for _, c := range carriedUnits {
		if c.as == u {
			return c.typed
		}
	}
	return quantity.NoUnit
}

var carriedBases = map[quantity.Basis]freshetv1.Basis{
	quantity.AsN: freshetv1.Basis_BASIS_AS_N, quantity.AsNH3: freshetv1.Basis_BASIS_AS_NH3,
	quantity.AsNH4: freshetv1.Basis_BASIS_AS_NH4, quantity.AsNO2: freshetv1.Basis_BASIS_AS_NO2,
	quantity.AsNO3: freshetv1.Basis_BASIS_AS_NO3, quantity.AsCaCO3: freshetv1.Basis_BASIS_AS_CACO3,
	quantity.AsP: freshetv1.Basis_BASIS_AS_P, quantity.AsPO4: freshetv1.Basis_BASIS_AS_PO4,
}

// typedBasis is how a basis of the contract is typed and shown.
func typedBasis(b freshetv1.Basis) quantity.Basis {
	for typed, as := range carriedBases {
		if as == b {
			return typed
		}
	}
	return quantity.NoBasis
}
