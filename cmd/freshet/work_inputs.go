package main

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"freshet.example/cmd/freshet/words"
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// workInputs reads name=value words for a formula. A value may carry a unit,
// which is turned into the input's; a name may leave the unit out.
// American tells that one carried a US customary unit, behind its value or at the
// end of its name.
func workInputs(f *formula.Formula, args []string) (typed map[string]string, american bool, err error) {
	typed = map[string]string{}
	for _, arg := range args {
		name, value, found := strings.Cut(arg, "=")
		if !found {
			return nil, false, wrong("\""+arg+"\" is no name=value", "freshet work "+f.Name+" says what it needs")
		}
		american = american || isAmerican(value) || isAmerican(value+name[strings.LastIndex(name, "_")+1:])
		name, value, err := workInput(f, strings.TrimSpace(name), strings.TrimSpace(value))
		if err != nil {
			return nil, false, err
		}
		typed[name] = value
	}
	return typed, american, nil
}

// americanFor is the US customary unit for a metric one.
var americanFor = map[string]string{
	"degC": "degF", "L": "gal", "mL": "floz", "m3": "ft3", "L/min": "gpm", "L/h": "gph", "L/d": "gpd", "kg": "lb", "g": "oz",
	"m": "ft", "cm": "in", "mm": "in", "m2": "ft2", "kg/m2": "lb/ft2", "kPa": "psi", "hPa": "inHg",
}

// isAmerican reports a value with a US customary unit.
func isAmerican(value string) bool {
	m, err := quantity.ParseMeasure(value)
	if err != nil {
		return false
	}
	switch m.Unit {
	case quantity.UnitFahrenheit, quantity.UnitGallon, quantity.UnitQuart, quantity.UnitPint, quantity.UnitCup, quantity.UnitFluidOunce, quantity.UnitCubicFoot,
		quantity.UnitGallonPerMin, quantity.UnitGallonPerH, quantity.UnitGallonPerDay, quantity.UnitPound, quantity.UnitOunce,
		quantity.UnitFoot, quantity.UnitInch, quantity.UnitSquareFoot, quantity.UnitAcre, quantity.UnitPoundPerFt2, quantity.UnitPsi:
		return true
	}
	return false
}

// americanOf is the US customary unit of an answer, and how it is changed into
// that; nil where it has none. What is a day's keeps its day, and what weighs a
// pound is told in pounds.
func americanOf(a formula.Answer) (to string, change func(float64) float64) {
	from, per, rate := strings.Cut(a.Unit, "/")
	if whole, ok := americanFor[a.Unit]; ok {
		from, to, rate = a.Unit, whole, false
	} else if to, ok = americanFor[from]; !ok || !slices.Contains([]string{"d", "day", "h", "wk", "week", "month", "a", "year"}, per) {
		return "", nil
	}
	if to == "oz" && (a.Value >= poundGrams || a.High >= poundGrams) {
		to = "lb"
	}
	f, _, err := quantity.ParseUnit(from)
	t, _, err2 := quantity.ParseUnit(to)
	if err != nil || err2 != nil {
		return "", nil
	}
	if rate {
		to += "/" + per
	}
	return to, func(v float64) float64 {
		out, err := quantity.Convert(v, f, t)
		if err != nil {
			return math.NaN()
		}
		return out
	}
}

const poundGrams = 453.59237

func workInput(f *formula.Formula, name, value string) (fullName, plain string, err error) {
	in, given, whole := inputNamed(f, name)
	if in == nil {
		in, given, name, value = unitNamed(f, name, value)
	}
	if in == nil || len(in.Choices) > 0 || strings.ContainsAny(value, "[;") {
		return given, value, nil // the formula itself says what is wrong, or reads lists and words
	}
	if share, ok := shareOfHundred(in, value); ok {
		return given, share, nil
	}
	m, err := quantity.ParseMeasure(value)
	if unit, unknown := unitUnknown(err, value); unknown && in.Unit != "" {
		return "", "", wrong("\""+unit+"\" is no unit known here", "give "+name+" in "+in.Unit+": "+in.Name+"=...")
	}
	if err != nil && strings.ContainsAny(value, ", ") {
		return given, value, nil
	}
	if err != nil || m.Unit == quantity.NoUnit {
		if !whole && err == nil && in.Unit != "" {
			return "", "", wrong(name+" needs its unit", "write "+typedAs(name, value+in.Unit)+" or "+in.Name+"="+value)
		}
		return given, value, nil
	}
	v, err := inUnitOf(in, name, m)
	if err != nil {
		return "", "", err
	}
	return in.Name, m.Censored.String() + strconv.FormatFloat(v, 'g', -1, 64), nil
}

// typedAs is a name=value as a shell takes it.
func typedAs(name, value string) string {
	if strings.Contains(value, " ") {
		return "\"" + name + "=" + value + "\""
	}
	return name + "=" + value
}

// unitUnknown finds the word behind a number that is no unit: "1 bushel".
func unitUnknown(err error, value string) (unit string, unknown bool) {
	number, unit, two := strings.Cut(value, " ")
	if err == nil || !two || strings.ContainsAny(unit, "0123456789, ") {
		return "", false
	}
	m, err := quantity.ParseMeasure(number)
	return unit, err == nil && m.Unit == quantity.NoUnit
}

