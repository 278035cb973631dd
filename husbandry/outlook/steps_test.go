package outlook

import (
	"math"
	"testing"
)

// TestWaterStaysWater: the hardest frost leaves it at 0 degC, the hottest air at 45, and
// alkalinity that acid eats ends at 2 mg/L, where pH has still a value.
func TestWaterStaysWater(t *testing.T) {
	l := simulatedBarn(t, asIs)
	m := plain()
	m.nature[soaking], m.nature[keeper] = 1, unheated
	l.hour(&m, Hour{Air: -40})
	near(t, "frost", m.celsius, 0, 0)
	m.celsius = 0.5 // what chance takes away ends there too
	c := newCloud(l, []member{m}, 1, 0)
	least := 1.0
	for range 200 {
		c.members[0].celsius = 0.05
		c.members[0].wander(c.r, Hour{Air: 0})
		least = math.Min(least, c.members[0].celsius)
	}
	near(t, "frost by chance", least, 0, 0)
	l.hour(&m, Hour{Air: 59})
	near(t, "heat", m.celsius, 45, 0)
	sour := plain()
	sour.alkalinity, sour.nitrite, sour.nature[leaking] = 3, 50, 0
	l.hour(&sour, Hour{Air: 25})
	near(t, "alkalinity", sour.alkalinity, 2, 0)
	if math.IsNaN(sour.acidity(l)) || math.IsInf(sour.acidity(l), 0) {
		t.Errorf("pH %g", sour.acidity(l))
	}
}

// TestNoBaseIsTakenOut: where more alkalinity stands than is wanted nothing is added, and
// nothing taken; where less stands, a tenth of what lacks in a day.
func TestNoBaseIsTakenOut(t *testing.T) {
	l := simulatedBarn(t, func(l *Loop) { l.Planted = 0 })
	stands := func(alkalinity, keep, base float64) float64 {
		m := plain()
		m.alkalinity, m.ammonia, m.nitrite, m.passing, m.nature[losing], m.nature[leaking] = alkalinity, 0, 0, 0, 0, 0
		l.hour(&m, Hour{Air: 25, Keep: keep, Base: base})
		return m.alkalinity
	}
	near(t, "more than wanted", stands(150, 100, 0), 150, 0)
	near(t, "less than wanted", stands(76, 100, 0), 76.1, 1e-12)
	near(t, "given while more than wanted stands", stands(101, 1, 3), 101+3-100/240.0, 1e-12)
	near(t, "not kept", stands(76, 0, 0), 76, 0)
}

// TestWanderSpreads: what a model leaves out moves warmth by 0.08 K in an hour, by 0.2 K
// where nobody knows the air, and the pools by their shares; common practice, no source.
func TestWanderSpreads(t *testing.T) {
	const n = 20_000 // a trait moves in one hour of fifteen: its spread is known to 2.4 in 100
	l := simulatedBarn(t, asIs)
	start := plain()
	spread := func(h Hour, of func(m *member) float64) float64 {
		c, squares := newCloud(l, []member{start}, 3, 0), 0.0 // the same chance, whichever case comes first
		m := &c.members[0]
		for range n {
			*m = start
			m.wander(c.r, h)
			step := of(m) - of(&start)
			squares += step * step / n
		}
		return math.Sqrt(squares)
	}
	warmth := func(m *member) float64 { return m.celsius }
	for what, c := range map[string]struct {
		of   func(m *member) float64
		air  float64
		want float64
	}{
		"warmth":                  {warmth, 20, 0.08},
		"warmth of air unknown":   {warmth, math.NaN(), 0.2},
		"filter":                  {func(m *member) float64 { return m.filter / 60 }, 20, 0.01},
		"ammonia":                 {func(m *member) float64 { return m.ammonia / 0.4 }, 20, 0.02},
		"nitrite":                 {func(m *member) float64 { return m.nitrite / 0.1 }, 20, 0.02},
		"nitrate":                 {func(m *member) float64 { return m.nitrate / 30 }, 20, 0.005},
		"alkalinity":              {func(m *member) float64 { return m.alkalinity }, 20, 0.15},
		"carbon dioxide":          {func(m *member) float64 { return m.carbonDioxide / 4 }, 20, 0.03},
		"oxygen":                  {func(m *member) float64 { return m.oxygen }, 20, 0.03},
		"a trait, one in fifteen": {func(m *member) float64 { return m.nature[half] / 0.5 }, 20, 0.015 / math.Sqrt(15)},
		"the heater, evenly":      {func(m *member) float64 { return m.nature[keeper] }, 20, 0.05 / math.Sqrt(15)},
		"what plants take":        {func(m *member) float64 { return m.nature[uptake] / 0.4 }, 20, math.Hypot(0.01, 0.015/math.Sqrt(15))},
	} {
		near(t, what, spread(Hour{Air: c.air}, c.of), c.want, 0.12*c.want)
	}
	c := newCloud(l, []member{start}, 3, 0)
	m, low, high := &c.members[0], 1.0, 0.0
	for range n {
		*m = start
		m.wander(c.r, Hour{Air: 20, Cleaned: true})
		low, high = math.Min(low, m.filter/60), math.Max(high, m.filter/60)
	}
	if low < 0.09 || low > 0.12 || high < 0.96 || high > 1.05 {
		t.Errorf("a cleaned filter keeps between %g and %g", low, high)
	}
}

// TestWhatDoesNotSpreadIsNotBent: nothing at all in every guess stays nothing, whatever
// was read of other things; and what goes with a reading is bent by its regression.
func TestWhatDoesNotSpreadIsNotBent(t *testing.T) {
	l := simulatedBarn(t, asIs)
	c := newCloud(l, make([]member, 50), 2, 0)
	for i := range c.members {
		c.members[i] = plain()
		c.members[i].nitrite = 0
		c.members[i].celsius = 20 + math.Sqrt(12)/49*float64(i-25) // a spread of about one
		c.members[i].oxygen = 8 - c.members[i].celsius/10
	}
	c.heed(Reading{Figure: Warmth, Value: 21.5})
	mean, oxygen := 0.0, 0.0
	for i := range c.members {
		if c.members[i].nitrite != 0 {
			t.Fatalf("nitrite of nothing is %g", c.members[i].nitrite)
		}
		mean, oxygen = mean+c.members[i].celsius/50, oxygen+c.members[i].oxygen/50
	}
	near(t, "warmth", mean, 21.5, 0.2)
	near(t, "oxygen that falls with it", oxygen, 8-mean/10, 1e-9)
}

// TestBentWhateverItsSpread: also a part whose variance is one.
func TestBentWhateverItsSpread(t *testing.T) {
	c := newCloud(simulatedBarn(t, asIs), make([]member, 8), 2, 0)
	for i := range c.members {
		c.members[i] = plain()
		c.members[i].celsius = 19 + 2*float64(i%2)
	}
	c.heed(Reading{Figure: Warmth, Value: 23})
	for i := range c.members {
		if v := c.members[i].celsius; v < 21.2 {
			t.Errorf("23 degC were read, and guess %d stays at %g", i, v)
		}
	}
}
