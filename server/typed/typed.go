// Package typed says what a reading was typed in: the contract's quantities,
// units and bases in husbandry's words.
package typed

import (
	"strings"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/quantity"
)

// Units are the contract's units in husbandry's table.
var Units = map[freshetv1.Unit]quantity.Unit{
	freshetv1.Unit_UNIT_NONE: quantity.NoUnit, freshetv1.Unit_UNIT_WORD: quantity.UnitRank,
	freshetv1.Unit_UNIT_CELSIUS: quantity.UnitCelsius, freshetv1.Unit_UNIT_FAHRENHEIT: quantity.UnitFahrenheit,
	freshetv1.Unit_UNIT_KELVIN: quantity.UnitKelvin, freshetv1.Unit_UNIT_MG_PER_L: quantity.UnitMgPerL,
	freshetv1.Unit_UNIT_UG_PER_L: quantity.UnitUgPerL, freshetv1.Unit_UNIT_MMOL_PER_L: quantity.UnitMmolPerL,
	freshetv1.Unit_UNIT_MEQ_PER_L: quantity.UnitMeqPerL, freshetv1.Unit_UNIT_DEGREES_KH: quantity.UnitDKH,
	freshetv1.Unit_UNIT_PPM_CACO3: quantity.UnitPpm, freshetv1.Unit_UNIT_PERCENT: quantity.UnitPercent,
	freshetv1.Unit_UNIT_US_PER_CM: quantity.UnitUSPerCm, freshetv1.Unit_UNIT_MS_PER_CM: quantity.UnitMSPerCm,
	freshetv1.Unit_UNIT_G_PER_KG: quantity.UnitGPerKg, freshetv1.Unit_UNIT_SPECIFIC_GRAVITY: quantity.UnitSpecificGravity,
	freshetv1.Unit_UNIT_L_PER_H: quantity.UnitLPerH, freshetv1.Unit_UNIT_L_PER_MIN: quantity.UnitLPerMin,
	freshetv1.Unit_UNIT_GAL_PER_MIN: quantity.UnitGallonPerMin, freshetv1.Unit_UNIT_GAL_PER_H: quantity.UnitGallonPerH,
	freshetv1.Unit_UNIT_M: quantity.UnitMetre, freshetv1.Unit_UNIT_CM: quantity.UnitCentimetre, freshetv1.Unit_UNIT_IN: quantity.UnitInch,
	freshetv1.Unit_UNIT_UMOL_PER_M2_S: quantity.UnitPhotonFlux, freshetv1.Unit_UNIT_LUX: quantity.UnitLux,
	freshetv1.Unit_UNIT_HPA: quantity.UnitHectopascal, freshetv1.Unit_UNIT_KPA: quantity.UnitKilopascal,
	freshetv1.Unit_UNIT_MMHG: quantity.UnitMmHg, freshetv1.Unit_UNIT_INHG: quantity.UnitInHg,
}

// Bases are the contract's bases in husbandry's table.
var Bases = map[freshetv1.Basis]quantity.Basis{
	freshetv1.Basis_BASIS_UNSPECIFIED: quantity.NoBasis, freshetv1.Basis_BASIS_AS_N: quantity.AsN, freshetv1.Basis_BASIS_AS_NH3: quantity.AsNH3,
	freshetv1.Basis_BASIS_AS_NH4: quantity.AsNH4, freshetv1.Basis_BASIS_AS_NO2: quantity.AsNO2, freshetv1.Basis_BASIS_AS_NO3: quantity.AsNO3,
	freshetv1.Basis_BASIS_AS_CACO3: quantity.AsCaCO3, freshetv1.Basis_BASIS_AS_P: quantity.AsP, freshetv1.Basis_BASIS_AS_PO4: quantity.AsPO4,
}

// Quantities is by the contract's number; the names are the same in both.
var Quantities = func() map[freshetv1.Quantity]quantity.Quantity {
	found := map[freshetv1.Quantity]quantity.Quantity{}
	for number, name := range freshetv1.Quantity_name {
		if q, err := quantity.ParseQuantity(strings.ToLower(strings.TrimPrefix(name, "QUANTITY_"))); err == nil {
			found[freshetv1.Quantity(number)] = q
		}
	}
	return found
}()

// Of gives a reading's quantity, unit and basis as husbandry names them;
// false where one of them is not known.
func Of(q freshetv1.Quantity, unit freshetv1.Unit, basis freshetv1.Basis) (quantity.Quantity, quantity.Unit, quantity.Basis, bool) {
	measured, ok1 := Quantities[q]
	u, ok2 := Units[unit]
	b, ok3 := Bases[basis]
	return measured, FittingUnit(measured, u, unit), FittingBasis(b, unit), ok1 && ok2 && ok3
}

// FittingUnit is the unit of a quantity: pH is a pure number on the wire and has a unit of its own in the table.
func FittingUnit(q quantity.Quantity, unit quantity.Unit, typed freshetv1.Unit) quantity.Unit {
	if q == quantity.Acidity && typed == freshetv1.Unit_UNIT_NONE {
		return quantity.UnitPH
	}
	return unit
}

// FittingBasis is the basis that goes with a unit: ppm of calcium carbonate says its basis itself.
func FittingBasis(basis quantity.Basis, typed freshetv1.Unit) quantity.Basis {
	if typed == freshetv1.Unit_UNIT_PPM_CACO3 {
		return quantity.AsCaCO3
	}
	return basis
}
