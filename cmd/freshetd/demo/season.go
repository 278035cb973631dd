package demo

import (
	"fmt"
	"iter"
	"math"
	"math/rand/v2"
	"slices"
	"time"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/outlook"
	"freshet.example/husbandry/quantity"
	aqua "freshet.example/husbandry/water"
)

// Season is some weeks of an invented loop as a forecaster may see them, and
// the days that came after.
type Season struct {
	Site     string
	Loop     outlook.Loop
	Past     []outlook.Hour
	Readings []outlook.Reading
	Came     []Day
}

// Day is what the water truly did: each figure's mean, lowest and highest hour.
type Day [outlook.Figures][3]float64

// CutsApart is how many days apart those are on which a season's forecasts are
// asked for: each on another day of a routine that comes round in a fortnight.
const CutsApart = 17

// How much of a season is seen and how much came after, days.
const (
	seasonSeen   = 42
	seasonToCome = 14
	mostOrigins  = 7 // the shortest record is 210 days
)

// LiveSeasons lives one of many site-seasons by its number: one of the growers,
// with climate, fish and filter scattered about theirs, at some time of the
// year. Nothing planted goes wrong. It is cut at as many days as forecasts are
// asked for, 1 to 7, the last first.
func LiveSeasons(number, origins int) ([]*Season, error) {
	if origins < 1 || origins > mostOrigins {
		return nil, fmt.Errorf("%d forecasts of a season; 1 to %d can be asked for", origins, mostOrigins)
	}
	growers := cast()
	g := growers[number%len(growers)]
	r := rand.New(rand.NewPCG(uint64(number), 77)) // #nosec G404 -- the same season each time
	g.vary(r)
	today := time.Date(2026, 1, 15, 0, 0, 0, 0, time.UTC).AddDate(0, 0, r.IntN(365))
	y, err := g.begin(today)
	if err != nil {
		return nil, err
	}
	loop, err := g.forecastLoop()
	if err != nil {
		return nil, err
	}
	const routine = 14 // days in which every other day and each week come round again
	last := 1 + r.IntN(routine)
	s := &stretch{from: last + seasonSeen + seasonToCome + (origins-1)*CutsApart}
	for ago := g.days; ago >= last; ago-- {
		y.liveSeasonDay(s, ago)
	}
	list := make([]*Season, origins)
	for i := range list {
		list[i] = s.cut((origins - 1 - i) * CutsApart)
		list[i].Site, list[i].Loop = g.site.Name, loop
	}
	return list, nil
}

// stretch is what was seen of a loop, and what truly was, since so many days ago.
type stretch struct {
	from     int
	hours    []outlook.Hour
	readings []outlook.Reading
	days     []Day
}

// cut is a season that begins so many days after the stretch.
func (s *stretch) cut(begins int) *Season {
	ends := begins + seasonSeen
	season := &Season{Past: s.hours[24*begins : 24*ends], Came: s.days[ends : ends+seasonToCome]}
	for _, r := range s.readings {
		if r.Hour >= 24*begins && r.Hour < 24*ends {
			r.Hour -= 24 * begins
			season.Readings = append(season.Readings, r)
		}
	}
	return season
}

// vary scatters what the grower has and where, and leaves troubles out.
func (g *grower) vary(r *rand.Rand) {
	g.seed, g.trouble = r.Uint64(), nil
	factor := func(by float64) float64 { return math.Exp(by * r.NormFloat64()) }
	g.climate.mean += 2 * r.NormFloat64()
	g.climate.daily *= factor(0.3)
	g.climate.restless *= factor(0.3)
	g.cohorts, g.vessels = slices.Clone(g.cohorts), slices.Clone(g.vessels)
	for i := range g.cohorts {
		g.cohorts[i].count = max(5, int(float64(g.cohorts[i].count)*factor(0.3)))
	}
	for i := range g.vessels {
		g.vessels[i].mediaL *= factor(0.5)
	}
}

