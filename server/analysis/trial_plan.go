package analysis

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/quantity"
	"freshet.example/husbandry/trial"
	"freshet.example/store"
)

const (
	usualWorthwhile = 20   // percent
	usualPlotCV     = 0.25 // of plots treated alike in one bed; common practice, no source
	leastHarvested  = 5    // plantings from which a grower's own spread is taken
	wantedPower     = 0.8
	oftenWrong      = 0.05 // a difference told where there is none, by all arms together
)

// trialPlan is a layout being made.
type trialPlan struct {
	*site
	in     *freshetv1.PlanTrialRequest
	beds   []store.Bed
	blocks trial.Blocks
	cv     float64 // spread of plots, share of their mean
	from   string  // where that is from
}

// PlanTrial lays a question out on beds by lot and says what so many can tell.
// Each bed is a block that holds every arm, so that beds may differ.
func (p *Pool) PlanTrial(ctx context.Context, in *freshetv1.PlanTrialRequest) (*freshetv1.PlanTrialResponse, error) {
	place, err := p.picture(ctx, in.GetSiteId())
	if err != nil {
		return nil, err
	}
	t := &trialPlan{site: place, in: in}
	if err := t.settle(); err != nil {
		return nil, err
	}
	if t.cv, t.from, err = t.spread(ctx, p); err != nil {
		return nil, err
	}
	return t.response()
}

func (t *trialPlan) settle() error {
	if strings.TrimSpace(t.in.GetQuestion()) == "" {
		return &FieldError{"question", "is empty: say in one sentence what is to be found out"}
	}
	seen := map[string]bool{}
	for _, a := range t.in.GetArms() {
		if strings.TrimSpace(a) == "" || seen[a] {
			return &FieldError{"arms", "must have names that differ"}
		}
		seen[a] = true
	}
	for _, b := range t.Beds {
		soil := b.Kind == int16(freshetv1.BedKind_BED_KIND_SOIL)
		if asked := t.in.GetBedIds(); slices.Contains(asked, b.ID.String()) || len(asked) == 0 && !soil {
			t.beds = append(t.beds, b)
		}
	}
	if len(t.beds) == 0 || len(t.in.GetBedIds()) > len(t.beds) {
		return &FieldError{"bed_ids", "names no bed of this site, or one that is not"}
	}
	t.blocks = trial.Blocks{Beds: len(t.beds), Arms: len(t.in.GetArms()), Plots: max(1, int(t.in.GetPlotsCount()))}
	return quantity.Within("worthwhile_percent", t.worthwhile(), 1, 1000, "percent", "")
}

func (t *trialPlan) worthwhile() float64 {
	if w := t.in.GetWorthwhilePercent(); w != 0 {
		return w
	}
	return usualWorthwhile
}

// spread is how plots spread, as a share of their mean: by the site's own past
// harvests of the crop where there are enough, which hold season and bed too
// and so promise less than a layout will keep; else as is usual.
func (t *trialPlan) spread(ctx context.Context, p *Pool) (cv float64, from string, err error) {
	const bound = 1.5 // above it a mean says nothing
	var values []float64
	if t.in.GetCrop() != "" {
		if values, err = t.harvested(ctx, p); err != nil {
			return 0, "", err
		}
	}
	if s, err := trial.Summary(values); err == nil && len(values) >= leastHarvested && s.Mean > 0 && s.SD() > 0 {
		return math.Min(bound, s.SD()/s.Mean), fmt.Sprintf("the %d plantings of %s harvested here, whose seasons and beds differed too", len(values), t.in.GetCrop()), nil
	}
	return usualPlotCV, "a usual spread, common practice, no source", nil
}

// harvested is what each past planting of the crop gave, kg/m2.
func (t *trialPlan) harvested(ctx context.Context, p *Pool) ([]float64, error) {
	now := p.now()
	harvests, err := store.History[store.BedHarvest](ctx, t.store, t.Site.ID, beginning, now)
	if err != nil {
		return nil, err
	}
	started, err := t.beginnings(ctx, now)
	var values []float64
	for _, planting := range t.Plantings {
		if !strings.EqualFold(planting.Crop, t.in.GetCrop()) {
			continue
		}
		if v := t.measured(int16(t.in.GetMeasure()), planting, harvests, started); v > 0 {
			values = append(values, v)
		}
	}
	return values, err
}

func (t *trialPlan) response() (*freshetv1.PlanTrialResponse, error) {
	layout, err := t.blocks.Layout(t.in.GetSeed())
	if err != nil {
		return nil, err
	}
	out := &freshetv1.PlanTrialResponse{
		Source: "randomised complete blocks (Fisher 1935); power by the noncentral t; several arms share what may be told by chance (Dunn 1961)",
		Cautions: []string{fmt.Sprintf("Plots of one bed are taken to spread by %.0f %% of their mean: %s.", 100*t.cv, t.from),
			"Keep to the layout: what is changed by hand is no longer drawn by lot. Treat all plots alike but for the arm, and harvest and weigh each by itself, as a planting of its own.",
			"Set the last day now. Looks before it tell a difference only at 1 in 1,000."},
	}
	for i, bed := range layout {
		for place, arm := range bed {
			out.Plots = append(out.Plots, &freshetv1.TrialPlot{BedId: t.beds[i].ID.String(), BedName: t.beds[i].Name, Place: uint32(place + 1), Arm: t.in.GetArms()[arm]}) //nolint:gosec // few
		}
	}
	return out, t.power(out)
}

// power says what the layout can tell.
func (t *trialPlan) power(out *freshetv1.PlanTrialResponse) (err error) {
	alpha, delta := quantity.Fraction(oftenWrong/float64(t.blocks.Arms-1)), t.worthwhile()/100
	wanted, tooMany := t.blocks.BedsFor(delta, t.cv, wantedPower, alpha)
	if tooMany == nil {
		out.BedsWantedCount = uint32(wanted) //nolint:gosec // 200 at most
	}
	need := fmt.Sprintf("To notice %s %% in 8 of 10 such trials would take %s laid out like this.", show(t.worthwhile(), 2), counted(wanted, "bed"))
	if tooMany != nil {
		need = fmt.Sprintf("To notice %s %% in 8 of 10 such trials would take more beds than are counted here, which is 200.", show(t.worthwhile(), 2))
	}
	if t.blocks.Beds*t.blocks.Plots < 2 {
		out.Sentence = "One bed with one plot of each tells nothing of chance: take more beds, or more plots in it. " + need
		return nil
	}
	if out.Power, err = t.blocks.Power(delta, t.cv, alpha); err != nil {
		return err
	}
	noticed, err := t.blocks.Detectable(t.cv, wantedPower, alpha)
	if err != nil {
		return err
	}
	out.NoticedPercent = 100 * noticed
	out.Sentence = fmt.Sprintf("With %s and %s of each in every bed, a difference of %s %% would be noticed in %.0f of 100 such trials, and one of %s %% in 8 of 10. %s",
		counted(t.blocks.Beds, "bed"), counted(t.blocks.Plots, "plot"), show(t.worthwhile(), 2), math.Round(100*out.Power), show(out.NoticedPercent, 2), need)
	return nil
}
