package demo

import (
	"math"
	"math/rand/v2"
	"time"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
	"freshet.example/husbandry/quantity"
	"freshet.example/husbandry/signs"
	aqua "freshet.example/husbandry/water"
	typing "freshet.example/server/typed"
)

// A Month is a loop's six weeks of record and the month after them, as
// signs.Look may see them hour by hour.
type Month struct {
	Site   string
	Record signs.Record // all its hours
	Began  int          // hour at which the fault began
	Shows  bool         // the fault can be told here: its probe is there, the heater ran
	start  time.Time
	cohort map[*school]int
	truth  []truth
}

// truth is how the water truly stood in an hour, mg/L.
type truth struct{ ammonia, oxygen float64 }

// A Fault is what goes wrong in a month, on its fourth day.
type Fault int

// The faults.
const (
	NoFault Fault = iota
	PumpStops
	HeaterFails
	FilterLost
	PHProbeDrifts
	OxygenProbeDrifts
	UnitTypedWrong
)

// How much of a month is seen before it, and how much is watched, days.
const (
	MonthSeen    = 42
	MonthWatched = 30
	faultDay     = 3
)

// LiveMonth lives one of many site-months by its number: one of the growers,
// with climate, fish and filter scattered about theirs, at some time of the
// year. PH is tested by hand as well where a probe reads it.
func LiveMonth(number int, f Fault) (*Month, error) {
	growers := cast()
	g := growers[number%len(growers)]
	r := rand.New(rand.NewPCG(uint64(number), 78)) // #nosec G404 -- the same month each time
	g.vary(r)
	today := time.Date(2026, 1, 15, 0, 0, 0, 0, time.UTC).AddDate(0, 0, r.IntN(365))
	late := r.IntN(signs.Day)
	g.trouble = troubleOf(f, late)
	y, err := g.begin(today)
	if err != nil {
		return nil, err
	}
	pressure, err := aqua.PressureAtElevation(quantity.Metres(g.site.ElevationM))
	if err != nil {
		return nil, err
	}
	const days = MonthSeen + MonthWatched
	m := &Month{
		Site: g.site.Name, Began: (MonthSeen+faultDay)*signs.Day + 12 + late, start: y.at(days, 0, 0), cohort: map[*school]int{},
		Record: signs.Record{Probe: map[quantity.Quantity][]float64{}, Tests: map[quantity.Quantity][]signs.Test{}, Pressure: pressure},
	}
	for _, v := range g.vessels {
		m.Record.Litres += quantity.Litres(v.volumeL)
	}
	y.month = m
	for ago := g.days; ago > 0; ago-- {
		y.day(ago)
	}
	m.Shows = m.shows(f, y)
	return m, nil
}

func troubleOf(f Fault, late int) []trouble {
	t := trouble{day: MonthWatched - faultDay, late: late, hours: MonthWatched * signs.Day}
	switch f {
	case PumpStops:
		t.kind, t.hours = powerCut, 8
	case HeaterFails:
		t.kind = heaterFails
	case FilterLost:
		t.kind, t.hours = filterCleanedTooWell, signs.Day
	case PHProbeDrifts:
		t.kind = phDrift
	case OxygenProbeDrifts:
		t.kind = oxygenDrift
	case UnitTypedWrong:
		t.kind = nitrateAsN
	default:
		return nil
	}
	return []trouble{t}
}

// at is the hour of the record, false where it lies outside.
func (m *Month) at(moment time.Time) (int, bool) {
	if m == nil || moment.Before(m.start) {
		return 0, false
	}
	return int(moment.Sub(m.start).Hours()), true
}

func (m *Month) hour(moment time.Time, s surroundings, w *loop) {
	at, ok := m.at(moment)
	if !ok {
		return
	}
	for len(m.Record.Hours) <= at { // an hour that a clock skips is like the one before
		m.Record.Hours = append(m.Record.Hours, signs.Hour{Fish: s.fishKg, Sun: s.light})
		m.truth = append(m.truth, truth{w.tan, w.oxygen})
	}
	for q, series := range m.Record.Probe {
		m.Record.Probe[q] = silentTo(series, len(m.Record.Hours))
	}
}

