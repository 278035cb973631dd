package demo

import (
	"math"
	"math/rand/v2"
	"time"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
)

const soil = freshetv1.BedKind_BED_KIND_SOIL

// year is one grower's record as it is lived.
type year struct {
	*grower
	r       *rand.Rand
	sky     sky
	water   *loop
	schools []*school
	stands  []*stand
	today   time.Time // midnight, in the site's zone
	lived   int       // hours of the last day
	phone   *outbox
	gateway *outbox
	month   *Month            // kept as well, where one is asked for
	ids     map[string]string // vessels by name, and the feed
	peppers int
	trial   []string
	dayC    float64 // mean water temperature of the day
	dayAirC float64
	dayLux  float64 // mean light of the day, share of summer sun
	fed     float64
}

// live runs a grower's record up to today and gives what to push: the phone's
// outbox first, since the gateway's readings name what it made.
func (g *grower) live(today time.Time) (phone, gateway []*freshetv1.PushRequest, site string, err error) {
	y, err := g.begin(today)
	if err != nil {
		return nil, nil, "", err
	}
	y.lived = hoursLived(today.In(y.today.Location()))
	for ago := g.days; ago >= 0; ago-- {
		y.day(ago)
	}
	y.setTrial()
	return y.phone.close(), y.gateway.close(), y.phone.site, nil
}

// begin settles the grower in, on the day before the record.
func (g *grower) begin(today time.Time) (*year, error) {
	zone, err := time.LoadLocation(g.site.TimeZone)
	if err != nil {
		return nil, err
	}
	day := lastMorning(today.In(zone))
	y := &year{
		grower: g, r: rand.New(rand.NewPCG(g.seed, 2026)), sky: sky{climate: g.climate}, water: newLoop(g), // #nosec G404 -- a story, the same each time
		today: time.Date(day.Year(), day.Month(), day.Day(), 0, 0, 0, 0, zone), lived: upAt,
		phone: newOutbox(installOf(g.seed, 1)), gateway: newOutbox(installOf(g.seed, 2)), ids: map[string]string{},
	}
	y.settleIn()
	return y, nil
}

// upAt is the hour at which a grower gets up; nothing is done earlier.
const upAt = 6

// hoursLived is how far the record of the last day goes: probes go on until an
// hour ago, so that who looks in the evening finds none that fell silent.
func hoursLived(now time.Time) int {
	if now.Hour() < upAt {
		return 24
	}
	return max(upAt, now.Hour()-1)
}

// lastMorning gives the latest day that had its morning in the site's own
// zone, since nothing may have happened later than now.
func lastMorning(now time.Time) time.Time {
	if now.Hour() < upAt {
		return now.AddDate(0, 0, -1)
	}
	return now
}

func (y *year) at(ago, hour, minute int) time.Time {
	d := y.today.AddDate(0, 0, -ago)
	return time.Date(d.Year(), d.Month(), d.Day(), hour, minute, 0, 0, d.Location())
}

// settleIn makes the site's records.
func (y *year) settleIn() {
	at := y.at(y.days+1, 9, 0)
	site := y.phone.set(at, &freshetv1.Edit{Record: &freshetv1.Edit_Site{Site: y.site}}, y.site)
	y.phone.site, y.gateway.site = site, site
	y.system.StartedOn = at.AddDate(0, -8, 0).Format(time.DateOnly)
	system := y.phone.set(at, &freshetv1.Edit{Record: &freshetv1.Edit_System{System: y.system}}, y.system)
	y.ids["system"] = system
	y.makeVessels(at, system)
	y.ids["feed"] = y.phone.set(at, &freshetv1.Edit{Record: &freshetv1.Edit_Feed{Feed: y.feed}}, y.feed)
	y.makeEquipment(at, system)
	for _, b := range y.beds {
		y.makeBed(at, system, b)
	}
	for crop, kg := range sorted(y.uses) {
		c := &freshetv1.Crop{Crop: crop, UseKgPerWeek: kg, Source: "what the household eats"}
		y.phone.set(at, &freshetv1.Edit{Record: &freshetv1.Edit_Crop{Crop: c}}, c)
	}
}

// makeVessels makes them from the last to the first, since each names the next.
func (y *year) makeVessels(at time.Time, system string) {
	next := ""
	for i := len(y.vessels) - 1; i >= 0; i-- {
		v := y.vessels[i]
		vessel := &freshetv1.Vessel{
			SystemId: system, Name: v.name, Kind: v.kind, VolumeL: v.volumeL, SurfaceM2: v.volumeL / 900,
			MediaVolumeL: v.mediaL, MediaSpecificSurfaceM2PerM3: v.ssa, FlowLPerH: v.flowLPH,
		}
		if v.mediaL > 0 {
			vessel.Media = "volcanic gravel"
		}
		if next != "" {
			vessel.FlowsTo = []string{next}
		}
		next = y.phone.set(at, &freshetv1.Edit{Record: &freshetv1.Edit_Vessel{Vessel: vessel}}, vessel)
		y.ids[v.name] = next
	}
}

