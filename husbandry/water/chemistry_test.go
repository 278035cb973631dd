package water

import (
	"math"
	"math/rand/v2"
	"testing"

	"freshet.example/husbandry/quantity"
)

// is compares to within a relative room.
func is(t *testing.T, name string, got, want, room float64) {
	t.Helper()
	if !(math.Abs(got-want) <= room*math.Max(1e-12, math.Abs(want))) {
		t.Errorf("%s: got %v, want %v", name, got, want)
	}
}

// must drops an error that the inputs of a test cannot raise.
func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// The figures were computed apart, in another language, from the equations as
// printed, to pin every digit of the coefficients.
func TestAmmoniaComputedApart(t *testing.T) {
	is(t, "pKa 0 degC", must(PKa(0)), 0.09018+2729.92/273.15, 1e-12)
	is(t, "saline 34 g/kg", float64(must(UnionizedFractionSaline(8, 25, 34))), 0.042784646287, 1e-9)
	is(t, "saline 5 g/kg", float64(must(UnionizedFractionSaline(7.5, 10, 5))), 0.005634963451, 1e-9)
	is(t, "saline 45 g/kg", float64(must(UnionizedFractionSaline(8.2, 40, 45))), 0.153436837098, 1e-9)
	is(t, "ionic strength 34 g/kg", float64(must(IonicStrengthOfSalinity(34))), 0.701382230827, 1e-9)
	is(t, "ionic strength 1000 uS/cm", float64(must(IonicStrengthOfConductivity(1000))), 0.016, 1e-12)
	is(t, "ionic 0.0133", float64(must(UnionizedFractionIonic(7, 25, 0.0133))), 0.004983922030, 1e-8)
	is(t, "ionic 0.05", float64(must(UnionizedFractionIonic(8, 5, 0.05))), 0.009936409019, 1e-8)
	is(t, "ionic 0.1", float64(must(UnionizedFractionIonic(9, 40, 0.1))), 0.534708985656, 1e-8)
	is(t, "total 2.5", float64(must(UnionizedAmmonia(2.5, 9.2466, 25))), 1.25, 1e-3)
	is(t, "as NH3", float64(UnionizedN(14.007).NH3()), 17.031, 1e-12)
}

// Robinson & Stokes 1959 table the Debye-Hueckel constants, Malmberg & Maryott
// 1956 the permittivity.
func TestDebyeHueckel(t *testing.T) {
	is(t, "permittivity 0 degC", permittivity(0), 87.74, 1e-12)
	is(t, "permittivity 20 degC", permittivity(20), 80.10, 1e-4)
	is(t, "permittivity 25 degC", permittivity(25), 78.30, 1e-4)
	is(t, "permittivity 50 degC", permittivity(50), 69.909, 1e-5)
	is(t, "A 0 degC", -logActivity(1, 0, 1, 0), 0.4918, 1e-4)
	is(t, "A 25 degC", -logActivity(1, 0, 1, 25), 0.5115, 2e-4)
	is(t, "charge 2", logActivity(2, 0, 0.01, 25), 4*logActivity(1, 0, 0.01, 25), 1e-12)
	is(t, "B 25 degC", logActivity(1, 0, 1, 25)/logActivity(1, 1, 1, 25)-1, 0.3291, 2e-4)
}

func TestSalinityAgreesWithFreshAtNought(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 1))
	for range 1000 {
		ph, c := quantity.PH(2+11*random.Float64()), quantity.Celsius(5+35*random.Float64())
		fresh := float64(must(UnionizedFraction(ph, c)))
		is(t, "salt", float64(must(UnionizedFractionSaline(ph, c, 0))), fresh, 1e-12)
		is(t, "ions", float64(must(UnionizedFractionIonic(ph, c, 0))), fresh, 1e-12)
		if s := must(UnionizedFractionIonic(ph, c, 0.01)); float64(s) >= fresh {
			t.Fatalf("salts raise the share at pH %v", ph)
		}
		if must(UnionizedFraction(ph, c+1)) <= quantity.Fraction(fresh) {
			t.Fatalf("warmth lowers the share at pH %v", ph)
		}
		total := quantity.AmmoniaN(10 * random.Float64())
		is(t, "millimolar", float64(must(UnionizedMillimolar(Millimolar(total), ph, c))), float64(must(UnionizedAmmonia(total, ph, c))), 1e-12)
	}
}

// EPA-822-R-99-014 tables, as remembered and as its equations give.
func TestCriteria1999(t *testing.T) {
	for ph, want := range map[quantity.PH]float64{6.5: 48.8, 7: 36.1, 8: 8.41, 9: 1.32} {
		is(t, "acute", float64(must(EPA1999AcuteNoSalmonid(ph))), want, 0.004)
	}
	for _, c := range []struct {
		ph          quantity.PH
		t           quantity.Celsius
		early, late float64
	}{
		{6.5, 0, 6.67, 10.8}, {7, 0, 5.91, 9.60}, {7, 20, 4.15, 4.15}, {7, 30, 2.18, 2.18}, {8, 0, 2.43, 3.95}, {8, 14, 2.43, 2.52},
		{8, 10, 2.43, 3.26}, {8, 20, 1.71, 1.71}, {8, 30, 0.897, 0.897}, {9, 0, 0.486, 0.790}, {9, 30, 0.179, 0.179},
	} {
		is(t, "early life", float64(must(EPA1999ChronicEarlyLife(c.ph, c.t))), c.early, 0.003)
		is(t, "no early life", float64(must(EPA1999ChronicNoEarlyLife(c.ph, c.t))), c.late, 0.004)
	}
}

