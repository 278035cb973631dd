package crop

import (
	"math"
	"reflect"
	"testing"

	"freshet.example/husbandry/quantity"
)

// An argument is one number that a function takes, with a good value and the
// bounds within which the function promises an answer.
type argument struct {
	name            string
	good, low, high float64
}

// proveRanges checks that the function answers at its good values and at each
// bound, and refuses what is just outside, infinite, or no number.
func proveRanges(t *testing.T, name string, call func(x []float64) error, args ...argument) {
	t.Helper()
	x := make([]float64, len(args))
	for i, a := range args {
		x[i] = a.good
	}
	if err := call(x); err != nil {
		t.Errorf("%s refuses good values: %v", name, err)
	}
	for i, a := range args {
		try := func(v float64) error {
			y := append([]float64{}, x...)
			y[i] = v
			return call(y)
		}
		for _, v := range []float64{a.low, a.high} {
			if err := try(v); err != nil {
				t.Errorf("%s: %s %v is within its bounds but %v", name, a.name, v, err)
			}
		}
		step := 1e-6 * math.Max(1e-3, math.Max(math.Abs(a.low), math.Abs(a.high)))
		for _, v := range []float64{a.low - step, a.high + step, math.NaN(), math.Inf(1), math.Inf(-1)} {
			if try(v) == nil {
				t.Errorf("%s accepts %s %v", name, a.name, v)
			}
		}
	}
}

// refused hands on an error, and hides one that came with a value.
func refused[T any](v T, err error) error {
	if err != nil && !reflect.ValueOf(&v).Elem().IsZero() {
		return nil
	}
	return err
}

// refusedBoth does the same for two values.
func refusedBoth[T any](v, w T, err error) error { return refused([2]T{v, w}, err) }

// proveWhole checks the bounds of a whole number.
func proveWhole(t *testing.T, name string, low, high int, call func(n int) error) {
	t.Helper()
	for _, n := range []int{low, high} {
		if err := call(n); err != nil {
			t.Errorf("%s: %d is within its bounds but %v", name, n, err)
		}
	}
	for _, n := range []int{low - 1, high + 1} {
		if call(n) == nil {
			t.Errorf("%s accepts %d", name, n)
		}
	}
}

func air(name string, good float64) argument { return argument{name, good, -60, 60} }

func TestRangesOfAir(t *testing.T) {
	proveRanges(t, "SaturationVapourPressure", func(x []float64) error {
		return refused(SaturationVapourPressure(quantity.Celsius(x[0])))
	}, air("temperature", 20))
	proveRanges(t, "MeanSaturationVapourPressure", func(x []float64) error {
		return refused(MeanSaturationVapourPressure(quantity.Celsius(x[0]), quantity.Celsius(x[1])))
	}, argument{"max", 20, 10, 60}, argument{"min", 10, -60, 20})
	proveRanges(t, "VapourPressureSlope", func(x []float64) error {
		return refused(VapourPressureSlope(quantity.Celsius(x[0])))
	}, air("temperature", 20))
	proveRanges(t, "AtmosphericPressure", func(x []float64) error {
		return refused(AtmosphericPressure(quantity.Metres(x[0])))
	}, argument{"elevation", 100, -430, 9000})
	proveRanges(t, "PsychrometricConstant", func(x []float64) error {
		return refused(PsychrometricConstant(quantity.Kilopascals(x[0])))
	}, argument{"pressure", 100, 30, 110})
	proveRanges(t, "VapourPressureFromExtremes", func(x []float64) error {
		return refused(VapourPressureFromExtremes(quantity.Celsius(x[0]), quantity.Celsius(x[1]), quantity.Percent(x[2]), quantity.Percent(x[3])))
	}, argument{"max", 20, 10, 60}, argument{"min", 10, -60, 20}, argument{"highest", 80, 0, 100}, argument{"lowest", 50, 0, 100})
	proveRanges(t, "VapourPressureFromMaximum", func(x []float64) error {
		return refused(VapourPressureFromMaximum(quantity.Celsius(x[0]), quantity.Percent(x[1])))
	}, air("min", 10), argument{"highest", 80, 0, 100})
	proveRanges(t, "VapourPressureFromMean", func(x []float64) error {
		return refused(VapourPressureFromMean(quantity.Celsius(x[0]), quantity.Celsius(x[1]), quantity.Percent(x[2])))
	}, argument{"max", 20, 10, 60}, argument{"min", 10, -60, 20}, argument{"mean", 80, 0, 100})
	proveRanges(t, "VapourPressureFromWetBulb", func(x []float64) error {
		return refused(VapourPressureFromWetBulb(20, 19, quantity.Kilopascals(x[0]), Psychrometer(x[1])))
	}, argument{"pressure", 90, 30, 110}, argument{"constant", 0.000662, 0.0005, 0.0015})
	proveRanges(t, "VapourPressureFromWetBulb, frost", func(x []float64) error {
		return refused(VapourPressureFromWetBulb(-10, quantity.Celsius(x[0]), 90, Ventilated))
	}, argument{"wet", -10, -10, -10})
	proveRanges(t, "VapourPressureFromWetBulb, heat", func(x []float64) error {
		return refused(VapourPressureFromWetBulb(quantity.Celsius(x[0]), 50, 90, Ventilated))
	}, argument{"dry", 55, 50, 60})
	if _, err := VapourPressureFromWetBulb(30, 5, 90, Ventilated); err == nil {
		t.Error("bulbs so far apart leave less than no vapour")
	}
}

