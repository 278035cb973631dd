package main

import (
	"strconv"
	"strings"

	"freshet.example/cmd/freshet/words"
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// workInputs reads name=value words for a formula. A value may carry a unit,
// which is turned into the input's; a name may leave the unit out.
func workInputs(f *formula.Formula, args []string) (map[string]string, error) {
	typed := map[string]string{}
	for _, arg := range args {
		name, value, found := strings.Cut(arg, "=")
		if !found {
			return nil, wrong("\""+arg+"\" is no name=value", "freshet work "+f.Name+" says what it needs")
		}
		name, value, err := workInput(f, strings.TrimSpace(name), strings.TrimSpace(value))
		if err != nil {
			return nil, err
		}
		typed[name] = value
	}
	return typed, nil
}

func workInput(f *formula.Formula, name, value string) (fullName, plain string, err error) {
	in, given, whole := inputNamed(f, name)
	if in == nil || len(in.Choices) > 0 || strings.ContainsAny(value, "[, ;") {
		return given, value, nil // the formula itself says what is wrong, or reads lists and words
	}
	m, err := quantity.ParseMeasure(value)
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
	v, err := quantity.Convert(m.Value(), m.Unit, to)
	if err != nil {
		return "", "", wrong(words.Degrees(err.Error()), "give it in "+in.Unit)
	}
	return in.Name, strconv.FormatFloat(v, 'g', -1, 64), nil
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
