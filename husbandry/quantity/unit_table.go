package quantity

// A kind is what a unit measures. Units of one kind convert into one another
// without knowing more; from kind to kind a basis is needed.
type kind uint8

const (
	kindNumber       kind = iota
	kindTemperature       // base degC
	kindAcidity           // base pH
	kindMass              // dissolved mass, base mg/L
	kindAmount            // dissolved amount, base mmol/L
	kindEquivalent        // base meq/L
	kindCarbonate         // scales of carbonate hardness, base mg/L as CaCO3
	kindGeneral           // scales of general hardness, base mg/L as CaCO3
	kindHardness          // scales used for both, base mg/L as CaCO3
	kindSalt              // base g/kg
	kindGravity           // specific gravity
	kindPercent           // base %
	kindConductivity      // base uS/cm
	kindFlow              // base L/h
	kindLength            // base m
	kindPhotons           // base umol/m2/s
	kindIlluminance       // base lux
	kindPressure          // base hPa
	kindVolume            // base L
	kindArea              // base m2
	kindWeight            // base g
	kindYield             // base g/m2
	kindRank              // place in a list of words
)

// A unitRow describes a unit: base value = (value - zero) * scale.
type unitRow struct {
	symbol string
	kind   kind
	scale  float64
	zero   float64
	spelt  string // other spellings, lower case without spaces or degree signs, separated by spaces
}

func (r unitRow) toBase(v float64) float64   { return (v - r.zero) * r.scale }
func (r unitRow) fromBase(b float64) float64 { return b/r.scale + r.zero }

