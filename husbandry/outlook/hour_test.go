package outlook

import (
	"math"
	"math/rand/v2"
	"testing"
)

// barn is a loop of the size that people build.
var barn = Loop{Litres: 8000, Media: 150, Planted: 30, Pressure: 0.96, SourceAlkalinity: 120, SourceNitrate: 1}

func simulatedBarn(t testing.TB, change func(*Loop)) *simulated {
	t.Helper()
	l := barn
	change(&l)
	tables, err := newTables(l.Pressure)
	if err != nil {
		t.Fatal(err)
	}
	return &simulated{l, tables}
}

func asIs(*Loop) {}

// plain is a member with every trait at its median, a heater off and water at rest.
func plain() member {
	m := member{celsius: 25, ammonia: 0.4, nitrite: 0.1, nitrate: 30, alkalinity: 90, oxygen: 7, carbonDioxide: 4, filter: 60, passing: 20}
	for i, p := range priors {
		m.nature[i] = p.median
	}
	return m
}

// TestNitrogenIsKept: what was swallowed is all somewhere, each day to 1e-9 of
// what went through.
func TestNitrogenIsKept(t *testing.T) {
	l := simulatedBarn(t, asIs)
	r := rand.New(rand.NewPCG(1, 2)) // #nosec G404 -- the same case each time
	m := plain()
	water := func() float64 { return (m.ammonia + m.nitrite + m.nitrate) * float64(l.Litres) / 1000 }
	for day := range 60 {
		before, through := water()+m.passing-m.gained+m.kept+m.taken+m.lost+m.replaced, m.gained
		for i := range 24 {
			l.hour(&m, Hour{Air: 10 + 20*r.Float64(), Sun: r.Float64(), Feed: 5 * r.Float64(), Fish: 60, Changed: 40 * r.Float64(), Still: i == 3 && day%5 == 0})
		}
		after := water() + m.passing - m.gained + m.kept + m.taken + m.lost + m.replaced
		near(t, "nitrogen out of nothing", after, before, 1e-9*(m.gained-through))
	}
}

// TestNitrifyingAsSolversDo: beside Saturating, which stands against SciPy's
// solvers, over a day of steps of an hour.
func TestNitrifyingAsSolversDo(t *testing.T) {
	l := simulatedBarn(t, func(l *Loop) { l.Planted = 0 })
	m := plain()
	m.nature[vigour], m.nature[losing], m.nature[leaking], m.nature[second], m.nature[half] = 0, 0, 0, 1.3, 0.7
	const feed = 2.0 // g of nitrogen given off in an hour
	m.passing = feed/givingOff - feed
	speed := 60.0 / 24 / 8 // mg/L/h
	want, err := Saturating{Feed: feed / 8, FirstSpeed: speed, FirstHalf: 0.7, SecondSpeed: 1.3 * speed, SecondHalf: 0.7}.After(Pools{0.4, 0.1, 30}, 24)
	if err != nil {
		t.Fatal(err)
	}
	for range 24 {
		l.hour(&m, Hour{Air: math.NaN(), Feed: feed / m.nature[given]})
	}
	near(t, "ammonia", m.ammonia, float64(want.Ammonia), 0.01*float64(want.Ammonia))
	near(t, "nitrite", m.nitrite, float64(want.Nitrite), 0.05*float64(want.Nitrite))
	near(t, "nitrate", m.nitrate, float64(want.Nitrate), 0.002*float64(want.Nitrate))
}

