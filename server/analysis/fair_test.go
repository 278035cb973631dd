package analysis

import (
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"freshet.example/husbandry/plan"
	"freshet.example/husbandry/pool"
	"freshet.example/store"
)

// Two arms that chance sets so far apart about once in forty trials.
func twoArms() []*arm {
	return []*arm{{Name: "six", values: []float64{3, 4, 5, 4.5}}, {Name: "four", values: []float64{5.5, 6.5, 5, 6}}}
}

// A look before the last day asks for more than the last look does, and several
// arms share what chance may do.
func TestLookingEarlyDecidesLess(t *testing.T) {
	now := time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)
	ended := store.Moment{Time: now.AddDate(0, 0, -2)}
	for _, c := range []struct {
		what    string
		to      store.Moment
		more    int
		decided bool
	}{
		{"over", ended, 0, true},
		{"not over", store.Moment{Time: now.AddDate(0, 0, 3)}, 0, false},
		{"without a last day", store.Moment{}, 0, false},
		{"over, one of five arms", ended, 3, false},
	} {
		arms := twoArms()
		for range c.more {
			arms = append(arms, &arm{Name: "other", values: []float64{4, 4.5, 3.5, 5}})
		}
		got := result(&store.Trial{Measure: 1, ToOn: c.to}, arms, now)
		first := got.GetDifferences()[0].GetSentence()
		if strings.HasPrefix(first, "Decided") != c.decided || !c.decided && !strings.HasPrefix(first, "Undecided") {
			t.Errorf("%s: %s", c.what, first)
		}
	}
}

// A difference is told as so much more or less, an interval across none by both its ends.
func TestADifferenceIsToldWithoutSigns(t *testing.T) {
	for _, c := range []struct {
		d, low, high float64
		want         string
	}{
		{0.089, -0.48, 0.66, "0.089 kg/m2 more than with none, but it may be anything between 0.48 less and 0.66 more"},
		{-0.2, -0.66, 0.3, "0.20 kg/m2 less than with none, but it may be anything between 0.66 less and 0.30 more"},
		{1, 0.8, 1.2, "1.0 kg/m2 more than with none, between 0.80 and 1.2"},
		{-1, -1.2, -0.8, "1.0 kg/m2 less than with none, between 0.80 and 1.2"},
	} {
		if got := byHowMuch(c.d, c.low, c.high, "kg/m2", "none"); got != c.want {
			t.Errorf("%s, not %s", got, c.want)
		}
	}
}

// steady is a record of twelve months, each a hair or a lot off its site's figure.
func steady(value, off float64) *row {
	r := &row{}
	for j := range r.span {
		r.span[j], r.den[j], r.num[j] = 1.0/12, 1, value+off*float64(j%2*2-1)
	}
	r.ratio()
	r.figure = r.plain
	return r
}

func TestAClaimIsPutToTheTest(t *testing.T) {
	for _, c := range []struct {
		loop, soil, off float64
		months          int
		says            string
	}{{9, 9, 1, 12, "not here."}, {200, 9, 1, 12, "here it is so."}, {60, 8, 6, 12, "it cannot be told."}, {200, 9, 1, 7, "a whole year is needed to tell."}} {
		loop := steady(c.loop, c.off)
		for j := c.months; j < year; j++ {
			loop.span[j] = 0
		}
		if a := tenfold(loop, steady(c.soil, c.off)); !strings.HasSuffix(a.GetSentence(), c.says) {
			t.Errorf("%v: %s", c, a.GetSentence())
		}
	}
}

func TestATenthOfTheWaterIsPutToTheTest(t *testing.T) {
	for _, c := range []struct {
		litres, off float64
		months      int
		says        string
	}{{10, 1, 12, "here it is so."}, {113, 20, 12, "not a tenth here."}, {600, 40, 12, "more than the field, not a tenth."}, {24, 6, 12, "it cannot be told."}, {10, 1, 7, "a whole year is needed to tell."}} {
		loop := steady(c.litres, c.off)
		for j := c.months; j < year; j++ {
			loop.span[j] = 0
		}
		if a := tenthOfWater(loop); !strings.HasSuffix(a.GetSentence(), c.says) {
			t.Errorf("%v: %s", c, a.GetSentence())
		}
	}
}

