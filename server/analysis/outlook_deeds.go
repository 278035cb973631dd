package analysis

import (
	"context"
	"time"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/quantity"
	"freshet.example/husbandry/water"
	"freshet.example/store"
)

// deeds are what the grower did to the water.
func (p *past) deeds(ctx context.Context) error {
	out, err := store.History[store.WaterOut](ctx, p.store, p.Site.ID, p.from, p.to)
	if err != nil {
		return err
	}
	for _, w := range out {
		if h := p.hour(w.OccurredAt); h != nil && (w.SystemID == p.ID || p.holds(w.VesselID)) {
			h.Changed += w.VolumeL
		}
	}
	if err := p.topUps(ctx); err != nil {
		return err
	}
	doses, err := store.History[store.Dosing](ctx, p.store, p.Site.ID, p.from, p.to)
	if err != nil {
		return err
	}
	for _, d := range doses {
		if h := p.hour(d.OccurredAt); h != nil && p.holds(d.VesselID) {
			h.Base += p.baseOf(d)
		}
	}
	upkeep, err := store.History[store.Upkeep](ctx, p.store, p.Site.ID, p.from, p.to)
	for _, u := range upkeep {
		if h := p.hour(u.OccurredAt); h != nil && u.Kind == int16(freshetv1.UpkeepKind_UPKEEP_KIND_FILTER_CLEANED) && p.holds(u.VesselID) {
			h.Cleaned = true
		}
	}
	return err
}

// topUps bring the source's alkalinity for what evaporated without its own.
func (p *past) topUps(ctx context.Context) error {
	if p.Site.SourceAlk == nil {
		return nil
	}
	in, err := store.History[store.WaterIn](ctx, p.store, p.Site.ID, p.from, p.to)
	for _, w := range in {
		if h := p.hour(w.OccurredAt); h != nil && (w.SystemID == p.ID || p.holds(w.VesselID)) {
			h.Base += *p.Site.SourceAlk * w.VolumeL / p.litres()
		}
	}
	return err
}

// baseOf is the alkalinity that a dose gives the whole loop; 0 for what is no base.
func (l *loop) baseOf(d store.Dosing) float64 {
	base, err := water.BaseNamed(substanceName(d.Substance))
	if err != nil {
		return 0
	}
	rise, err := water.AlkalinityOfBase(base, quantity.Litres(l.litres()), quantity.Grams(d.MassG))
	if err != nil {
		return 0
	}
	return float64(rise)
}

// troubles are the hours in which pump and air stood.
func (p *past) troubles(ctx context.Context) error {
	incidents, err := store.History[store.Incident](ctx, p.store, p.Site.ID, p.from, p.to)
	for _, i := range incidents {
		kind := freshetv1.IncidentKind(i.Kind)
		if kind != freshetv1.IncidentKind_INCIDENT_KIND_POWER_CUT && kind != freshetv1.IncidentKind_INCIDENT_KIND_PUMP_STOPPED {
			continue
		}
		end := i.OccurredAt.Add(time.Hour)
		if !i.EndedAt.IsZero() {
			end = i.EndedAt.Time
		}
		for at := i.OccurredAt; at.Before(end) && at.Before(p.to); at = at.Add(time.Hour) {
			if h := p.hour(at); h != nil {
				h.Still = true
			}
		}
	}
	return err
}
