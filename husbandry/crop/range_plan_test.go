package crop

import (
	"testing"

	"freshet.example/husbandry/quantity"
)

func TestRangesOfDegreeDays(t *testing.T) {
	for _, m := range []Method{SimpleMean, Modified, SingleSine, SingleSineTo, CucumberHeat} {
		proveRanges(t, m.String()+", degC", func(x []float64) error {
			return refused(Rule[quantity.Celsius]{m, quantity.Celsius(x[2]), 60}.Day(Temperatures[quantity.Celsius]{quantity.Celsius(x[0]), quantity.Celsius(x[1])}))
		}, argument{"max", 30, 15, 60}, argument{"min", 15, -60, 30}, argument{"base", 10, -60, 60})
		proveRanges(t, m.String()+", degF", func(x []float64) error {
			return refused(Rule[quantity.Fahrenheit]{m, quantity.Fahrenheit(x[2]), 140}.Day(Temperatures[quantity.Fahrenheit]{quantity.Fahrenheit(x[0]), quantity.Fahrenheit(x[1])}))
		}, argument{"max", 90, 60, 140}, argument{"min", 60, -76, 90}, argument{"base", 50, -76, 140})
	}
	for _, m := range []Method{Modified, SingleSineTo, CucumberHeat} {
		proveRanges(t, m.String()+", upper", func(x []float64) error {
			return refused(Rule[quantity.Celsius]{m, 10, quantity.Celsius(x[0])}.Day(Temperatures[quantity.Celsius]{30, 15}))
		}, argument{"upper", 30, 10, 60})
	}
	rule := Rule[quantity.Celsius]{Method: SimpleMean}
	proveRanges(t, "DaysAt", func(x []float64) error {
		return refused(DegreeDays[quantity.Celsius]{quantity.Celsius(x[0]), rule}.DaysAt(Temperatures[quantity.Celsius]{20, 10}))
	}, argument{"total", 1000, 0, 20000})
	proveRanges(t, "DaysAt, weather", func(x []float64) error {
		return refused(DegreeDays[quantity.Celsius]{100, rule}.DaysAt(Temperatures[quantity.Celsius]{quantity.Celsius(x[0]), quantity.Celsius(x[0])}))
	}, argument{"temperature", 20, 0.01, 60})
	bad := []Temperatures[quantity.Celsius]{{20, 10}, {10, 20}}
	if _, err := rule.Sum(bad); err == nil {
		t.Error("Sum takes a day colder by day than by night")
	}
	if _, err := (DegreeDays[quantity.Celsius]{100, rule}).DaysFor(bad); err == nil {
		t.Error("DaysFor takes a day colder by day than by night")
	}
	if _, err := rule.SowingInterval(bad, bad[:1]); err == nil {
		t.Error("SowingInterval takes a day colder by day than by night")
	}
}

func TestRangesOfBeds(t *testing.T) {
	area := argument{"area", 2, 0.01, 100000}
	proveRanges(t, "PlantsInRows", func(x []float64) error {
		return refused(PlantsInRows(quantity.SquareMetres(x[0]), x[1], x[2]))
	}, area, argument{"between", 40, 1, 1000}, argument{"in", 30, 1, 1000})
	proveRanges(t, "PlantsStaggered", func(x []float64) error {
		return refused(PlantsStaggered(quantity.SquareMetres(x[0]), x[1]))
	}, area, argument{"apart", 40, 1, 1000})
	proveRanges(t, "PlantsFor", func(x []float64) error {
		return refusedBoth(PlantsFor("lettuce", quantity.SquareMetres(x[0])))
	}, area)
	proveRanges(t, "FeedForArea", func(x []float64) error {
		return refusedBoth(FeedForArea("lettuce", quantity.SquareMetres(x[0])))
	}, area)
	proveRanges(t, "AreaForFeed", func(x []float64) error {
		return refusedBoth(AreaForFeed("lettuce", quantity.Grams(x[0])))
	}, argument{"feed", 100, 0, 1000000})
	proveRanges(t, "PerennialYield", func(x []float64) error {
		return refused(PerennialYield("fig", 5, quantity.SquareMetres(x[0])))
	}, area)
	proveWhole(t, "PerennialYield", 0, 100, func(n int) error { return refused(PerennialYield("fig", n, 1)) })
	proveRanges(t, "BearingWindow", func(x []float64) error {
		return refused(BearingWindow(Planting{Crop: "lettuce", Area: quantity.SquareMetres(x[0])}, nil, Clime{}))
	}, area)
	proveWhole(t, "AreaFor", 1, 1000000, func(n int) error { return refused(AreaFor("lettuce", n)) })
	proveWhole(t, "SeedsNeeded", 1, 1000000, func(n int) error { return refused(SeedsNeeded(n, 0.8, 0.1)) })
	proveWhole(t, "SeedsForChance", 1, 10000, func(n int) error { return refused(SeedsForChance(n, 1, 0.9)) })
	proveWhole(t, "SeedMass", 1, 10000000, func(n int) error { return refused(SeedMass("lettuce", n)) })
	proveRanges(t, "SeedsNeeded", func(x []float64) error {
		return refused(SeedsNeeded(10, quantity.Fraction(x[0]), quantity.Fraction(x[1])))
	}, argument{"germination", 0.8, 0.01, 1}, argument{"spare", 0.1, 0, 2})
	proveRanges(t, "SeedsForChance", func(x []float64) error {
		return refused(SeedsForChance(10, quantity.Fraction(x[0]), quantity.Fraction(x[1])))
	}, argument{"germination", 0.8, 0.01, 1}, argument{"chance", 0.9, 0.5, 0.999})
	proveRanges(t, "DailyLight", func(x []float64) error {
		return refused(DailyLight(MJPerM2(x[0]), quantity.Fraction(x[1])))
	}, argument{"solar", 20, 0, 50}, argument{"through", 0.6, 0, 1})
	proveRanges(t, "LampLight", func(x []float64) error {
		return refused(LampLight(quantity.PhotonFlux(x[0]), quantity.Hours(x[1])))
	}, argument{"flux", 200, 0, 3000}, argument{"lit", 16, 0, 24})
	proveRanges(t, "FromShortTonsPerAcre", func(x []float64) error {
		return refused(FromShortTonsPerAcre(quantity.ShortTonsPerAcre(x[0])))
	}, argument{"yield", 13, 0, 500})
	proveRanges(t, "ToShortTonsPerAcre", func(x []float64) error { return refused(ToShortTonsPerAcre(KgPerM2(x[0]))) },
		argument{"yield", 3, 0, 112})
	proveRanges(t, "RelativeYield", func(x []float64) error {
		return refused(RelativeYield(ECe(x[0]), ECe(x[1]), x[2]))
	}, argument{"extract", 3, 0, 50}, argument{"threshold", 2, 0, 20}, argument{"slope", 10, 0, 100})
}