// silentTo fills a series with hours in which nothing is said.
func silentTo(series []float64, hours int) []float64 {
	for len(series) < hours {
		series = append(series, math.NaN())
	}
	return series
}

func (m *Month) probe(moment time.Time, row *wire.ReadingRow) {
	if at, ok := m.at(moment); ok {
		q := typing.Quantities[row.Quantity]
		m.Record.Probe[q] = silentTo(m.Record.Probe[q], len(m.Record.Hours))
		m.Record.Probe[q][at] = float64(row.Digits) / math.Pow10(int(row.Decimals))
	}
}

func (m *Month) test(moment time.Time, r *freshetv1.Reading) {
	at, ok := m.at(moment)
	if !ok {
		return
	}
	q, unit, basis, _ := typing.Of(r.Quantity, r.Unit, r.Basis)
	t := signs.Test{Hour: at, Below: r.Censoring == freshetv1.Censoring_CENSORING_BELOW, Typed: quantity.Measure{Digits: r.Digits, Decimals: int(r.Decimals), Unit: unit, Basis: basis}}
	value, err := t.Typed.Canonical(q)
	if err != nil {
		return // the server would refuse it
	}
	t.Value = value
	m.Record.Tests[q] = append(m.Record.Tests[q], t)
}

func (m *Month) death(moment time.Time, s *school, count int) {
	if at, ok := m.at(moment); ok {
		if _, known := m.cohort[s]; !known {
			m.cohort[s] = len(m.cohort)
		}
		m.Record.Deaths = append(m.Record.Deaths, signs.Death{Hour: at, Cohort: m.cohort[s], Count: count, Sentinel: s.purpose == sentinel})
	}
}

// shows tells whether a fault can be told from what the grower reads.
func (m *Month) shows(f Fault, y *year) bool {
	reads := func(q quantity.Quantity) bool { return len(m.Record.Probe[q]) > 0 }
	switch f {
	case PumpStops:
		const falls = 0.4 // mg/L within the first hour: less, where the tank holds few fish, no probe can tell
		return reads(quantity.DissolvedOxygen) && m.truth[m.Began].oxygen < m.truth[m.Began-1].oxygen-falls
	case OxygenProbeDrifts:
		return reads(quantity.DissolvedOxygen)
	case PHProbeDrifts:
		return reads(quantity.Acidity)
	case HeaterFails:
		return reads(quantity.WaterTemperature) && y.heatTo > 0 && m.heated(y.heatTo)
	case FilterLost:
		const times, more = 3, 0.3 // mg/L as N, within two days
		before, after := m.truth[m.Began-1].ammonia, m.truth[m.Began+2*signs.Day].ammonia
		return after > math.Max(times*before, before+more)
	}
	return true
}

// heated tells whether a heater holds the water through the days before the fault and the air is too cold without.
func (m *Month) heated(to float64) bool {
	const within, colder = 0.3, 3.0 // K
	water, air := m.Record.Probe[quantity.WaterTemperature], m.Record.Probe[quantity.AirTemperature]
	if len(air) == 0 {
		return false
	}
	for h := m.Began - 2*signs.Day; h < m.Began; h++ {
		if math.Abs(water[h]-to) > within {
			return false
		}
	}
	for h := m.Began; h < m.Began+6; h++ {
		if air[h] > to-colder {
			return false
		}
	}
	return true
}

// Until is the record as it stood at an hour, with the six weeks before it.
func (m *Month) Until(hour int) signs.Record {
	from, to := max(0, hour+1-MonthSeen*signs.Day), hour+1
	r := m.Record
	r.Hours = r.Hours[from:to]
	r.Probe, r.Tests, r.Deaths = map[quantity.Quantity][]float64{}, map[quantity.Quantity][]signs.Test{}, nil
	for q, series := range m.Record.Probe {
		r.Probe[q] = series[from:to]
	}
	for q, tests := range m.Record.Tests {
		for _, t := range tests {
			if t.Hour >= from && t.Hour < to {
				t.Hour -= from
				r.Tests[q] = append(r.Tests[q], t)
			}
		}
	}
	for _, d := range m.Record.Deaths {
		if d.Hour >= from && d.Hour < to {
			d.Hour -= from
			r.Deaths = append(r.Deaths, d)
		}
	}
	return r
}
