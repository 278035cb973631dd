package quantity

import (
	"math"
	"math/rand/v2"
	"testing"
)

// close9 compares to nine figures.
func close9(got, want float64) bool { return math.Abs(got-want) <= 1e-9*math.Max(1, math.Abs(want)) }

// Every value is by definition or worked out from the atomic weights by hand.
func TestTypedConversions(t *testing.T) {
	for _, c := range []struct {
		name      string
		got, want float64
		room      float64
	}{
		{"212 degF", float64(Fahrenheit(212).Celsius()), 100, 1e-12},
		{"32 degF", float64(Fahrenheit(32).Celsius()), 0, 0},
		{"-40 degC", float64(Celsius(-40).Fahrenheit()), -40, 0},
		{"100 degC", float64(Celsius(100).Fahrenheit()), 212, 1e-12},
		{"0 degC", float64(Celsius(0).Kelvin()), 273.15, 0},
		{"300 K", float64(Kelvin(300).Celsius()), 26.85, 1e-12},

		{"17.031 mg/L NH3", float64(AmmoniaNH3(17.031).N()), 14.007, 1e-12},
		{"18.039 mg/L NH4", float64(AmmoniaNH4(18.039).N()), 14.007, 1e-12},
		{"14.007 mg/L N as NH3", float64(AmmoniaN(14.007).NH3()), 17.031, 1e-12},
		{"14.007 mg/L N as NH4", float64(AmmoniaN(14.007).NH4()), 18.039, 1e-12},
		{"46.005 mg/L NO2", float64(NitriteIon(46.005).N()), 14.007, 1e-12},
		{"14.007 mg/L N as NO2", float64(NitriteN(14.007).Ion()), 46.005, 1e-12},
		{"62.004 mg/L NO3", float64(NitrateIon(62.004).N()), 14.007, 1e-12},
		{"14.007 mg/L N as NO3", float64(NitrateN(14.007).Ion()), 62.004, 1e-12},

		{"1 dKH", float64(DegreesKH(1).CaCO3()), 17.848, 0.0005},
		{"178.48 mg/L", float64(AlkalinityCaCO3(178.48).KH()), 10, 0.0005},
		{"1 dGH", float64(DegreesGH(1).CaCO3()), 17.848, 0.0005},
		{"178.48 mg/L hardness", float64(HardnessCaCO3(178.48).GH()), 10, 0.0005},
		{"2 meq/L", float64(MilliequivalentsPerL(2).CaCO3()), 100.086, 1e-9},
		{"100.086 mg/L", float64(AlkalinityCaCO3(100.086).Milliequivalents()), 2, 1e-9},
		{"40.078 mg/L Ca", float64(CalciumCa(40.078).CaCO3()), 100.086, 1e-9},
		{"24.305 mg/L Mg", float64(MagnesiumMg(24.305).CaCO3()), 100.086, 1e-9},

		{"1 gal", float64(USGallons(1).Litres()), 3.785411784, 0},
		{"3.785411784 L", float64(Litres(3.785411784).USGallons()), 1, 0},
		{"4 qt", float64(USQuarts(4).Litres()), 3.785411784, 0},
		{"1 ft3", float64(CubicFeet(1).Litres()), 28.316846592, 1e-12},
		{"28.316846592 L", float64(Litres(28.316846592).CubicFeet()), 1, 1e-12},
		{"1 acre-ft", float64(AcreFeet(1).Litres()), 1233481.83754752, 1e-6},
		{"2 m3", float64(CubicMetres(2).Litres()), 2000, 0},
		{"500 L", float64(Litres(500).CubicMetres()), 0.5, 0},
		{"10 ft", float64(Feet(10).Metres()), 3.048, 1e-12},
		{"3.048 m", float64(Metres(3.048).Feet()), 10, 1e-12},
		{"10 in", float64(Inches(10).Metres()), 0.254, 1e-12},
		{"0.254 m", float64(Metres(0.254).Inches()), 10, 1e-12},
		{"1 ft2", float64(SquareFeet(1).SquareMetres()), 0.09290304, 1e-15},
		{"0.09290304 m2", float64(SquareMetres(0.09290304).SquareFeet()), 1, 1e-12},
		{"1 acre", float64(Acres(1).SquareMetres()), 4046.8564224, 1e-9},
		{"1 lb", float64(Pounds(1).Grams()), 453.59237, 0},
		{"453.59237 g", float64(Grams(453.59237).Pounds()), 1, 0},
		{"16 oz", float64(Ounces(16).Grams()), 453.59237, 0},
		{"28.349523125 g", float64(Grams(28.349523125).Ounces()), 1, 1e-12},
		{"2 lb", float64(Pounds(2).Kilograms()), 0.90718474, 1e-12},
		{"1 short ton", float64(ShortTons(1).Kilograms()), 907.18474, 1e-9},
		{"1500 g", float64(Grams(1500).Kilograms()), 1.5, 0},
		{"1.5 kg", float64(Kilograms(1.5).Grams()), 1500, 0},

		{"2 L/min", float64(LitresPerMinute(2).LitresPerHour()), 120, 0},
		{"120 L/h", float64(LitresPerHour(120).LitresPerMinute()), 2, 0},
		{"25 gpm", float64(USGallonsPerMinute(25).LitresPerMinute()), 94.6352946, 1e-9},
		{"94.6352946 L/min", float64(LitresPerMinute(94.6352946).USGallonsPerMinute()), 25, 1e-9},
		{"100 gph", float64(USGallonsPerHour(100).LitresPerHour()), 378.5411784, 1e-9},
		{"1 short ton/acre", float64(ShortTonsPerAcre(1).GramsPerSquareMetre()), 224.1702, 0.0001},
		{"224.1702 g/m2", float64(GramsPerSquareMetre(224.1702).ShortTonsPerAcre()), 1, 1e-6},
		{"1 lb/ft2", float64(PoundsPerSquareFoot(1).GramsPerSquareMetre()), 4882.4276, 0.0001},
		{"4882.4276 g/m2", float64(GramsPerSquareMetre(4882.4276).PoundsPerSquareFoot()), 1, 1e-6},

		{"1 atm", float64(Atmospheres(1).Hectopascals()), 1013.25, 0},
		{"1013.25 hPa", float64(Hectopascals(1013.25).Atmospheres()), 1, 0},
		{"380 mmHg", float64(MillimetresOfMercury(380).Atmospheres()), 0.5, 0},
		{"0.5 atm", float64(Atmospheres(0.5).MillimetresOfMercury()), 380, 0},
		{"1 inHg, NIST SP 811", float64(InchesOfMercury(1).Hectopascals()), 33.86389, 0.000005},
		{"1 psi, NIST SP 811", float64(PoundsPerSquareInch(1).Hectopascals()), 68.94757, 0.000005},
		{"100 kPa", float64(Kilopascals(100).Hectopascals()), 1000, 0},
		{"101.325 kPa", float64(Kilopascals(101.325).Atmospheres()), 1, 1e-12},
		{"1000 hPa", float64(Hectopascals(1000).Kilopascals()), 100, 0},
	} {
		if !(math.Abs(c.got-c.want) <= c.room) {
			t.Errorf("%s: got %v, want %v", c.name, c.got, c.want)
		}
	}
}

