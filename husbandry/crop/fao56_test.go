package crop

import (
	"math"
	"slices"
	"testing"

	"freshet.example/husbandry/quantity"
)

// The full-precision values of this file are from an independent run of the
// FAO-56 equations in Python, which gives the printed answers of examples 17 to
// 20 (5.72, 3.88, 0.63 and 0.00, 4.56, 5.0).

func TestAirFullPrecision(t *testing.T) {
	for _, c := range []struct {
		t                 quantity.Celsius
		saturation, slope float64
	}{
		{-20, 0.1246191118413178, 0.010815264700628074}, {0, 0.6108, 0.04445038286283265}, {1, 0.6567091639890807, 0.04739111710514966},
		{24.5, 3.07464905088159, 0.183835009120509}, {38, 6.624757621878521, 0.35820325235737516},
	} {
		got, err := SaturationVapourPressure(c.t)
		same(t, "saturation", got, err, c.saturation)
		slope, err := VapourPressureSlope(c.t)
		same(t, "slope", slope, err, c.slope)
	}
	for z, want := range map[quantity.Metres]float64{0: 101.3, 1800: 81.75579640764421, -100: 102.48766285861149} {
		got, err := AtmosphericPressure(z)
		same(t, "pressure", got, err, want)
	}
	gamma, err := PsychrometricConstant(81.8)
	same(t, "psychrometric constant", gamma, err, 0.000665*81.8)
	wet, err := VapourPressureFromWetBulb(25.6, 19.5, 87.9, Ventilated)
	same(t, "wet bulb, example 4", wet, err, 1.9119223209804515)
	mean, err := MeanSaturationVapourPressure(25, 18)
	same(t, "mean saturation", mean, err, 2.6158834600836665)
	extremes, err := VapourPressureFromExtremes(25, 18, 82, 54)
	near(t, "example 5", extremes, err, (2.064*0.82+3.168*0.54)/2, 1e-3)
	highest, err := VapourPressureFromMaximum(18, 82)
	near(t, "example 5 from the highest", highest, err, 2.064*0.82, 1e-3)
	byMean, err := VapourPressureFromMean(25, 18, 68)
	near(t, "example 5 from the mean", byMean, err, 1.78, 1e-2)
}

func TestPsychrometersOfFAO56(t *testing.T) {
	for got, want := range map[Psychrometer]float64{Ventilated: 0.000662, NaturallyVentilated: 0.0008, Unventilated: 0.0012} {
		same(t, "psychrometer", got, nil, want)
	}
}

func TestSunFullPrecision(t *testing.T) {
	for _, c := range []struct {
		day            int
		near, declined float64
	}{
		{1, 1.0329951106939008, -0.4010080925946237}, {100, 0.9950481718546265, 0.13308315174237367},
		{135, 0.9774306590863878, 0.3288180074771168}, {246, 0.9848288195980806, 0.11965509269706703}, {366, 1.0329951106939008, -0.4010080925946237},
	} {
		distance, err := InverseDistance(c.day)
		same(t, "inverse distance", distance, err, c.near)
		declined, err := SolarDeclination(c.day)
		same(t, "declination", declined, err, c.declined)
	}
	for _, c := range []struct {
		lat                     Degrees
		day                     int
		sunset, daylight, above float64
	}{
		{-20, 246, 1.5270224148343854, 11.66559194558473, 32.193995875112726}, {45.72, 196, 1.9857521157575457, 15.170028718944142, 40.554555810136996},
		{0, 1, math.Pi / 2, 12, 35.74602589206754}, {60, 355, 0.7216549248422712, 5.513037527772369, 2.116356174371824},
		{80, 172, math.Pi, 24, 44.744794196001195}, {80, 355, 0, 0, 0}, {-75, 10, math.Pi, 24, 44.09549951313765},
	} {
		declined, _ := SolarDeclination(c.day)
		angle, err := SunsetHourAngle(c.lat, declined)
		same(t, "sunset", angle, err, c.sunset)
		hours, err := DaylightHours(c.lat, c.day)
		same(t, "daylight", hours, err, c.daylight)
		above, err := ExtraterrestrialRadiation(c.lat, c.day)
		same(t, "radiation above", above, err, c.above)
	}
}

func TestHourOfSunFullPrecision(t *testing.T) {
	for _, c := range []struct {
		day    int
		middle quantity.Hours
		m      Meridian
		want   float64
	}{{274, 14.5, Meridian{15, 16.25}, 0.682145551431621}, {100, 9, Meridian{75, 70}, -0.7050741364951825}, {20, 20, Meridian{0, 3}, 1.9944095533052126}} {
		angle, err := HourAngle(c.day, c.middle, c.m)
		same(t, "hour angle", angle, err, c.want)
	}
	for _, c := range []struct {
		lat   Degrees
		day   int
		angle Radians
		want  float64
	}{
		{16 + 13.0/60, 274, 0.682145551431621, 3.5434175130228955}, {50, 172, -1.9, 0.5451828545777895}, {50, 172, 2.2, 0}, {66, 172, 2.9, 0.009487872618059548},
	} {
		above, err := HourlyExtraterrestrialRadiation(c.lat, c.day, c.angle)
		same(t, "radiation above in an hour", above, err, c.want)
	}
}

