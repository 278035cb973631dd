package main

import (
	"context"
	"errors"
	"math"
	"time"

	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
	"freshet.example/cmd/freshet/page"
)

// morning writes what needs the grower today, for each of her own sites. Where
// the co-op cannot be reached it writes what this device knows by itself.
func morning(ctx context.Context, a *app) error {
	dev, err := a.device()
	if err != nil {
		return err
	}
	desk, err := a.desk(ctx)
	if err != nil {
		return err
	}
	sites := []string{desk.SiteID}
	if desk.SiteID == "" {
		sites = nil
		for _, s := range desk.Book.Of("", "site") {
			sites = append(sites, s.ID)
		}
	}
	if len(sites) == 0 {
		return showSites(ctx, a)
	}
	ask := &asking{app: a, ctx: ctx, desk: desk}
	if err := a.sendFirst(ctx); err != nil {
		return ask.alone(err)
	}
	for _, site := range sites {
		m, err := analysis(ask, freshetv1.AnalysisServiceClient.GetMorning, &freshetv1.GetMorningRequest{SiteId: site})
		if err != nil {
			return ask.alone(err)
		}
		if a.json {
			if err := printMessage(a.out, m); err != nil {
				return err
			}
			continue
		}
		if err := ask.morningPage(m); err != nil {
			return err
		}
	}
	if a.json {
		return nil
	}
	return ask.foot(dev)
}

// alone writes what the device knows without the co-op, and says so.
func (a *asking) alone(cause error) error {
	var t *device.Trouble
	if !errors.As(cause, &t) || !t.NoSignal || a.json {
		return cause
	}
	if err := showSites(a.ctx, a.app); err != nil {
		return err
	}
	p := a.page()
	p.Gap()
	p.Say("No word from the co-op just now, so this page is from the device's own copy. What you note is kept and sent later.")
	return p.Err()
}

func (a *asking) morningPage(m *freshetv1.GetMorningResponse) error {
	p := a.page()
	p.Head(page.Clean(m.GetSiteName()), a.desk.Now.Format("Monday 2 January, 15:04"))
	for _, s := range m.GetSystems() {
		p.Title(page.Clean(s.GetSystemName()))
		a.todo(p, s)
		a.settled(p, s)
		if err := a.fortnight(p, s.GetSystemId()); err != nil {
			return err
		}
	}
	if len(m.GetBeds()) > 0 {
		p.Title("Beds")
		for _, b := range m.GetBeds() {
			p.Item(mark(b.GetStanding()), b.GetSentence())
		}
	}
	return p.Err()
}

// todo lists what to do on this walk, most pressing first.
func (a *asking) todo(p *page.Page, s *freshetv1.MorningSystem) {
	if len(s.GetTasks()) == 0 {
		p.Under("Nothing presses this morning.")
	}
	for _, want := range []freshetv1.Standing{freshetv1.Standing_STANDING_ACT, freshetv1.Standing_STANDING_WATCH, freshetv1.Standing_STANDING_UNKNOWN, freshetv1.Standing_STANDING_WELL} {
		for _, t := range s.GetTasks() {
			if t.GetStanding() == want {
				p.Item(mark(want), t.GetSentence())
			}
		}
	}
}

// settled tells in sentences what is well, and who lives there.
func (a *asking) settled(p *page.Page, s *freshetv1.MorningSystem) {
	text := ""
	for _, w := range s.GetWater() {
		if w.GetStanding() == freshetv1.Standing_STANDING_WELL {
			text += w.GetSentence() + " "
		}
	}
	for _, f := range s.GetFish() {
		text += f.GetSentence() + " "
	}
	if text != "" {
		p.Gap()
		p.Under(text)
	}
}

// fortnight draws two weeks of total ammonia, or of warmth where it is not tested.
func (a *asking) fortnight(p *page.Page, system string) error {
	for _, drawn := range []struct {
		quantity freshetv1.Quantity
		title    string
	}{{freshetv1.Quantity_QUANTITY_TOTAL_AMMONIA, "Total ammonia, mg/L as N"}, {freshetv1.Quantity_QUANTITY_WATER_TEMPERATURE, "Water, degC"}} {
		to := a.desk.Now
		series, err := analysis(a, freshetv1.AnalysisServiceClient.ListSeries, &freshetv1.ListSeriesRequest{
			SystemId: system, Quantity: drawn.quantity, From: timestamppb.New(to.AddDate(0, 0, -14)), To: timestamppb.New(to), Points: 14,
		})
		if err != nil {
			return err
		}
		if len(series.GetPoints()) < 3 {
			continue
		}
		p.Gap()
		p.Under(drawn.title + ", a column a day:")
		p.Plot(daily(series, to.AddDate(0, 0, -14), 14, 24*time.Hour), 3)
		return nil
	}
	return nil
}

// daily puts points into equal steps; steps without one stay open.
func daily(series *freshetv1.ListSeriesResponse, from time.Time, steps int, step time.Duration) page.Series {
	values := make([]float64, steps)
	for i := range values {
		values[i] = math.NaN()
	}
	for _, point := range series.GetPoints() {
		if i := int(point.GetAt().AsTime().Sub(from) / step); i >= 0 && i < steps {
			values[i] = point.GetMean()
		}
	}
	return page.Series{Values: values, Show: brief, Mark: math.NaN(), From: from.Format("2 Jan"), To: from.Add(time.Duration(steps) * step).Format("2 Jan")}
}

// foot says what waits on this device.
func (a *asking) foot(dev *device.Device) error {
	status, err := dev.Status(a.ctx)
	if err != nil {
		return err
	}
	p := a.page()
	p.Gap()
	p.Say(status.In(a.desk.Now.Location()).String())
	return p.Err()
}