// Molar masses summed by hand from IUPAC 2021, g/mol.
func TestWeights(t *testing.T) {
	for name, c := range map[string][2]float64{
		"S": {WeightS, 32.06}, "Fe": {WeightFe, 55.845}, "PO4": {WeightPO4, 94.970}, "O2": {WeightO2, 31.998},
		"CO2": {WeightCO2, 44.009}, "HCO3": {WeightHCO3, 61.016}, "CaCO3": {WeightCaCO3, 100.086},
		"NaCl": {WeightNaCl, 58.44}, "Cl2": {WeightCl2, 70.90}, "K": {WeightK, 39.098}, "Na": {WeightNa, 22.990},
		"Mg": {WeightMg, 24.305}, "P": {WeightP, 30.974}, "Ca": {WeightCa, 40.078}, "H": {WeightH, 1.008},
		"NH3": {WeightNH3, 17.031}, "NH4": {WeightNH4, 18.039}, "NO2": {WeightNO2, 46.005}, "NO3": {WeightNO3, 62.004},
		"C": {WeightC, 12.011}, "N": {WeightN, 14.007}, "O": {WeightO, 15.999}, "Cl": {WeightCl, 35.45},
	} {
		if !(math.Abs(c[0]-c[1]) <= 1e-9) {
			t.Errorf("%s: %v, want %v", name, c[0], c[1])
		}
	}
}

