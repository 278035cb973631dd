package analysis

import (
	"context"
	"math"
	"time"

	"github.com/google/uuid"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/crop"
	"freshet.example/husbandry/outlook"
	"freshet.example/husbandry/quantity"
	"freshet.example/store"
)

// lookedBack is how much of a loop's past its outlook is learnt from, hours.
const lookedBack = 42 * 24

// past is a loop's hours up to a moment, with what was read in them.
type past struct {
	*loop
	from, to time.Time // whole hours
	hours    []outlook.Hour
	readings []outlook.Reading
	read     map[outlook.Figure]time.Time // when each was last read
	fed      float64                      // g in the last week
}

// past gathers what the records say of the loop's last weeks.
func (l *loop) past(ctx context.Context, at time.Time) (*past, error) {
	to := at.Truncate(time.Hour)
	p := &past{loop: l, from: to.Add(-lookedBack * time.Hour), to: to, hours: make([]outlook.Hour, lookedBack), read: map[outlook.Figure]time.Time{}}
	for i := range p.hours {
		p.hours[i] = outlook.Hour{Air: math.NaN(), Sun: l.sun(p.from.Add(time.Duration(i) * time.Hour))}
	}
	for _, gather := range []func(context.Context) error{p.air, p.feed, p.fish, p.deeds, p.troubles, p.tests} {
		if err := gather(ctx); err != nil {
			return nil, err
		}
	}
	return p, nil
}

// hour is the hour in which something happened, nil outside the past.
func (p *past) hour(at time.Time) *outlook.Hour {
	i := int(math.Floor(at.Sub(p.from).Hours()))
	if i < 0 || i >= len(p.hours) {
		return nil
	}
	return &p.hours[i]
}

// sun is the share of noon that the sun stands at, by the length of the day.
func (s *site) sun(at time.Time) float64 {
	here := at.In(s.zone)
	daylight := quantity.Hours(12)
	if s.Site.Latitude != nil {
		if d, err := crop.DaylightHours(crop.Degrees(*s.Site.Latitude), here.YearDay()); err == nil {
			daylight = d
		}
	}
	if daylight <= 0 {
		return 0
	}
	const noon = 12.5 // of the clock, in the middle of a zone, between winter's and summer's
	off := math.Abs(float64(here.Hour()) + 0.5 - noon)
	if off > float64(daylight)/2 {
		return 0
	}
	return math.Max(0, math.Cos(math.Pi*off/float64(daylight)))
}

func (p *past) air(ctx context.Context) error {
	points, err := p.store.Series(ctx, p.Site.ID, int16(freshetv1.Quantity_QUANTITY_AIR_TEMPERATURE), p.places(), p.from, p.to, time.Hour)
	for _, point := range points {
		if h := p.hour(point.At); h != nil {
			h.Air = point.Mean
		}
	}
	return err
}

// feed counts the nitrogen of what was eaten.
func (p *past) feed(ctx context.Context) error {
	feedings, err := store.History[store.Feeding](ctx, p.store, p.Site.ID, p.from, p.to)
	for _, f := range feedings {
		h := p.hour(f.OccurredAt)
		if h == nil || !p.eats(f) {
			continue
		}
		percent := usualProtein
		if feed, ok := p.Feeds[f.FeedID]; ok {
			percent = feed.ProteinPercent
		}
		grams := max(0, f.MassG-f.LeftG)
		const nitrogenOfProtein = 0.16 // Jones 1931
		h.Feed += grams * percent / 100 * nitrogenOfProtein
		if p.to.Sub(f.OccurredAt) < 7*24*time.Hour {
			p.fed += grams
		}
	}
	return err
}

// fish lays the biomass between three moments on straight lines.
func (p *past) fish(ctx context.Context) error {
	const steps = 2
	before := 0.0
	for s := range steps + 1 {
		at := p.from.Add(time.Duration(s*lookedBack/steps) * time.Hour)
		kg, _, _, _, err := p.biomass(ctx, at)
		if err != nil {
			return err
		}
		for i := range lookedBack / steps * min(s, 1) {
			share := float64(i) / (lookedBack / steps)
			p.hours[(s-1)*lookedBack/steps+i].Fish = before + share*(kg-before)
		}
		before = kg
	}
	return nil
}

// readables are what the outlook takes readings of.
var readables = []struct {
	figure   outlook.Figure
	quantity freshetv1.Quantity
}{
	{outlook.Warmth, temperature}, {outlook.Ammonia, tan}, {outlook.Nitrite, nitrite}, {outlook.Nitrate, nitrate},
	{outlook.Alkalinity, alkalinity}, {outlook.Acidity, acidity}, {outlook.Oxygen, oxygen},
}

// tests are the readings of the water, hour by hour.
func (p *past) tests(ctx context.Context) error {
	byHour := make([][]outlook.Reading, len(p.hours))
	for _, r := range readables {
		points, err := p.store.Series(ctx, p.Site.ID, int16(r.quantity), p.waterPlaces(), p.from, p.to, time.Hour)
		if err != nil {
			return err
		}
		for _, point := range points {
			i := int(point.At.Sub(p.from).Hours())
			byHour[i] = append(byHour[i], outlook.Reading{Hour: i, Figure: r.figure, Value: point.Mean, Below: point.Below})
			p.read[r.figure] = point.At
		}
	}
	for _, list := range byHour {
		p.readings = append(p.readings, list...)
	}
	return nil
}

// waterPlaces are where the water that the fish live in is read: beds may differ.
func (l *loop) waterPlaces() []uuid.UUID {
	list := []uuid.UUID{uuid.Nil}
	for _, v := range l.vessels() {
		list = append(list, v.ID)
	}
	return list
}

// outlookLoop is what stays as it is.
func (l *loop) outlookLoop() outlook.Loop {
	o := outlook.Loop{
		Litres: quantity.Litres(l.litres()), Media: l.filterSurface(), Pressure: l.pressure(), SourceNitrate: quantity.NitrateN(l.Site.SourceNitrate),
	}
	for _, b := range l.loopBeds() {
		o.Planted += quantity.SquareMetres(b.AreaM2)
	}
	if l.Site.SourceAlk != nil {
		o.SourceAlkalinity = quantity.AlkalinityCaCO3(*l.Site.SourceAlk)
	}
	return o
}