func TestRadiationFullPrecision(t *testing.T) {
	rs, err := SolarRadiation(7.1, 10.9, 25.1)
	same(t, "example 10", rs, err, 25.1*(0.25+0.5*7.1/10.9))
	rs, err = SolarRadiationFromTemperature(26.6, 14.8, 40.6, 0.16)
	same(t, "example 15", rs, err, 0.16*math.Sqrt(11.8)*40.6)
	rs, err = IslandSolarRadiation(40)
	same(t, "island", rs, err, 24)
	clear, err := ClearSkyRadiation(100, 41.09)
	same(t, "example 18", clear, err, 0.752*41.09)
	kept, err := NetShortwave(14.5, GrassAlbedo)
	same(t, "example 12", kept, err, 0.77*14.5)
	lost, err := NetLongwave(25.1, 19.1, 2.1, 14.5, 18.8)
	same(t, "example 11", lost, err, 3.534034815846814)
	lost, err = NetLongwave(25.1, 19.1, 2.1, 30, 20)
	same(t, "more sun than a clear sky gives", lost, err, 5.112724473868419)
	lost, err = HourlyNetLongwave(38, 3.445, 0.75)
	same(t, "example 19", lost, err, 0.10169346886215155)
	net, err := NetRadiation(11.1, 3.5)
	same(t, "example 12", net, err, 7.6)
	heat, err := MonthlySoilHeat(14.1, 18.8)
	same(t, "example 13", heat, err, 0.329)
	heat, err = MonthlySoilHeatSoFar(29.2, 30.2)
	same(t, "example 17", heat, err, 0.14)
	wind, err := WindAtTwoMetres(3.2, 10)
	same(t, "example 14", wind, err, 2.393443440537421)
	wind, err = WindAtTwoMetres(2, 0.5)
	same(t, "wind at half a metre", wind, err, 2.9081553600879424)
}

func TestEvapotranspirationFullPrecision(t *testing.T) {
	bangkok := Air{30.2, 2, 4.42, 2.85, 0.246, 0.0674}
	et, err := Evapotranspiration(14.33, 0.14, bangkok)
	same(t, "example 17", et, err, 5.713380333629949)
	et, err = HourlyEvapotranspiration(14.33, 0.14, bangkok)
	same(t, "the same with the hourly figure", et, err, 4.036522951396282)
	et, err = Hargreaves(26.6, 14.8, 40.55)
	same(t, "example 20", et, err, 5.032463003380862)
	et, err = Hargreaves(-20, -30, 10)
	same(t, "hard frost", et, err, 0)
}

func TestReferenceEvapotranspirationChain(t *testing.T) {
	lyon := Weather{Latitude: 45 + 43.0/60, Elevation: 200, YearDay: 196, Max: 26.6, Min: 14.8}
	uccle := Weather{Latitude: 50.8, Elevation: 100, YearDay: 187, Max: 21.5, Min: 12.3, HumidMax: Measure(84), HumidMin: Measure(63),
		Wind: Measure(10 / 3.6 * 4.87 / math.Log(67.8*10-5.42)), Sunshine: Measure(9.25)}
	bangkok := Weather{Latitude: 13.7333, Elevation: 2, YearDay: 105, Max: 34.8, Min: 25.6, Vapour: Measure(2.85), Wind: Measure(2),
		Sunshine: Measure(8.5), LastMonth: Measure(29.2)}
	half := Weather{Latitude: 45, Elevation: 200, YearDay: 196, Max: 26, Min: 15}
	windy := half
	windy.Wind, windy.Solar = Measure(3), Measure(20)
	dew, highest, mean := windy, windy, windy
	dew.DewPoint, highest.HumidMax, mean.HumidMean = Measure(12.5), Measure(90), Measure(60)
	coast, months, days := half, half, half
	coast.SunFactor, months.LastMonth, months.NextMonth, days.MeanOfDays = Measure(0.19), Measure(18), Measure(24), Measure(19)
	estimated := []string{"wind 2 m/s", "dew point at the lowest temperature", "solar radiation from the day's extremes"}
	for _, c := range []struct {
		name    string
		w       Weather
		want    float64
		assumed []string
	}{
		{"Lyon, example 20", lyon, 4.560439265321506, estimated},
		{"Uccle, example 18", uccle, 3.8802594471140064, nil},
		{"Bangkok, example 17", bangkok, 5.71612467289748, nil},
		{"dew point", dew, 4.929491195820159, nil},
		{"highest humidity", highest, 4.766549066322434, nil},
		{"mean humidity", mean, 4.7948055946669035, nil},
		{"coast", coast, 4.853126893399707, estimated},
		{"both months", months, 4.266357324603584, estimated},
		{"mean of days", days, 4.324764911233629, estimated},
	} {
		day, err := ReferenceEvapotranspiration(c.w)
		same(t, c.name, day.Reference, err, c.want)
		if !slices.Equal(day.Assumed, c.assumed) {
			t.Errorf("%s: assumed %q, want %q", c.name, day.Assumed, c.assumed)
		}
	}
	day, err := ReferenceEvapotranspiration(lyon)
	same(t, "net radiation", day.Net, err, 13.483225177092322)
	same(t, "solar radiation", day.Solar, err, 22.28963505458109)
}

