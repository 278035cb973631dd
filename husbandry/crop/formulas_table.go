package crop

import (
	"strconv"

	"freshet.example/husbandry/formula"
)

// plain writes a number as tables print it, with at least so many decimals.
func plain(v float64, decimals int) string {
	short := strconv.FormatFloat(v, 'f', -1, 64)
	fixed := strconv.FormatFloat(v, 'f', decimals, 64)
	if len(fixed) > len(short) {
		return fixed
	}
	return short
}

func fromTo(f Figure) string {
	if f.Low == f.High {
		return plain(f.Low, 0)
	}
	return plain(f.Low, 0) + "-" + plain(f.High, 0)
}

const soilCaveat = "Single coefficients are for crops in soil, lowest humidity about 45 % and wind about 2 m/s."

var coefficientFormulas = []formula.Formula{
	{
		Name: "crop_coefficients", Title: "What does the crop use of water beside short grass: at first, in the middle, at the end?",
		Also:   []string{"Kc ini/mid/end/height_m"},
		Source: "FAO-56 Table 12 (open transcription)", Range: "food crops of the table", Cautions: []string{soilCaveat},
		Inputs: []formula.Input{cropInput()},
		Work: func(in *formula.Given) (formula.Answer, error) {
			c, err := CropCoefficientOf(in.Word("crop"))
			text := plain(c.Initial, 1) + "/" + plain(c.Middle, 2) + "/" + plain(c.End, 2)
			if c.HeightMax > 0 {
				text += "/" + plain(float64(c.HeightMax), 1)
			}
			return formula.Words(text), err
		},
	},
	{
		Name: "crop_stages", Title: "How long are the crop's four stages?", Unit: "d",
		Also:   []string{"stage lengths ini/dev/mid/late=total"},
		Source: "FAO-56 Table 11 (open transcription)", Range: "food crops of the table",
		Inputs: []formula.Input{{Name: "crop", Meaning: "crop, with month of planting or region where the table has several"}},
		Work: func(in *formula.Given) (formula.Answer, error) {
			s, err := StagesOf(in.Word("crop"))
			answer := formula.Number(float64(s.Total()))
			answer.Text = strconv.Itoa(s.Initial) + "/" + strconv.Itoa(s.Development) + "/" + strconv.Itoa(s.Middle) + "/" +
				strconv.Itoa(s.Late) + "=" + strconv.Itoa(s.Total())
			return answer, err
		},
	},
	{
		Name: "crop_coefficient_on_day", Title: "What is the crop coefficient on this day of its life?",
		Source: "FAO-56 eq. 66, Tables 11 and 12", Range: "day 1 is the day of planting", Cautions: []string{soilCaveat},
		Inputs: []formula.Input{cropInput(), {Name: "stages", Meaning: "crop, month of planting or region, for the stage lengths"},
			{Name: "day", Meaning: "day of the crop, up to the total of its stages"}},
		Work: func(in *formula.Given) (formula.Answer, error) {
			c, err := CropCoefficientOf(in.Word("crop"))
			if err != nil {
				return formula.Answer{}, err
			}
			s, err := StagesOf(in.Word("stages"))
			if err != nil {
				return formula.Answer{}, err
			}
			return number(c.On(in.Whole("day"), s))
		},
	},
	{
		Name: "crop_coefficient_adjusted", Title: "What is the crop coefficient in a drier or windier place?",
		Source: "FAO-56 eq. 62 and 65", Range: "wind 1 to 6 m/s, lowest humidity 20 to 80 %",
		Inputs: []formula.Input{coefficientBound.input("coefficient", "coefficient of the table", also("Kc")...), usualWindBound.input("wind_m_s", "wind at 2 m", also("u2")...),
			dryHourBound.input("humidity_min_percent", "lowest humidity", also("RHmin")...), cropHeightBound.input("height_m", "height of the crop", also("h")...)},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(Adjusted(in.Float("coefficient"), MetresPerSecond(in.Float("wind_m_s")), percent(in, "humidity_min_percent"), metres(in, "height_m")))
		},
	},
	{
		Name: "crop_evapotranspiration", Title: "How much water does the crop use?", Unit: "mm/d",
		Also:   []string{"ETc"},
		Source: "FAO-56 eq. 58", Range: "well-watered crops outdoors; a millimetre is a litre on a square metre", Cautions: []string{GreenhouseCaveat},
		Inputs: []formula.Input{referenceBound.input("reference_mm", "reference evapotranspiration", also("ETo_mm_d", "ETo")...),
			coefficientBound.input("coefficient", "crop coefficient", also("Kc")...)},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(CropEvapotranspiration(Millimetres(in.Float("reference_mm")), in.Float("coefficient")))
		},
	},
	{
		Name: "crop_water_use", Title: "How many litres does this area of crop use?", Unit: "L",
		Source: "a millimetre is a litre on a square metre", Range: "in the period of the millimetres", Cautions: []string{GreenhouseCaveat},
		Inputs: []formula.Input{cropWaterBound.input("crop_mm", "evapotranspiration of the crop"), areaInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(WaterUse(Millimetres(in.Float("crop_mm")), area(in)))
		},
	},
}

// guidelineFormula describes one column of FAO 589 appendix 1. In words where
// the appendix says more than a range.
func guidelineFormula(name, title, unit, also string, column func(Guideline) (Figure, string)) formula.Formula {
	return formula.Formula{
		Name: name, Title: title, Unit: unit, Also: []string{also},
		Source: FAO589.String(), Range: "the 12 crops of the appendix", Inputs: []formula.Input{cropInput()},
		Work: func(in *formula.Given) (formula.Answer, error) {
			g, err := GuidelineFor(in.Word("crop"))
			if err != nil {
				return formula.Answer{}, err
			}
			f, words := column(g)
			answer, err := figure(f, f.orNotKnown(g.Crop, name))
			answer.Text = words
			return answer, err
		},
	}
}