// Two figures leave room for a doubled small coefficient, so the equations of
// 2013 are pinned at full width too, computed apart.
func TestCriteria2013AtFullWidth(t *testing.T) {
	sigmoid := func(ph, middle, low, high float64) float64 {
		return low/(1+math.Pow(10, middle-ph)) + high/(1+math.Pow(10, ph-middle))
	}
	is(t, "chronic, pH 9", float64(must(EPA2013Chronic(9, 20))), 0.8876*sigmoid(9, 7.688, 0.0278, 1.1994)*2.126, 1e-9)
	is(t, "chronic, 0 degC", float64(must(EPA2013Chronic(9, 0))), 0.8876*sigmoid(9, 7.688, 0.0278, 1.1994)*2.126*math.Pow(10, 0.364), 1e-9)
	is(t, "acute, pH 9", float64(must(EPA2013AcuteNoSalmonid(9, 20))), 0.7249*sigmoid(9, 7.204, 0.0114, 1.6181)*23.12, 1e-9)
	is(t, "acute, 0 degC", float64(must(EPA2013AcuteNoSalmonid(8, 0))), 0.7249*sigmoid(8, 7.204, 0.0114, 1.6181)*51.93, 1e-9)
	is(t, "salmonid, 0 degC", float64(must(EPA2013AcuteSalmonid(9, 0))), sigmoid(9, 7.204, 0.275, 39), 1e-9)
	is(t, "1999 acute, pH 9", float64(must(EPA1999AcuteNoSalmonid(9))), sigmoid(9, 7.204, 0.411, 58.4), 1e-9)
	is(t, "1999 salmonid, pH 9", float64(must(EPA1999AcuteSalmonid(9))), sigmoid(9, 7.204, 0.275, 39), 1e-9)
	is(t, "four days", float64(must(EPA2013FourDay(1.9))), 4.75, 1e-12)
}

func TestRoundFigures(t *testing.T) {
	for _, c := range []struct {
		v       float64
		figures int
		want    float64
	}{{0.0849, 2, 0.085}, {1234, 2, 1200}, {-0.0849, 1, -0.08}, {0, 2, 0}, {9.96, 2, 10}, {17.4, 2, 17}, {5, 3, 5}, {5.56, 2, 5.6}, {99999, 1, 100000}} {
		if got := must(RoundFigures(c.v, c.figures)); got != c.want {
			t.Errorf("%v to %d figures is %v", c.v, c.figures, got)
		}
	}
}

// Benson & Krause's equation and pressure term, computed apart.
func TestOxygenComputedApart(t *testing.T) {
	for _, c := range []struct {
		t    quantity.Celsius
		s    quantity.Salinity
		p    quantity.Atmospheres
		want float64
	}{
		{0, 0, 0.5, 7.269638393637}, {25, 0, 0.8, 6.558296394468}, {40, 0, 0.5, 2.955376154436},
		{40, 40, 1.1, 5.778566028128}, {10, 35, 1, 9.024259169795}, {20, 20, 0.7, 5.600246997944},
	} {
		is(t, "oxygen", float64(must(OxygenSaturation(c.t, c.s, c.p))), c.want, 1e-9)
	}
	for height, mmHg := range map[quantity.Metres]float64{-430: 799.5537903602, 1609.344: 625.7582578202, 3000: 525.8571479206, 5400: 383.9877281602105} {
		is(t, "pressure", float64(must(PressureAtElevation(height)).MillimetresOfMercury()), mmHg, 1e-9)
	}
}

func TestOxygenProperties(t *testing.T) {
	random := rand.New(rand.NewPCG(2, 2))
	for range 1000 {
		c, s := quantity.Celsius(39*random.Float64()), quantity.Salinity(39*random.Float64())
		p := quantity.Atmospheres(0.5 + 0.5*random.Float64())
		full := must(OxygenSaturation(c, s, p))
		if must(OxygenSaturation(c+1, s, p)) >= full || must(OxygenSaturation(c, s+1, p)) >= full || must(OxygenSaturation(c, s, p+0.1)) <= full {
			t.Fatalf("warmth, salt or height does not lower oxygen at %v degC, %v g/kg, %v atm", c, s, p)
		}
		percent := quantity.Percent(200 * random.Float64())
		o := must(OxygenOfPercent(percent, c, s, p))
		is(t, "percent", float64(must(OxygenPercent(o, c, s, p))), float64(percent), 1e-12)
	}
	is(t, "half", float64(must(OxygenOfPercent(50, 20, 0, 1))), float64(must(OxygenSaturation(20, 0, 1)))/2, 1e-12)
}

