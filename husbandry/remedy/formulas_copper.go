package remedy

import (
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

const pondRule = "common pond rule; the channel catfish trial casts doubt on it"

var copperCautions = []string{LabelCaution, TrialCaution, HandlingCaution}

var copperFormulas = []formula.Formula{
	{
		Name: "copper_sulfate_rule", Figures: formula.Rough, Title: "What does the pond rule give for copper sulfate?", Unit: "mg/L CuSO4.5H2O", Source: pondRule,
		Range: "alkalinity 50 to 250 mg/L as CaCO3; ponds without crops", Cautions: copperCautions, Also: []string{"copper sulfate rate = alkalinity/100"},
		Inputs: []formula.Input{{Name: "alkalinity", Meaning: "total alkalinity", Unit: "mg/L as CaCO3", Low: softestForCopper, High: hardestForCopper}},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(CopperSulfateRule(quantity.AlkalinityCaCO3(in.Float("alkalinity"))))
		},
	},
	{
		Name: "copper_in_sulfate", Title: "How much copper is in this copper sulfate?", Unit: "mg/L Cu", Source: "molar masses", Range: "0.2545 of the crystals", Cautions: copperCautions,
		Also: []string{"copper in that dose"},
		Inputs: []formula.Input{{Name: "sulfate_mg_l", Meaning: "copper sulfate crystals", Unit: "mg/L", High: mostPerLitre, Also: also("CuSO4.5H2O_mg_L")},
			{Name: "copper_fraction", Meaning: "share of copper", Low: leastActive, High: 1, Default: "0.2545", Also: also("Cu_fraction")}},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(CopperIn(quantity.MgPerL(in.Float("sulfate_mg_l")), quantity.Fraction(in.Float("copper_fraction"))))
		},
	},
	{
		Name: "copper_rule_margin", Figures: formula.Rough, Title: "How far is the pond rule from what killed half the fish?", Unit: "times", Source: catfishCopper, Range: "near 1 it kills", Cautions: copperCautions,
		Also: []string{"safety ratio LC50/dose catfish"},
		Inputs: []formula.Input{{Name: "alkalinity", Meaning: "total alkalinity", Unit: "mg/L as CaCO3", Low: 1, High: hardestWater},
			{Name: "lc50_mg_l", Meaning: "LC50 of copper in that water", Unit: "mg/L Cu", Low: leastLC50, High: mostLC50, Also: also("LC50")}, remark("dose")},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(CopperRuleMargin(quantity.AlkalinityCaCO3(in.Float("alkalinity")), quantity.MgPerL(in.Float("lc50_mg_l"))))
		},
	},
	{
		Name: "copper_minimum_alkalinity", Title: "Below which alkalinity is copper sulfate not used at all?", Unit: "mg/L CaCO3", Source: "tilapia copper treatment text", Range: "ponds", Cautions: copperCautions,
		Also: []string{"minimum alkalinity for copper sulfate"},
		Work: func(*formula.Given) (formula.Answer, error) { return number(MinimumAlkalinity(), nil) },
	},
	{
		Name: "copper_sulfate_mass", Title: "How many pounds of copper sulfate is that?", Unit: "lb", Source: "concentration times volume over the share of copper", Range: "1 L to 1e10 L", Cautions: copperCautions,
		Also: []string{"copper sulfate mass"},
		Inputs: []formula.Input{
			{Name: "dose_mg_l", Meaning: "copper wanted", Unit: "mg/L Cu", High: mostPerLitre, Also: also("dose_mg_L_Cu")},
			{Name: "volume_l", Meaning: "water", Unit: "L", Low: leastLitres, High: mostLitres, Also: []formula.Alias{{Name: "volume_MG", Change: litresFromMillionGallons}}},
			{Name: "copper_fraction", Meaning: "share of copper", Low: leastActive, High: 1, Default: "0.2545", Also: also("Cu_fraction")},
			{Name: "acre_feet", Meaning: "water in acre-feet, instead of a volume", Unit: "acre-ft", Low: leastAcreFeet, High: mostAcreFeet, Default: notGiven, Also: also("acft")},
			{Name: "lb_per_acre_foot", Meaning: "rate, instead of a concentration", Unit: "lb/acre-ft", High: mostRate, Default: notGiven, Also: also("lb_per_acft")},
		},
		Work: copperMass,
	},
}

func copperMass(in *formula.Given) (formula.Answer, error) {
	if in.Has("acre_feet") {
		return number(MassByArea(quantity.AcreFeet(in.Float("acre_feet")), in.Float("lb_per_acre_foot")))
	}
	m, err := Mass(quantity.MgPerL(in.Float("dose_mg_l")), quantity.Litres(in.Float("volume_l")), quantity.Fraction(in.Float("copper_fraction")))
	return number(m.Pounds(), err)
}
