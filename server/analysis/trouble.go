package analysis

import (
	"context"
	"fmt"
	"math"
	"time"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/fish"
	"freshet.example/husbandry/quantity"
	"freshet.example/store"
)

// EstimateTrouble says how long there is when pump, heater or grower fail.
func (s *Service) EstimateTrouble(ctx context.Context, in *freshetv1.EstimateTroubleRequest) (*freshetv1.EstimateTroubleResponse, error) {
	l, err := s.loop(ctx, in.GetSystemId())
	if err != nil {
		return nil, err
	}
	now := s.now()
	kg, herds, grams, missing, err := l.biomass(ctx, now)
	if err != nil {
		return nil, err
	}
	g, err := l.glass(ctx, now)
	if err != nil {
		return nil, err
	}
	lead, weight := leading(herds, grams)
	if lead == nil {
		return nil, &TooLittleError{"no cohort with a known species and weight lives here", "stock a cohort and weigh a few fish"}
	}
	air, err := l.coldest(ctx, now)
	if err != nil {
		return nil, err
	}
	if in.AirCelsius != nil {
		air = in.GetAirCelsius()
	}
	oxygenLeft := g.pumpStops(lead, kg, weight)
	oxygenLeft.Missing = append(oxygenLeft.Missing, missing...)
	away, err := l.waterLasts(ctx, now)
	return &freshetv1.EstimateTroubleResponse{Answers: []*freshetv1.Answer{oxygenLeft, g.heaterFails(lead, air), away}}, err
}

// pumpStops is the minutes of oxygen left when pump and air stop.
func (g *glass) pumpStops(lead *herd, kg, grams float64) *freshetv1.Answer {
	o, ok1 := g.value(oxygen)
	warmth, ok2 := g.value(temperature)
	if !ok2 {
		return lacking("oxygen_minutes", "How long the oxygen lasts cannot be told.", "Water temperature")
	}
	a := &freshetv1.Answer{Name: "oxygen_minutes", Standing: watch, Source: "oxygen demand of fed fish (cutthroat trout, 274 g O2/kg feed), doubled each 10 degC (Boyd); no surface aeration counted"}
	if !ok1 {
		o, _ = g.oxygenLimit()
		o += 1.5
		a.Missing = append(a.Missing, "Dissolved oxygen was not measured; reckoned from "+show(o, 2)+" mg/L")
	}
	share, err := fish.RationPercent(lead.species, quantity.Grams(grams), quantity.Celsius(warmth), 1)
	if err != nil {
		return lacking("oxygen_minutes", "How long the oxygen lasts cannot be told: "+err.Error()+".")
	}
	share = max(0.5, share)
	expected, err := fish.OxygenUse(share, fish.OxygenOfFish)
	if err != nil {
		return lacking("oxygen_minutes", "How long the oxygen lasts cannot be told: "+err.Error()+".")
	}
	minutes, err := fish.PumpStopMinutes(lead.species, quantity.Litres(g.tankLitres()), quantity.Kilograms(kg), quantity.MgPerL(o), share, expected)
	if err != nil {
		return lacking("oxygen_minutes", "How long the oxygen lasts cannot be told: "+err.Error()+".")
	}
	a.Estimate = estimate(math.Floor(float64(minutes)), "minutes")
	a.Sentence = fmt.Sprintf("If pump and air stop now, oxygen lasts about %.0f minutes.", math.Floor(float64(minutes)))
	a.Inputs = []*freshetv1.InputUsed{setting("fish", kg, "kg", "events and weighings"), setting("fish tank", g.tankLitres(), "L", "vessels"), setting("oxygen", o, "mg/L", "last reading")}
	a.Cautions = []string{
		"Fish gasp sooner than any such number. Have air on backup power and test it; watch oxygen, not only the power.",
		"Wet hands and mains do not mix: every circuit near water on a residual-current device, work by a licensed electrician.",
	}
	if minutes < 60 {
		a.Standing = act
	}
	return a
}

