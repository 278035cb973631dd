package crop

// A Guideline is one crop of FAO 589 appendix 1: how to grow it in the water of
// a loop.
type Guideline struct {
	Crop          string
	PH            Figure
	Spacing       Figure // cm between plants
	Density       Figure // plants in a square metre
	Germination   Figure // days to come up
	GerminationAt Figure // degC for those days
	Growth        Figure // days to harvest
	Air           Figure // degC from the coolest night to the warmest day
	PlantFruits   Figure // fruits from a plant, where the appendix gives them
	PlantYield    Figure // kg from a plant, where the appendix gives it
	GrowthWords   string // what the days count, where the appendix says more than days
	AirWords      string // day, night or best, where the appendix says so
}

// Guidelines holds FAO Fisheries and Aquaculture Technical Paper 589 (2014),
// appendix 1: 12 crops. Five were not in the copy that was read and stand from
// memory, as each figure says.
var Guidelines = []Guideline{
	{
		Crop: "basil", PH: read(5.5, 6.5), Spacing: read(15, 25), Density: read(8, 40),
		Germination: read(6, 7), GerminationAt: read(20, 25), Growth: read(35, 42), GrowthWords: "35-42 (5-6 weeks)",
		Air: read(18, 30), AirWords: "18-30, best 20-25",
	},
	{
		Crop: "cauliflower", PH: recalled(6, 6.5), Spacing: recalled(45, 60), Density: recalled(3, 5),
		Germination: recalled(4, 7), GerminationAt: recalled(8, 20),
		Growth: recalled(60, 120), GrowthWords: "2-3 months spring, 3-4 months autumn",
		Air: recalled(10, 25), AirWords: "20-25 first growth, 10-15 head setting",
	},
	{
		Crop: "lettuce", PH: read(6, 7), Spacing: read(18, 30), Density: read(20, 25),
		Germination: read(3, 7), GerminationAt: read(13, 21), Growth: read(24, 32),
		Air: read(15, 22),
	},
	{
		Crop: "cucumber", PH: read(5.5, 6.5), Spacing: read(30, 60), Density: read(2, 5),
		Germination: read(3, 7), GerminationAt: read(20, 30), Growth: read(55, 65),
		Air: read(18, 28), AirWords: "22-28 day, 18-20 night",
	},
	{
		Crop: "eggplant", PH: read(5.5, 7), Spacing: read(40, 60), Density: read(3, 5),
		Germination: read(8, 10), GerminationAt: read(25, 30), Growth: read(90, 120),
		PlantFruits: read(10, 15), PlantYield: read(3, 7), Air: read(15, 26), AirWords: "22-26 day, 15-18 night",
	},
	{
		Crop: "pepper", PH: read(5.5, 6.5), Spacing: read(30, 60), Density: read(3, 4),
		Germination: read(8, 12), GerminationAt: read(22, 30), Growth: read(60, 95),
		Air: read(14, 30), AirWords: "22-30 day, 14-16 night",
	},
	{
		Crop: "tomato", PH: recalled(5.5, 6.5), Spacing: recalled(40, 60), Density: recalled(3, 5),
		Germination: recalled(4, 6), GerminationAt: recalled(20, 30),
		Growth: recalled(50, 70), GrowthWords: "50-70 to first harvest, fruiting 90-120 (to 8-10 months)",
		Air: recalled(13, 26), AirWords: "22-26 day, 13-16 night",
	},
	{
		Crop: "beans and peas", PH: recalled(5.5, 7), Spacing: recalled(10, 30), Density: recalled(10, 40),
		Germination: recalled(8, 10), GerminationAt: recalled(21, 26), Growth: recalled(50, 110),
		Air: recalled(16, 26), AirWords: "22-26 day, 16-18 night",
	},
	{
		Crop: "head cabbage", PH: read(6, 7.2), Spacing: read(60, 80), Density: read(4, 8),
		Germination: read(4, 7), GerminationAt: read(8, 29), Growth: read(45, 70),
		Air: read(15, 20),
	},
	{
		Crop: "broccoli", PH: recalled(6, 7), Spacing: recalled(40, 70), Density: recalled(3, 5),
		Germination: recalled(4, 6), GerminationAt: recalled(25, 25), Growth: recalled(60, 100),
		Air: recalled(13, 18),
	},
	{
		Crop: "swiss chard", PH: recalled(6, 7.5), Spacing: recalled(30, 30), Density: recalled(15, 20),
		Germination: recalled(4, 5), GerminationAt: recalled(25, 30), Growth: recalled(25, 35),
		Air: recalled(16, 24),
	},
	{
		Crop: "parsley", PH: read(6, 7), Spacing: read(15, 30), Density: read(10, 15),
		Germination: read(8, 10), GerminationAt: read(20, 25), Growth: read(20, 30),
		Air: read(15, 25),
	},
}

func read(low, high float64) Figure     { return Figure{low, high, FAO589} }
func recalled(low, high float64) Figure { return Figure{low, high, FAO589Memory} }

// GuidelineFor returns the row of FAO 589 appendix 1 for the crop; a crop it
// does not treat is a NotListedError.
func GuidelineFor(crop string) (Guideline, error) {
	return rowOf("FAO 589 appendix 1", Guidelines, func(g Guideline) string { return g.Crop }, crop)
}
