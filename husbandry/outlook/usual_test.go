package outlook

import (
	"math"
	"slices"
	"testing"

	"freshet.example/husbandry/quantity"
)

// TestKeptUpIsTheMeanOfThreeWeeks: of alkalinity read in them, where base was added in
// them; and what was read or added before counts for nothing.
func TestKeptUpIsTheMeanOfThreeWeeks(t *testing.T) {
	const weeks = 21 * 24
	based := func(hours, at int) []Hour {
		past := make([]Hour, hours)
		past[at].Base = 0.5
		return past
	}
	read := func(at int, v float64) Reading { return Reading{Hour: at, Figure: Alkalinity, Value: v} }
	for what, c := range map[string]struct {
		past     []Hour
		readings []Reading
		want     float64
	}{
		"one reading":             {based(48, 0), []Reading{read(3, 90)}, 90},
		"two of them":             {based(48, 0), []Reading{read(0, 90), read(47, 100)}, 95},
		"one three weeks ago":     {based(weeks+9, 9), []Reading{read(8, 40), read(9, 90)}, 90},
		"base before three weeks": {based(weeks+9, 8), []Reading{read(12, 90)}, 0},
		"no base":                 {make([]Hour, 48), []Reading{read(3, 90)}, 0},
		"base, and none read":     {based(48, 7), []Reading{{Hour: 3, Figure: Acidity, Value: 7}}, 0},
		"one to come":             {based(48, 7), []Reading{read(3, 90), read(48, 20)}, 90},
		"more than any plan has":  {based(48, 7), []Reading{read(3, 5000)}, 2000},
	} {
		near(t, what, keeping(c.past, c.readings), c.want, 1e-12)
	}
}

// TestUsualIsAsItWasLast: as many fish as in the last hour, also where there is one hour;
// and the sun of the last day.
func TestUsualIsAsItWasLast(t *testing.T) {
	if got := usualPlan([]Hour{{Fish: 7}}, 2, custom{}); got[1].Fish != 7 {
		t.Errorf("of seven fish go on %g", got[1].Fish)
	}
	past := make([]Hour, 30)
	for i := range past {
		past[i].Fish, past[i].Sun = float64(i), float64(i)/100
	}
	plan := usualPlan(past, 30, custom{keep: 55})
	for i, h := range plan {
		if h.Fish != 29 || h.Sun != float64(6+i%24)/100 || h.Keep != 55 || !math.IsNaN(h.Air) {
			t.Errorf("hour %d: %+v", i, h)
		}
	}
	if h := usualPlan(nil, 1, custom{})[0]; h.Fish != 0 || h.Sun != 0 || h.Feed != 0 {
		t.Errorf("out of nothing %+v", h)
	}
}

// TestOtherwiseOfAnyPlan: of one hour too, of half a kilogram of fish too, and by how
// many there are now, not later.
func TestOtherwiseOfAnyPlan(t *testing.T) {
	more := Otherwise{FeedShare: 1, AddedFish: 1}
	got, err := more.Plan([]Hour{{Feed: 2, Fish: 0.5}}, 0, 1000)
	if err != nil || got[0].Feed != 2*(1+1/0.5) || got[0].Fish != 1.5 {
		t.Errorf("%+v, %v", got, err)
	}
	got, err = more.Plan([]Hour{{Feed: 2, Fish: 4}, {Feed: 2, Fish: 1}}, 0, 1000)
	if err != nil || got[1].Feed != 2*(1+1.0/4) {
		t.Errorf("%+v, %v", got, err)
	}
	if got, err = more.Plan(nil, 0, 1000); err != nil || len(got) != 0 {
		t.Errorf("%+v, %v", got, err)
	}
}

// TestAFilterByItsMedia, however little of it; fish by the first hour, readings by their
// errors.
func TestAFilterByItsMedia(t *testing.T) {
	near(t, "half a square metre", simulatedBarn(t, func(l *Loop) { l.Media = 0.5 }).usualFilter([]Hour{{Feed: 9}}), 0.28, 1e-12)
	near(t, "fish", fishAt([]Hour{{Fish: 3}, {Fish: 5}}), 3, 0)
	for f, want := range map[Figure][2]float64{Warmth: {0.2, 0.2}, Ammonia: {0.05, 10}, Nitrite: {0.03, 10}, Nitrate: {1, 10}, Alkalinity: {5, 5}, Acidity: {0.1, 0.1}, Oxygen: {0.2, 0.2}} {
		near(t, "error of nothing", errorOf(f, 0), want[0], 0)
		near(t, "error of a hundred", errorOf(f, 100), want[1], 1e-12)
	}
}

