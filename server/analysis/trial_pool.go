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
	"freshet.example/husbandry/chance"
	"freshet.example/husbandry/pool"
	"freshet.example/husbandry/quantity"
	"freshet.example/store"
)

// asked is one site's trial of a question.
type asked struct {
	*store.Trial
	arms []*arm
}

// together sets the same question of several sites beside each other: each site
// is a trial of its own, and their differences are pooled by random effects, so
// that a difference between sites is no difference between arms.
func (p *Pool) together(ctx context.Context, own *store.Trial, arms []*arm, out *freshetv1.GetTrialResultResponse) error {
	cooperative, err := p.store.Cooperative(ctx)
	if err != nil {
		return err
	}
	trials, err := p.asking(ctx, own)
	if err != nil {
		return err
	}
	trials = append(trials, asked{own, arms})
	for _, a := range arms[1:] {
		answer, sites := pooledArm(trials, arms[0].Name, a.Name, len(arms)-1, p.now())
		if answer == nil || sites < max(2, cooperative.SmallestGroup) {
			continue
		}
		out.Pooled, out.PooledSitesCount = append(out.Pooled, answer), uint32(sites) //nolint:gosec // few
	}
	return nil
}

// asking are the trials of other sites that ask the same and are shared.
func (p *Pool) asking(ctx context.Context, own *store.Trial) (list []asked, err error) {
	counted := store.ForPool(ctx)
	found, err := p.store.TrialsAsking(counted, own.Question, own.Measure)
	if err != nil {
		return nil, err
	}
	harvests, err := p.store.SharedAs(counted, "bed_harvest")
	if err != nil {
		return nil, err
	}
	for i := range found {
		t := &found[i]
		if _, shared := harvests[t.SiteID]; !shared || t.SiteID == own.SiteID {
			continue
		}
		place, err := p.site(counted, t.SiteID)
		if err != nil {
			return nil, err
		}
		one := asked{Trial: t}
		if err := json.Unmarshal(t.Arms, &one.arms); err != nil || len(one.arms) < 2 {
			continue
		}
		if err := place.measureArms(counted, t, one.arms, p.now()); err != nil {
			return nil, err
		}
		list = append(list, one)
	}
	return list, nil
}

// pooledArm pools the difference of one arm from the first over the sites that
// have both, by name.
func pooledArm(trials []asked, first, other string, others int, now time.Time) (*freshetv1.Answer, int) {
	var means, ses []float64
	over, sites := true, map[uuid.UUID]bool{}
	for _, t := range trials {
		a, b := t.named(first), t.named(other)
		if a == nil || b == nil || sites[t.SiteID] {
			continue
		}
		c, err := compare(a, b, 0.95)
		if err != nil {
			continue
		}
		means, ses, sites[t.SiteID] = append(means, c.Difference), append(ses, c.SE), true
		over = over && !t.ToOn.IsZero() && now.After(t.ToOn.AddDate(0, 0, 1))
	}
	together, err := pool.Meta(means, ses, pool.REML)
	if err != nil {
		return nil, len(sites)
	}
	confidence := quantity.Fraction(1 - chanceOf(over)/float64(others))
	reach := chance.TQuantile((1+float64(confidence))/2, float64(len(means)-1)) * math.Max(together.SE, together.HKSJSE())
	a := &freshetv1.Answer{
		Name: other, Standing: unknown, Source: "random effects, REML; interval by Hartung & Knapp 2001, never narrower than without",
		Estimate: between(together.Mu, together.Mu-reach, together.Mu+reach, float64(confidence), trialUnits[freshetv1.TrialMeasure(trials[0].Measure)]),
	}
	a.Sentence = pooledWords(a, first, len(means))
	if math.Abs(together.Mu) > reach {
		a.Standing = well
	}
	return a, len(sites)
}

func (t asked) named(name string) *arm {
	i := slices.IndexFunc(t.arms, func(a *arm) bool { return strings.EqualFold(strings.TrimSpace(a.Name), strings.TrimSpace(name)) })
	if i < 0 {
		return nil
	}
	return t.arms[i]
}

func pooledWords(a *freshetv1.Answer, first string, sites int) string {
	e := a.Estimate
	verdict := "together they do not decide it either way"
	if e.GetLow() > 0 || e.GetHigh() < 0 {
		verdict = "together they decide it"
	}
	return fmt.Sprintf("Over %d sites that asked the same, with %s it was %s, %s in 100: %s.", sites, a.Name,
		byHowMuch(e.Value, e.GetLow(), e.GetHigh(), e.Unit, first), show(100*e.Confidence, 3), verdict)
}
