package analysis

import (
	"context"
	"fmt"
	"time"

	"github.com/google/uuid"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/fish"
	"freshet.example/husbandry/quantity"
)

// GetStockingLimits says what the loop carries and what limits it.
func (s *Service) GetStockingLimits(ctx context.Context, in *freshetv1.GetStockingLimitsRequest) (*freshetv1.GetStockingLimitsResponse, error) {
	l, err := s.loop(ctx, in.GetSystemId())
	if err != nil {
		return nil, err
	}
	at := s.at(in.GetAt())
	kg, herds, grams, missing, err := l.biomass(ctx, at)
	if err != nil {
		return nil, err
	}
	fed, err := l.fed(ctx, midnight(at, l.zone).AddDate(0, 0, -14), midnight(at, l.zone))
	if err != nil {
		return nil, err
	}
	plan, inputs, err := l.plan(ctx, at, fed, herds, grams)
	if err != nil {
		return nil, err
	}
	carrying, err := fish.Capacity(plan)
	if err != nil {
		return nil, err
	}
	out := limitsResponse(carrying, inputs)
	bare := l.bareFilters()
	out.Answer.Missing = append(out.Answer.Missing, append(missing, bare...)...)
	out.BiomassNow, out.FeedNow = estimate(kg, "kg"), estimate(fed.aDay(14), "g a day")
	out.Answer.Sentence += fmt.Sprintf(" Now it holds %s kg and is fed %.0f g a day.", show(kg, 2), fed.aDay(14))
	if over := fed.aDay(14) / out.Answer.Estimate.Value; over > 1 {
		out.Answer.Standing = watch
		out.Answer.Sentence += " That is more than it carries: feed less, or relax the limit."
		if bare != nil {
			out.Answer.Sentence += " Some filters are on record without their media: note it, it may carry more."
		}
	}
	return out, nil
}

// plan gathers what the limits are reckoned from.
func (l *loop) plan(ctx context.Context, at time.Time, fed fed, herds []*herd, grams map[uuid.UUID]float64) (fish.Loop, []*freshetv1.InputUsed, error) {
	g, err := l.glass(ctx, at)
	if err != nil {
		return fish.Loop{}, nil, err
	}
	warmth, ok := g.value(temperature)
	if !ok {
		return fish.Loop{}, nil, &TooLittleError{"water temperature was never read here", "read it once"}
	}
	main, weight := leading(herds, grams)
	if main == nil {
		return fish.Loop{}, nil, &TooLittleError{"no cohort with a known species and weight lives here", "make a cohort, stock it, and weigh a few fish"}
	}
	plan := fish.Loop{Protein: quantity.Fraction(fed.share()), Temperature: quantity.Celsius(warmth), Tank: quantity.Litres(l.tankLitres()), Density: main.species.Density.Value}
	plan.Ration, err = fish.RationPercent(main.species, quantity.Grams(weight), quantity.Celsius(warmth), 1)
	if err != nil {
		return plan, nil, err
	}
	plan.Ration = max(0.5, plan.Ration)
	l.planWater(&plan, g, at)
	l.planPlants(&plan)
	if err := l.planCarbonate(ctx, &plan, at); err != nil {
		return plan, nil, err
	}
	return plan, []*freshetv1.InputUsed{
		g.used(g.observed, temperature, "water temperature", "degC"),
		setting("full ration at it", float64(plan.Ration), "% of weight a day", main.species.Name+" of "+show(weight, 2)+" g"),
		setting("protein of the feed", float64(plan.Protein)*100, "percent", "feedings of 14 days"),
		setting("fish tank", float64(plan.Tank), "L", "vessels"), setting("filter surface", float64(plan.FilterSurface), "m2", "vessels"),
		setting("plant area", float64(plan.PlantArea), "m2", "beds"), setting("flow through fish tanks", float64(plan.Flow), "L/min", "vessels"),
		setting("oxygen from air pumps", float64(plan.OxygenSupply), "g an hour", "equipment; air stones at 0.9 kg/kWh"),
		setting("alkalinity replaced", float64(plan.Alkalinity), "g CaCO3 a day", "dosings and top-up of 28 days"),
	}, nil
}

// leading is the heaviest cohort, whose needs the loop is measured by.
func leading(herds []*herd, grams map[uuid.UUID]float64) (*herd, float64) {
	var lead *herd
	most := 0.0
	for _, h := range herds {
		if kg := grams[h.ID] * float64(h.tally.Alive); h.known && kg > most {
			lead, most = h, kg
		}
	}
	if lead == nil {
		return nil, 0
	}
	return lead, grams[lead.ID]
}

func limitsResponse(c fish.Carrying, inputs []*freshetv1.InputUsed) *freshetv1.GetStockingLimitsResponse {
	out := &freshetv1.GetStockingLimitsResponse{}
	for i, limit := range c.Limits {
		out.Limits = append(out.Limits, &freshetv1.StockingLimit{
			Name: limit.Name, Biomass: estimate(float64(limit.Biomass), "kg"), Feed: estimate(float64(limit.Feed), "g a day"), Binding: i == c.Binding,
			Answer: &freshetv1.Answer{
				Name: limit.Name, Source: limit.Source, Estimate: estimate(float64(limit.Feed), "g feed a day"),
				Sentence: sentence(limit.Words()) + ".",
			},
		})
	}
	out.Answer = &freshetv1.Answer{
		Name: "stocking_limit", Estimate: estimate(float64(c.Limits[c.Binding].Feed), "g feed a day"), Sentence: sentence(c.Words()) + ".", Inputs: inputs, Standing: well,
		Source: c.Limits[c.Binding].Source, ValidRange: "a ripe filter at the temperature now",
		Cautions: []string{"Fish grow: stock so that the fish to be harvested stay within the limit. Plan for the pump's worst hour, not its best."},
	}
	for _, m := range c.Missing {
		if why, ok := unlimited[m]; ok {
			out.Answer.Missing = append(out.Answer.Missing, m+": "+why)
		}
	}
	return out
}

// unlimited says what is not on record where a part of the loop has no limit;
// filters name their own.
var unlimited = map[string]string{
	"space":     "the volume of the fish tank is not on record",
	"oxygen":    "neither the flow through the fish tank nor the power of its air pump is on record",
	"solids":    "how much dry matter can be taken out in a day is not on record",
	"carbonate": "no dose of a base and no alkalinity of the top-up water is on record",
	"plants":    "no bed on the loop is on record",
}
