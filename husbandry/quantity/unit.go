package quantity

import "strings"

// A Unit is a unit as a person types or picks it. Its String is its symbol,
// in plain ASCII, and is stable: it is what records and messages carry.
type Unit uint8

// The units that are understood. NoUnit is for pure numbers.
const (
	NoUnit Unit = iota

	UnitCelsius
	UnitFahrenheit
	UnitKelvin

	UnitPH

	UnitMgPerL
	UnitPpm
	UnitUgPerL
	UnitPpb
	UnitGPerL
	UnitMmolPerL
	UnitUmolPerL
	UnitMeqPerL
	UnitDKH
	UnitDGH
	UnitFrenchDegree
	UnitClarkDegree
	UnitGrainPerGallon

	UnitGPerKg
	UnitPpt
	UnitPSU
	UnitSpecificGravity

	UnitPercent

	UnitUSPerCm
	UnitMSPerCm
	UnitDSPerM
	UnitConductivityFactor

	UnitLPerH
	UnitLPerMin
	UnitLPerS
	UnitLPerDay
	UnitM3PerH
	UnitGallonPerMin
	UnitGallonPerH
	UnitGallonPerDay

	UnitMetre
	UnitCentimetre
	UnitMillimetre
	UnitFoot
	UnitInch

	UnitPhotonFlux
	UnitLux
	UnitFootCandle

	UnitHectopascal
	UnitMillibar
	UnitKilopascal
	UnitPascal
	UnitBar
	UnitAtmosphere
	UnitMmHg
	UnitInHg
	UnitPsi

	UnitLitre
	UnitMillilitre
	UnitM3
	UnitGallon
	UnitQuart
	UnitPint
	UnitCup
	UnitFluidOunce
	UnitCubicFoot
	UnitAcreFoot
	UnitImperialGallon

	UnitSquareMetre
	UnitHectare
	UnitSquareFoot
	UnitAcre

	UnitGram
	UnitMilligram
	UnitKilogram
	UnitTonne
	UnitPound
	UnitOunce
	UnitShortTon

	UnitGPerM2
	UnitKgPerM2
	UnitTonnePerHectare
	UnitPoundPerFt2
	UnitShortTonPerAcre

	UnitRank

	unitCount
)

// String gives the symbol: "mg/L", "degF", "gal".
func (u Unit) String() string {
	if u >= unitCount {
		return "unknown unit"
	}
	return units[u].symbol
}

// Units lists every unit but NoUnit.
func Units() []Unit {
	all := make([]Unit, 0, unitCount)
	for u := NoUnit + 1; u < unitCount; u++ {
		all = append(all, u)
	}
	return all
}

// A UnitError says that a unit is not known, or does not fit what it is asked
// for.
type UnitError struct {
	Unit    string   // as given
	For     string   // the quantity or the other unit it does not fit; empty when the unit is unknown
	Allowed []string // symbols that would fit
}

// Error reads as one sentence.
func (e *UnitError) Error() string {
	if e.For == "" {
		return "unit \"" + e.Unit + "\" is not known"
	}
	s := "unit \"" + e.Unit + "\" does not fit " + e.For
	if e.Allowed != nil {
		s += "; use " + strings.Join(e.Allowed, ", ")
	}
	return s
}

// Convert turns a value from one unit into another of the same kind: gal into
// L, degF into degC, short ton/acre into g/m2. Units of different kinds are a
// UnitError; a value that is not finite is a RangeError.
func Convert(value float64, from, to Unit) (float64, error) {
	if from >= unitCount || to >= unitCount || units[from].kind != units[to].kind {
		return nan, &UnitError{Unit: from.String(), For: to.String(), Allowed: symbolsOf(to)}
	}
	if err := finite(from.String(), value); err != nil {
		return nan, err
	}
	v := units[to].fromBase(units[from].toBase(value))
	return v, finite(to.String(), v)
}

// symbolsOf lists the units of the same kind as u.
func symbolsOf(u Unit) []string {
	if u >= unitCount {
		return nil
	}
	var symbols []string
	for _, other := range units {
		if other.kind == units[u].kind && other.symbol != "" {
			symbols = append(symbols, other.symbol)
		}
	}
	return symbols
}