// forecastLoop is what the grower knows of the loop.
func (g *grower) forecastLoop() (outlook.Loop, error) {
	pressure, err := aqua.PressureAtElevation(quantity.Metres(g.site.ElevationM))
	l := outlook.Loop{
		Pressure:         pressure,
		SourceAlkalinity: quantity.AlkalinityCaCO3(g.site.SourceAlkalinityMgPerL), SourceNitrate: quantity.NitrateN(g.site.SourceNitrateMgPerL),
	}
	for _, v := range g.vessels {
		l.Litres += quantity.Litres(v.volumeL)
		l.Media += quantity.SquareMetres(v.mediaL * v.ssa / 1000)
	}
	for _, b := range g.beds {
		if b.kind != soil {
			l.Planted += quantity.SquareMetres(b.areaM2)
		}
	}
	return l, err
}

// liveSeasonDay is a day as in the story, with what is seen and what truly was kept aside.
func (y *year) liveSeasonDay(s *stretch, ago int) {
	y.stock(ago)
	y.tendBeds(ago)
	fedN := 0.0
	for _, f := range y.schools {
		y.fed = f.dayRation(y.water) * (1 + 0.04*y.r.NormFloat64())
		y.feedSchool(f, ago)
		fedN += f.eatenN
	}
	kept := ago < s.from
	if kept {
		s.days = append(s.days, newDay())
	}
	for h := range 24 {
		around := y.surround(ago, y.at(ago, 0, 0).YearDay(), h)
		y.water.hour(around)
		if kept {
			y.look(s, ago, h, around, fedN)
		}
	}
	before := y.water.alkalinity
	y.deaths(ago)
	y.weekly(ago)
	y.monthly(ago)
	if kept {
		s.hours[len(s.hours)-1].Base = math.Max(0, y.water.alkalinity-before)
	}
}

func newDay() (d Day) {
	for f := range d {
		d[f] = [3]float64{0, math.Inf(1), math.Inf(-1)}
	}
	return d
}

// look keeps an hour: how it truly was, and what the grower's probes and tests see of it.
func (y *year) look(s *stretch, ago, h int, around surroundings, fedN float64) {
	w := y.water
	unionized := w.tan / (1 + math.Pow(10, 0.09018+2729.92/(273.15+w.celsius)-w.ph))
	truth := [outlook.Figures]float64{w.celsius, w.tan, w.nitrite, w.nitrate, w.alkalinity, w.ph, w.oxygen, unionized}
	was := &s.days[len(s.days)-1]
	for f, v := range truth {
		was[f][0] += v / 24
		was[f][1], was[f][2] = math.Min(was[f][1], v), math.Max(was[f][2], v)
	}
	hour := outlook.Hour{Air: math.NaN(), Sun: math.Max(0, sun(h)), Feed: fedN / 24, Fish: around.fishKg}
	if slices.Contains(y.probes, air) {
		hour.Air = around.airC + 0.1*y.r.NormFloat64()
	}
	s.hours = append(s.hours, hour)
	for f, by := range y.seen(ago, h) {
		s.readings = append(s.readings, outlook.Reading{Hour: len(s.hours) - 1, Figure: f, Value: math.Max(0, truth[f]*(1+by.share*y.r.NormFloat64())+by.least*y.r.NormFloat64())})
	}
}

// seeing is how a figure is read in an hour: with an error of a share of it, or of so much.
type seeing struct{ share, least float64 }

// seen are the figures that are read in an hour, by probes or in the evening's tests.
func (y *year) seen(ago, h int) iter.Seq2[outlook.Figure, seeing] {
	evening := h == 18 && ago%2 == 1
	probe := func(q freshetv1.Quantity) bool { return slices.Contains(y.probes, q) }
	return func(yield func(outlook.Figure, seeing) bool) {
		for _, s := range []struct {
			read   bool
			figure outlook.Figure
			seeing
		}{
			{evening || probe(water), outlook.Warmth, seeing{0, 0.05}},
			{evening, outlook.Ammonia, seeing{0.07, 0}}, {evening, outlook.Nitrite, seeing{0.07, 0}}, {evening, outlook.Nitrate, seeing{0.07, 0}},
			{h == 18 && ago%7 == 3, outlook.Alkalinity, seeing{0, 3}},
			{evening || probe(ph), outlook.Acidity, seeing{0, 0.02}}, {probe(oxygen), outlook.Oxygen, seeing{0, 0.06}},
		} {
			if s.read && !yield(s.figure, s.seeing) {
				return
			}
		}
	}
}
