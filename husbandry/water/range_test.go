package water

import (
	"errors"
	"math"
	"testing"

	"freshet.example/husbandry/quantity"
)

// refuses checks that a function takes both bounds, and refuses what lies just
// outside them and what is no number, as a RangeError.
func refuses(t *testing.T, name string, low, high float64, try func(float64) error) {
	t.Helper()
	for _, v := range []float64{low, high} {
		if err := try(v); err != nil {
			t.Errorf("%s refuses its bound %v: %v", name, v, err)
		}
	}
	step := 1e-9 * math.Max(1e-6, math.Max(math.Abs(low), math.Abs(high)))
	for _, v := range []float64{low - step, high + step, math.NaN(), math.Inf(1), math.Inf(-1)} {
		var wrong *quantity.RangeError
		if err := try(v); !errors.As(err, &wrong) {
			t.Errorf("%s takes %v: %v", name, v, err)
		}
	}
}

// failure turns a function of one number into one that only fails.
func failure[T any, V ~float64](work func(V) (T, error)) func(float64) error {
	return func(v float64) error { _, err := work(V(v)); return err }
}

func TestAmmoniaRanges(t *testing.T) {
	refuses(t, "pKa", 0, 50, failure(PKa))
	refuses(t, "fraction, pH", 2, 13, failure(func(v quantity.PH) (any, error) { return UnionizedFraction(v, 20) }))
	refuses(t, "fraction, temperature", 0, 50, failure(func(v quantity.Celsius) (any, error) { return UnionizedFraction(7, v) }))
	refuses(t, "ammonia, total", 0, 1e5, failure(func(v quantity.AmmoniaN) (any, error) { return UnionizedAmmonia(v, 7, 20) }))
	refuses(t, "ammonia, pH", 2, 13, failure(func(v quantity.PH) (any, error) { return UnionizedAmmonia(1, v, 20) }))
	refuses(t, "ammonia, temperature", 0, 50, failure(func(v quantity.Celsius) (any, error) { return UnionizedAmmonia(1, 7, v) }))
	refuses(t, "millimolar, total", 0, 1e5, failure(func(v Millimolar) (any, error) { return UnionizedMillimolar(v, 7, 20) }))
	refuses(t, "millimolar, pH", 2, 13, failure(func(v quantity.PH) (any, error) { return UnionizedMillimolar(1, v, 20) }))
	refuses(t, "millimolar, temperature", 0, 50, failure(func(v quantity.Celsius) (any, error) { return UnionizedMillimolar(1, 7, v) }))
	refuses(t, "saline, pH", 2, 13, failure(func(v quantity.PH) (any, error) { return UnionizedFractionSaline(v, 20, 10) }))
	refuses(t, "saline, temperature", 5, 40, failure(func(v quantity.Celsius) (any, error) { return UnionizedFractionSaline(7, v, 10) }))
	refuses(t, "saline, salinity", 0, 45, failure(func(v quantity.Salinity) (any, error) { return UnionizedFractionSaline(7, 20, v) }))
	refuses(t, "ionic strength of salinity", 0, 45, failure(IonicStrengthOfSalinity))
	refuses(t, "ionic strength of conductivity", 0, 6250, failure(IonicStrengthOfConductivity))
	refuses(t, "ionic, pH", 2, 13, failure(func(v quantity.PH) (any, error) { return UnionizedFractionIonic(v, 20, 0.01) }))
	refuses(t, "ionic, temperature", 0, 50, failure(func(v quantity.Celsius) (any, error) { return UnionizedFractionIonic(7, v, 0.01) }))
	refuses(t, "ionic, strength", 0, 0.1, failure(func(v IonicStrength) (any, error) { return UnionizedFractionIonic(7, 20, v) }))
}