func TestRangesOfSun(t *testing.T) {
	proveWhole(t, "InverseDistance", 1, 366, func(j int) error { return refused(InverseDistance(j)) })
	proveWhole(t, "SolarDeclination", 1, 366, func(j int) error { return refused(SolarDeclination(j)) })
	proveWhole(t, "DaylightHours", 1, 366, func(j int) error { return refused(DaylightHours(10, j)) })
	proveWhole(t, "ExtraterrestrialRadiation", 1, 366, func(j int) error { return refused(ExtraterrestrialRadiation(10, j)) })
	proveWhole(t, "HourAngle", 1, 366, func(j int) error { return refused(HourAngle(j, 12, Meridian{})) })
	proveWhole(t, "HourlyExtraterrestrialRadiation", 1, 366, func(j int) error { return refused(HourlyExtraterrestrialRadiation(10, j, 0)) })
	lat := argument{"latitude", 10, -90, 90}
	proveRanges(t, "SunsetHourAngle", func(x []float64) error {
		return refused(SunsetHourAngle(Degrees(x[0]), Radians(x[1])))
	}, lat, argument{"declination", 0.1, -0.41, 0.41})
	proveRanges(t, "DaylightHours", func(x []float64) error { return refused(DaylightHours(Degrees(x[0]), 100)) }, lat)
	proveRanges(t, "ExtraterrestrialRadiation", func(x []float64) error {
		return refused(ExtraterrestrialRadiation(Degrees(x[0]), 100))
	}, lat)
	proveRanges(t, "HourAngle", func(x []float64) error {
		return refused(HourAngle(100, quantity.Hours(x[0]), Meridian{Degrees(x[1]), Degrees(x[2])}))
	}, argument{"middle", 12, 0, 24}, argument{"zone", 15, 0, 360}, argument{"here", 16, 0, 360})
	proveRanges(t, "HourlyExtraterrestrialRadiation", func(x []float64) error {
		return refused(HourlyExtraterrestrialRadiation(Degrees(x[0]), 100, Radians(x[1])))
	}, lat, argument{"angle", 0, -7, 7})
}

