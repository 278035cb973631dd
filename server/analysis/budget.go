package analysis

import (
	"context"
	"fmt"
	"math"
	"strings"
	"time"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/fish"
	"freshet.example/husbandry/nitrogen"
	"freshet.example/husbandry/quantity"
	"freshet.example/store"
)

// Shares of vegetables as harvested; common practice, no source.
const (
	dryMatter   = 0.08
	nitrogenDry = 0.042
	ofPlants    = 0.3 // relative standard error of their product
)

// accounts is one budget being drawn up.
type accounts struct {
	*loop
	from, to time.Time // midnights; to is after the last day
	fed      fed
	nitrogen.Budget
	missing []string
}

// GetNitrogenBudget adds up where the nitrogen of a span of days went.
func (s *Service) GetNitrogenBudget(ctx context.Context, in *freshetv1.GetNitrogenBudgetRequest) (*freshetv1.GetNitrogenBudgetResponse, error) {
	l, err := s.loop(ctx, in.GetSystemId())
	if err != nil {
		return nil, err
	}
	from, last, err := s.days(in.GetFromOn(), in.GetToOn(), l.zone, 28)
	if err != nil {
		return nil, err
	}
	a := &accounts{loop: l, from: from, to: last.AddDate(0, 0, 1)}
	for _, part := range []func(context.Context) error{a.feed, a.fish, a.plants, a.stored, a.waters, a.solids} {
		if err := part(ctx); err != nil {
			return nil, err
		}
	}
	closed, err := a.Close(0.9)
	if err != nil {
		return nil, err
	}
	out := a.response(closed)
	out.FromOn, out.ToOn = from.Format(time.DateOnly), last.Format(time.DateOnly)
	happened, err := l.happenings(ctx, from, a.to)
	out.Sentence += filterWords(happened)
	return out, err
}

// feed counts what was fed: scoops and labels are good to a few percent (common practice, no source).
func (a *accounts) feed(ctx context.Context) (err error) {
	if a.fed, err = a.loop.fed(ctx, a.from, a.to); err != nil {
		return err
	}
	if a.fed.grams == 0 {
		return &TooLittleError{"no feeding was noted in these days", "note what is fed"}
	}
	if a.fed.unnamed > 0 {
		a.missing = append(a.missing, fmt.Sprintf("%s name no feed and are counted at %.0f %% protein", counted(a.fed.unnamed, "feeding"), usualProtein))
	}
	share := a.fed.share() * 0.16
	a.Feed, err = nitrogen.AmountOf(quantity.Grams(a.fed.grams), quantity.Grams(a.fed.grams*0.03), quantity.Fraction(share), quantity.Fraction(share*0.03))
	return err
}

// fish counts what they gained: alive at the end less at the start, with those that came and left.
func (a *accounts) fish(ctx context.Context) error {
	warmth, err := a.dailyWarmth(ctx, a.to)
	if err != nil {
		return err
	}
	start, err := a.herds(ctx, a.from)
	if err != nil {
		return err
	}
	end, err := a.herds(ctx, a.to)
	if err != nil {
		return err
	}
	gain, variance := 0.0, 0.0
	for i, h := range end {
		before, _ := h.weightAt(a.from, warmth, a.zone)
		after, ok := h.weightAt(a.to, warmth, a.zone)
		if !ok {
			a.missing = append(a.missing, "a weighing of "+h.Name+": its gain is counted as nothing")
			continue
		}
		first, last := before*float64(start[i].tally.Alive), after*float64(h.tally.Alive)
		gain += last - first + h.left(a.from, a.to, before, after)
		for _, mass := range []float64{first, last} {
			variance += mass * mass * weightCV * weightCV / 20
		}
	}
	a.FishGain, err = fish.GrowthN(quantity.Kilograms(gain / 1000))
	mass := nitrogen.GramsN(math.Sqrt(variance) * float64(fish.WholeFishN))
	a.FishGain.Error = nitrogen.GramsN(math.Hypot(float64(a.FishGain.Error), float64(mass)))
	return err
}