func (y *year) makeEquipment(at time.Time, system string) {
	flow := y.vessels[0].flowLPH
	for _, e := range []*freshetv1.Equipment{
		{Name: "Pump", Kind: freshetv1.EquipmentKind_EQUIPMENT_KIND_PUMP, SystemId: system, VesselId: y.ids["Pump tank"], PowerW: flow / 60, FlowLPerH: flow, HeadM: 2},
		{Name: "Air pump", Kind: freshetv1.EquipmentKind_EQUIPMENT_KIND_AERATOR, SystemId: system, VesselId: y.ids["Fish tank"], PowerW: flow / 150, FlowLPerH: flow / 2},
	} {
		y.phone.set(at, &freshetv1.Edit{Record: &freshetv1.Edit_Equipment{Equipment: e}}, e)
	}
}

func (y *year) makeBed(at time.Time, system string, plan bedPlan) {
	bed := &freshetv1.Bed{Name: plan.name, Kind: plan.kind, AreaM2: plan.areaM2, Covered: plan.kind != soil}
	if plan.kind != soil {
		bed.SystemId, bed.VesselId = system, y.ids["Beds"]
	}
	id := y.phone.set(at, &freshetv1.Edit{Record: &freshetv1.Edit_Bed{Bed: bed}}, bed)
	y.stands = append(y.stands, &stand{bedPlan: plan, id: id, spacing: 1})
}

// day lives one day: its hours, and what the grower does in it.
func (y *year) day(ago int) {
	y.stock(ago)
	date := y.at(ago, 0, 0)
	y.tendBeds(ago)
	for _, s := range y.schools {
		y.fed = s.dayRation(y.water) * (1 + 0.04*y.r.NormFloat64())
		y.feedSchool(s, ago)
	}
	y.hours(ago, date.YearDay())
	y.deaths(ago)
	if !y.during(holiday, ago, 12) {
		y.tests(ago)
		y.weekly(ago)
		y.monthly(ago)
	}
	y.mishaps(ago)
}

func (y *year) hours(ago, yearDay int) {
	last := 24
	if ago == 0 {
		last = y.lived
	}
	y.dayC, y.dayAirC, y.dayLux = 0, 0, 0
	for h := range last {
		s := y.surround(ago, yearDay, h)
		y.water.hour(s)
		y.dayC += y.water.celsius / float64(last)
		y.dayAirC += s.airC / float64(last)
		y.dayLux += s.light * 2.2 / float64(last)
		y.month.hour(y.at(ago, h, 0), s, y.water)
		y.probeHour(ago, h, s.airC)
	}
}

func (y *year) surround(ago, yearDay, h int) surroundings {
	outside := y.sky.hour(y.r, yearDay, h)
	s := surroundings{light: y.climate.light(yearDay, h), heatTo: y.heatTo, pump: !y.during(powerCut, ago, h)}
	s.airC = math.Max(outside+y.cover*s.light, y.heatTo-6)
	if y.during(heaterFails, ago, h) {
		s.heatTo = 0
	}
	if since, now := y.inTrouble(filterCleanedTooWell, ago, h); now && since == 0 {
		y.water.ammoniaEaters *= 0.22
		y.water.nitriteEaters *= 0.3
	}
	for _, f := range y.schools {
		s.fishKg += f.kg()
		s.swallowed += (f.eatenN - f.keptN) / 24
	}
	for _, b := range y.stands {
		s.plantsTake += b.demand(s.airC, s.light)
	}
	return s
}

// probeHour enters what the probes say.
func (y *year) probeHour(ago, h int, airC float64) {
	if y.during(holiday, ago, h) && y.r.Float64() < 0.6 {
		return // the gateway was unplugged half the holidays
	}
	for _, q := range y.probes {
		row := wire.ReadingRow{Quantity: q, Place: y.ids["Fish tank"], Method: freshetv1.Method_METHOD_PROBE, Unit: probeUnits[q]}
		if q == air {
			row.Place = ""
		}
		row.Digits, row.Decimals = y.probeSays(q, ago, h, airC)
		y.month.probe(y.at(ago, h, 0), &row)
		y.gateway.read(y.at(ago, h, 0), row)
	}
}

var probeUnits = map[freshetv1.Quantity]freshetv1.Unit{
	water: freshetv1.Unit_UNIT_CELSIUS, air: freshetv1.Unit_UNIT_CELSIUS, ph: freshetv1.Unit_UNIT_NONE,
	oxygen: freshetv1.Unit_UNIT_MG_PER_L, salts: freshetv1.Unit_UNIT_US_PER_CM,
}

// probeSays is what a probe shows in an hour.
func (y *year) probeSays(q freshetv1.Quantity, ago, h int, airC float64) (digits int64, decimals uint32) {
	switch q {
	case water:
		return typed(y.water.celsius+0.05*y.r.NormFloat64(), 1)
	case air:
		return typed(airC+0.1*y.r.NormFloat64(), 1)
	case ph:
		return typed(y.acidity(ago, h)+0.02*y.r.NormFloat64(), 2)
	case oxygen:
		return typed(math.Max(0, y.drifted(ago, h)+0.06*y.r.NormFloat64()), 1)
	}
	return typed(y.water.conductivity()+4*y.r.NormFloat64(), 0)
}

// acidity is the pH a glass electrode shows as it ages: more every day.
func (y *year) acidity(ago, h int) float64 {
	const aDay = 0.05
	since, _ := y.inTrouble(phDrift, ago, h)
	return y.water.ph + aDay*float64(since)/24
}

// drifted is the oxygen a probe shows as its membrane fouls: less every day.
func (y *year) drifted(ago, h int) float64 {
	since, _ := y.inTrouble(oxygenDrift, ago, h)
	return y.water.oxygen - 1.8*float64(since)/(60*24)
}
