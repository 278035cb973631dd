package trial

import (
	"slices"
	"strings"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// Formulas lists every comparison that can be asked for by name.
var Formulas = formula.Finely(slices.Concat(
	meanFormulas, pairFormulas, effectFormulas,
	rankFormulas, permutationFormulas, ratioFormulas,
	groupFormulas, severalFormulas, blockFormulas,
	powerFormulas, equivalenceFormulas,
	shareFormulas, twoShareFormulas, rateFormulas,
	survivalFormulas, quantileFormulas,
))

// aside is beneath every comparison of living things.
const aside = "What was drawn by lot is what counts as one value: a tank or a bed, not each fish or plant in it."

func list(name, meaning string, also ...string) formula.Input {
	return formula.Input{Name: name, Meaning: meaning + ", a list", Low: -1e150, High: 1e150, Also: aliases(also...)}
}

// ranged narrows the range of an input.
func ranged(i formula.Input, low, high float64) formula.Input {
	i.Low, i.High = low, high
	return i
}

func aliases(names ...string) []formula.Alias {
	var a []formula.Alias
	for _, n := range names {
		a = append(a, formula.Alias{Name: n})
	}
	return a
}

func confidenceInput() formula.Input {
	return formula.Input{Name: "confidence", Meaning: "how often such an interval is to hold the true value", Low: 0.5, High: 0.9999, Default: "0.95",
		Also: []formula.Alias{{Name: "conf"}, {Name: "percent", Change: fromPercent}}}
}

func fromPercent(p float64) float64 { return p / 100 }

func twoLists(more ...formula.Input) []formula.Input {
	return append([]formula.Input{
		list("x", "values under the first treatment"),
		list("y", "values under the second treatment"),
	}, more...)
}

func confidenceOf(in *formula.Given) quantity.Fraction {
	return quantity.Fraction(in.Float("confidence"))
}

// grouped sorts the values by the label that each has, groups in the order of
// the alphabet.
func grouped(in *formula.Given) (names []string, groups [][]float64) {
	values, labels := in.Numbers("value"), in.Labels("group")
	names = slices.Clone(labels)
	slices.Sort(names)
	names = slices.Compact(names)
	groups = make([][]float64, len(names))
	for i := range min(len(values), len(labels)) {
		at, _ := slices.BinarySearch(names, labels[i])
		groups[at] = append(groups[at], values[i])
	}
	return names, groups
}

func groupInputs(more ...formula.Input) []formula.Input {
	return append([]formula.Input{
		list("value", "all values", "x"),
		{Name: "group", Meaning: "the group of each value, a list of words"},
	}, more...)
}

// word is an input that names data or a place in a list.
func word(name, meaning string) formula.Input {
	return formula.Input{Name: name, Meaning: meaning}
}

// remark is an input that changes nothing, for names and files that carry one.
func remark(name string) formula.Input {
	return formula.Input{Name: name, Meaning: "a remark; it changes nothing", Default: "none"}
}

func join(parts ...string) string { return strings.Join(parts, " ") }