func TestReferenceEvapotranspirationOfHour(t *testing.T) {
	day := HourWeather{Latitude: 16 + 13.0/60, Elevation: 8, YearDay: 274, Middle: 14.5, Meridian: Meridian{15, 16.25},
		Temperature: 38, Humidity: 52, Wind: 3.3, Solar: 2.45}
	night, bright := day, day
	night.Middle, night.Temperature, night.Humidity, night.Wind, night.Solar, night.Clearness = 2.5, 28.2, 90, 1.9, 0, UsualClearness
	bright.Solar = 3.9
	dawn := HourWeather{Latitude: 16 + 13.0/60, Elevation: 8, YearDay: 274, Middle: 6.5, Meridian: Meridian{15, 16.25},
		Temperature: 25, Humidity: 90, Wind: 1, Solar: 0.4}
	for _, c := range []struct {
		name                   string
		w                      HourWeather
		want, above, net, soil float64
	}{
		{"N'Diaye by day, example 19", day, 0.6269251452765767, 3.5434175130228955, 1.749217838560344, 0.1749217838560344},
		{"N'Diaye by night, example 19", night, 0.0045896367113665475, 0, -0.09874161690576973, -0.049370808452884864},
		{"dawn", dawn, 0.05369621998314325, 0.6384060748150809, 0.17791964828259024, 0.017791964828259024},
		{"brighter than a clear sky", bright, 0.9157802832238764, 3.5434175130228955, 2.849491320876219, 0.2849491320876219},
	} {
		hour, err := ReferenceEvapotranspirationOfHour(c.w)
		same(t, c.name, hour.Reference, err, c.want)
		same(t, c.name+", above", hour.Above, err, c.above)
		same(t, c.name+", net", hour.Net, err, c.net)
		same(t, c.name+", soil", hour.SoilHeat, err, c.soil)
	}
}

func TestCropCoefficients(t *testing.T) {
	kc, err := Adjusted(1.15, 4, 25, 0.6)
	same(t, "dry and windy", kc, err, 1.2487254180352014)
	kc, err = Adjusted(0.45, 1, 80, 2)
	same(t, "damp and still", kc, err, 0.2906158512067999)
	kc, err = Adjusted(0.4499, 1, 80, 2)
	same(t, "a small coefficient stands", kc, err, 0.4499)
	c, s := CropCoefficient{"a crop", 0.7, 1, 0.95, 0.3}, Stages{"a crop", 20, 30, 15, 10}
	for day, want := range map[int]float64{1: 0.7, 20: 0.7, 21: 0.71, 35: 0.85, 50: 1, 51: 1, 65: 1, 66: 0.995, 75: 0.95} {
		kc, err := c.On(day, s)
		same(t, "coefficient on a day", kc, err, want)
	}
	use, err := CropEvapotranspiration(3.9, 1.05)
	same(t, "crop water", use, err, 4.095)
	litres, err := WaterUse(4, 2.5)
	same(t, "litres", litres, err, 10)
}

func TestPropertiesOfEvapotranspiration(t *testing.T) {
	r := seeded()
	for range someCases {
		w := Weather{Latitude: Degrees(between(r, -40, 40)), Elevation: 100, YearDay: 1 + r.IntN(365), Min: quantity.Celsius(between(r, 5, 20))}
		w.Max = w.Min + quantity.Celsius(between(r, 1, 15))
		still, err := ReferenceEvapotranspiration(w)
		if err != nil || still.Reference <= 0 {
			t.Fatalf("%v has evapotranspiration %v, %v", w, still.Reference, err)
		}
		w.Wind = Measure(5)
		windy, _ := ReferenceEvapotranspiration(w)
		if windy.Reference < still.Reference && still.Air.Saturation-still.Air.Actual > 0.5 {
			t.Fatalf("wind slows drying in %v: %v, %v", w, windy.Reference, still.Reference)
		}
		if still.Solar > still.ClearSky*1.01 || still.Net > still.Solar {
			t.Fatalf("more sun than there is in %v: %v", w, still)
		}
		north, _ := DaylightHours(w.Latitude, w.YearDay)
		south, _ := DaylightHours(-w.Latitude, w.YearDay)
		same(t, "day and night of the hemispheres", north+south, nil, 24)
	}
}