// Plummer & Busenberg's equations, computed apart.
func TestCarbonateComputedApart(t *testing.T) {
	for _, c := range []struct {
		t              quantity.Celsius
		k1, k2, kh, kw float64
	}{
		{0, 6.5785617123940305, 10.628571680511403, 1.108382927450151, 14.942096016760775},
		{15, 6.4187954500334925, 10.428426499008957, 1.340819730195994, 14.346057071709104},
		{50, 6.28580085543145, 10.174401276291938, 1.71078861190969, 13.275100946026939},
	} {
		is(t, "pK1", must(PK1(c.t)), c.k1, 1e-10)
		is(t, "pK2", must(PK2(c.t)), c.k2, 1e-10)
		is(t, "pKH", must(PKH(c.t)), c.kh, 1e-10)
		is(t, "pKw", must(PKw(c.t)), c.kw, 1e-10)
	}
	is(t, "carbon dioxide", float64(must(CarbonDioxide(9.5, 20, 100))), 0.052907015043, 1e-9)
	is(t, "ionic 0.0133", float64(must(CarbonDioxideIonic(8.5, 25, 50, 0.0133))), 0.266917570112, 1e-8)
	is(t, "ionic 0.05", float64(must(CarbonDioxideIonic(7, 10, 80, 0.05))), 16.786863865677, 1e-8)
	is(t, "carbon pH 6.2", float64(must(InorganicCarbon(6.2, 25, 10))), 0.484737604714, 1e-9)
	is(t, "carbon pH 7.5", float64(must(InorganicCarbon(7.5, 15, 80))), 1.728912199978, 1e-9)
	is(t, "carbon pH 9.5", float64(must(InorganicCarbon(9.5, 25, 60))), 1.034438697414, 1e-9)
	is(t, "air", float64(must(CarbonDioxideInAir(425, 25, 1))), 0.636781648618, 1e-9)
	is(t, "air at height", float64(must(CarbonDioxideInAir(425, 10, 0.9))), 0.905311283749, 1e-9)
}

func TestCarbonateRoundTrips(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 3))
	for range 1000 {
		ph, c := quantity.PH(5+4.5*random.Float64()), quantity.Celsius(50*random.Float64())
		a := quantity.AlkalinityCaCO3(20 + 300*random.Float64())
		co2 := must(CarbonDioxide(ph, c, a))
		if co2 >= 0.01 {
			is(t, "pH by carbon dioxide", float64(must(PHOfCarbonDioxide(co2, c, a))), float64(ph), 1e-10)
		}
		is(t, "no ions", float64(must(CarbonDioxideIonic(ph, c, a, 0))), float64(co2), 1e-12)
		is(t, "factor", float64(a)*must(CarbonDioxideFactor(ph, c)), float64(co2), 1e-12)
		if ph > 9 && a < 60 {
			continue // hydroxide may be more than the alkalinity
		}
		carbon := must(InorganicCarbon(ph, c, a))
		is(t, "pH by carbon", float64(must(PHOfInorganicCarbon(carbon, c, a))), float64(ph), 1e-9)
	}
	is(t, "pure water", float64(must(PHOfInorganicCarbon(0, 25, 0))), 7, 1e-4)
	is(t, "only acid", float64(must(PHOfInorganicCarbon(1000, 25, 0))), 3.18, 0.01)  // strong soda water
	is(t, "only base", float64(must(PHOfInorganicCarbon(0, 25, 5004.3))), 13, 0.001) // a tenth of a mole of lye
}

// TestClosedWaterBalances: at the pH found, hydrogen and alkalinity are matched
// by bicarbonate, carbonate and hydroxide, as shares of the carbon (Stumm &
// Morgan, Aquatic Chemistry: the ionisation fractions; from memory), from pure
// water to soda and lye.
func TestClosedWaterBalances(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 3))
	amount := func(most float64) float64 {
		if random.IntN(8) == 0 {
			return 0
		}
		return most * math.Pow(10, -12*random.Float64())
	}
	for range 1000 {
		carbon, a, c := amount(10000), amount(50000), quantity.Celsius(50*random.Float64())
		ph := float64(must(PHOfInorganicCarbon(Millimolar(carbon), c, quantity.AlkalinityCaCO3(a))))
		k1, k2, kw := math.Pow(10, -must(PK1(c))), math.Pow(10, -must(PK2(c))), math.Pow(10, -must(PKw(c)))
		over := func(ph float64) float64 {
			h := math.Pow(10, -ph)
			bicarbonate := 1 / (h/k1 + 1 + k2/h)
			return carbon/1000*bicarbonate*(1+2*k2/h) + kw/h - h - float64(quantity.AlkalinityCaCO3(a).Milliequivalents())/1000
		}
		if !(over(ph-1e-9) < 0 && over(ph+1e-9) > 0) {
			t.Fatalf("carbon %v, alkalinity %v, %v degC: pH %v leaves %v to %v", carbon, a, c, ph, over(ph-1e-9), over(ph+1e-9))
		}
	}
}
