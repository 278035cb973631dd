package server

import (
	"errors"
	"math"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/quantity"
	"freshet.example/server/typed"
)

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
	q, ok := typed.Quantities[r.quantity]
	if !ok {
		return 0, fault(freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_VALUE, path+".quantity", "")
	}
	unit, ok := typed.Units[r.unit]
	if !ok {
		return 0, fault(freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_VALUE, path+".unit", "")
	}
	basis, ok := typed.Bases[r.basis]
	if !ok {
		return 0, fault(freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_VALUE, path+".basis", "")
	}
	if r.decimals > 9 {
		return 0, fault(freshetv1.ErrorReason_ERROR_REASON_OUT_OF_RANGE, path+".decimals", "")
	}
	v, err := quantity.Canonical(q, float64(r.digits)/powers[r.decimals], typed.FittingUnit(q, unit, r.unit), typed.FittingBasis(basis, r.unit))
	if err != nil {
		return 0, canonicalFault(path, err)
	}
	return int64(math.Round(v * 1e6)), nil
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
