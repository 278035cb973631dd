package analysis

import (
	"context"
	"errors"
	"fmt"
	"time"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/fish"
	"freshet.example/husbandry/quantity"
)

// horizon is how many days ahead fish are forecast.
const horizon = 730

// ForecastFishHarvest says when each cohort with a target weight is ready.
func (s *Service) ForecastFishHarvest(ctx context.Context, in *freshetv1.ForecastFishHarvestRequest) (*freshetv1.ForecastFishHarvestResponse, error) {
	share := in.GetShareAbove()
	if share == 0 {
		share = 0.5
	}
	if err := quantity.Within("share_above", share, 0.05, 0.95, "", "beyond it the slowest fish decide, which weighings do not show"); err != nil {
		return nil, err
	}
	l, err := s.loop(ctx, in.GetSystemId())
	if err != nil {
		return nil, err
	}
	now := s.now()
	herds, err := l.herds(ctx, now)
	if err != nil {
		return nil, err
	}
	warmth, err := l.dailyWarmth(ctx, now)
	if err != nil {
		return nil, err
	}
	out := &freshetv1.ForecastFishHarvestResponse{}
	for _, h := range herds {
		if h.TargetWeightG > 0 && h.tally.Alive > 0 {
			f := &forecast{herd: h, warmth: warmth, zone: l.zone, today: midnight(now, l.zone), share: share}
			out.Forecasts = append(out.Forecasts, f.response())
		}
	}
	return out, nil
}

// forecast is one cohort's way to its target.
type forecast struct {
	*herd
	warmth map[time.Time]float64
	zone   *time.Location
	today  time.Time
	share  float64
	now    float64 // g
	growth growth
}

func (f *forecast) response() *freshetv1.FishForecast {
	out := &freshetv1.FishForecast{CohortId: f.ID.String(), CohortName: f.Name, Answer: &freshetv1.Answer{Name: "days_to_ready"}}
	if err := f.fill(out); err != nil {
		hint := ""
		var little *TooLittleError
		if errors.As(err, &little) {
			hint = little.Hint
		}
		out.Answer.Standing = unknown
		out.Answer.Sentence = fmt.Sprintf("%s: when they are ready cannot be told yet: %s.", f.Name, err.Error())
		out.Answer.Missing = []string{hint}
	}
	return out
}

func (f *forecast) fill(out *freshetv1.FishForecast) error {
	var ok bool
	if f.now, ok = f.weightAt(f.today, f.warmth, f.zone); !ok {
		return &TooLittleError{"they were never weighed", "weigh about twenty of them"}
	}
	if f.growth, ok = f.grows(f.warmth, f.zone); !ok {
		return &TooLittleError{"how they grow here is not known", "weigh them twice, a month apart"}
	}
	mean, err := f.meanWanted()
	if err != nil {
		return err
	}
	if f.now >= mean {
		f.readyNow(out)
		return nil
	}
	return f.toCome(out, mean)
}

// meanWanted is the mean weight at which the wanted share is above the target.
func (f *forecast) meanWanted() (float64, error) {
	of100, err := fish.WeightAtShare(100, weightCV, quantity.Fraction(1-f.share))
	return f.TargetWeightG / float64(of100) * 100, err
}

func (f *forecast) readyNow(out *freshetv1.FishForecast) {
	above, err := fish.ShareAbove(quantity.Grams(f.now), weightCV, quantity.Grams(f.TargetWeightG))
	if err != nil {
		above = quantity.Fraction(f.share)
	}
	today := f.today.Format(time.DateOnly)
	out.EarliestOn, out.MiddleOn, out.LatestOn, out.Confidence = today, today, today, 0.8
	out.Answer.Standing = well
	out.Answer.Estimate = estimate(0, "days")
	most := fmt.Sprintf("about %.0f in 100", float64(above)*100)
	if above > 0.985 {
		most = "nearly all"
	}
	out.Answer.Sentence = fmt.Sprintf("%s are ready: about %s g, %s above %.0f g.", f.Name, show(f.now, 2), most, f.TargetWeightG)
	out.Answer.Inputs = f.inputs()
}