// left is the mass that went out less what came in, g; what was not weighed counts at the mean weight.
func (h *herd) left(from, to time.Time, before, after float64) float64 {
	sum := 0.0
	for _, g := range h.gone {
		if g.at.Before(from) || !g.at.Before(to) {
			continue
		}
		mass := g.massG
		if mass == 0 {
			mass = math.Abs(float64(g.count)) * (before + after) / 2
		}
		if g.count > 0 {
			mass = -mass
		}
		sum += mass
	}
	return sum
}

// plants counts harvests and pulled plants of the loop's own beds.
func (a *accounts) plants(ctx context.Context) error {
	harvests, err := store.History[store.BedHarvest](ctx, a.store, a.Site.ID, a.from, a.to)
	if err != nil {
		return err
	}
	pulled, err := store.History[store.Pulling](ctx, a.store, a.Site.ID, a.from, a.to)
	if err != nil {
		return err
	}
	grams := 0.0
	for _, h := range harvests {
		if a.bed(a.planting(h.PlantingID).BedID).SystemID == a.ID {
			grams += h.MassG
		}
	}
	for _, p := range pulled {
		if a.bed(a.planting(p.PlantingID).BedID).SystemID == a.ID {
			grams += p.MassG
		}
	}
	n, err := nitrogen.HarvestN(quantity.Grams(grams), dryMatter, nitrogenDry)
	a.Plants = nitrogen.Amount{Value: n, Error: nitrogen.GramsN(float64(n) * ofPlants)}
	a.missing = append(a.missing, "what standing plants put on without being harvested is not weighed and stays in the unaccounted")
	return err
}

// stored is what the water holds at the end less at the start.
func (a *accounts) stored(ctx context.Context) error {
	start, err := a.observe(ctx, a.from)
	if err != nil {
		return err
	}
	end, err := a.observe(ctx, a.to)
	if err != nil {
		return err
	}
	if _, ok := start.value(nitrate); !ok {
		a.missing = append(a.missing, "nitrate at the start: the change in the water is counted as nothing")
		return nil
	}
	litres := a.litres()
	before, after := dissolved(litres, start), dissolved(litres, end)
	a.StoredChange = nitrogen.Amount{
		Value: nitrogen.GramsN(after - before),
		Error: nitrogen.GramsN(0.07 * math.Hypot(before, after)), // a colour card is read to 5 to 10 %; common practice, no source
	}
	return nil
}

func dissolved(litres float64, seen observed) float64 {
	total, _ := seen.value(tan)
	no2, _ := seen.value(nitrite)
	no3, _ := seen.value(nitrate)
	n, err := nitrogen.DissolvedN(quantity.Litres(litres), quantity.AmmoniaN(total), quantity.NitriteN(no2), quantity.NitrateN(no3))
	if err != nil {
		return 0
	}
	return float64(n)
}

// waters counts what came with top-up and left with water let go.
func (a *accounts) waters(ctx context.Context) error {
	in, out, err := a.poured(ctx, a.from, a.to)
	if err != nil {
		return err
	}
	brought := in * a.Site.SourceNitrate / 1000
	a.WaterIn = nitrogen.Amount{Value: nitrogen.GramsN(brought), Error: nitrogen.GramsN(brought * 0.2)}
	seen, err := a.observe(ctx, a.from.Add(a.to.Sub(a.from)/2))
	n := dissolved(out, seen)
	a.WaterOut = nitrogen.Amount{Value: nitrogen.GramsN(n), Error: nitrogen.GramsN(n * 0.15)}
	return err
}

// solids counts sludge: dried and weighed where it was, else by the feed it came from.
func (a *accounts) solids(ctx context.Context) error {
	taken, err := store.History[store.SolidsOut](ctx, a.store, a.Site.ID, a.from, a.to)
	if err != nil || len(taken) == 0 {
		if err == nil {
			a.missing = append(a.missing, "no solids were taken out in these days, or it was not noted")
		}
		return err
	}
	dry := 0.0
	for _, t := range taken {
		dry += t.DryMassG
	}
	errorShare := 0.15
	if dry == 0 {
		fromFeed, err := nitrogen.SolidsFromFeed(quantity.Grams(a.fed.grams))
		if err != nil {
			return err
		}
		dry, errorShare = float64(fromFeed), 0.5
		a.missing = append(a.missing, "dry weight of the solids taken out; they are reckoned from the feed, to within a half")
	}
	a.Solids, err = nitrogen.AmountOf(quantity.Grams(dry), quantity.Grams(dry*errorShare), nitrogen.SolidsNShare, nitrogen.SolidsNShare*0.2)
	return err
}