// Nothing is used below nought, and no more than all fish live.
func TestIntervalsStayWhereFiguresCanBe(t *testing.T) {
	for unit, high := range map[string]float64{"kWh/kg": 110, "percent": 100} {
		c := &comparison{measure: measure{unit: unit}}
		if e := c.within(49, -13, 110); e.GetLow() != 0 || e.GetHigh() != high || e.GetValue() != 49 {
			t.Errorf("%v", e)
		}
	}
}

// Sites that only the smallest group holds together are not called alike.
func TestWhatLikeSitesHaveInCommon(t *testing.T) {
	one := pool.Traits{WaterCelsius: 26, Latitude: 40, Covered: 1, Litres: 2000, PlantedM2: 20, Species: "nile_tilapia"}
	other := one
	other.WaterCelsius, other.Litres, other.Species = 29, 900, "rainbow_trout"
	for _, c := range []struct {
		of   []pool.Traits
		want string
	}{
		{[]pool.Traits{one, one}, "water of 25 to 30 degC, under cover, Nile tilapia, 1 to 3 m3 of water, 10 to 30 m2 of beds"},
		{[]pool.Traits{one, other}, "water of 25 to 30 degC, under cover, Nile tilapia or rainbow trout, 0.3 to 3 m3 of water, 10 to 30 m2 of beds, not much alike, for want of others"},
		{[]pool.Traits{traitsOf(store.Likeness{})}, "little noted that would say so"},
	} {
		if got := inCommon(c.of); got != c.want {
			t.Errorf("%s, not %s", got, c.want)
		}
	}
	boiling := 110.0
	if got := inCommon([]pool.Traits{traitsOf(store.Likeness{Celsius: &boiling})}); got != "little noted that would say so" {
		t.Errorf("of water at 110 degC: %s", got)
	}
}

// With many others, one that differs as chance lets one in thirty differ is not told apart.
func TestOneOfManyIsNotToldApartByChance(t *testing.T) {
	own := uuid.New()
	told := func(others int, value float64) uint32 {
		c := &comparison{rows: map[uuid.UUID]*row{own: steady(9, 1)}}
		ids := []uuid.UUID{own}
		for i := range others {
			id := uuid.New()
			c.rows[id] = steady(9, 1)
			if i == 0 {
				c.rows[id] = steady(value, 1)
			}
			ids = append(ids, id)
		}
		s, err := c.apart(ids, own.String())
		if err != nil || s == nil {
			t.Fatal(s, err)
		}
		return *s
	}
	if n := told(1, 10); n != 1 {
		t.Errorf("told apart from %d of the 1 other", n)
	}
	if n := told(40, 10); n != 0 {
		t.Errorf("told apart from %d of 40 others by chance", n)
	}
	if n := told(40, 12); n != 1 {
		t.Errorf("told apart from %d of 40 others, one of which differs", n)
	}
}

func TestAPlanSaysWhatNoPlanCouldDo(t *testing.T) {
	s := planWords(plan.Sowing{Lines: make([]plan.Line, 3), Wanted: 40, Served: 30, Bound: 30.3, Gaps: 2, Practice: plan.Practice{Gaps: 9}}, 52)
	for _, words := range []string{"3 sowings over 52 weeks", "Of 40 weeks", "2 stay below", "would leave 9", "at most 1.0 % more"} {
		if !strings.Contains(s, words) {
			t.Errorf("%q is not in: %s", words, s)
		}
	}
	s = planWords(plan.Sowing{Lines: make([]plan.Line, 3), Wanted: 40, Served: 30, Bound: 30.0001, Gaps: 2, Practice: plan.Practice{Gaps: 9}}, 52)
	if !strings.Contains(s, "even 0.1 % more") {
		t.Error(s)
	}
	if s := planWords(plan.Sowing{}, 52); !strings.Contains(s, "What stands already") {
		t.Error(s)
	}
}