// heaterFails is the hours until the water reaches what kills the fish.
func (g *glass) heaterFails(lead *herd, air float64) *freshetv1.Answer {
	warmth, ok := g.value(temperature)
	if !ok || math.IsNaN(air) {
		return lacking("hours_to_lethal", "How long warmth lasts cannot be told.", "Water and air temperature")
	}
	surface := 0.0
	for _, v := range g.vessels() {
		surface += v.SurfaceM2 * 4 // open water and walls; common practice, no source
	}
	const loss = 10 // W for each m2 and kelvin of bare tank and water; common practice, no source
	constant, err := fish.TimeConstant(quantity.Litres(g.litres()), fish.WattsPerKelvin(math.Max(1, surface*loss)))
	if err != nil {
		return lacking("hours_to_lethal", "How long warmth lasts cannot be told: "+err.Error()+".")
	}
	hours, reached, limit, err := fish.HoursToLethal(lead.species, quantity.Celsius(warmth), quantity.Celsius(air), constant)
	if err != nil {
		return lacking("hours_to_lethal", "How long warmth lasts cannot be told: "+err.Error()+".")
	}
	a := &freshetv1.Answer{
		Name: "hours_to_lethal", Standing: well, Source: "Newton's law of cooling; heat loss of 10 W/m2/K over four times the water surface: common practice, no source",
		Inputs:   []*freshetv1.InputUsed{g.used(g.observed, temperature, "water temperature", "degC"), setting("air to reckon with", air, "degC", "lowest of 14 days, or as asked")},
		Cautions: []string{"Fish stop eating and sicken long before. A cover over the tank about halves the loss."},
		Sentence: fmt.Sprintf("With air at %s degC and no heating the water does not reach what kills %s.", show(air, 2), lead.species.Name),
	}
	if reached {
		a.Estimate = estimate(float64(hours), "hours")
		a.Sentence = fmt.Sprintf("If heating fails with air at %s degC, the water reaches %s degC, which kills %s, in about %.0f hours.", show(air, 2), show(float64(limit), 2), lead.species.Name, float64(hours))
		if hours < 24 {
			a.Standing = watch
		}
	}
	return a
}

// coldest is the lowest air temperature of a fortnight; not a number where none was read.
func (l *loop) coldest(ctx context.Context, now time.Time) (float64, error) {
	sums, err := l.store.DaySums(ctx, l.Site.ID, "readings", int16(freshetv1.Quantity_QUANTITY_AIR_TEMPERATURE), now.AddDate(0, 0, -14), now)
	low := math.NaN()
	for _, d := range sums {
		if math.IsNaN(low) || d.Low < low {
			low = d.Low
		}
	}
	return low, err
}

// waterLasts is the days until the pump tank runs dry without top-up.
func (l *loop) waterLasts(ctx context.Context, now time.Time) (*freshetv1.Answer, error) {
	added, err := store.History[store.WaterIn](ctx, l.store, l.Site.ID, now.AddDate(0, 0, -56), now)
	if err != nil {
		return nil, err
	}
	sum, room := 0.0, 0.0
	for _, w := range added {
		if w.SystemID == l.ID || l.holds(w.VesselID) {
			sum += w.VolumeL
		}
	}
	for _, v := range l.vessels() {
		if v.Kind == int16(freshetv1.VesselKind_VESSEL_KIND_PUMP_TANK) {
			room += v.VolumeL
		}
	}
	if sum == 0 || room == 0 {
		return lacking("days_of_water", "How long the water lasts without top-up cannot be told.", "Top-up, or a pump tank"), nil
	}
	days := room * 0.6 / (sum / 56)
	return &freshetv1.Answer{
		Name: "days_of_water", Standing: well, Estimate: estimate(math.Floor(days), "days"), Source: "top-up of 56 days; pump assumed dry at 40 % of its tank",
		Sentence: fmt.Sprintf("Without top-up the pump tank lasts about %.0f days at %.0f L a day.", math.Floor(days), sum/56),
		Inputs:   []*freshetv1.InputUsed{setting("top-up", sum/56, "L a day", "56 days"), setting("pump tank", room, "L", "vessels")},
		Cautions: []string{"A pump that runs dry stops the air to fish that rely on falling water."},
	}, nil
}
