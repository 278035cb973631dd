package server

import (
	"errors"
	"math"
	"strings"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/quantity"
)

// unitsOf and basesOf are the contract's units and bases in husbandry's table.
var unitsOf = map[freshetv1.Unit]quantity.Unit{
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

var basesOf = map[freshetv1.Basis]quantity.Basis{
	freshetv1.Basis_BASIS_UNSPECIFIED: quantity.NoBasis, freshetv1.Basis_BASIS_AS_N: quantity.AsN, freshetv1.Basis_BASIS_AS_NH3: quantity.AsNH3,
	freshetv1.Basis_BASIS_AS_NH4: quantity.AsNH4, freshetv1.Basis_BASIS_AS_NO2: quantity.AsNO2, freshetv1.Basis_BASIS_AS_NO3: quantity.AsNO3,
	freshetv1.Basis_BASIS_AS_CACO3: quantity.AsCaCO3, freshetv1.Basis_BASIS_AS_P: quantity.AsP, freshetv1.Basis_BASIS_AS_PO4: quantity.AsPO4,
}

// quantitiesOf is by the contract's number; the names are the same in both.
var quantitiesOf = func() map[freshetv1.Quantity]quantity.Quantity {
	found := map[freshetv1.Quantity]quantity.Quantity{}
	for number, name := range freshetv1.Quantity_name {
		if q, err := quantity.ParseQuantity(strings.ToLower(strings.TrimPrefix(name, "QUANTITY_"))); err == nil {
			found[freshetv1.Quantity(number)] = q
		}
	}
	return found
}()

// Typed gives a reading's quantity, unit and basis as husbandry names them;
// false where one of them is not known.
func Typed(q freshetv1.Quantity, unit freshetv1.Unit, basis freshetv1.Basis) (quantity.Quantity, quantity.Unit, quantity.Basis, bool) {
	measured, ok1 := quantitiesOf[q]
	u, ok2 := unitsOf[unit]
	b, ok3 := basesOf[basis]
	return measured, fittingUnit(measured, u, unit), fittingBasis(b, unit), ok1 && ok2 && ok3
}

// typedReading is what decides a reading's canonical value.
type typedReading struct {
	quantity freshetv1.Quantity
	digits   int64
	decimals uint32
	unit     freshetv1.Unit
	basis    freshetv1.Basis
}

// canonical gives the canonical value in millionths, or the fault with its field's name below path.
func (r typedReading) canonical(path string) (int64, *refusal) {
	q, ok := quantitiesOf[r.quantity]
	if !ok {
		return 0, fault(freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_VALUE, path+".quantity", "")
	}
	unit, ok := unitsOf[r.unit]
	if !ok {
		return 0, fault(freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_VALUE, path+".unit", "")
	}
	basis, ok := basesOf[r.basis]
	if !ok {
		return 0, fault(freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_VALUE, path+".basis", "")
	}
	if r.decimals > 9 {
		return 0, fault(freshetv1.ErrorReason_ERROR_REASON_OUT_OF_RANGE, path+".decimals", "")
	}
	v, err := quantity.Canonical(q, float64(r.digits)/powers[r.decimals], fittingUnit(q, unit, r.unit), fittingBasis(basis, r.unit))
	if err != nil {
		return 0, canonicalFault(path, err)
	}
	return int64(math.Round(v * 1e6)), nil
}

// fittingUnit: pH is a pure number on the wire and has a unit of its own in the table.
func fittingUnit(q quantity.Quantity, unit quantity.Unit, typed freshetv1.Unit) quantity.Unit {
	if q == quantity.Acidity && typed == freshetv1.Unit_UNIT_NONE {
		return quantity.UnitPH
	}
	return unit
}

// fittingBasis: ppm of calcium carbonate says its basis itself.
func fittingBasis(basis quantity.Basis, typed freshetv1.Unit) quantity.Basis {
	if typed == freshetv1.Unit_UNIT_PPM_CACO3 {
		return quantity.AsCaCO3
	}
	return basis
}

var powers = [10]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9}

func canonicalFault(path string, err error) *refusal {
	if _, ok := errors.AsType[*quantity.UnitError](err); ok {
		return fault(freshetv1.ErrorReason_ERROR_REASON_UNIT_MISMATCH, path+".unit", err.Error())
	}
	if _, ok := errors.AsType[*quantity.BasisError](err); ok {
		return fault(freshetv1.ErrorReason_ERROR_REASON_BASIS_MISMATCH, path+".basis", err.Error())
	}
	return fault(freshetv1.ErrorReason_ERROR_REASON_OUT_OF_RANGE, path+".digits", err.Error())
}