// The US pint, cup and fluid ounce are parts of the gallon; the imperial
// gallon is 4.54609 L by definition. A mg/L and a ppm are taken as equal, as
// every kit does: in fresh water they differ by less than half a percent.
var units = [unitCount]unitRow{
	NoUnit: {"", kindNumber, 1, 0, ""},

	UnitCelsius:    {"degC", kindTemperature, 1, 0, "c celsius degreesc degreec degreescelsius"},
	UnitFahrenheit: {"degF", kindTemperature, 1 / 1.8, 32, "f fahrenheit degreesf degreef degreesfahrenheit"},
	UnitKelvin:     {"K", kindTemperature, 1, zeroCelsius, "kelvin"},

	UnitPH: {"pH", kindAcidity, 1, 0, ""},

	UnitMgPerL:         {"mg/L", kindMass, 1, 0, "mgl mgperl milligramsperlitre milligramsperliter mg/litre mg/liter"},
	UnitPpm:            {"ppm", kindMass, 1, 0, ""},
	UnitUgPerL:         {"ug/L", kindMass, 0.001, 0, "mcg/l"},
	UnitPpb:            {"ppb", kindMass, 0.001, 0, ""},
	UnitGPerL:          {"g/L", kindMass, 1000, 0, "g/litre g/liter"},
	UnitMmolPerL:       {"mmol/L", kindAmount, 1, 0, "millimolar"},
	UnitUmolPerL:       {"umol/L", kindAmount, 0.001, 0, "micromolar"},
	UnitMeqPerL:        {"meq/L", kindEquivalent, 1, 0, "meq mmolc/l"},
	UnitDKH:            {"dKH", kindCarbonate, caco3PerGermanDegree, 0, "kh"},
	UnitDGH:            {"dGH", kindGeneral, caco3PerGermanDegree, 0, "gh"},
	UnitFrenchDegree:   {"degfH", kindHardness, caco3PerFrenchDegree, 0, "fh frenchdegrees frenchdegree"},
	UnitClarkDegree:    {"degClark", kindHardness, caco3PerClarkDegree, 0, "clark clarkdegrees englishdegrees"},
	UnitGrainPerGallon: {"gpg", kindHardness, caco3PerGrainPerGallon, 0, "grains/gal gr/gal grainspergallon"},

	UnitGPerKg:          {"g/kg", kindSalt, 1, 0, ""},
	UnitPpt:             {"ppt", kindSalt, 1, 0, "permille \u2030"},
	UnitPSU:             {"psu", kindSalt, 1, 0, ""},
	UnitSpecificGravity: {"SG", kindGravity, 1, 0, "specificgravity"},

	UnitPercent: {"%", kindPercent, 1, 0, "percent pct %sat %saturation %rh"},

	UnitUSPerCm:            {"uS/cm", kindConductivity, 1, 0, "us"},
	UnitMSPerCm:            {"mS/cm", kindConductivity, 1000, 0, "ms ec"},
	UnitDSPerM:             {"dS/m", kindConductivity, 1000, 0, ""},
	UnitConductivityFactor: {"CF", kindConductivity, 100, 0, ""},

	UnitLPerH:        {"L/h", kindFlow, 1, 0, "lph l/hr l/hour litres/hour liters/hour"},
	UnitLPerMin:      {"L/min", kindFlow, 60, 0, "lpm l/m l/minute litres/minute liters/minute"},
	UnitLPerS:        {"L/s", kindFlow, 3600, 0, "l/sec"},
	UnitLPerDay:      {"L/d", kindFlow, 1.0 / 24, 0, "lpd l/day"},
	UnitM3PerH:       {"m3/h", kindFlow, litresPerCubic, 0, "m3/hr"},
	UnitGallonPerMin: {"gpm", kindFlow, litresPerGallon * 60, 0, "gal/min gal/minute"},
	UnitGallonPerH:   {"gph", kindFlow, litresPerGallon, 0, "gal/h gal/hr gal/hour"},
	UnitGallonPerDay: {"gpd", kindFlow, litresPerGallon / 24, 0, "gal/d gal/day"},

	UnitMetre:      {"m", kindLength, 1, 0, "metre metres meter meters"},
	UnitCentimetre: {"cm", kindLength, 0.01, 0, "centimetres centimeters"},
	UnitMillimetre: {"mm", kindLength, 0.001, 0, "millimetres millimeters"},
	UnitFoot:       {"ft", kindLength, metresPerFoot, 0, "foot feet"},
	UnitInch:       {"in", kindLength, metresPerInch, 0, "inch inches"},

	UnitPhotonFlux: {"umol/m2/s", kindPhotons, 1, 0, "umolm-2s-1 umol/m2s par ppfd"},
	UnitLux:        {"lux", kindIlluminance, 1, 0, "lx"},
	UnitFootCandle: {"fc", kindIlluminance, 1 / metres2PerFoot2, 0, "footcandle footcandles foot-candle foot-candles"},

	UnitHectopascal: {"hPa", kindPressure, 1, 0, ""},
	UnitMillibar:    {"mbar", kindPressure, 1, 0, "mb millibar millibars"},
	UnitKilopascal:  {"kPa", kindPressure, 10, 0, ""},
	UnitPascal:      {"Pa", kindPressure, 0.01, 0, ""},
	UnitBar:         {"bar", kindPressure, 1000, 0, ""},
	UnitAtmosphere:  {"atm", kindPressure, hectopascalsPerAtmosphere, 0, ""},
	UnitMmHg:        {"mmHg", kindPressure, hectopascalsPerMmHg, 0, "torr"},
	UnitInHg:        {"inHg", kindPressure, hectopascalsPerInHg, 0, "\"hg"},
	UnitPsi:         {"psi", kindPressure, hectopascalsPerPsi, 0, ""},

	UnitLitre:          {"L", kindVolume, 1, 0, "litre litres liter liters"},
	UnitMillilitre:     {"mL", kindVolume, 0.001, 0, "millilitre millilitres milliliter milliliters"},
	UnitM3:             {"m3", kindVolume, litresPerCubic, 0, "cubicmetre cubicmetres cubicmeter cubicmeters"},
	UnitGallon:         {"gal", kindVolume, litresPerGallon, 0, "gallon gallons gals usgal usgallon usgallons"},
	UnitQuart:          {"qt", kindVolume, litresPerGallon / 4, 0, "qts quart quarts"},
	UnitPint:           {"pt", kindVolume, litresPerGallon / 8, 0, "pint pints"},
	UnitCup:            {"cup", kindVolume, litresPerGallon / 16, 0, "cups"},
	UnitFluidOunce:     {"floz", kindVolume, litresPerGallon / 128, 0, "fl.oz fl.oz. fluidounce fluidounces"},
	UnitCubicFoot:      {"ft3", kindVolume, litresPerCubicFoot, 0, "cuft cu.ft cu.ft. cubicfoot cubicfeet"},
	UnitAcreFoot:       {"acre-ft", kindVolume, squareFeetPerAcre * litresPerCubicFoot, 0, "acrefoot acre-foot acre-feet acreft"},
	UnitImperialGallon: {"impgal", kindVolume, 4.54609, 0, "ukgal imperialgallon imperialgallons ukgallons"},

	UnitSquareMetre: {"m2", kindArea, 1, 0, "sqm squaremetre squaremetres squaremeter squaremeters"},
	UnitHectare:     {"ha", kindArea, 10000, 0, "hectare hectares"},
	UnitSquareFoot:  {"ft2", kindArea, metres2PerFoot2, 0, "sqft sq.ft sq.ft. squarefoot squarefeet"},
	UnitAcre:        {"acre", kindArea, metres2PerAcre, 0, "acres ac"},

	UnitGram:      {"g", kindWeight, 1, 0, "gram grams gramme grammes"},
	UnitMilligram: {"mg", kindWeight, 0.001, 0, "milligram milligrams"},
	UnitKilogram:  {"kg", kindWeight, 1000, 0, "kilo kilos kilogram kilograms"},
	UnitTonne:     {"t", kindWeight, 1e6, 0, "tonne tonnes"},
	UnitPound:     {"lb", kindWeight, gramsPerPound, 0, "lbs pound pounds"},
	UnitOunce:     {"oz", kindWeight, gramsPerPound / 16, 0, "ounce ounces"},
	UnitShortTon:  {"shortton", kindWeight, gramsPerShortTon, 0, "shorttons ustons uston"},

	UnitGPerM2:          {"g/m2", kindYield, 1, 0, ""},
	UnitKgPerM2:         {"kg/m2", kindYield, 1000, 0, ""},
	UnitTonnePerHectare: {"t/ha", kindYield, 100, 0, ""},
	UnitPoundPerFt2:     {"lb/ft2", kindYield, gramsPerPound / metres2PerFoot2, 0, "lb/sqft lbs/sqft lbs/ft2"},
	UnitShortTonPerAcre: {"shortton/acre", kindYield, gramsPerShortTon / metres2PerAcre, 0, "shorttons/acre uston/acre ustons/acre"},

	UnitRank: {"rank", kindRank, 1, 0, ""},
}
