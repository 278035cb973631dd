package pool

import (
	"errors"
	"math"
	"testing"

	"freshet.example/husbandry/quantity"
)

// Lung cancer in four Danish towns by age (Andersen 1977, Scand. J. Stat.
// 4:153; the counts and people from memory, they give the printed deviance of
// 23.45): towns stand for sites, ages for seasons.
var (
	andersenCases = [][]float64{{11, 11, 11, 10, 11, 10}, {13, 6, 15, 10, 12, 2}, {4, 8, 7, 11, 9, 12}, {5, 7, 10, 14, 8, 7}}
	andersenFolk  = [][]float64{{3059, 800, 710, 581, 509, 605}, {2879, 1083, 923, 834, 634, 782}, {3142, 1050, 895, 702, 535, 659}, {2520, 878, 839, 631, 539, 619}}
)

// without gives copies in which the cells named are not on record.
func without(y, e [][]float64, gone ...[2]int) (cases, folk [][]float64) {
	for i := range y {
		cases, folk = append(cases, append([]float64(nil), y[i]...)), append(folk, append([]float64(nil), e[i]...))
	}
	for _, cell := range gone {
		cases[cell[0]][cell[1]], folk[cell[0]][cell[1]] = 0, 0
	}
	return cases, folk
}

// The expected figures are of R 4.2.2, glm(cases ~ 0 + city + age, poisson,
// offset = log(pop)), with the sandwich of full matrices times n/(n-p).
func TestAndersensTowns(t *testing.T) {
	for name, c := range map[string]struct {
		gone             [][2]int
		effect, rate, se []float64
	}{
		"whole": {nil,
			[]float64{0.240290202210, 0.722604010920, 1.097137412900, 1.407476433149, 1.538726912078, 0.993765028744},
			[]float64{0.0149035386551, 0.0107138649548, 0.0102784813043, 0.0113507178196},
			[]float64{0.00120181799884, 0.00230868814831, 0.00185007434079, 0.00134987166099}},
		"three ages of the first, three of the second": {[][2]int{{0, 0}, {0, 1}, {0, 2}, {1, 3}, {1, 4}, {1, 5}},
			[]float64{0.192562940966, 0.515655478112, 0.894267973276, 1.568368084209, 1.511578415634, 1.317567107803},
			[]float64{0.0125113844987, 0.0175415702916, 0.0107940930199, 0.0118377531000},
			[]float64{0.00129765147197, 0.00430067318067, 0.00129500626948, 0.00153879824978}},
	} {
		y, err := Standardise(without(andersenCases, andersenFolk, c.gone...))
		if err != nil {
			t.Fatal(name, err)
		}
		for j, want := range c.effect {
			near(t, name+", effect", y.Effect[j], want, 1e-9)
		}
		for i, s := range y.Sites {
			near(t, name+", rate", s.Rate, c.rate[i], 1e-9)
			near(t, name+", se", s.SE, c.se[i], 1e-9)
		}
	}
}

// Two sites that bear alike, one on record in the season, one out of it: the
// plain figures lie far apart, those of one and the same year are equal.
func TestEqualSitesOfDifferentSeasonsComeOutEqual(t *testing.T) {
	year := []float64{0.2, 0.5, 1, 1.6, 1.5, 1.2}
	var y, e [][]float64
	for _, level := range []float64{3, 3, 5, 1} {
		var amounts, exposures []float64
		for _, s := range year {
			amounts, exposures = append(amounts, level*s*2), append(exposures, 2)
		}
		y, e = append(y, amounts), append(e, exposures)
	}
	y, e = without(y, e, [2]int{0, 0}, [2]int{0, 1}, [2]int{1, 3}, [2]int{1, 4}, [2]int{1, 5})
	plain := func(i int) float64 { return total(y[i]) / total(e[i]) }
	if plain(0) < 1.5*plain(1) {
		t.Errorf("the plain figures are %g and %g", plain(0), plain(1))
	}
	got, err := Standardise(y, e)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "the first", got.Sites[0].Rate, 3, 1e-9)
	near(t, "the second", got.Sites[1].Rate, 3, 1e-9)
	near(t, "one with all seasons", got.Sites[2].Rate, plain(2), 1e-9)
}

// What no season ties to the others does not enter, and what nobody noted is no
// part of the year.
func TestSitesWithoutACommonSeasonDoNotEnter(t *testing.T) {
	e := [][]float64{{1, 1, 0, 0, 0, 0}, {1, 1, 1, 0, 0, 0}, {1, 1, 1, 0, 0, 0}, {0, 0, 0, 1, 1, 0}, {1, 1, 0, 0, 0, 0}}
	y := [][]float64{{1, 2, 0, 0, 0, 0}, {1, 2.2, 0, 0, 0, 0}, {1.1, 2, 0, 0, 0, 0}, {0, 0, 0, 9, 9, 0}, {0, 0, 0, 0, 0, 0}}
	got, err := Standardise(y, e)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []bool{true, true, true, false, false} {
		if s := got.Sites[i]; s.Joined != want || !want && s != (Yearly{}) {
			t.Errorf("site %d: %+v", i, s)
		}
	}
	for j, want := range []bool{true, true, true, false, false, false} {
		if got.Noted[j] != want || j > 1 && got.Effect[j] != 0 {
			t.Errorf("season %d: noted %v, effect %g", j, got.Noted[j], got.Effect[j])
		}
	}
	near(t, "a site in a year of three seasons, one of which bears nothing", got.Sites[1].Rate, 3.2/3, 1e-9)
}