func TestRangesOfSeason(t *testing.T) {
	years := []float64{100, 105, 110, 115, 120}
	for name, f := range map[string]func(d []float64, p quantity.Fraction) (float64, error){"LastFrost": LastFrost, "FirstFrost": FirstFrost} {
		proveRanges(t, name, func(x []float64) error {
			return refused(f(append([]float64{x[1]}, years[1:]...), quantity.Fraction(x[0])))
		}, argument{"chance", 0.5, 0.125, 0.875}, argument{"day", 100, 1, 366})
		proveWhole(t, name, 3, 1000, func(n int) error {
			many := make([]float64, n)
			for i := range many {
				many[i] = 100
			}
			return refused(f(many, 0.5))
		})
	}
	proveRanges(t, "FrostFreeDays", func(x []float64) error {
		return refused(FrostFreeDays(years, years, quantity.Fraction(x[0])))
	}, argument{"chance", 0.5, 0.125, 0.875})
	proveRanges(t, "FrostChanceAfter", func(x []float64) error {
		return refused(FrostChanceAfter(append([]float64{x[0]}, years...), x[1]))
	}, argument{"year", 100, 1, 366}, argument{"day", 100, 1, 366})
	proveRanges(t, "Shrink", func(x []float64) error {
		return refused(Shrink(Figure{x[0], x[1], Memory}, []float64{x[2]}))
	}, argument{"low", 50, 0, 70}, argument{"high", 70, 50, 5000}, argument{"own", 60, 0, 5000})
	proveRanges(t, "GapsAndGluts", func(x []float64) error {
		return refused(GapsAndGluts(nil, Want{Crop: "lettuce", PerWeek: quantity.Kilograms(x[0])}, Span{0, 70}))
	}, argument{"use", 1, 0.001, 100000})
	proveWhole(t, "GapsAndGluts", 7, 3640, func(n int) error {
		return refused(GapsAndGluts(nil, Want{Crop: "lettuce", PerWeek: 1}, Span{1, Day(n)}))
	})
	proveRanges(t, "SowThisWeek", func(x []float64) error {
		return refused(SowThisWeek(nil, []Want{{Crop: "lettuce", PerWeek: quantity.Kilograms(x[0])}}, nil, Season{}))
	}, argument{"use", 1, 0.001, 100000})
	proveWhole(t, "DayOf, year", 1, 9999, func(n int) error { return refused(DayOf(n, 1, 1)) })
	proveWhole(t, "DayOf, month", 1, 12, func(n int) error { return refused(DayOf(2026, n, 1)) })
	proveWhole(t, "DayOf, February", 1, 28, func(n int) error { return refused(DayOf(2026, 2, n)) })
	proveWhole(t, "DayOf, leap February", 1, 29, func(n int) error { return refused(DayOf(2024, 2, n)) })
	proveWhole(t, "DayOf, December", 1, 31, func(n int) error { return refused(DayOf(2026, 12, n)) })
}

func TestRangesOfFreeAreaAndHeat(t *testing.T) {
	proveRanges(t, "SowThisWeek", func(x []float64) error {
		beds := []Bed{{Name: "south", Covered: true, Free: []quantity.SquareMetres{2, quantity.SquareMetres(x[0])}}}
		_, err := SowThisWeek(nil, []Want{{Crop: "lettuce", PerWeek: 1, Transplant: true}}, beds, Season{LastFrost: -1, FirstFrost: 1000})
		return err
	}, argument{"free area", 5, 0, 1e6})
	days := make([]Temperatures[quantity.Celsius], 334) // at 60 degC over a base of 0 they bring 20,040
	for i := range days {
		days[i] = Temperatures[quantity.Celsius]{60, 60}
	}
	proveRanges(t, "DaysFor", func(x []float64) error {
		return refused(DegreeDays[quantity.Celsius]{quantity.Celsius(x[0]), Rule[quantity.Celsius]{Method: SimpleMean}}.DaysFor(days))
	}, argument{"total", 1000, 0, 20000})
}
