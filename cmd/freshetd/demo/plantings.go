package demo

import (
	"math"
	"time"

	freshetv1 "freshet.example/api/freshet/v1"
)

// tendBeds sows what is empty, picks what bears, and pulls what is done.
func (y *year) tendBeds(ago int) {
	for i, b := range y.stands {
		if b.crop == "" && y.maySow(b, ago, i) {
			y.sow(b, ago)
			continue
		}
		if b.crop == "" {
			continue
		}
		b.grow(y.warmthOf(b), y.dayLux)
		if ago%7 == 6 && ago > 0 && !y.during(holiday, ago, 12) {
			y.pick(b, ago)
		}
		switch {
		case ago == 0:
		case b.finished():
			y.pull(b, ago, freshetv1.PullingReason_PULLING_REASON_FINISHED)
		case !b.inLoop() && y.climate.season(y.at(ago, 0, 0).YearDay()) < -0.4:
			y.pull(b, ago, freshetv1.PullingReason_PULLING_REASON_WEATHER)
		}
	}
}

// maySow keeps the first sowings apart, and sows soil beds where two months of the
// warm half of the year are left.
func (y *year) maySow(b *stand, ago, place int) bool {
	if len(b.rotation) == 0 || y.days-ago < 3+place*6 || ago == 0 {
		return false
	}
	return b.inLoop() || y.climate.season(y.at(ago, 0, 0).YearDay()) > 0.1 && y.climate.season(y.at(ago-60, 0, 0).YearDay()) > 0.1
}

func (y *year) sow(b *stand, ago int) {
	b.crop = b.rotation[b.next%len(b.rotation)]
	b.next++
	b.age, b.given, b.thrift = 0, 0, math.Exp(0.22*y.r.NormFloat64()-0.024)
	p := &freshetv1.Planting{Crop: b.crop, BedId: b.id, AreaM2: b.areaM2, Method: freshetv1.PlantingMethod_PLANTING_METHOD_DIRECT_SEED, HandPollinated: b.crop == "cucumber"}
	if b.crop == "sweet pepper" {
		y.spacing(b, p)
	}
	at := y.at(ago, 11, 0)
	b.planting = y.phone.set(at, &freshetv1.Edit{Record: &freshetv1.Edit_Planting{Planting: p}}, p)
	if b.crop == "sweet pepper" && len(y.trial) < len(y.stands)-1 {
		y.trial = append(y.trial, b.planting)
	}
	y.phone.note(at, &freshetv1.Event{Kind: &freshetv1.Event_Sowing{Sowing: &freshetv1.Sowing{
		PlantingId: b.planting, AreaM2: b.areaM2, SeedsCount: uint32(math.Round(b.areaM2 * 12)),
	}}})
}

// spacing sets every other pepper bed wide: 4 plants a square metre instead of 6.
func (y *year) spacing(b *stand, p *freshetv1.Planting) {
	b.spacing = 1
	p.PlantsCount = uint32(b.areaM2 * 6)
	if y.peppers%2 == 1 {
		b.spacing = 1.5
		p.PlantsCount = uint32(b.areaM2 * 4)
	}
	y.peppers++
}

func (y *year) pick(b *stand, ago int) {
	grams := math.Round(b.picking(y.warmthOf(b), y.dayLux, y.water.nitrate) * 1000 * math.Exp(0.12*y.r.NormFloat64()))
	if grams < 20 {
		return
	}
	at := y.at(ago, 17, 0)
	b.given += grams / 1000 / b.areaM2
	y.phone.note(at, &freshetv1.Event{Kind: &freshetv1.Event_BedHarvest{BedHarvest: &freshetv1.BedHarvest{
		PlantingId: b.planting, MassG: grams, Form: freshetv1.ProduceForm_PRODUCE_FORM_WHOLE,
	}}})
	y.use(b.crop, grams, at.Add(30*time.Minute))
}

// warmthOf is the day's warmth that a stand feels: in the loop its roots stand in
// warmer water.
func (y *year) warmthOf(b *stand) float64 {
	if b.inLoop() {
		return (y.dayAirC + y.dayC) / 2
	}
	return y.dayAirC
}

// use tells what became of most of a picking: eaten first, the rest kept, canned, dried or bartered.
func (y *year) use(crop string, grams float64, at time.Time) {
	eaten := math.Min(grams, y.uses[crop]*1000)
	y.dispose(crop, eaten, freshetv1.Use_USE_EATEN, 0, "", at)
	rest := grams - eaten
	switch {
	case rest < 300:
	case crop == "tomato":
		y.dispose(crop, math.Floor(rest/1360)*1360, freshetv1.Use_USE_CANNED, uint32(rest/1360), "", at)
	case crop == "basil" || crop == "parsley" || crop == "cilantro":
		y.dispose(crop, rest, freshetv1.Use_USE_DRIED, uint32(rest/200), "", at)
	default:
		y.dispose(crop, math.Round(rest*0.7), freshetv1.Use_USE_BARTERED, 0, "eggs and bread", at)
	}
}

func (y *year) dispose(crop string, grams float64, use freshetv1.Use, pieces uint32, had string, at time.Time) {
	if grams < 1 {
		return
	}
	y.phone.note(at, &freshetv1.Event{Kind: &freshetv1.Event_Disposition{Disposition: &freshetv1.Disposition{
		Crop: crop, MassG: math.Round(grams), Use: use, PiecesCount: pieces, HadForIt: had,
	}}})
}

func (y *year) pull(b *stand, ago int, why freshetv1.PullingReason) {
	y.phone.note(y.at(ago, 17, 40), &freshetv1.Event{Kind: &freshetv1.Event_Pulling{Pulling: &freshetv1.Pulling{
		PlantingId: b.planting, Reason: why, MassG: math.Round(b.given * b.areaM2 * 350),
	}}})
	b.crop, b.planting = "", ""
}

// setTrial asks whether peppers set wider give more; so few beds cannot tell.
func (y *year) setTrial() {
	if len(y.trial) == 0 {
		return
	}
	t := &freshetv1.Trial{
		Question: "Do sweet peppers give more on each square metre at 4 plants than at 6?", Measure: freshetv1.TrialMeasure_TRIAL_MEASURE_HARVEST_KG_PER_M2,
		FromOn: y.at(y.days, 0, 0).Format(time.DateOnly), StoppingRule: "when every bed has been pulled once", WorthwhilePercent: 20,
		Arms: []*freshetv1.TrialArm{{Name: "6 plants a square metre"}, {Name: "4 plants a square metre"}},
	}
	for i, id := range y.trial {
		t.Arms[i%2].PlantingIds = append(t.Arms[i%2].PlantingIds, id)
	}
	y.phone.set(y.at(y.days-60, 12, 0), &freshetv1.Edit{Record: &freshetv1.Edit_Trial{Trial: t}}, t)
}