var guidelineFormulas = []formula.Formula{
	guidelineFormula("ph_range", "Which pH does the crop like?", "pH", "pH range",
		func(g Guideline) (Figure, string) { return g.PH, "" }),
	guidelineFormula("plant_spacing", "How far apart do the plants stand?", "cm", "plant spacing",
		func(g Guideline) (Figure, string) { return g.Spacing, "" }),
	guidelineFormula("plant_density", "How many plants stand in a square metre?", "plants/m2", "plant density",
		func(g Guideline) (Figure, string) { return g.Density, "" }),
	guidelineFormula("germination_time", "How long do the seeds take to come up, and how warm?", "d", "germination",
		func(g Guideline) (Figure, string) {
			return g.Germination, fromTo(g.Germination) + " d at " + fromTo(g.GerminationAt) + "C"
		}),
	guidelineFormula("growth_time", "How long does the crop take?", "d", "growth time",
		func(g Guideline) (Figure, string) { return g.Growth, g.GrowthWords }),
	guidelineFormula("fruits_per_plant", "How many fruits does a plant give?", "fruits", "fruits per plant",
		func(g Guideline) (Figure, string) { return g.PlantFruits, "" }),
	guidelineFormula("yield_per_plant", "How much does a plant give?", "kg", "yield per plant",
		func(g Guideline) (Figure, string) { return g.PlantYield, "" }),
	guidelineFormula("air_temperature", "Which air temperature does the crop like?", "degC", "air temperature",
		func(g Guideline) (Figure, string) { return g.Air, g.AirWords }),
}

var tableFormulas = []formula.Formula{
	{
		Name: "days_to_market", Title: "How many days from field planting to market?", Unit: "d",
		Also:   []string{"days field planting to market maturity"},
		Source: NDSU.String(), Range: "best growing conditions; cool weather takes longer",
		Inputs: []formula.Input{cropInput()},
		Work: func(in *formula.Given) (formula.Answer, error) {
			m, err := MaturityOf(in.Word("crop"))
			answer := formula.Span(m.Early, m.Late)
			if days, given := m.Common(); given {
				answer.Value = days
			}
			return answer, err
		},
	},
	cropFigure("days_from_sowing", "How many days from sowing to the first harvest?", "d", func(c Crop) Figure { return c.FromSowing }),
	cropFigure("days_from_transplant", "How many days from setting out to the first harvest?", "d", func(c Crop) Figure { return c.FromTransplant }),
	cropFigure("bearing_days", "How many days does the crop bear?", "d", func(c Crop) Figure { return c.Bearing }),
	cropFigure("crop_base_temperature", "Below which temperature does the crop not grow?", "degC", func(c Crop) Figure { return c.Base }),
	cropFigure("crop_upper_temperature", "Above which temperature does more warmth not hasten the crop?", "degC", func(c Crop) Figure { return c.Upper }),
	cropFigure("crop_air_temperature", "In which air does the crop do well?", "degC", func(c Crop) Figure { return c.Air }),
	cropFigure("crop_germination_days", "How many days do the seeds take to come up?", "d", func(c Crop) Figure { return c.Germination }),
	cropFigure("crop_germination_temperature", "How warm do the seeds want it?", "degC", func(c Crop) Figure { return c.GerminationAt }),
	cropFigure("seeds_per_gram", "How many seeds are in a gram?", "1/g", func(c Crop) Figure { return c.SeedsPerGram }),
	cropFigure("crop_ph", "Which pH does the crop like?", "pH", func(c Crop) Figure { return c.PH }),
	cropFigure("crop_spacing", "How far apart do the plants stand?", "cm", func(c Crop) Figure { return c.Spacing }),
	cropFigure("crop_density", "How many plants stand in a square metre?", "plants/m2", func(c Crop) Figure { return c.Density }),
	cropFigure("sowing_interval", "How many days do I leave between sowings?", "d", func(c Crop) Figure { return c.SowingInterval },
		"succession interval", "succession sowing interval"),
	cropFigure("years_to_bearing", "How many years until the perennial bears?", "years", func(c Crop) Figure { return c.YearsToBearing }),
	{
		Name: "about_crop", Title: "What should I know of this crop?", Source: "the crop table", Range: "crops of the crop table",
		Inputs: []formula.Input{cropInput()},
		Work: func(in *formula.Given) (formula.Answer, error) {
			c, err := Find(in.Word("crop"))
			return formula.Words(c.Kind.String() + ", " + c.Feeds.String() + ", " + c.Frost.String() + ". " + c.Note), err
		},
	},
}

// cropFigure describes one column of the crop table.
func cropFigure(name, title, unit string, column func(Crop) Figure, also ...string) formula.Formula {
	return formula.Formula{
		Name: name, Title: title, Unit: unit, Also: also,
		Source: "the crop table, with its source", Range: "crops of the crop table", Inputs: []formula.Input{cropInput()},
		Work: func(in *formula.Given) (formula.Answer, error) {
			c, err := Find(in.Word("crop"))
			if err != nil {
				return formula.Answer{}, err
			}
			f := column(c)
			answer, err := figure(f, f.orNotKnown(c.Name, name))
			if f.Low == f.High {
				answer.Value = f.Low
			}
			if c.Note != "" {
				answer.Cautions = []string{c.Note}
			}
			return answer, err
		},
	}
}