func (f *forecast) toCome(out *freshetv1.FishForecast, mean float64) error {
	heat, err := fish.HeatFan(quantity.Grams(f.now), quantity.Grams(mean), f.growth.coefficient, quantity.Fraction(f.growth.cv), 0.8)
	if err != nil {
		return err
	}
	daily := f.unitsToCome()
	dates := [3]string{}
	days := [3]float64{}
	for i, need := range []fish.DegreeDays{heat.Low, heat.Middle, heat.High} {
		d, reached, err := fish.DayOfHeat(daily, need)
		if err != nil {
			return err
		}
		if !reached {
			return &TooLittleError{fmt.Sprintf("at the temperatures to come they do not reach %.0f g within two years", f.TargetWeightG), "warmer water, or a smaller target"}
		}
		days[i] = float64(d)
		dates[i] = f.today.AddDate(0, 0, int(float64(d)+0.5)).Format(time.DateOnly)
	}
	out.EarliestOn, out.MiddleOn, out.LatestOn, out.Confidence = dates[0], dates[1], dates[2], 0.8
	out.Answer.Estimate = between(days[1], days[0], days[2], 0.8, "days")
	out.Answer.Standing = well
	out.Answer.Sentence = fmt.Sprintf("%s: half of them above %.0f g about %s, between %s and %s, 8 in 10.", f.Name, f.TargetWeightG, spoken(dates[1]), spoken(dates[0]), spoken(dates[2]))
	if f.share != 0.5 {
		out.Answer.Sentence = fmt.Sprintf("%s: %.0f in 100 above %.0f g about %s, between %s and %s, 8 in 10.", f.Name, f.share*100, f.TargetWeightG, spoken(dates[1]), spoken(dates[0]), spoken(dates[2]))
	}
	out.Answer.Inputs = f.inputs()
	out.Answer.Source = "thermal-unit growth (Iwama & Tautz 1981) with a bell-shaped response to temperature (Jobling 2003), from weighings of this cohort weighed against the others of its species at the site (Henderson 1975)"
	out.Answer.ValidRange = "healthy fish fed to appetite; water temperatures to come like those of the record"
	if f.growth.intervals < 3 {
		out.Answer.Missing = append(out.Answer.Missing, "more weighings: one now would narrow the dates most")
	}
	f.points(out, daily, days[2])
	return nil
}

// unitsToCome takes the water temperature of the same day a year ago where it was read, else the last month's mean.
func (f *forecast) unitsToCome() []fish.DegreeDays {
	recent, n := 0.0, 0.0
	for d := range 28 {
		if t, ok := f.warmth[f.today.AddDate(0, 0, -d)]; ok {
			recent, n = recent+t, n+1
		}
	}
	list := make([]fish.DegreeDays, horizon)
	for d := range list {
		day := f.today.AddDate(0, 0, d)
		t, ok := f.warmth[day.AddDate(-1, 0, 0)]
		if !ok {
			t, ok = f.warmth[day.AddDate(-2, 0, 0)]
		}
		if !ok && n > 0 {
			t = recent / n
		}
		list[d] = fish.DegreeDays(f.dayUnits(t))
	}
	return list
}

// points are the weeks to come until the latest day.
func (f *forecast) points(out *freshetv1.FishForecast, daily []fish.DegreeDays, until float64) {
	heat := 0.0
	for d := 0; d < horizon && float64(d) <= until+7; d++ {
		if d%7 == 0 {
			out.Points = append(out.Points, f.point(d, heat))
		}
		heat += float64(daily[d])
	}
}

func (f *forecast) point(d int, heat float64) *freshetv1.WeightPoint {
	at := func(scale float64) float64 {
		w, err := fish.WeightByHeat(quantity.Grams(f.now), f.growth.coefficient*fish.TGC1000(scale), fish.DegreeDays(heat))
		if err != nil {
			return f.now
		}
		return float64(w)
	}
	const reach = 1.2816 // 8 in 10
	p := &freshetv1.WeightPoint{On: f.today.AddDate(0, 0, d).Format(time.DateOnly)}
	p.Weight = between(at(1), at(1-reach*f.growth.cv), at(1+reach*f.growth.cv), 0.8, "g")
	return p
}

func (f *forecast) inputs() []*freshetv1.InputUsed {
	last := f.weights[len(f.weights)-1]
	return []*freshetv1.InputUsed{
		input("last mean weight", last.grams, "g", last.at, fmt.Sprintf("%d fish", last.n)),
		setting("weight now", f.now, "g", "grown on from the last weighing"),
		setting("growth coefficient x1000", float64(f.growth.coefficient), "g^(1/3) per degree day", f.growth.restsOn()),
		setting("target", f.TargetWeightG, "g", "cohort"),
		setting("spread of single weights", weightCV*100, "percent", "common practice, no source"),
	}
}

// restsOn says whose weighings tell of the growth.
func (g growth) restsOn() string {
	own := fmt.Sprintf("%s between its weighings", counted(g.intervals, "interval"))
	others := fmt.Sprintf("%s of the species at the site", counted(g.kin, "other cohort"))
	switch {
	case g.kin == 0:
		return own
	case g.intervals == 0:
		return others
	}
	return fmt.Sprintf("%s, and %s, which carry %.0f %%", own, others, 100*(1-g.ownShare))
}

// spoken writes a day as a person says it.
func spoken(day string) string {
	t, err := time.Parse(time.DateOnly, day)
	if err != nil {
		return day
	}
	return t.Format("2 January 2006")
}