func TestCriteriaRanges(t *testing.T) {
	for name, work := range map[string]criterion{
		"2013 acute salmonid": EPA2013AcuteSalmonid, "2013 acute": EPA2013AcuteNoSalmonid, "2013 chronic": EPA2013Chronic,
		"1999 early life": EPA1999ChronicEarlyLife, "1999 no early life": EPA1999ChronicNoEarlyLife,
		"1986 acute salmonid": EPA1986AcuteSalmonid, "1986 acute": EPA1986AcuteNoSalmonid, "1986 chronic salmonid": EPA1986ChronicSalmonid, "1986 chronic": EPA1986ChronicNoSalmonid,
	} {
		refuses(t, name+", pH", 6.5, 9, failure(func(v quantity.PH) (any, error) { return work(v, 20) }))
		refuses(t, name+", temperature", 0, 30, failure(func(v quantity.Celsius) (any, error) { return work(7, v) }))
	}
	refuses(t, "1999 acute salmonid", 6.5, 9, failure(EPA1999AcuteSalmonid))
	refuses(t, "1999 acute", 6.5, 9, failure(EPA1999AcuteNoSalmonid))
	refuses(t, "four days", 0, 1e5, failure(EPA2013FourDay))
	refuses(t, "figures, value", -math.MaxFloat64, math.MaxFloat64, func(v float64) error { _, err := RoundFigures(v, 15); return err })
	for figures, good := range map[int]bool{0: false, 1: true, 15: true, 16: false} {
		if _, err := RoundFigures(1, figures); (err == nil) != good {
			t.Errorf("%d figures: %v", figures, err)
		}
	}
}

func TestOxygenRanges(t *testing.T) {
	for name, work := range map[string]func(quantity.Celsius, quantity.Salinity, quantity.Atmospheres) error{
		"saturation": func(t quantity.Celsius, s quantity.Salinity, p quantity.Atmospheres) error {
			_, err := OxygenSaturation(t, s, p)
			return err
		},
		"percent": func(t quantity.Celsius, s quantity.Salinity, p quantity.Atmospheres) error {
			_, err := OxygenPercent(5, t, s, p)
			return err
		},
		"of percent": func(t quantity.Celsius, s quantity.Salinity, p quantity.Atmospheres) error {
			_, err := OxygenOfPercent(50, t, s, p)
			return err
		},
	} {
		refuses(t, name+", temperature", 0, 40, func(v float64) error { return work(quantity.Celsius(v), 0, 1) })
		refuses(t, name+", salinity", 0, 40, func(v float64) error { return work(20, quantity.Salinity(v), 1) })
		refuses(t, name+", pressure", 0.5, 1.1, func(v float64) error { return work(20, 0, quantity.Atmospheres(v)) })
	}
	refuses(t, "percent, oxygen", 0, 100, failure(func(v quantity.MgPerL) (any, error) { return OxygenPercent(v, 20, 0, 1) }))
	refuses(t, "of percent, percent", 0, 1000, failure(func(v quantity.Percent) (any, error) { return OxygenOfPercent(v, 20, 0, 1) }))
	refuses(t, "elevation", -430, 5400, failure(PressureAtElevation))
}

