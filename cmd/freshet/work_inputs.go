package main

import (
	"math"
	"strconv"
	"strings"

	"freshet.example/cmd/freshet/words"
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// workInputs reads name=value words for a formula. A value may carry a unit,
// which is turned into the input's; a name may leave the unit out.
// American tells that one carried a US customary unit.
func workInputs(f *formula.Formula, args []string) (typed map[string]string, american bool, err error) {
	typed = map[string]string{}
	for _, arg := range args {
		name, value, found := strings.Cut(arg, "=")
		if !found {
			return nil, false, wrong("\""+arg+"\" is no name=value", "freshet work "+f.Name+" says what it needs")
		}
		american = american || isAmerican(value)
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

// inAmerican converts an answer into one of the units of americanFor.
func inAmerican(v float64, from, to string) float64 {
	f, _, err := quantity.ParseUnit(from)
	t, _, err2 := quantity.ParseUnit(to)
	if err != nil || err2 != nil {
		return math.NaN()
	}
	if v, err = quantity.Convert(v, f, t); err != nil {
		return math.NaN()
	}
	return v
}

func workInput(f *formula.Formula, name, value string) (fullName, plain string, err error) {
	in, given, whole := inputNamed(f, name)
	if in == nil || len(in.Choices) > 0 || strings.ContainsAny(value, "[;") {
		return given, value, nil // the formula itself says what is wrong, or reads lists and words
	}
	if share, ok := shareOfHundred(in, value); ok {
		return given, share, nil
	}
	m, err := quantity.ParseMeasure(value)
	if err != nil && strings.ContainsAny(value, ", ") {
		return given, value, nil
	}
	if err != nil || m.Unit == quantity.NoUnit {
		if !whole && err == nil && in.Unit != "" {
			return "", "", wrong(name+" needs its unit", "write "+name+"="+value+in.Unit+" or "+in.Name+"="+value)
		}
		return given, value, nil
	}
	to, basis, err := quantity.ParseUnit(in.Unit)
	if err != nil {
		return "", "", wrong(name+" takes no unit here", "give it in "+in.Unit+": "+in.Name+"=...")
	}
	if m.Basis != quantity.NoBasis && m.Basis != basis {
		return "", "", wrong(name+" is wanted as "+basis.String()+", not as "+m.Basis.String(), "freshet work lists formulas that change the basis")
	}
	if m.Unit == quantity.UnitDKH && to == quantity.UnitMgPerL && basis == quantity.AsCaCO3 { // as kits for alkalinity read
		return in.Name, m.Censored.String() + strconv.FormatFloat(float64(quantity.DegreesKH(m.Value()).CaCO3()), 'g', -1, 64), nil
	}
	v, err := quantity.Convert(m.Value(), m.Unit, to)
	if err != nil {
		return "", "", wrong(words.Degrees(err.Error()), "give it in "+in.Unit)
	}
	return in.Name, m.Censored.String() + strconv.FormatFloat(v, 'g', -1, 64), nil
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

// inputNamed finds the input that a name means: its own, one of its other
// names, or its own without the unit. Whole tells that the name says the unit.
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
	return nil, name, true
}
