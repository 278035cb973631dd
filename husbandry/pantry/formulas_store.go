package pantry

import (
	"strconv"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

func plain(v float64) string { return strconv.FormatFloat(v, 'g', 6, 64) }

// words writes a range as the charts print it: "4-6", "<1".
func (s Span) words() string {
	if s.Low == 0 {
		return "<" + plain(s.High)
	}
	return plain(s.Low) + "-" + plain(s.High)
}

// frozenFormula asks FrozenPints; with a crop it answers for that crop alone.
func frozenFormula(crop string) formula.Formula {
	return formula.Formula{
		Name: "frozen_pints_" + slug(crop), Title: "How many pints does a bushel of " + crop + " give frozen?", Unit: "pints", Source: "Michigan State Univ. Ext.", Range: "a bushel",
		Cautions: []string{FreezingCaution}, Also: []string{"frozen pints per bushel " + crop}, Inputs: []formula.Input{remark("bushel_lb")},
		Work: func(*formula.Given) (formula.Answer, error) {
			f, err := FrozenPints(crop)
			answer := span(f.Pints)
			answer.Source = f.Source
			return answer, err
		},
	}
}

// herbFormula says an answer about herbs, with its caution.
func herbFormula[T any](name, title, unit, source string, inputs []formula.Input, work func(*formula.Given) (Herb[T], error), words func(T) formula.Answer) formula.Formula {
	return formula.Formula{
		Name: name, Title: title, Unit: unit, Source: source, Range: "leaves for the kitchen", Inputs: inputs,
		Work: func(in *formula.Given) (formula.Answer, error) {
			h, err := work(in)
			if err != nil {
				return formula.Answer{}, err
			}
			value, caution := h.Read()
			answer := words(value)
			answer.Cautions = append(answer.Cautions, caution)
			return answer, nil
		},
	}
}

var storeFormulas = []formula.Formula{
	frozenFormula("asparagus"),
	frozenFormula("summer squash"),
	frozenFormula("beets"),
	{
		Name: "freezer_life", Title: "How long do frozen vegetables keep their quality?", Unit: "months", Source: extension, Range: "0 degF or colder", Cautions: []string{FreezingCaution},
		Also:   []string{"frozen vegetables quality life at 0 F"},
		Inputs: []formula.Input{{Name: "freezer_f", Meaning: "temperature of the freezer", Unit: "degF", Low: coldestFreeze, High: warmestFreeze, Default: "0", Also: also("T_F")}},
		Work: func(in *formula.Given) (formula.Answer, error) {
			_, warmest := in.Band("freezer_f")
			s, err := FreezerLife(quantity.Fahrenheit(warmest))
			return span(s), err
		},
	},
	{
		Name: "blanching_time", Title: "How long do I blanch before freezing?", Unit: "min", Source: nchfpFreezing, Range: "crops of our table; sources that disagree stand beside the answer",
		Cautions: []string{FreezingCaution}, Also: []string{"blanching time", "blanch time"}, Inputs: []formula.Input{cropInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			found, err := Blanch(in.Word("crop"))
			if err != nil {
				return formula.Answer{}, err
			}
			answer := number(found[0].Minutes)
			answer.Source = found[0].Source
			for _, b := range found[1:] {
				answer.Others = append(answer.Others, formula.Other{Basis: "another table", Value: float64(b.Minutes), Unit: "min", Source: b.Source})
			}
			return answer, nil
		},
	},
	{
		Name: "dried_storage", Title: "How long does this dried vegetable keep?", Unit: "months", Source: "drying chart I (extension style)", Range: "at 70 and at 60 degF",
		Cautions: []string{DryingCaution}, Also: []string{"dried storage 70F / 60F"}, Inputs: []formula.Input{cropInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			k, err := DriedMonths(in.Word("crop"))
			return formula.Words(k.At70.words() + " / " + k.At60.words()), err
		},
	},
	{
		Name: "dried_fruit_storage", Title: "How long does dried fruit keep?", Unit: "months", Source: "UGA Ext., Preserving Food: Drying", Range: "60 to 80 degF; vegetables about half",
		Cautions: []string{DryingCaution}, Also: []string{"dried fruit storage"},
		Inputs: []formula.Input{{Name: "store_f", Meaning: "temperature of the store", Unit: "degF", Low: coolStore, High: warmStore, Also: also("T_F")}},
		Work: func(in *formula.Given) (formula.Answer, error) {
			months, err := DriedFruitMonths(quantity.Fahrenheit(in.Float("store_f")))
			return formula.Number(months), err
		},
	},
	{
		Name: "dry_yield", Title: "What did a fresh weight give dried?", Unit: "lb", Source: "So Easy to Preserve / USDA drying yield table (from memory)", Range: "crops of our table",
		Cautions: []string{DryingCaution}, Also: []string{"dry yield fresh lb -> dried lb"}, Inputs: []formula.Input{cropInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			d, err := YieldDried(in.Word("crop"))
			return formula.Words(plain(float64(d.Fresh)) + " -> " + plain(float64(d.Dried))), err
		},
	},
	{
		Name: "dried_weight", Title: "What will this harvest weigh dried?", Unit: "lb", Source: "So Easy to Preserve / USDA drying yield table (from memory)", Range: "0 to 100,000 lb",
		Cautions: []string{DryingCaution}, Inputs: []formula.Input{cropInput, {Name: "fresh_lb", Meaning: "fresh weight", Unit: "lb", High: mostPounds, Also: []formula.Alias{{Name: "fresh_kg", Change: poundsFromKilograms}}}},
		Work: func(in *formula.Given) (formula.Answer, error) {
			w, err := DriedWeight(in.Word("crop"), quantity.Pounds(in.Float("fresh_lb")))
			return number(w), err
		},
	},
	herbFormula("herb_drying", "How warm do herbs dry?", "degF", "NCHFP (from memory)", nil,
		func(*formula.Given) (Herb[Span], error) { return HerbDrying(), nil }, span),
	herbFormula("herb_storage", "How long do dried herbs keep their scent?", "months", "common practice, no source", nil,
		func(*formula.Given) (Herb[Span], error) { return HerbStorage(), nil }, span),
	herbFormula("fresh_herb", "How much fresh herb stands for this much dried?", "", "NCHFP prints 3 to 4 times by volume (from memory)",
		[]formula.Input{{Name: "dried", Meaning: "dried herb, in any volume", High: mostDried}},
		func(in *formula.Given) (Herb[float64], error) { return FreshHerb(in.Float("dried")) }, number[float64]),
}
