package analysis

import (
	"context"
	"slices"
	"time"

	"github.com/google/uuid"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/fish"
	"freshet.example/husbandry/nitrogen"
	"freshet.example/husbandry/quantity"
	"freshet.example/husbandry/water"
	"freshet.example/store"
)

// planWater fills in what the water and its filter carry.
func (l *loop) planWater(plan *fish.Loop, g *glass, at time.Time) {
	full, err := water.OxygenSaturation(plan.Temperature, 0, l.pressure())
	if limit, _ := g.oxygenLimit(); err == nil && float64(full) > limit {
		plan.Flow = quantity.LitresPerMinute(l.tankFlow() / 60)
		plan.OxygenDrop = full - quantity.MgPerL(limit)
		if supply, err := fish.Aeration(l.airPower(), fish.AirStones, plan.Temperature, full, quantity.MgPerL(limit)); err == nil {
			plan.OxygenSupply = supply
		}
	}
	plan.FilterSurface, plan.FilterRate = l.filterSurface(), nitrogen.ArealN(quantity.AmmoniaNH3(nitrogen.FAORate).N())
	plan.FilterAge = quantity.Days(365)
	if !l.StartedOn.IsZero() {
		plan.FilterAge = quantity.Days(at.Sub(l.StartedOn.Time).Hours() / 24)
	}
}

// tankFlow is the water that comes to the fish from elsewhere, L/h. What one
// tank passes to the next has given up its oxygen, and counts once.
func (l *loop) tankFlow() float64 {
	fed := map[uuid.UUID]bool{}
	tanks := l.tanks()
	for _, v := range tanks {
		for _, next := range v.FlowsTo {
			fed[next] = true
		}
	}
	sum := 0.0
	for _, v := range tanks {
		if !fed[v.ID] {
			sum += v.FlowLPerH
		}
	}
	return sum
}

// airPower is that of the air pumps whose stones hang in the fish tanks.
func (l *loop) airPower() quantity.Watts {
	tanks := l.tanks()
	sum := 0.0
	for _, e := range l.Equipment {
		if e.Kind == int16(freshetv1.EquipmentKind_EQUIPMENT_KIND_AERATOR) && slices.ContainsFunc(tanks, func(v store.Vessel) bool { return v.ID == e.VesselID }) {
			sum += e.PowerW
		}
	}
	return quantity.Watts(sum)
}

// filterSurface is what bacteria live on: media, and the underside and walls
// of rafts, which the Virgin Islands' rate counts by planted area.
func (l *loop) filterSurface() quantity.SquareMetres {
	sum := 0.0
	for _, v := range l.vessels() {
		sum += v.MediaVolumeL * v.MediaSpecific / 1000
	}
	for _, b := range l.loopBeds() {
		if b.Kind == int16(freshetv1.BedKind_BED_KIND_RAFT) {
			sum += b.AreaM2
		}
	}
	return quantity.SquareMetres(sum)
}

// bareFilters names the filters whose media, and so whose bacteria, are not on record.
func (l *loop) bareFilters() []string {
	var list []string
	for _, v := range l.vessels() {
		if v.Kind == int16(freshetv1.VesselKind_VESSEL_KIND_MEDIA_FILTER) && v.MediaVolumeL*v.MediaSpecific == 0 {
			list = append(list, "nitrification: the media of "+v.Name+" and its surface are not on record")
		}
	}
	if list == nil && l.filterSurface() == 0 {
		return []string{"nitrification: no filter with its media is on record"}
	}
	return list
}

// planPlants fills in the beds on the water.
func (l *loop) planPlants(plan *fish.Loop) {
	area := 0.0
	for _, b := range l.loopBeds() {
		area += b.AreaM2
	}
	plan.PlantArea = quantity.SquareMetres(area)
	how := "raft"
	if l.Growing == int16(freshetv1.Growing_GROWING_CHANNEL) {
		how = "NFT"
	}
	if ratio, err := nitrogen.RatioFor(how, "any"); err == nil {
		plan.PlantRatio = (ratio.Low + ratio.High) / 2
	}
}

// planCarbonate counts the alkalinity that dosings and top-up replaced in a day.
func (l *loop) planCarbonate(ctx context.Context, plan *fish.Loop, at time.Time) error {
	from := midnight(at, l.zone).AddDate(0, 0, -28)
	doses, err := store.History[store.Dosing](ctx, l.store, l.Site.ID, from, at)
	if err != nil {
		return err
	}
	grams := 0.0
	for _, d := range doses {
		base, err := water.BaseNamed(substanceName(d.Substance))
		if err == nil && l.holds(d.VesselID) {
			grams += d.MassG / base.Equivalent * 50.04
		}
	}
	added, err := store.History[store.WaterIn](ctx, l.store, l.Site.ID, from, at)
	for _, w := range added {
		if l.Site.SourceAlk != nil && (w.SystemID == l.ID || l.holds(w.VesselID)) {
			grams += w.VolumeL * *l.Site.SourceAlk / 1000
		}
	}
	plan.Alkalinity = quantity.Grams(grams / 28)
	return err
}
