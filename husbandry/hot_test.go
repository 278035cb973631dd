package husbandry

import (
	"testing"

	"freshet.example/husbandry/crop"
	"freshet.example/husbandry/fish"
	"freshet.example/husbandry/loop"
	"freshet.example/husbandry/nitrogen"
	"freshet.example/husbandry/pantry"
	"freshet.example/husbandry/quantity"
	"freshet.example/husbandry/remedy"
	"freshet.example/husbandry/water"
)

// A hot formula is asked for each reading, hour or day of a record. It returns
// what it returns so that no compiler leaves it out.
type hot struct {
	name string
	ask  func() (float64, error)
}

func asked[T ~float64](v T, err error) (float64, error) { return float64(v), err }

func hotFormulas(tb testing.TB) []hot {
	tb.Helper()
	tilapia, err := fish.SpeciesByName("Nile tilapia")
	if err != nil {
		tb.Fatal(err)
	}
	return append([]hot{
		{"water/UnionizedFraction", func() (float64, error) { return asked(water.UnionizedFraction(7.8, 26)) }},
		{"water/UnionizedFractionIonic", func() (float64, error) { return asked(water.UnionizedFractionIonic(7.8, 26, 0.015)) }},
		{"water/OxygenSaturation", func() (float64, error) { return asked(water.OxygenSaturation(26, 0.4, 0.97)) }},
		{"water/PressureAtElevation", func() (float64, error) { return asked(water.PressureAtElevation(320)) }},
		{"water/CarbonDioxide", func() (float64, error) { return asked(water.CarbonDioxide(7.2, 26, 90)) }},
		{"water/EPA2013AcuteSalmonid", func() (float64, error) { return asked(water.EPA2013AcuteSalmonid(7.8, 16)) }},
		{"nitrogen/TANFromProtein", func() (float64, error) { return asked(nitrogen.TANFromProtein(1.4, 0.32)) }},
		{"nitrogen/TemperatureFactor", func() (float64, error) { return asked(nitrogen.TemperatureFactor(24)) }},
		{"nitrogen/FilterArea", func() (float64, error) { return asked(nitrogen.FilterArea(40, 0.5)) }},
		{"fish/WeightByHeat", func() (float64, error) { return asked(fish.WeightByHeat(20, 1.1, 1800)) }},
		{"fish/GrowthResponse", func() (float64, error) { return asked(fish.GrowthResponse(tilapia, 25)) }},
		{"fish/OxygenMinutes", func() (float64, error) { return asked(fish.OxygenMinutes(900, 28, 6.4, 3, 300)) }},
		{"fish/ShareAbove", func() (float64, error) { return asked(fish.ShareAbove(410, 0.22, 450)) }},
		{"fish/Bertalanffy", func() (float64, error) { return asked(fish.Bertalanffy(42, 0.9, -0.1, 1.2)) }},
		{"crop/SaturationVapourPressure", func() (float64, error) { return asked(crop.SaturationVapourPressure(24.5)) }},
		{"crop/ExtraterrestrialRadiation", func() (float64, error) { return asked(crop.ExtraterrestrialRadiation(41.3, 172)) }},
		{"crop/DaylightHours", func() (float64, error) { return asked(crop.DaylightHours(41.3, 172)) }},
		{"crop/Hargreaves", func() (float64, error) { return asked(crop.Hargreaves(29, 16, 38)) }},
		{"crop/RelativeYield", func() (float64, error) { return asked(crop.RelativeYield(3.4, 2.5, 9.9)) }},
		{"loop/HazenWilliams", func() (float64, error) { return asked(loop.HazenWilliams(20, 0.05, 100, 150)) }},
		{"loop/DarcyWeisbach", func() (float64, error) { return asked(loop.DarcyWeisbach(0.021, 20, 0.05, 0.85)) }},
		{"loop/TankLoss", func() (float64, error) { return asked(loop.TankLoss(4, 5, 24, 8)) }},
		{"remedy/Dilution", func() (float64, error) {
			d, err := remedy.Dilution(40, false, 0.49, 0.3, 2400)
			return float64(d.Amount), err
		}},
		{"pantry/BoilingPoint", func() (float64, error) {
			c, err := pantry.BoilingPoint(3200)
			boils, _ := c.Read()
			return float64(boils), err
		}},
		{"quantity/FahrenheitToCelsius", func() (float64, error) {
			return quantity.Convert(78, quantity.UnitFahrenheit, quantity.UnitCelsius)
		}},
	}, scalars...)
}

// TestFormulasAllocateNothing, so that a year of hours is no work for a phone.
func TestFormulasAllocateNothing(t *testing.T) {
	for _, h := range hotFormulas(t) {
		if v, err := h.ask(); err != nil || v <= 0 {
			t.Errorf("%s: %v %v", h.name, v, err)
		}
		if n := testing.AllocsPerRun(100, func() { _, _ = h.ask() }); n != 0 {
			t.Errorf("%s allocates %v times", h.name, n)
		}
	}
}

// BenchmarkHot measures each; tools/bench-husbandry writes them down.
func BenchmarkHot(b *testing.B) {
	for _, h := range hotFormulas(b) {
		b.Run(h.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := h.ask(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
