package fish

import (
	"strconv"
	"strings"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/nitrogen"
	"freshet.example/husbandry/quantity"
)

const notKnown = "; leave out what is not there or not known"

var limitFormulas = []formula.Formula{
	{
		Name: "stocking_limit", Title: "How many kilograms of fish does FAO advise for this tank?", Unit: "kg",
		Inputs: []formula.Input{volumeBound.input("tank_litres", "water in the tank, or <500", append(named("tank_L", "volume_litres"), inCubicMetres("volume_m3"))...)},
		Source: "FAO TP 589 p. 109 and p. 125 (second hand): 20 kg in 1000 L, tanks under 500 L 1 kg in 100 L", Range: "small loops with air and filter",
		Cautions: []string{stockCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			least, most := in.Band("tank_litres")
			if least == most {
				return one(StockingLimit(quantity.Litres(most)))
			}
			return smallTanks(quantity.Litres(most))
		},
	},
	{
		Name: "stocking_biomass", Figures: formula.Rough, Title: "How many kilograms of fish is this density?", Unit: "kg",
		Inputs: []formula.Input{densityBound.input("density_kg_m3", "fish in a cubic metre"), tankBound.input("volume_m3", "water in the tank", named("tank_m3")...)},
		Source: "definition; Losordo, Flow rate estimation for RAS", Range: "any", Cautions: []string{stockCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(Biomass(KilogramsPerM3(in.Float("density_kg_m3")), quantity.CubicMetres(in.Float("volume_m3"))))
		},
	},
	{
		Name: "loop_capacity", Title: "How many kilograms of fish can my loop carry, and what limits it?", Unit: "kg", Inputs: loopInputs(),
		Source: "the lowest of space, oxygen, nitrification, solids, carbonate and plants", Range: "each part within its own range", Cautions: []string{stockCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			c, err := Capacity(loopOf(in))
			if err != nil {
				return formula.Answer{}, err
			}
			return c.answer(), nil
		},
	},
}

// smallTanks gives the rule for all tanks below a size, which FAO prints only
// for small ones.
func smallTanks(most quantity.Litres) (formula.Answer, error) {
	if err := quantity.Within("tank", float64(most), 0, faoSmallTank, "L", "FAO TP 589 p. 125"); err != nil {
		return formula.Answer{}, err
	}
	a := formula.Number(faoSmallPerLitre * 100)
	a.Unit, a.Text = "kg per 100 L", "1 kg per 100 L"
	return a, nil
}

func loopInputs() []formula.Input {
	return []formula.Input{
		rationBound.inputOr("1.5", "feed_percent", "feed as share of body weight a day"),
		feedProtein.inputOr("0.32", "protein_fraction", "protein in the feed"),
		filterWarmBound.inputOr("25", "temperature_celsius", "water temperature"),
		loopTankBound.inputOr("0", "tank_litres", "water in which fish swim"+notKnown),
		densityBound.inputOr("20", "density_kg_m3", "most fish wanted in a cubic metre of it"),
		supplyBound.inputOr("0", "oxygen_g_per_hour", "oxygen that aeration puts in"+notKnown),
		flowBound.inputOr("0", "flow_litres_per_minute", "flow through the fish tank"+notKnown),
		oxygenBound.inputOr("0", "oxygen_drop_mg_l", "oxygen that the flow may give up"+notKnown),
		surfaceBound.inputOr("0", "filter_surface_m2", "surface of media, rafts and walls"+notKnown),
		arealBound.inputOr("0.56", "filter_rate_g_m2_d", "ammonia nitrogen a square metre oxidizes in a day"),
		filterAgeBound.inputOr("365", "filter_age_days", "days since the filter was started"),
		feedBound.inputOr("0", "solids_removal_g", "dry solids taken out in a day"+notKnown),
		feedBound.inputOr("0", "alkalinity_g", "alkalinity replaced in a day, as CaCO3"+notKnown),
		feedBound.inputOr("0", "carbon_dioxide_removal_g", "carbon dioxide driven off in a day"+notKnown),
		plantAreaBound.inputOr("0", "plant_area_m2", "area of plants"+notKnown),
		plantRatioBound.inputOr("60", "plant_ratio_g_m2_d", "feed for a square metre of plants"),
	}
}

func loopOf(in *formula.Given) Loop {
	return Loop{
		Ration: quantity.Percent(in.Float("feed_percent")), Protein: quantity.Fraction(in.Float("protein_fraction")), Temperature: waterTemperature(in),
		Tank: quantity.Litres(in.Float("tank_litres")), Density: KilogramsPerM3(in.Float("density_kg_m3")),
		OxygenSupply: GramsPerHour(in.Float("oxygen_g_per_hour")), Flow: quantity.LitresPerMinute(in.Float("flow_litres_per_minute")), OxygenDrop: quantity.MgPerL(in.Float("oxygen_drop_mg_l")),
		FilterSurface: quantity.SquareMetres(in.Float("filter_surface_m2")), FilterRate: nitrogen.ArealN(in.Float("filter_rate_g_m2_d")), FilterAge: quantity.Days(in.Float("filter_age_days")),
		SolidsRemoval: grams(in, "solids_removal_g"),
		Alkalinity:    grams(in, "alkalinity_g"), CarbonDioxideRemoval: grams(in, "carbon_dioxide_removal_g"),
		PlantArea: quantity.SquareMetres(in.Float("plant_area_m2")), PlantRatio: nitrogen.FeedRatio(in.Float("plant_ratio_g_m2_d")),
	}
}

// answer puts the binding limit first and the others beside it.
func (c Carrying) answer() formula.Answer {
	lowest := c.Limits[c.Binding]
	a := formula.Number(float64(lowest.Biomass))
	a.Source = lowest.Source
	a.Text = c.Words()
	for _, l := range c.Limits {
		a.Others = append(a.Others, formula.Other{Basis: l.Name, Value: float64(l.Biomass), Unit: "kg", Source: l.Source})
	}
	return a
}

// Words says what binds and what relaxing it would buy.
func (c Carrying) Words() string {
	lowest := c.Limits[c.Binding]
	s := lowest.Name + " " + lowest.does("bind") + ": " + tenths(float64(lowest.Biomass)) + " kg of fish, " + quantity.Show(float64(lowest.Feed), 3) + " g of feed a day; " +
		"10 % more of it carries " + tenths(float64(c.BiomassGained)) + " kg more"
	if c.Next != lowest.Name {
		s += ", then " + c.Next + " " + Limit{Name: c.Next}.does("bind")
	}
	return s
}

// Words says what the limit carries: "solids carry 300 g of feed a day, 30 kg of fish".
func (l Limit) Words() string {
	return l.Name + " " + l.does("carry") + " " + strconv.FormatFloat(float64(l.Feed), 'f', 0, 64) + " g of feed a day, " + tenths(float64(l.Biomass)) + " kg of fish"
}

// does puts a verb beside the limit's name: "plants carry", "space carries".
func (l Limit) does(verb string) string {
	if strings.HasSuffix(l.Name, "s") {
		return verb
	}
	if stem, ok := strings.CutSuffix(verb, "y"); ok {
		return stem + "ies"
	}
	return verb + "s"
}

// tenths writes a number with one decimal, or none where it is whole.
func tenths(v float64) string {
	return strings.TrimSuffix(strconv.FormatFloat(v, 'f', 1, 64), ".0")
}