func TestCarbonateRanges(t *testing.T) {
	for name, work := range map[string]func(quantity.Celsius) (float64, error){"pK1": PK1, "pK2": PK2, "pKH": PKH, "pKw": PKw} {
		refuses(t, name, 0, 50, failure(work))
	}
	type triple func(quantity.PH, quantity.Celsius, quantity.AlkalinityCaCO3) error
	for name, work := range map[string]triple{
		"carbon dioxide": func(p quantity.PH, c quantity.Celsius, a quantity.AlkalinityCaCO3) error {
			_, err := CarbonDioxide(p, c, a)
			return err
		},
		"ionic": func(p quantity.PH, c quantity.Celsius, a quantity.AlkalinityCaCO3) error {
			_, err := CarbonDioxideIonic(p, c, a, 0.01)
			return err
		},
	} {
		refuses(t, name+", pH", 4.5, 10, func(v float64) error { return work(quantity.PH(v), 20, 100) })
		refuses(t, name+", temperature", 0, 50, func(v float64) error { return work(7, quantity.Celsius(v), 100) })
		refuses(t, name+", alkalinity", 0, 1e5, func(v float64) error { return work(7, 20, quantity.AlkalinityCaCO3(v)) })
	}
	refuses(t, "ionic, strength", 0, 0.1, failure(func(v IonicStrength) (any, error) { return CarbonDioxideIonic(7, 20, 100, v) }))
	refuses(t, "factor, pH", 4.5, 10, failure(func(v quantity.PH) (any, error) { return CarbonDioxideFactor(v, 20) }))
	refuses(t, "factor, temperature", 0, 50, failure(func(v quantity.Celsius) (any, error) { return CarbonDioxideFactor(7, v) }))
	refuses(t, "pH, carbon dioxide", 1e-4, 1e5, failure(func(v quantity.MgPerL) (any, error) { return PHOfCarbonDioxide(v, 20, 100) }))
	refuses(t, "pH, temperature", 0, 50, failure(func(v quantity.Celsius) (any, error) { return PHOfCarbonDioxide(10, v, 100) }))
	refuses(t, "pH, alkalinity", 0.1, 1e5, failure(func(v quantity.AlkalinityCaCO3) (any, error) { return PHOfCarbonDioxide(10, 20, v) }))
	refuses(t, "air, carbon dioxide", 200, 10000, func(v float64) error { _, err := CarbonDioxideInAir(v, 20, 1); return err })
	refuses(t, "air, temperature", 0, 50, failure(func(v quantity.Celsius) (any, error) { return CarbonDioxideInAir(425, v, 1) }))
	refuses(t, "air, pressure", 0.5, 1.1, failure(func(v quantity.Atmospheres) (any, error) { return CarbonDioxideInAir(425, 20, v) }))
	refuses(t, "carbon, temperature", 0, 50, failure(func(v quantity.Celsius) (any, error) { return InorganicCarbon(7, v, 100) }))
	refuses(t, "carbon, pH", 4.5, 10, failure(func(v quantity.PH) (any, error) { return InorganicCarbon(v, 20, 100) }))
	refuses(t, "carbon, alkalinity", 0, 1e5, failure(func(v quantity.AlkalinityCaCO3) (any, error) { return InorganicCarbon(6, 20, v) }))
	refuses(t, "closed, carbon", 0, 10000, failure(func(v Millimolar) (any, error) { return PHOfInorganicCarbon(v, 20, 100) }))
	refuses(t, "closed, temperature", 0, 50, failure(func(v quantity.Celsius) (any, error) { return PHOfInorganicCarbon(2, v, 100) }))
	refuses(t, "closed, alkalinity", 0, 50000, failure(func(v quantity.AlkalinityCaCO3) (any, error) { return PHOfInorganicCarbon(2, 20, v) }))
	var wrong *quantity.RangeError
	if _, err := InorganicCarbon(10, 25, 4); !errors.As(err, &wrong) {
		t.Errorf("pH 10 with hardly any alkalinity is taken: %v", err)
	}
	if _, err := InorganicCarbon(10, 25, 6); err != nil {
		t.Errorf("pH 10 with alkalinity enough is refused: %v", err)
	}
}