func (a *accounts) response(c nitrogen.Closed) *freshetv1.GetNitrogenBudgetResponse {
	feedN := float64(c.Feed.Value)
	line := func(name, words, source string, amount nitrogen.Amount) *freshetv1.BudgetLine {
		v, reach := float64(amount.Value), 1.645*float64(amount.Error)
		return &freshetv1.BudgetLine{Name: name, Words: words, Source: source, Nitrogen: between(v, v-reach, v+reach, 0.9, "g N"), ShareOfFeed: v / feedN}
	}
	out := &freshetv1.GetNitrogenBudgetResponse{
		In: []*freshetv1.BudgetLine{
			line("feed", "feed", "protein x 0.16", c.Feed), line("water_in", "water added", "site's source water", c.WaterIn),
		},
		Out: []*freshetv1.BudgetLine{
			line("fish_gain", "gained by fish", "weighings; nitrogen of whole fish", c.FishGain),
			line("plants", "harvested and pulled plants", "8 % dry, 4.2 % N of it: common practice, no source", c.Plants),
			line("water_stored", "more in the water than before", "tests times volume", c.StoredChange),
			line("water_out", "water let go", "tests times volume", c.WaterOut),
			line("solids_out", "solids taken out", "solids from feed (Rakocy 2007 guideline 5)", c.Solids),
		},
		Unaccounted: line("unaccounted", "unaccounted: to the air by denitrification, and into roots and standing plants", "what is left", c.Unaccounted),
		Sentence:    budgetWords(c), Missing: a.missing,
		Cautions: []string{"An interval this wide is honest: weigh fish, test nitrate on the first and last day, and dry one bucket of solids to narrow it."},
	}
	out.Unaccounted.Nitrogen = between(float64(c.Unaccounted.Value), float64(c.Low), float64(c.High), float64(c.Level), "g N")
	sum := float64(c.Feed.Value + c.WaterIn.Value)
	for _, l := range append(out.Out, out.Unaccounted) {
		sum -= l.Nitrogen.Value
	}
	out.ClosureG = sum
	return out
}

// mostKept is more of the feed's nitrogen than fish keep anywhere; common
// practice, no source. Above it a feeding or a weighing is missing.
const mostKept = 60

// budgetWords tells the three largest parts and what is left.
func budgetWords(c nitrogen.Closed) string {
	share := func(a nitrogen.Amount) float64 { return float64(a.Value) / float64(c.Feed.Value) * 100 }
	if share(c.FishGain) > mostKept {
		return fmt.Sprintf("%s g of nitrogen were fed, and fish are reckoned to have gained %s g. They cannot keep that much of it: weigh them, or look for feedings that were not noted.",
			show(float64(c.Feed.Value), 2), show(float64(c.FishGain.Value), 2))
	}
	return fmt.Sprintf("Of %.0f g of nitrogen fed, fish kept %.0f %%, plants took %.0f %%, solids %.0f %%. %s.",
		float64(c.Feed.Value), share(c.FishGain), share(c.Plants), share(c.Solids), sentence(c.Words()))
}

// sentence begins with a capital letter.
func sentence(words string) string { return strings.ToUpper(words[:1]) + words[1:] }

// filterWords names what harmed the filter in the time.
func filterWords(happened []*freshetv1.Happening) string {
	var words []string
	for _, h := range happened {
		if strings.Contains(h.Sentence, "filter") || strings.Contains(h.Sentence, "Power cut") {
			words = append(words, h.Sentence+" on "+h.OccurredAt.AsTime().Format("2 January")+".")
		}
	}
	if len(words) == 0 {
		return ""
	}
	return " In these days: " + strings.Join(words, " ") + " That upsets nitrification: look at ammonia and nitrite beside this budget."
}