// UNESCO Technical Papers in Marine Science 44 prints no check at other places,
// so these pin the terms in S at 0 and 40 degC by sums done apart.
func TestSeaWater(t *testing.T) {
	for _, c := range []struct{ t, s, want, room float64 }{
		{0, 0, 999.842594, 1e-9},
		{0, 1, 999.842594 + 0.824493 - 0.00572466 + 0.00048314, 1e-9},
		{0, 4, 999.842594 + 4*0.824493 - 8*0.00572466 + 16*0.00048314, 1e-9},
		{40, 0, 992.2204, 0.001},    // density of pure water at 40 degC, Bigg 1967
		{30, 0, 995.65113, 0.00001}, // UNESCO TPMS 44
		{5, 35, 1027.67547, 0.00001},
		{25, 35, 1023.34306, 0.00001},
	} {
		got, err := SeaWaterDensity(Celsius(c.t), Salinity(c.s))
		if err != nil || !(math.Abs(got-c.want) <= c.room) {
			t.Errorf("%v degC, %v g/kg: got %v (%v), want %v", c.t, c.s, got, err, c.want)
		}
	}
	sg, err := Salinity(35).SpecificGravity(25)
	if err != nil || !(math.Abs(float64(sg)-1023.34306/997.04796) <= 1e-7) {
		t.Errorf("specific gravity of sea water: %v, %v", sg, err)
	}
}

func TestSalinityRoundTrip(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for range 1000 {
		s, c := Salinity(38*random.Float64()), Celsius(42*random.Float64()-2)
		sg, err := s.SpecificGravity(c)
		if err != nil {
			t.Fatal(err)
		}
		back, err := sg.Salinity(c)
		if err != nil || !(math.Abs(float64(back-s)) <= 1e-9) {
			t.Fatalf("%v g/kg at %v degC came back as %v (%v)", s, c, back, err)
		}
	}
}

func TestTypedRoundTrips(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	for range 1000 {
		v := 1000 * (random.Float64() - 0.5)
		for name, back := range map[string]float64{
			"temperature": float64(Celsius(v).Fahrenheit().Celsius()),
			"kelvin":      float64(Celsius(v).Kelvin().Celsius()),
			"NH3":         float64(AmmoniaN(v).NH3().N()),
			"NH4":         float64(AmmoniaN(v).NH4().N()),
			"NO2":         float64(NitriteN(v).Ion().N()),
			"NO3":         float64(NitrateN(v).Ion().N()),
			"KH":          float64(AlkalinityCaCO3(v).KH().CaCO3()),
			"GH":          float64(HardnessCaCO3(v).GH().CaCO3()),
			"meq":         float64(AlkalinityCaCO3(v).Milliequivalents().CaCO3()),
			"gal":         float64(Litres(v).USGallons().Litres()),
			"ft3":         float64(Litres(v).CubicFeet().Litres()),
			"m3":          float64(Litres(v).CubicMetres().Litres()),
			"ft":          float64(Metres(v).Feet().Metres()),
			"in":          float64(Metres(v).Inches().Metres()),
			"ft2":         float64(SquareMetres(v).SquareFeet().SquareMetres()),
			"lb":          float64(Grams(v).Pounds().Grams()),
			"oz":          float64(Grams(v).Ounces().Grams()),
			"kg":          float64(Grams(v).Kilograms().Grams()),
			"flow":        float64(LitresPerMinute(v).LitresPerHour().LitresPerMinute()),
			"gpm":         float64(LitresPerMinute(v).USGallonsPerMinute().LitresPerMinute()),
			"ton/acre":    float64(GramsPerSquareMetre(v).ShortTonsPerAcre().GramsPerSquareMetre()),
			"lb/ft2":      float64(GramsPerSquareMetre(v).PoundsPerSquareFoot().GramsPerSquareMetre()),
			"atm":         float64(Hectopascals(v).Atmospheres().Hectopascals()),
			"mmHg":        float64(Atmospheres(v).MillimetresOfMercury().Atmospheres()),
			"kPa":         float64(Hectopascals(v).Kilopascals().Hectopascals()),
		} {
			if !close9(back, v) {
				t.Fatalf("%s: %v came back as %v", name, v, back)
			}
		}
	}
}