func TestRangesOfRadiation(t *testing.T) {
	above := argument{"above", 30, 0, 50}
	proveRanges(t, "SolarRadiation", func(x []float64) error {
		return refused(SolarRadiation(quantity.Hours(x[0]), quantity.Hours(x[1]), MJPerM2(x[2])))
	}, argument{"sunshine", 0.1, 0, 12}, argument{"daylight", 12, 0.1, 24}, above)
	proveRanges(t, "SolarRadiationFromTemperature", func(x []float64) error {
		return refused(SolarRadiationFromTemperature(quantity.Celsius(x[0]), quantity.Celsius(x[1]), MJPerM2(x[2]), x[3]))
	}, argument{"max", 20, 10, 60}, argument{"min", 10, -60, 20}, above, argument{"factor", 0.16, 0.1, 0.25})
	proveRanges(t, "IslandSolarRadiation", func(x []float64) error { return refused(IslandSolarRadiation(MJPerM2(x[0]))) },
		argument{"above", 30, 10, 50})
	proveRanges(t, "ClearSkyRadiation", func(x []float64) error {
		return refused(ClearSkyRadiation(quantity.Metres(x[0]), MJPerM2(x[1])))
	}, argument{"elevation", 10, -430, 9000}, above)
	proveRanges(t, "NetShortwave", func(x []float64) error {
		return refused(NetShortwave(MJPerM2(x[0]), quantity.Fraction(x[1])))
	}, argument{"solar", 20, 0, 50}, argument{"albedo", 0.2, 0, 1})
	proveRanges(t, "NetLongwave", func(x []float64) error {
		return refused(NetLongwave(quantity.Celsius(x[0]), quantity.Celsius(x[1]), quantity.Kilopascals(x[2]), MJPerM2(x[3]), MJPerM2(x[4])))
	}, argument{"max", 20, 10, 60}, argument{"min", 10, -60, 20}, argument{"actual", 1, 0, 20}, argument{"solar", 20, 0, 50}, argument{"clear", 30, 0.1, 50})
	proveRanges(t, "HourlyNetLongwave", func(x []float64) error {
		return refused(HourlyNetLongwave(quantity.Celsius(x[0]), quantity.Kilopascals(x[1]), quantity.Fraction(x[2])))
	}, air("temperature", 20), argument{"actual", 1, 0, 20}, argument{"clearness", 0.5, 0, 1})
	proveRanges(t, "NetRadiation", func(x []float64) error { return refused(NetRadiation(MJPerM2(x[0]), MJPerM2(x[1]))) },
		argument{"kept", 10, 0, 50}, argument{"lost", 3, -20, 50})
	for name, f := range map[string]func(a, b quantity.Celsius) (MJPerM2, error){"MonthlySoilHeat": MonthlySoilHeat, "MonthlySoilHeatSoFar": MonthlySoilHeatSoFar} {
		proveRanges(t, name, func(x []float64) error { return refused(f(quantity.Celsius(x[0]), quantity.Celsius(x[1]))) },
			air("before", 10), air("after", 12))
	}
}

func TestRangesOfEvapotranspiration(t *testing.T) {
	proveRanges(t, "WindAtTwoMetres", func(x []float64) error {
		return refused(WindAtTwoMetres(MetresPerSecond(x[0]), quantity.Metres(x[1])))
	}, argument{"wind", 3, 0, 60}, argument{"gauge", 10, 0.5, 200})
	for name, f := range map[string]func(rn, g MJPerM2, air Air) (Millimetres, error){
		"Evapotranspiration": Evapotranspiration, "HourlyEvapotranspiration": HourlyEvapotranspiration} {
		proveRanges(t, name, func(x []float64) error {
			return refused(f(MJPerM2(x[0]), MJPerM2(x[1]), Air{quantity.Celsius(x[2]), MetresPerSecond(x[3]), quantity.Kilopascals(x[4]),
				quantity.Kilopascals(x[5]), KPaPerC(x[6]), KPaPerC(x[7])}))
		}, argument{"net", 13, -20, 50}, argument{"soil", 0, -20, 50}, air("temperature", 20), argument{"wind", 2, 0, 20},
			argument{"saturation", 2, 0, 20}, argument{"actual", 1, 0, 20}, argument{"slope", 0.1, 0, 1}, argument{"gamma", 0.06, 0.01, 0.1})
	}
	proveRanges(t, "Hargreaves", func(x []float64) error {
		return refused(Hargreaves(quantity.Celsius(x[0]), quantity.Celsius(x[1]), MJPerM2(x[2])))
	}, argument{"max", 20, 10, 60}, argument{"min", 10, -60, 20}, argument{"above", 30, 0, 50})
	mild := []Temperatures[quantity.Celsius]{{Max: 20, Min: 10}}
	proveWhole(t, "HargreavesSum", 1, 366, func(j int) error { return refused(HargreavesSum(10, j, mild)) })
	proveRanges(t, "HargreavesSum", func(x []float64) error {
		return refused(HargreavesSum(Degrees(x[0]), 1, []Temperatures[quantity.Celsius]{{Max: quantity.Celsius(x[1]), Min: quantity.Celsius(x[2])}}))
	}, argument{"latitude", 10, -90, 90}, argument{"max", 20, 10, 60}, argument{"min", 10, -60, 20})
	proveRanges(t, "Adjusted", func(x []float64) error {
		return refused(Adjusted(x[0], MetresPerSecond(x[1]), quantity.Percent(x[2]), quantity.Metres(x[3])))
	}, argument{"coefficient", 1, 0, 1.5}, argument{"wind", 2, 1, 6}, argument{"lowest humidity", 45, 20, 80}, argument{"height", 1, 0.1, 10})
	proveRanges(t, "CropEvapotranspiration", func(x []float64) error { return refused(CropEvapotranspiration(Millimetres(x[0]), x[1])) },
		argument{"reference", 5, 0, 20}, argument{"coefficient", 1, 0, 1.5})
	proveRanges(t, "WaterUse", func(x []float64) error {
		return refused(WaterUse(Millimetres(x[0]), quantity.SquareMetres(x[1])))
	}, argument{"crop", 5, 0, 30}, argument{"area", 1, 0.01, 100000})
	lettuce := Stages{"lettuce", 20, 30, 15, 10}
	proveWhole(t, "CropCoefficient.On", 1, 75, func(n int) error { return refused(CropCoefficient{}.On(n, lettuce)) })
}