func TestDoseRanges(t *testing.T) {
	base := Bases[0]
	refuses(t, "nitrification", 0, 1e12, failure(func(v quantity.Grams) (any, error) { return BaseForNitrification(base, v) }))
	refuses(t, "base, volume", 0, 1e9, failure(func(v quantity.Litres) (any, error) { return BaseForAlkalinity(base, v, 10) }))
	refuses(t, "base, rise", 0, 1e5, failure(func(v quantity.AlkalinityCaCO3) (any, error) { return BaseForAlkalinity(base, 100, v) }))
	refuses(t, "alkalinity of base, volume", 0.001, 1e9, failure(func(v quantity.Litres) (any, error) { return AlkalinityOfBase(base, v, 10) }))
	refuses(t, "alkalinity of base, dose", 0, 1e12, failure(func(v quantity.Grams) (any, error) { return AlkalinityOfBase(base, 100, v) }))
	after := func(ph quantity.PH, c quantity.Celsius, a, rise quantity.AlkalinityCaCO3) error {
		_, _, err := PHAfterBase(Water{PH: ph, Temperature: c, Alkalinity: a}, base, rise)
		return err
	}
	refuses(t, "after base, pH", 4.5, 9, func(v float64) error { return after(quantity.PH(v), 20, 100, 1) })
	refuses(t, "after base, temperature", 0, 50, func(v float64) error { return after(7, quantity.Celsius(v), 100, 1) })
	refuses(t, "after base, alkalinity", 1, 1000, func(v float64) error { return after(7, 20, quantity.AlkalinityCaCO3(v), 1) })
	refuses(t, "after base, rise", 0, 1000, func(v float64) error { return after(7, 20, 100, quantity.AlkalinityCaCO3(v)) })
	for _, edge := range []error{after(5, 0, 1000, 1000), after(9, 20, 1, 0), after(9, 0, 1000, 1000), after(4.5, 50, 1, 1000)} {
		if edge != nil {
			t.Errorf("a corner of the range is refused: %v", edge)
		}
	}
	plan := func(w Water, wanted quantity.AlkalinityCaCO3, most float64) error {
		_, err := PlanBase(w, base, wanted, most)
		return err
	}
	good := Water{Volume: 1000, PH: 6.5, Temperature: 25, Alkalinity: 40, Ammonia: 1}
	refuses(t, "plan, wanted", 0, 500, func(v float64) error { return plan(good, quantity.AlkalinityCaCO3(v), 0.3) })
	refuses(t, "plan, rise", 0.05, 0.3, func(v float64) error { return plan(good, 50, v) })
	refuses(t, "plan, volume", 0, 1e9, func(v float64) error { w := good; w.Volume = quantity.Litres(v); return plan(w, 50, 0.2) })
	refuses(t, "plan, ammonia", 0, 1e5, func(v float64) error { w := good; w.Ammonia = quantity.AmmoniaN(v); return plan(w, 50, 0.2) })
	refuses(t, "plan, pH", 4.5, 9, func(v float64) error { w := good; w.PH, w.Alkalinity = quantity.PH(v), 60; return plan(w, 50, 0.2) })
	refuses(t, "plan, alkalinity", 1, 1000, func(v float64) error { w := good; w.Alkalinity = quantity.AlkalinityCaCO3(v); return plan(w, 1, 0.2) })
	refuses(t, "plan, temperature", 0, 50, func(v float64) error { w := good; w.Temperature = quantity.Celsius(v); return plan(w, 50, 0.2) })
	refuses(t, "plan without a step, temperature", 0, 50, func(v float64) error { w := good; w.Temperature = quantity.Celsius(v); return plan(w, 1, 0.2) })
	refuses(t, "dose, concentration", 0, 1e5, failure(func(v quantity.MgPerL) (any, error) { return Dose(v, 1) }))
	refuses(t, "dose, volume", 0, 1e9, failure(func(v quantity.Litres) (any, error) { return Dose(1, v) }))
	refuses(t, "daily, dose", 0, 1e12, failure(func(v quantity.Grams) (any, error) { return DailyDoses(v, 1e9, 1e5) }))
	refuses(t, "daily, volume", 0.001, 1e9, failure(func(v quantity.Litres) (any, error) { return DailyDoses(1e-4, v, 1) }))
	refuses(t, "daily, most", 0.001, 1e5, failure(func(v quantity.MgPerL) (any, error) { return DailyDoses(1e-4, 100, v) }))
	refuses(t, "daily, days", 0, 365, failure(func(v quantity.Grams) (any, error) { return DailyDoses(v, 1000, 1) }))
	refuses(t, "iron target", 2, 3, func(v float64) error { _, err := IronTarget(v); return err })
	refuses(t, "iron, rise", 0, 5, failure(func(v quantity.MgPerL) (any, error) { return IronDose(100, v, 0.07) }))
	refuses(t, "iron, share", 0.005, 1, failure(func(v quantity.Fraction) (any, error) { return IronDose(100, 2, v) }))
	refuses(t, "iron, volume", 0, 1e9, failure(func(v quantity.Litres) (any, error) { return IronDose(v, 2, 0.07) }))
}