func TestNoYearIsMadeOfTooLittle(t *testing.T) {
	one, two := []float64{1, 1}, []float64{1, 2}
	for name, c := range map[string]struct{ y, e [][]float64 }{
		"one site":                   {[][]float64{two}, [][]float64{one}},
		"one season":                 {[][]float64{{1}, {1}}, [][]float64{{1}, {1}}},
		"fewer exposures":            {[][]float64{two, two}, [][]float64{one}},
		"a short row":                {[][]float64{two, {1}}, [][]float64{one, one}},
		"a short row of exposures":   {[][]float64{two, two}, [][]float64{one, {1}}},
		"an amount without exposure": {[][]float64{two, two}, [][]float64{one, {0, 1}}},
		"half of one without":        {[][]float64{two, {2, 5}, {0.5, 2}}, [][]float64{one, one, {0, 1}}},
		"below nothing":              {[][]float64{two, {-1, 1}}, [][]float64{one, one}},
		"no number":                  {[][]float64{two, {math.NaN(), 1}}, [][]float64{one, one}},
		"exposure without end":       {[][]float64{two, two}, [][]float64{one, {math.Inf(1), 1}}},
		"nothing to spare":           {[][]float64{{1, 0}, {1, 2}}, [][]float64{{1, 0}, one}},
		"nothing at all":             {[][]float64{{0, 0}, {0, 0}}, [][]float64{one, one}},
	} {
		if got, err := Standardise(c.y, c.e); err == nil {
			t.Errorf("%s: %+v", name, got)
		}
	}
}

// As little as tells anything: two sites in two seasons, one month to spare.
func TestLeastYear(t *testing.T) {
	y, err := Standardise([][]float64{{1, 2}, {2, 5}}, [][]float64{{1, 1}, {1, 1}})
	if err != nil || !y.Sites[0].Joined || !y.Sites[1].Joined {
		t.Error(y, err)
	}
}

// The first site says how many seasons there are.
func TestSeasonsAreThoseOfTheFirstSite(t *testing.T) {
	var r *quantity.RangeError
	if _, err := Standardise([][]float64{{1, 2, 3}, {1, 2}}, [][]float64{{1, 1, 1}, {1, 1}}); !errors.As(err, &r) || r.Low != 3 {
		t.Error(err)
	}
}

// A site that bore in the first season only is tied by that.
func TestTiedByTheFirstSeason(t *testing.T) {
	y, err := Standardise([][]float64{{1, 0, 0}, {1, 2, 3}, {1.2, 2, 3.1}}, [][]float64{{1, 0, 0}, {1, 1, 1}, {1, 1, 1}})
	if err != nil || !y.Sites[0].Joined {
		t.Error(y, err)
	}
}

// Amounts told in a unit ten thousand times as large give the same year.
func TestUnitsOfAmountsDoNotMatter(t *testing.T) {
	plain, err := Standardise(andersenCases, andersenFolk)
	if err != nil {
		t.Fatal(err)
	}
	small, _ := without(andersenCases, andersenFolk)
	for _, row := range small {
		for j := range row {
			row[j] /= 1e4
		}
	}
	other, err := Standardise(small, andersenFolk)
	if err != nil {
		t.Fatal(err)
	}
	for i, s := range plain.Sites {
		near(t, "rate", other.Sites[i].Rate, s.Rate/1e4, 1e-9)
		near(t, "se", other.Sites[i].SE, s.SE/1e4, 1e-9)
	}
}

// TestUnsettledIsRefused: where two sites meet the other two in a hundred thousandth
// of their record only, turns end before levels and seasons come to rest.
func TestUnsettledIsRefused(t *testing.T) {
	year := func(w float64) error {
		_, err := Standardise([][]float64{{w, 3, 0, 0}, {w, 2, 0, 0}, {0, 0, 2, w}, {0, 1, 0, 2 * w}, {0, 2, 1, 0}},
			[][]float64{{w, 1, 0, 0}, {w, 1, 0, 0}, {0, 0, 1, w}, {0, 1, 0, w}, {0, 1, 1, 0}})
		return err
	}
	if err := year(100); err != nil {
		t.Errorf("a hundredth: %v", err)
	}
	if err := year(1e5); !errors.Is(err, ErrUnsettled) {
		t.Errorf("next to nothing: %v", err)
	}
}