func TestRangesOfWeather(t *testing.T) {
	good := Weather{Latitude: 45, Elevation: 200, YearDay: 196, Max: 26, Min: 15}
	proveWhole(t, "ReferenceEvapotranspiration", 1, 366, func(j int) error {
		w := good
		w.YearDay = j
		return refused(ReferenceEvapotranspiration(w))
	})
	proveRanges(t, "ReferenceEvapotranspiration", func(x []float64) error {
		w := good
		w.Elevation, w.Vapour, w.Wind, w.Solar = quantity.Metres(x[0]), Measure(x[1]), Measure(x[2]), Measure(x[3])
		return refused(ReferenceEvapotranspiration(w))
	}, argument{"elevation", 200, -430, 9000}, argument{"vapour", 1, 0, 20}, argument{"wind", 2, 0, 20}, argument{"solar", 20, 0, 50})
	for _, lat := range []Degrees{-91, -90, 91} { // the South Pole has no sun in July
		w := good
		w.Latitude = lat
		if _, err := ReferenceEvapotranspiration(w); err == nil {
			t.Errorf("latitude %v has an answer in July", lat)
		}
	}
	for name, set := range map[string]func(w *Weather, m Measured){
		"dew point": func(w *Weather, m Measured) { w.DewPoint = m }, "highest": func(w *Weather, m Measured) { w.HumidMax = m },
		"extremes": func(w *Weather, m Measured) { w.HumidMax, w.HumidMin = Measure(90), m },
		"mean":     func(w *Weather, m Measured) { w.HumidMean = m }, "sunshine": func(w *Weather, m Measured) { w.Sunshine = m },
		"factor": func(w *Weather, m Measured) { w.SunFactor = m }, "last month": func(w *Weather, m Measured) { w.LastMonth = m },
		"next month": func(w *Weather, m Measured) { w.LastMonth, w.NextMonth = Measure(10), m }, "mean of days": func(w *Weather, m Measured) { w.MeanOfDays = m },
	} {
		for _, bad := range []float64{math.NaN(), math.Inf(1), -500, 500} {
			w := good
			set(&w, Measure(bad))
			if _, err := ReferenceEvapotranspiration(w); err == nil {
				t.Errorf("%s %v is believed", name, bad)
			}
		}
	}
	hour := HourWeather{Latitude: 16, Elevation: 8, YearDay: 274, Middle: 14.5, Meridian: Meridian{15, 16}, Temperature: 30, Humidity: 50, Wind: 2, Solar: 2, Clearness: 0.8}
	proveRanges(t, "ReferenceEvapotranspirationOfHour", func(x []float64) error {
		h := hour
		h.Latitude, h.Elevation, h.Middle, h.Temperature = Degrees(x[0]), quantity.Metres(x[1]), quantity.Hours(x[2]), quantity.Celsius(x[3])
		h.Humidity, h.Wind, h.Solar = quantity.Percent(x[4]), MetresPerSecond(x[5]), MJPerM2(x[6])
		return refused(ReferenceEvapotranspirationOfHour(h))
	}, argument{"latitude", 16, -90, 90}, argument{"elevation", 8, -430, 9000}, argument{"middle", 14.5, 0, 24}, argument{"temperature", 30, -60, 60},
		argument{"humidity", 50, 0, 100}, argument{"wind", 2, 0, 20}, argument{"solar", 2, 0, 50})
	proveWhole(t, "ReferenceEvapotranspirationOfHour", 1, 366, func(j int) error {
		h := hour
		h.YearDay = j
		return refused(ReferenceEvapotranspirationOfHour(h))
	})
	night := hour
	night.Middle = 2
	proveRanges(t, "ReferenceEvapotranspirationOfHour, night", func(x []float64) error {
		night.Clearness = quantity.Fraction(x[0])
		return refused(ReferenceEvapotranspirationOfHour(night))
	}, argument{"clearness", 0.8, 0, 1})
}