func TestNitriteAndChlorineRanges(t *testing.T) {
	refuses(t, "ratio, chloride", 0, 1e5, failure(func(v ChlorideCl) (any, error) { return ChlorideToNitrite(v, 1) }))
	refuses(t, "ratio, nitrite", 0.001, 1e5, failure(func(v quantity.NitriteN) (any, error) { return ChlorideToNitrite(1, v) }))
	refuses(t, "needed, nitrite", 0, 1e5, failure(func(v quantity.NitriteN) (any, error) { return ChlorideNeeded(Ratios[0], v, 1) }))
	refuses(t, "needed, chloride", 0, 1e5, failure(func(v ChlorideCl) (any, error) { return ChlorideNeeded(Ratios[0], 1, v) }))
	refuses(t, "at ratio, ratio", 0, 1000, func(v float64) error { _, err := ChlorideAtRatio(v, 1, 1); return err })
	refuses(t, "at ratio, nitrite", 0, 1e5, failure(func(v quantity.MgPerL) (any, error) { return ChlorideAtRatio(6, v, 1) }))
	refuses(t, "at ratio, chloride", 0, 1e5, failure(func(v ChlorideCl) (any, error) { return ChlorideAtRatio(6, 1, v) }))
	refuses(t, "salt", 0, 1e5, failure(SaltForChloride))
	refuses(t, "chloride", 0, 1e5, failure(ChlorideOfSalt))
	refuses(t, "top-up, chlorine", 0, 20, failure(func(v quantity.MgPerL) (any, error) { return ChlorineAfterTopUp(v, 0.1) }))
	refuses(t, "top-up, share", 0, 1, failure(func(v quantity.Fraction) (any, error) { return ChlorineAfterTopUp(1, v) }))
	refuses(t, "thiosulfate, chlorine", 0, 20, failure(func(v quantity.MgPerL) (any, error) { _, _, err := Thiosulfate(100, v); return nil, err }))
	refuses(t, "thiosulfate, volume", 0, 1e9, failure(func(v quantity.Litres) (any, error) { _, _, err := Thiosulfate(v, 1); return nil, err }))
	refuses(t, "chloramine", 0, 20, failure(AmmoniaOfChloramine))
	refuses(t, "total chlorine", 0, 20, failure(AmmoniaOfTotalChlorine))
	refuses(t, "hardness, calcium", 0, 1e5, failure(func(v quantity.CalciumCa) (any, error) { return Hardness(v, 1) }))
	refuses(t, "hardness, magnesium", 0, 1e5, failure(func(v quantity.MagnesiumMg) (any, error) { return Hardness(1, v) }))
}

func TestSafetyRanges(t *testing.T) {
	refuses(t, "pH at limit, total", 1e-6, 1e5, failure(func(v quantity.AmmoniaN) (any, error) { return PHAtLimit(v, 20, 0.05) }))
	refuses(t, "pH at limit, temperature", 0, 50, failure(func(v quantity.Celsius) (any, error) { return PHAtLimit(1, v, 0.05) }))
	refuses(t, "pH at limit, limit", 1e-6, 1e5, failure(func(v UnionizedN) (any, error) { return PHAtLimit(1, 20, v) }))
	refuses(t, "temperature at limit, total", 1e-6, 1e5, failure(func(v quantity.AmmoniaN) (any, error) { return TemperatureAtLimit(v, 8, 0.05) }))
	refuses(t, "temperature at limit, pH", 2, 13, failure(func(v quantity.PH) (any, error) { return TemperatureAtLimit(1, v, 0.05) }))
	refuses(t, "temperature at limit, limit", 1e-6, 1e5, failure(func(v UnionizedN) (any, error) { return TemperatureAtLimit(1, 8, v) }))
	refuses(t, "ammonia at limit, pH", 2, 13, failure(func(v quantity.PH) (any, error) { return AmmoniaAtLimit(v, 20, 0.05) }))
	refuses(t, "ammonia at limit, temperature", 0, 50, failure(func(v quantity.Celsius) (any, error) { return AmmoniaAtLimit(8, v, 0.05) }))
	refuses(t, "ammonia at limit, limit", 1e-6, 1e5, failure(func(v UnionizedN) (any, error) { return AmmoniaAtLimit(8, 20, v) }))
	refuses(t, "judgement, total", 0, 1e5, failure(func(v quantity.AmmoniaN) (any, error) { return JudgeAmmonia(v, 8, 20, 0.05) }))
	refuses(t, "judgement, pH", 2, 13, failure(func(v quantity.PH) (any, error) { return JudgeAmmonia(1, v, 20, 0.05) }))
	refuses(t, "judgement, temperature", 0, 50, failure(func(v quantity.Celsius) (any, error) { return JudgeAmmonia(1, 8, v, 0.05) }))
	refuses(t, "judgement, limit", 1e-6, 1e5, failure(func(v UnionizedN) (any, error) { return JudgeAmmonia(1, 8, 20, v) }))
	refuses(t, "split, figure", -1e300, 1e300, func(v float64) error {
		_, err := Split(func(x []float64) (float64, error) { return x[0], nil }, []float64{0}, []float64{v})
		return err
	})
}
