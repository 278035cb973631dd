package main

import (
	"github.com/spf13/cobra"
	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/cmd/freshet/page"
)

func rationCommand(a *app) *cobra.Command {
	return question{
		use: "ration", short: "How much do I feed?", args: noArguments, examples: []string{"freshet ration", "freshet ration --why"},
		work: func(q *asking, _ []string) (proto.Message, func(*page.Page), error) {
			system, err := q.system()
			if err != nil {
				return nil, nil, err
			}
			m, err := analysis(q, freshetv1.AnalysisServiceClient.SuggestRation, &freshetv1.SuggestRationRequest{SystemId: system})
			return m, func(p *page.Page) {
				var answers []*freshetv1.Answer
				for _, r := range m.GetRations() {
					answers = append(answers, r.GetAnswer())
				}
				if len(answers) == 0 {
					p.Say("No fish are noted to live here.")
				}
				q.answer(p, answers...)
			}, err
		},
	}.command(a)
}

func readyCommand(a *app) *cobra.Command {
	var share float64
	return question{
		use: "ready", short: "When are the fish ready?", args: noArguments, examples: []string{"freshet ready", "freshet ready --share 0.8"},
		flags: func(c *cobra.Command) {
			c.Flags().Float64Var(&share, "share", 0.5, "share of the fish that must be above the target weight")
		},
		work: func(q *asking, _ []string) (proto.Message, func(*page.Page), error) {
			system, err := q.system()
			if err != nil {
				return nil, nil, err
			}
			m, err := analysis(q, freshetv1.AnalysisServiceClient.ForecastFishHarvest, &freshetv1.ForecastFishHarvestRequest{SystemId: system, ShareAbove: share})
			return m, func(p *page.Page) { q.ready(p, m) }, err
		},
	}.command(a)
}

// ready writes each cohort's dates, and its way there as intervals by month.
func (a *asking) ready(p *page.Page, m *freshetv1.ForecastFishHarvestResponse) {
	if len(m.GetForecasts()) == 0 {
		p.Say("No cohort has a target weight: give it one with freshet set cohort NAME target_weight=550g.")
	}
	for _, f := range m.GetForecasts() {
		a.answer(p, f.GetAnswer())
		var bars []page.Bar
		for i, point := range f.GetPoints() {
			if i%4 == 0 {
				bars = append(bars, bar(on(point.GetOn()), point.GetWeight(), ""))
			}
		}
		if len(bars) > 1 {
			p.Gap()
			p.Under("Mean weight to come, g, 8 in 10:")
			p.Spans(bars, brief)
			p.Gap()
		}
	}
}