// TestGatheredAsIsUsual: what a loop of which nothing was read is taken for, as medians
// and spreads of many guesses; and of one that was read, its reading.
func TestGatheredAsIsUsual(t *testing.T) {
	l := simulatedBarn(t, func(l *Loop) { l.SourceAlkalinity = 3 })
	past := []Hour{{Air: 22, Feed: 0.8, Fish: 40}}
	c := gather(l, 4000, 1, nil, past)
	part := func(of func(m *member) float64) (median, spread float64) {
		var logs []float64
		for i := range c.members {
			logs = append(logs, math.Log(of(&c.members[i])))
		}
		slices.Sort(logs)
		return math.Exp(between(logs, 0.5)), (between(logs, 0.8413) - between(logs, 0.1587)) / 2
	}
	for what, c := range map[string]struct {
		of             func(m *member) float64
		median, spread float64
	}{
		"warmth, that of the air":                {func(m *member) float64 { return m.celsius }, 22, 0.2},
		"ammonia":                                {func(m *member) float64 { return m.ammonia }, 0.3, 1},
		"nitrite":                                {func(m *member) float64 { return m.nitrite }, 0.1, 1},
		"nitrate":                                {func(m *member) float64 { return m.nitrate }, 20, 1},
		"alkalinity, 20 at least":                {func(m *member) float64 { return m.alkalinity }, 20, 0.5},
		"filter, by its media":                   {func(m *member) float64 { return m.filter }, 0.56 * 150, 0.8},
		"passing, eight hours of what is eaten":  {func(m *member) float64 { return m.passing }, 0.576 * 0.8 * 8, 0.2},
		"half speed":                             {func(m *member) float64 { return m.nature[half] }, 0.5, 0.5},
		"growth":                                 {func(m *member) float64 { return m.nature[vigour] }, 0.1, 0.8},
		"water that follows the air, hours":      {func(m *member) float64 { return m.nature[soaking] }, 60, 0.8},
		"breath of a kilogram":                   {func(m *member) float64 { return m.nature[breathing] }, 250, 0.4},
		"nitrite's speed beside that of ammonia": {func(m *member) float64 { return m.nature[second] }, 1, 0.4},
	} {
		median, spread := part(c.of)
		near(t, what, math.Log(median/c.median), 0, 5*c.spread/math.Sqrt(4000))
		near(t, what+", its spread", spread, c.spread, 0.06*c.spread)
	}
	read := gather(l, 200, 1, []Reading{{Figure: Nitrate, Value: 44}}, past)
	for i := range read.members {
		if v := read.members[i].nitrate; v < 44*0.4 || v > 44*2.5 {
			t.Fatalf("44 mg/L were read, and %g is guessed", v)
		}
	}
	alkaline := gather(simulatedBarn(t, func(l *Loop) { l.SourceAlkalinity = 300 }), 400, 1, nil, past)
	mean := 0.0
	for i := range alkaline.members {
		mean += math.Log(alkaline.members[i].alkalinity) / 400
	}
	near(t, "alkalinity, that of the source", math.Exp(mean), 300, 30)
}

// TestNoAirOfPressureNought: a loop whose pressure nobody gave stands at sea level.
func TestNoAirOfPressureNought(t *testing.T) {
	l := barn
	fan := func(pressure float64) Fan {
		l.Pressure = quantity.Atmospheres(pressure)
		o, err := Learn(l, nil, nil, 4)
		if err != nil {
			t.Fatal(err)
		}
		a, err := o.Ahead(o.Usual(24), 0)
		if err != nil {
			t.Fatal(err)
		}
		got, err := a.Fan(Oxygen, Mean, 0, 0.8)
		if err != nil {
			t.Fatal(err)
		}
		return got
	}
	if none, one, high := fan(0), fan(1), fan(0.8); none != one || high.Middle >= one.Middle {
		t.Errorf("not given %+v, at sea level %+v, high up %+v", none, one, high)
	}
}
