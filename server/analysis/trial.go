package analysis

import (
	"context"
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"github.com/google/uuid"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/quantity"
	"freshet.example/husbandry/trial"
	"freshet.example/store"
)

// arm is one way of doing it, with what each of its plantings gave.
type arm struct {
	Name        string   `json:"name"`
	PlantingIDs []string `json:"planting_ids"`
	values      []float64
	beds        []string // of each value
}

// GetTrialResult says what a trial shows so far, by the method fixed for all
// trials: arms within beds where every bed holds them, else Welch's comparison
// of plantings. Whoever looks again and again finds
// something by chance in the end; so before the trial's last day, and where it
// has none, a difference is told only at 1 in 1,000 (Haybittle 1971, Peto et al.
// 1976), which leaves the last look its 1 in 20. Several arms share what may be
// told by chance equally among them (Dunn 1961).
func (p *Pool) GetTrialResult(ctx context.Context, in *freshetv1.GetTrialResultRequest) (*freshetv1.GetTrialResultResponse, error) {
	id, err := parseID("trial_id", in.GetTrialId())
	if err != nil {
		return nil, err
	}
	t, err := p.store.Trial(ctx, id)
	if err != nil {
		return nil, err
	}
	place, err := p.site(ctx, t.SiteID)
	if err != nil {
		return nil, err
	}
	var arms []*arm
	if err := json.Unmarshal(t.Arms, &arms); err != nil || len(arms) < 2 {
		return nil, &TooLittleError{"the trial has fewer than two arms", "name what is compared"}
	}
	if err := place.measureArms(ctx, t, arms, p.now()); err != nil {
		return nil, err
	}
	out := result(t, arms, p.now())
	return out, p.together(ctx, t, arms, out)
}

// measureArms weighs each planting by the trial's measure, up to its last day.
func (s *site) measureArms(ctx context.Context, t *store.Trial, arms []*arm, now time.Time) error {
	to := now
	if !t.ToOn.IsZero() && t.ToOn.Before(now) {
		to = t.ToOn.AddDate(0, 0, 1)
	}
	harvests, err := store.History[store.BedHarvest](ctx, s.store, s.Site.ID, t.FromOn.Time, to)
	if err != nil {
		return err
	}
	started, err := s.beginnings(ctx, to)
	if err != nil {
		return err
	}
	for _, a := range arms {
		for _, text := range a.PlantingIDs {
			id, err := uuid.Parse(text)
			if err != nil {
				continue
			}
			planting := s.planting(id)
			if v := s.measured(t.Measure, planting, harvests, started); !math.IsNaN(v) {
				a.values, a.beds = append(a.values, v), append(a.beds, planting.BedID.String())
			}
		}
	}
	return nil
}

func (s *site) measured(kind int16, p store.Planting, harvests []store.BedHarvest, started beginnings) float64 {
	grams, pieces, first := 0.0, 0.0, time.Time{}
	for _, h := range harvests {
		if h.PlantingID != p.ID {
			continue
		}
		if first.IsZero() {
			first = h.OccurredAt
		}
		grams += h.MassG
		pieces += float64(h.PiecesCount)
	}
	if first.IsZero() {
		return math.NaN()
	}
	switch freshetv1.TrialMeasure(kind) {
	case freshetv1.TrialMeasure_TRIAL_MEASURE_PIECES_PER_PLANT:
		return pieces / math.Max(1, float64(p.PlantsCount))
	case freshetv1.TrialMeasure_TRIAL_MEASURE_DAYS_TO_BEARING:
		return float64(dayOf(first, s.zone) - started[p.ID].on)
	}
	return grams / 1000 / s.area(p)
}

// trialUnits are the units of what trials measure.
var trialUnits = map[freshetv1.TrialMeasure]string{
	freshetv1.TrialMeasure_TRIAL_MEASURE_HARVEST_KG_PER_M2: "kg/m2", freshetv1.TrialMeasure_TRIAL_MEASURE_PIECES_PER_PLANT: "pieces a plant",
	freshetv1.TrialMeasure_TRIAL_MEASURE_DAYS_TO_BEARING: "days",
}

func result(t *store.Trial, arms []*arm, now time.Time) *freshetv1.GetTrialResultResponse {
	unit := trialUnits[freshetv1.TrialMeasure(t.Measure)]
	out := &freshetv1.GetTrialResultResponse{Question: t.Question, Source: "Welch 1947, or within beds where each holds every arm, Yates 1933; before the last day 1 in 1,000 (Haybittle 1971, Peto et al. 1976); several arms share it (Dunn 1961)"}
	over := !t.ToOn.IsZero() && now.After(t.ToOn.AddDate(0, 0, 1))
	told := look{over: over, confidence: quantity.Fraction(1 - chanceOf(over)/float64(len(arms)-1))}
	for _, a := range arms {
		mean := freshetv1.ArmResult{Name: a.Name, Count: uint32(len(a.values))}
		if s, err := trial.Summary(a.values); err == nil {
			mean.Mean = estimate(s.Mean, unit)
		}
		out.Arms = append(out.Arms, &mean)
	}
	for _, a := range arms[1:] {
		d, sentence := difference(t, arms[0], a, unit, told)
		out.Differences = append(out.Differences, d)
		out.Sentence = strings.TrimSpace(out.Sentence + " " + sentence)
	}
	return out
}

