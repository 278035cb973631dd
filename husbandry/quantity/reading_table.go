package quantity

// A quantityRow says how a quantity may be given and what it may be.
type quantityRow struct {
	name, title string
	unit        Unit  // of the canonical value
	basis       Basis // of the canonical value
	accepts     []accepted
	unsaid      Basis   // taken when none is given, where the name itself says it
	low, high   float64 // refused outside
	usualLow    float64 // asked about outside
	usualHigh   float64
	words       []string
}

// An accepted form of a quantity: canonical value = factor * value in the base
// unit of the kind. Specific gravity has no factor: see SpecificGravity.Salinity.
type accepted struct {
	kind   kind
	basis  Basis
	factor float64
}

// The bounds are common practice, no source. The refused side is where no pond,
// greenhouse or meter gets; the usual side is what a working loop shows.
var quantities = [quantityCount]quantityRow{
	UnknownQuantity: {name: "unknown", title: "unknown quantity"},

	WaterTemperature: {
		name: "water_temperature", title: "water temperature", unit: UnitCelsius,
		accepts: []accepted{{kindTemperature, NoBasis, 1}},
		low:     -2, high: 50, usualLow: 4, usualHigh: 34,
	},
	AirTemperature: {
		name: "air_temperature", title: "air temperature", unit: UnitCelsius,
		accepts: []accepted{{kindTemperature, NoBasis, 1}},
		low:     -60, high: 65, usualLow: -15, usualHigh: 45,
	},
	Acidity: {
		name: "ph", title: "pH", unit: UnitPH,
		accepts: []accepted{{kindAcidity, NoBasis, 1}, {kindNumber, NoBasis, 1}},
		low:     2, high: 13, usualLow: 5.5, usualHigh: 8.6,
	},
	TotalAmmonia: {
		name: "total_ammonia", title: "total ammonia", unit: UnitMgPerL, basis: AsN,
		accepts: []accepted{
			{kindMass, AsN, 1},
			{kindMass, AsNH3, 1 / nh3PerN},
			{kindMass, AsNH4, 1 / nh4PerN},
			{kindAmount, AsN, WeightN},
		},
		low: 0, high: 200, usualLow: 0, usualHigh: 3,
	},
	Nitrite: {
		name: "nitrite", title: "nitrite", unit: UnitMgPerL, basis: AsN,
		accepts: []accepted{
			{kindMass, AsN, 1},
			{kindMass, AsNO2, 1 / no2PerN},
			{kindAmount, AsN, WeightN},
		},
		low: 0, high: 100, usualLow: 0, usualHigh: 2,
	},
	Nitrate: {
		name: "nitrate", title: "nitrate", unit: UnitMgPerL, basis: AsN,
		accepts: []accepted{
			{kindMass, AsN, 1},
			{kindMass, AsNO3, 1 / no3PerN},
			{kindAmount, AsN, WeightN},
		},
		low: 0, high: 1000, usualLow: 0, usualHigh: 150,
	},
	DissolvedOxygen: {
		name: "dissolved_oxygen", title: "dissolved oxygen", unit: UnitMgPerL, basis: AsO2,
		accepts: []accepted{{kindMass, AsO2, 1}, {kindAmount, AsO2, WeightO2}},
		low:     0, high: 40, usualLow: 4, usualHigh: 15,
	},
	OxygenSaturation: {
		name: "oxygen_saturation", title: "oxygen saturation", unit: UnitPercent,
		accepts: []accepted{{kindPercent, NoBasis, 1}},
		low:     0, high: 400, usualLow: 50, usualHigh: 120,
	},
	Alkalinity: {
		name: "alkalinity", title: "alkalinity", unit: UnitMgPerL, basis: AsCaCO3,
		accepts: []accepted{
			{kindMass, AsCaCO3, 1},
			{kindMass, AsHCO3, caco3PerMeq / WeightHCO3},
			{kindEquivalent, NoBasis, caco3PerMeq},
			{kindCarbonate, NoBasis, 1},
			{kindHardness, NoBasis, 1},
		},
		low: 0, high: 2000, usualLow: 20, usualHigh: 300,
	},
	Hardness: {
		name: "hardness", title: "hardness", unit: UnitMgPerL, basis: AsCaCO3,
		accepts: []accepted{
			{kindMass, AsCaCO3, 1},
			{kindAmount, AsCaCO3, WeightCaCO3},
			{kindEquivalent, NoBasis, caco3PerMeq},
			{kindGeneral, NoBasis, 1},
			{kindHardness, NoBasis, 1},
		},
		low: 0, high: 7000, usualLow: 20, usualHigh: 500,
	},
	Conductivity: {
		name: "conductivity", title: "conductivity at 25 degC", unit: UnitUSPerCm,
		accepts: []accepted{
			{kindConductivity, NoBasis, 1},
			{kindMass, AsTDS500, 1 / 0.5},
			{kindMass, AsTDS700, 1 / 0.7},
		},
		low: 0, high: 70000, usualLow: 50, usualHigh: 4000,
	},
	SaltContent: {
		name: "salinity", title: "salinity", unit: UnitGPerKg,
		accepts: []accepted{{kindSalt, NoBasis, 1}, {kind: kindGravity}},
		low:     0, high: 40, usualLow: 0, usualHigh: 5,
	},
	CarbonDioxide: {
		name: "carbon_dioxide", title: "carbon dioxide", unit: UnitMgPerL, basis: AsCO2,
		accepts: []accepted{{kindMass, AsCO2, 1}, {kindAmount, AsCO2, WeightCO2}},
		low:     0, high: 500, usualLow: 0, usualHigh: 40,
	},
	Iron: {
		name: "iron", title: "iron", unit: UnitMgPerL, basis: AsFe,
		accepts: []accepted{{kindMass, AsFe, 1}, {kindAmount, AsFe, WeightFe}},
		low:     0, high: 100, usualLow: 0, usualHigh: 5,
	},
	Phosphate: {
		name: "phosphate", title: "phosphate", unit: UnitMgPerL, basis: AsP,
		accepts: []accepted{
			{kindMass, AsP, 1},
			{kindMass, AsPO4, WeightP / WeightPO4},
			{kindAmount, AsP, WeightP},
		},
		low: 0, high: 300, usualLow: 0, usualHigh: 30,
	},
	Potassium: {
		name: "potassium", title: "potassium", unit: UnitMgPerL, basis: AsK,
		accepts: []accepted{{kindMass, AsK, 1}, {kindAmount, AsK, WeightK}},
		low:     0, high: 2000, usualLow: 0, usualHigh: 300,
	},
	Calcium: {
		name: "calcium", title: "calcium", unit: UnitMgPerL, basis: AsCa, unsaid: AsCa,
		accepts: []accepted{
			{kindMass, AsCa, 1},
			{kindMass, AsCaCO3, WeightCa / WeightCaCO3},
			{kindAmount, AsCa, WeightCa},
		},
		low: 0, high: 1500, usualLow: 5, usualHigh: 250,
	},
	Magnesium: {
		name: "magnesium", title: "magnesium", unit: UnitMgPerL, basis: AsMg, unsaid: AsMg,
		accepts: []accepted{
			{kindMass, AsMg, 1},
			{kindMass, AsCaCO3, WeightMg / WeightCaCO3},
			{kindAmount, AsMg, WeightMg},
		},
		low: 0, high: 2500, usualLow: 1, usualHigh: 100,
	},
	Chlorine: {
		name: "chlorine", title: "chlorine", unit: UnitMgPerL, basis: AsCl2,
		accepts: []accepted{{kindMass, AsCl2, 1}},
		low:     0, high: 20, usualLow: 0, usualHigh: 4,
	},
	Chloride: {
		name: "chloride", title: "chloride", unit: UnitMgPerL, basis: AsCl,
		accepts: []accepted{{kindMass, AsCl, 1}, {kindAmount, AsCl, WeightCl}},
		low:     0, high: 25000, usualLow: 5, usualHigh: 500,
	},
	Flow: {
		name: "flow", title: "flow", unit: UnitLPerH,
		accepts: []accepted{{kindFlow, NoBasis, 1}},
		low:     0, high: 1e6, usualLow: 20, usualHigh: 50000,
	},
	Level: {
		name: "level", title: "level", unit: UnitMetre,
		accepts: []accepted{{kindLength, NoBasis, 1}},
		low:     0, high: 20, usualLow: 0.02, usualHigh: 3,
	},
	Light: {
		name: "light", title: "light", unit: UnitPhotonFlux, unsaid: UnderSun,
		accepts: []accepted{
			{kindPhotons, NoBasis, 1},
			{kindIlluminance, UnderSun, 1.0 / luxPerFluxSun},
			{kindIlluminance, UnderFluorescent, 1.0 / luxPerFluxFluorescent},
			{kindIlluminance, UnderHalide, 1.0 / luxPerFluxHalide},
			{kindIlluminance, UnderSodium, 1.0 / luxPerFluxSodium},
		},
		low: 0, high: 3000, usualLow: 0, usualHigh: 2200,
	},
	Humidity: {
		name: "humidity", title: "humidity", unit: UnitPercent,
		accepts: []accepted{{kindPercent, NoBasis, 1}},
		low:     0, high: 100, usualLow: 15, usualHigh: 100,
	},
	AirPressure: {
		name: "pressure", title: "air pressure at the site", unit: UnitHectopascal,
		accepts: []accepted{{kindPressure, NoBasis, 1}},
		low:     500, high: 1100, usualLow: 650, usualHigh: 1050,
	},
	Appetite: {
		name: "appetite", title: "appetite", unit: UnitRank,
		accepts: []accepted{{kindRank, NoBasis, 1}},
		low:     0, high: 4, usualLow: 2, usualHigh: 4,
		words: []string{"refuse", "slow", "usual", "keen", "boiling"},
	},
	Clarity: {
		name: "clarity", title: "clarity", unit: UnitRank,
		accepts: []accepted{{kindRank, NoBasis, 1}},
		low:     0, high: 4, usualLow: 2, usualHigh: 4,
		words: []string{"opaque", "murky", "cloudy", "clear", "bright"},
	},
}
