package quantity

import "math"

var nan = math.NaN()

// Canonical gives the value that is stored beside a reading as typed: in
// q.Unit() and q.Basis(). Salinity from a specific gravity takes the hydrometer
// as read at 25 degC. Without a basis, calcium and magnesium are the elements
// themselves and lux are daylight.
//
// A unit that does not measure q is a UnitError, a basis that does not fit, or
// that is missing where several are in use, is a BasisError, and a value
// outside q.Plausible() is a RangeError; each names what it refuses.
func Canonical(q Quantity, value float64, unit Unit, basis Basis) (float64, error) {
	form, err := accept(q, unit, basis)
	if err != nil {
		return nan, err
	}
	if err := finite(q.row().title, value); err != nil {
		return nan, err
	}
	v, err := form.canonical(units[unit].toBase(value))
	if err == nil {
		err = q.check(v)
	}
	if err != nil {
		return nan, err
	}
	return v, nil
}

// Express is the way back: it gives a canonical value in the unit and basis
// that a grower's kit or preference has. Errors are those of Canonical.
func Express(q Quantity, canonical float64, unit Unit, basis Basis) (float64, error) {
	form, err := accept(q, unit, basis)
	if err != nil {
		return nan, err
	}
	if err := q.check(canonical); err != nil {
		return nan, err
	}
	base, err := form.base(canonical)
	if err != nil {
		return nan, err
	}
	return units[unit].fromBase(base), nil
}

// Units lists the units in which the quantity may be given, the canonical one
// among them.
func (q Quantity) Units() []Unit {
	var fit []Unit
	for u := range unitCount {
		for _, a := range q.row().accepts {
			if units[u].kind == a.kind {
				fit = append(fit, u)
				break
			}
		}
	}
	return fit
}

// Bases lists the bases that go with a unit of the quantity. When there is one,
// it need not be given; when there are more, it must be, but for calcium,
// magnesium and light (see Canonical).
func (q Quantity) Bases(unit Unit) []Basis {
	if unit >= unitCount {
		return nil
	}
	var fit []Basis
	for _, a := range q.row().accepts {
		if a.kind == units[unit].kind && a.basis != NoBasis {
			fit = append(fit, a.basis)
		}
	}
	return fit
}

// accept finds the form in which the quantity is given.
func accept(q Quantity, unit Unit, basis Basis) (accepted, error) {
	row := q.row()
	if len(row.accepts) == 0 {
		return accepted{}, &QuantityError{Name: row.title}
	}
	var fit []accepted
	for _, a := range row.accepts {
		if unit < unitCount && a.kind == units[unit].kind {
			fit = append(fit, a)
		}
	}
	if len(fit) == 0 {
		return accepted{}, &UnitError{Unit: unit.String(), For: row.title, Allowed: symbols(q.Units())}
	}
	for _, a := range fit {
		if a.basis == basis || basis == NoBasis && (len(fit) == 1 || a.basis == row.unsaid) {
			return a, nil
		}
	}
	return accepted{}, &BasisError{basis.String(), row.title, unit.String(), symbols(q.Bases(unit))}
}

func (a accepted) canonical(base float64) (float64, error) {
	if a.kind == kindGravity {
		s, err := SpecificGravity(base).Salinity(hydrometerCelsius)
		return float64(s), err
	}
	return base * a.factor, nil
}

func (a accepted) base(canonical float64) (float64, error) {
	if a.kind == kindGravity {
		sg, err := Salinity(canonical).SpecificGravity(hydrometerCelsius)
		return float64(sg), err
	}
	return canonical / a.factor, nil
}

// check refuses what no reading can be.
func (q Quantity) check(v float64) error {
	row := q.row()
	unit := row.unit.String()
	if row.unit == UnitPH {
		unit = "" // the name says it
	}
	err := Within(row.title, v, row.low, row.high, unit, "plausible readings")
	if err == nil && row.words != nil && v != math.Trunc(v) {
		return &QuantityError{Name: plain(v), For: row.title, Allowed: row.words}
	}
	return err
}

// finite refuses what is not a number, or has no end.
func finite(name string, v float64) error {
	return Within(name, v, -math.MaxFloat64, math.MaxFloat64, "", OwnBounds)
}

// symbols names units or bases.
func symbols[T interface{ String() string }](list []T) []string {
	names := make([]string, len(list))
	for i, item := range list {
		names[i] = item.String()
	}
	return names
}