// inUnitOf gives a measure in an input's own unit and basis. What a kit reads in
// another basis of nitrogen is counted anew; what it reads in none is asked for.
func inUnitOf(in *formula.Input, name string, m quantity.Measure) (float64, error) {
	to, basis, err := quantity.ParseUnit(in.Unit)
	if err != nil {
		return 0, wrong(name+" takes no unit here", "give it in "+in.Unit+": "+in.Name+"=...")
	}
	if q, ok := nitrogenOf(in, to, basis); ok && m.Basis != quantity.AsN && (m.Basis != quantity.NoBasis || name != "tan" && name != in.Name) {
		v, err := m.Canonical(q)
		if err != nil {
			return 0, wrong(words.Degrees(err.Error()), "write "+typedAs(name, m.String()+" as N")+", or as what your kit reads")
		}
		return v, nil
	}
	if m.Basis != quantity.NoBasis && m.Basis != basis {
		return 0, wrong(name+" is wanted as "+basis.String()+", not as "+m.Basis.String(), "freshet work lists formulas that change the basis")
	}
	if m.Unit == quantity.UnitDKH && to == quantity.UnitMgPerL && basis == quantity.AsCaCO3 { // as kits for alkalinity read
		return float64(quantity.DegreesKH(m.Value()).CaCO3()), nil
	}
	if to == quantity.UnitKelvin && m.Unit == quantity.UnitFahrenheit { // by how much, not how warm
		return m.Value() * kelvinPerFahrenheit, nil
	}
	if to == quantity.UnitKelvin && m.Unit == quantity.UnitCelsius {
		return m.Value(), nil
	}
	v, err := quantity.Convert(m.Value(), m.Unit, to)
	if err != nil {
		return 0, wrong(words.Degrees(err.Error()), "give it in "+in.Unit)
	}
	return v, nil
}

const kelvinPerFahrenheit = 5.0 / 9

// nitrogenOf says which form of nitrogen an input is, where it is counted as
// nitrogen in mg/L, as those are kept.
func nitrogenOf(in *formula.Input, unit quantity.Unit, basis quantity.Basis) (quantity.Quantity, bool) {
	if unit != quantity.UnitMgPerL || basis != quantity.AsN {
		return quantity.UnknownQuantity, false
	}
	for word, q := range map[string]quantity.Quantity{"ammonia": quantity.TotalAmmonia, "nitrite": quantity.Nitrite, "nitrate": quantity.Nitrate} {
		if strings.HasPrefix(in.Meaning, word) || strings.HasPrefix(in.Meaning, "total "+word) {
			return q, true
		}
	}
	return quantity.UnknownQuantity, false
}

// shareOfHundred reads percent where a share of one is wanted: "40%" is 0.4.
func shareOfHundred(in *formula.Input, value string) (string, bool) {
	number, found := strings.CutSuffix(value, "%")
	m, err := quantity.ParseMeasure(number)
	if !found || err != nil || m.Unit != quantity.NoUnit || in.High > 1 || in.High <= 0 || strings.Contains(in.Unit, "%") {
		return "", false
	}
	m.Decimals += 2
	return m.Censored.String() + strconv.FormatFloat(m.Value(), 'g', -1, 64), true
}

// unitNamed finds the input of a name that ends in another unit than its own, and
// puts that unit behind the value: volume_gal=300 is volume=300gal.
func unitNamed(f *formula.Formula, name, value string) (in *formula.Input, given, stem, measure string) {
	at := strings.LastIndex(name, "_")
	if at < 1 {
		return nil, name, name, value
	}
	unit, basis, err := quantity.ParseUnit(name[at+1:])
	m, other := quantity.ParseMeasure(value)
	if err != nil || other != nil || unit == quantity.NoUnit || basis != quantity.NoBasis || m.Unit != quantity.NoUnit {
		return nil, name, name, value
	}
	if in, given, _ = inputNamed(f, name[:at]); in == nil {
		return nil, name, name, value
	}
	return in, given, name[:at], value + name[at+1:]
}

// inputNamed finds the input that a name means: its own, one of its other
// names, its own without the unit, or what the one input is that says the name's
// words of itself: ammonia is the total ammonia. Whole tells that the name says the
// unit.
func inputNamed(f *formula.Formula, name string) (in *formula.Input, given string, whole bool) {
	for i := range f.Inputs {
		if f.Inputs[i].Name == name {
			return &f.Inputs[i], name, true
		}
	}
	for i := range f.Inputs {
		for _, also := range f.Inputs[i].Also {
			if also.Name == name {
				return &f.Inputs[i], name, true
			}
		}
	}
	for i := range f.Inputs {
		if strings.HasPrefix(f.Inputs[i].Name, name+"_") {
			return &f.Inputs[i], f.Inputs[i].Name, f.Inputs[i].Unit == ""
		}
	}
	for i := range f.Inputs {
		for _, also := range f.Inputs[i].Also {
			if strings.HasPrefix(also.Name, name+"_") {
				return &f.Inputs[i], f.Inputs[i].Name, f.Inputs[i].Unit == ""
			}
		}
	}
	for i := range f.Inputs {
		if !means(f.Inputs[i].Meaning, name) {
			continue
		}
		if in != nil {
			return nil, name, true // it could be either
		}
		in = &f.Inputs[i]
	}
	if in != nil {
		return in, in.Name, in.Unit == ""
	}
	return nil, name, true
}

// means tells whether a meaning holds all words of a name.
func means(meaning, name string) bool {
	said := strings.FieldsFunc(strings.ToLower(meaning), func(r rune) bool { return strings.ContainsRune(" ,;:()", r) })
	for _, word := range strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return strings.ContainsRune("_- ", r) }) {
		if !slices.Contains(said, word) {
			return false
		}
	}
	return name != ""
}