// look is one look at a trial's figures: its last, or one on the way.
type look struct {
	over       bool
	confidence quantity.Fraction
}

// chanceOf is how often a look may tell a difference where there is none.
func chanceOf(over bool) float64 {
	if over {
		return 0.05
	}
	return 0.001
}

// difference sets an arm against the first.
func difference(t *store.Trial, first, other *arm, unit string, told look) (*freshetv1.Answer, string) {
	a := &freshetv1.Answer{Name: other.Name, Standing: unknown, Source: "Welch 1947, Yates 1933, Haybittle 1971, Dunn 1961"}
	c, err := compare(first, other, told.confidence)
	if err != nil {
		a.Sentence = fmt.Sprintf("%s against %s: too few plantings to tell.", other.Name, first.Name)
		a.Missing = []string{"two or more plantings in each arm"}
		return a, a.Sentence
	}
	a.Estimate = between(c.Difference, c.Low, c.High, float64(told.confidence), unit)
	much := byHowMuch(c.Difference, c.Low, c.High, unit, first.Name)
	if c.Low > 0 || c.High < 0 {
		a.Standing = well
		a.Sentence = fmt.Sprintf("Decided: with %s it was %s, %s in 100.", other.Name, much, show(100*float64(told.confidence), 3))
		return a, a.Sentence
	}
	a.Sentence = fmt.Sprintf("Undecided: so far with %s it was %s.", other.Name, much)
	if !told.over {
		a.Sentence += " The trial is not over, so only a difference that chance makes once in 1,000 such trials would be told."
	}
	a.Missing = moreBeds(t, first, other, c)
	for _, m := range a.Missing {
		a.Sentence += " " + m
	}
	return a, a.Sentence
}

// byHowMuch tells a difference from the first arm with its interval, each end
// as so much less or so much more: a grower need not read signs.
func byHowMuch(d, low, high float64, unit, first string) string {
	way := func(v float64) string {
		if v < 0 {
			return "less"
		}
		return "more"
	}
	of := func(v float64) string { return show(math.Abs(v), 2) }
	if way(low) == way(high) {
		return fmt.Sprintf("%s %s %s than with %s, between %s and %s", of(d), unit, way(d), first, show(min(math.Abs(low), math.Abs(high)), 2), show(max(math.Abs(low), math.Abs(high)), 2))
	}
	return fmt.Sprintf("%s %s %s than with %s, but it may be anything between %s less and %s more", of(d), unit, way(d), first, of(low), of(high))
}

// compare sets two arms against each other: within beds where every bed holds
// both (Yates 1933), since then what differs from bed to bed says nothing of
// either; else by Welch's comparison of all their plantings.
func compare(first, other *arm, confidence quantity.Fraction) (trial.Comparison, error) {
	if !blocked(first, other) {
		return trial.Welch(other.values, first.values, confidence)
	}
	arms := append(slices.Repeat([]string{"1"}, len(first.values)), slices.Repeat([]string{"2"}, len(other.values))...)
	effect, err := trial.Adjusted(slices.Concat(first.values, other.values), []trial.Factor{
		{Name: "bed", Levels: slices.Concat(first.beds, other.beds)}, {Name: "arm", Levels: arms},
	}, "arm", confidence)
	if err != nil {
		return trial.Comparison{}, err
	}
	return effect.Differences[0], nil
}

// blocked tells whether every bed, of two at least, holds both arms.
func blocked(first, other *arm) bool {
	a, b := slices.Compact(slices.Sorted(slices.Values(first.beds))), slices.Compact(slices.Sorted(slices.Values(other.beds)))
	return len(a) > 1 && slices.Equal(a, b)
}

// moreBeds says how many plantings would tell a difference worth knowing.
func moreBeds(t *store.Trial, first, other *arm, c trial.Comparison) []string {
	worthwhile := t.WorthwhilePercent
	if worthwhile == 0 {
		worthwhile = 20
	}
	s, err := trial.Summary(first.values)
	if err != nil {
		return nil
	}
	n := float64(min(len(first.values), len(other.values)))
	sd := c.SE * math.Sqrt(n/2)
	beds, err := trial.BedsNeeded(math.Abs(s.Mean)*worthwhile/100, sd, quantity.Fraction(0.8), quantity.Fraction(0.05), trial.TwoGroups)
	if err != nil {
		return nil
	}
	return []string{fmt.Sprintf("To tell a difference of %.0f %% in 8 of 10 such trials would take about %d plantings in each arm.", worthwhile, beds.Each)}
}