// TestAnHourByHand: each figure of the balance, worked out beside it.
func TestAnHourByHand(t *testing.T) {
	l := simulatedBarn(t, func(l *Loop) { l.Pressure = 1 })
	m := plain()
	m.nature[leaking] = 0
	l.hour(&m, Hour{Air: 13.5, Fish: 64, Sun: 1, Base: 3})
	near(t, "warmth", m.celsius, 25+(13.5+1.5-25)/60, 1e-12)
	near(t, "given off", m.passing, 20*7/8.0, 1e-12)
	warm := m.celsius - 25
	full := 60 * math.Exp(0.098*warm) / 24 / 8
	coming := 20 / 8.0 / 8
	emptied := func(pool, coming float64) float64 { // by the rate at the start, then by that of the middle
		middle := pool
		for range 2 {
			rate := full / (0.5 + middle)
			left := pool*math.Exp(-rate) + coming*(1-math.Exp(-rate))/rate
			middle = (pool + left) / 2
		}
		return 2*middle - pool
	}
	ammonia := emptied(0.4, coming)
	near(t, "ammonia", m.ammonia, ammonia, 1e-12)
	first := 0.4 + coming - ammonia
	nitrite := emptied(0.1, first)
	near(t, "nitrite", m.nitrite, nitrite, 1e-12)
	turned := 0.1 + first - nitrite
	near(t, "filter", m.filter, 60*(1+0.1*math.Exp(0.098*warm)*(ammonia/(0.5+ammonia)-0.4)/24), 1e-12)
	plants, mud := 0.4*30/24/8/(2+30), 0.03/24*math.Exp(0.098*warm)
	pool := math.Exp(-plants - mud)
	nitrate := 30*pool + turned*(1-pool)/(plants+mud)
	near(t, "nitrate", m.nitrate, nitrate, 1e-9)
	gone := 30 + turned - nitrate
	near(t, "taken", m.taken, gone*8*plants/(plants+mud), 1e-9)
	alkaline := 90 + 3 + 3.57*gone - 7.14*turned
	near(t, "alkalinity", m.alkalinity, alkaline, 1e-9)
	use := 64*250*math.Exp(math.Ln2/10*warm)/8000 + 4.57*turned
	even := 8.282 + 0.3 - use/1.5 // Standard Methods 4500-O: 8.26 mg/L at 25 degC and 8.41 at 24
	near(t, "oxygen", m.oxygen, even+(7-even)*math.Exp(-1.5), 0.01)
	vent := 1.5 * 0.75
	carbon := 0.6 + use*44/32/vent
	carbon += (4 - carbon) * math.Exp(-vent)
	near(t, "carbon dioxide", m.carbonDioxide, carbon, 1e-6)
	near(t, "pH", m.acidity(l), 6.352+0.001+math.Log10(alkaline/50.04/(carbon/44.01)), 0.004) // pK1 6.352 at 25 degC, Plummer & Busenberg 1982
	near(t, "ammonia that harms", m.of(Unionized, l), ammonia/(1+math.Pow(10, 0.09018+2729.92/(273.15+m.celsius)-m.acidity(l))), 1e-6)
}

// TestStillWater: no pump, so next to no filter, no heater, and oxygen that the fish use up.
func TestStillWater(t *testing.T) {
	l := simulatedBarn(t, asIs)
	runs, stands := plain(), plain()
	runs.nature[keeper], stands.nature[keeper] = 24.9, 24.9
	l.hour(&runs, Hour{Air: -5, Fish: 64})
	l.hour(&stands, Hour{Air: -5, Fish: 64, Still: true})
	near(t, "kept warm", runs.celsius, 24.9, 1e-12)
	near(t, "left cold", stands.celsius, 25-28.5/60, 1e-12)
	share := math.Log((0.4+20/8.0/8)/stands.ammonia) / math.Log((0.4+20/8.0/8)/runs.ammonia)
	if share < 0.03 || share > 0.07 {
		t.Errorf("a filter that stands turns %.3f of what it turned", share)
	}
	use := 64 * 250 * math.Exp(math.Ln2/10*(stands.celsius-25)) / 8000
	even := 8.0 - use/0.15
	near(t, "oxygen", stands.oxygen, even+(7-even)*math.Exp(-0.15), 0.05)
	for range 24 {
		l.hour(&stands, Hour{Air: -5, Fish: 640, Still: true})
	}
	if stands.oxygen != 0 || stands.alkalinity < leastAlkaline {
		t.Errorf("%+v", stands)
	}
}

// TestLeaking: what leaks in a day is made up for with source water, in each hour.
func TestLeaking(t *testing.T) {
	l := simulatedBarn(t, asIs)
	tight, leaks := plain(), plain()
	tight.nature[leaking], leaks.nature[leaking] = 0, 0.024
	l.hour(&tight, Hour{Air: 20, Feed: 1, Fish: 60})
	l.hour(&leaks, Hour{Air: 20, Feed: 1, Fish: 60})
	stays := math.Exp(-0.001)
	near(t, "ammonia", leaks.ammonia, tight.ammonia*stays, 1e-9)
	near(t, "nitrate", leaks.nitrate, tight.nitrate*stays+1-stays, 1e-7)
	near(t, "alkalinity", leaks.alkalinity, tight.alkalinity*stays+120*(1-stays), 1e-7)
	near(t, "replaced", leaks.replaced, 8*(tight.ammonia+tight.nitrite+tight.nitrate-leaks.ammonia-leaks.nitrite-leaks.nitrate), 1e-9)
}

// TestReplacing water by source water: what mixes away leaves exp(-share).
func TestReplacing(t *testing.T) {
	l := simulatedBarn(t, asIs)
	m := plain()
	l.replace(&m, 0.5)
	stays := math.Exp(-0.5)
	near(t, "ammonia", m.ammonia, 0.4*stays, 1e-12)
	near(t, "nitrate", m.nitrate, 30*stays+1-stays, 1e-12)
	near(t, "alkalinity", m.alkalinity, 90*stays+120*(1-stays), 1e-12)
	near(t, "replaced", m.replaced, 8*(1-stays)*(0.4+0.1+30-1), 1e-9)
	for share, want := range map[float64]float64{1.5e-4: 30*math.Exp(-1.5e-4) + 1 - math.Exp(-1.5e-4), 1e-4: 30 - 29e-4} { // of so little, not what the new water takes of itself
		m = plain()
		l.replace(&m, share)
		near(t, "nitrate beside little water", m.nitrate, want, 1e-12)
	}
}
