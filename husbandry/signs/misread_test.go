package signs

import (
	"math"
	"testing"

	"freshet.example/husbandry/quantity"
)

func TestWhereAFigureStands(t *testing.T) {
	near(t, "stands", stands([]float64{1, 2, 3, 10, 11, 12}), 11, 0)
	near(t, "moves", moves([]float64{0, 1, 3}), 1.5, 1e-12)
	if fits := held(make([]float64, 8), 1); len(fits) != 8 {
		t.Errorf("%d readings are looked back on", len(fits))
	}
	for _, c := range []struct {
		last, next float64
		agree      bool
	}{{0.39, 0.39, true}, {0.41, 0, false}, {0, 0.41, false}, {0, -0.41, false}} {
		if got := agree([]float64{0, 0, c.last}, math.Exp(c.next)); got != c.agree {
			t.Errorf("%+v: %v", c, got)
		}
	}
	// Half of the logarithm; four times 0.2, where readings move by 0.2.
	for _, c := range []struct {
		off   float64
		fits  []float64
		leaps bool
	}{{0.51, []float64{0, 0, 0}, true}, {-0.51, []float64{0, 0, 0}, true}, {0.49, []float64{0, 0, 0}, false}, {0.79, []float64{0.2, 0, 0.2, 0}, false}, {1.01, []float64{0.2, 0, 0.2, 0}, true}} {
		if got := leaps(math.Exp(c.off), c.fits); got != c.leaps {
			t.Errorf("%+v leaps: %v", c, got)
		}
	}
}

// off are tests whose logarithms lie so far off.
func off(logs ...float64) (open []Test) {
	for i, l := range logs {
		open = append(open, Test{Hour: i, Value: math.Exp(l)})
	}
	return open
}

func TestExplaining(t *testing.T) {
	fits := []float64{0, 0, 0}
	ten := math.Log(10)
	for _, c := range []struct {
		name  string
		open  []Test
		times float64
	}{
		{"ten times", off(ten + 0.29), 0.1},
		{"a tenth", off(-ten + 0.29), 10},
		{"not quite", off(ten + 0.31), 0},
		{"one of three too far", off(ten, ten+0.1, ten+0.61), 0},
		{"one of three far", off(ten, ten+0.1, ten+0.59), 0.1},
	} {
		if _, times, ok := explained(quantity.Alkalinity, c.open, fits); ok != (c.times > 0) || times != c.times {
			t.Errorf("%s: %v, %g", c.name, ok, times)
		}
	}
	far := off(1, 1, 1)
	if !settled(quantity.Alkalinity, far, fits) || settled(quantity.Alkalinity, far[:2], fits) || settled(quantity.Alkalinity, off(ten, ten, ten), fits) {
		t.Error("three that nothing explains are a new level, and none else")
	}
	typed := quantity.Measure{Unit: quantity.WaterTemperature.Unit()}
	if list := ways(quantity.WaterTemperature, typed); len(list) != len(quantity.WaterTemperature.Units())+1 || list[2].as.Basis != quantity.NoBasis {
		t.Errorf("%+v", list)
	}
}

func TestMisread(t *testing.T) {
	series := func(q quantity.Quantity, values ...float64) []Sign {
		return misread(flat(30*Day).tested(q, steadily(len(values)*Day, -Day, len(values)), values...))
	}
	at := func(i, n int) int { return 30*Day - 1 - (n-i)*Day }
	outlier := func(q quantity.Quantity, is, was float64) Sign {
		return Sign{Kind: Outlier, Quantity: q, Hand: true, Since: at(3, 5), Until: at(3, 5), Is: is, Was: was, Count: 1}
	}
	for q, v := range map[quantity.Quantity][3]float64{ // was, as far off as matters, and less
		quantity.TotalAmmonia: {0.1, 0.51, 0.49}, quantity.Nitrite: {0.1, 0.42, 0.38}, quantity.Nitrate: {2, 7.1, 6.9}, quantity.Phosphate: {0.2, 0.71, 0.69},
	} {
		same(t, "as far off as matters", series(q, v[0], v[0], v[0], v[1], v[0]), outlier(q, v[1], v[0]))
		same(t, "less far off", series(q, v[0], v[0], v[0], v[2], v[0]))
	}
	same(t, "two that nothing explains", series(quantity.Nitrate, 2, 2, 2, 8, 8, 2))
	same(t, "ammonia that rose for two days", series(quantity.TotalAmmonia, 0.1, 0.1, 0.1, 1, 1, 0.1))
	same(t, "alkalinity that falls", series(quantity.Alkalinity, 80, 80, 80, 8))
	same(t, "alkalinity that leaps", series(quantity.Alkalinity, 80, 80, 80, 800),
		Sign{Kind: Misread, Quantity: quantity.Alkalinity, Hand: true, Since: at(3, 4), Until: at(3, 4), Is: 800, Was: 80, Count: 1, Times: 0.1})
}
