package main

import (
	"fmt"

	"github.com/spf13/cobra"
	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/cmd/freshet/page"
)

func budgetCommand(a *app) *cobra.Command {
	var from, to string
	return question{
		use: "budget", short: "Where does the nitrogen go?", args: noArguments, examples: []string{"freshet budget", "freshet budget --from 2026-05-01 --to 2026-05-31"},
		flags: func(c *cobra.Command) {
			c.Flags().StringVar(&from, "from", "", "first day (default: 28 days before the last)")
			c.Flags().StringVar(&to, "to", "", "last day (default: yesterday)")
		},
		work: func(q *asking, _ []string) (proto.Message, func(*page.Page), error) {
			system, err := q.system()
			if err != nil {
				return nil, nil, err
			}
			m, err := analysis(q, freshetv1.AnalysisServiceClient.GetNitrogenBudget, &freshetv1.GetNitrogenBudgetRequest{SystemId: system, FromOn: from, ToOn: to})
			return m, func(p *page.Page) { q.budget(p, m) }, err
		},
	}.command(a)
}

func (a *asking) budget(p *page.Page, m *freshetv1.GetNitrogenBudgetResponse) {
	p.Head("Nitrogen", on(m.GetFromOn())+" to "+on(m.GetToOn()))
	p.Say(m.GetSentence())
	for _, part := range []struct {
		title string
		lines []*freshetv1.BudgetLine
	}{{"In, g N", m.GetIn()}, {"Out and kept, g N", append(m.GetOut(), m.GetUnaccounted())}} {
		p.Title(part.title)
		var bars []page.Bar
		for _, l := range part.lines {
			name := l.GetWords()
			if l.GetName() == "unaccounted" {
				name = "unaccounted"
			}
			bars = append(bars, bar(name, l.GetNitrogen(), fmt.Sprintf("%s to %s", brief(l.GetNitrogen().GetLow()), brief(l.GetNitrogen().GetHigh()))))
		}
		p.Bars(bars, func(v float64) string { return fmt.Sprintf("%.0f", v) })
	}
	p.Under("Intervals hold 9 times in 10.")
	for _, missing := range m.GetMissing() {
		p.Item("?", missing)
	}
	if a.why {
		for _, l := range append(append(m.GetIn(), m.GetOut()...), m.GetUnaccounted()) {
			p.Under(l.GetWords() + ": " + l.GetSource())
		}
	}
	for _, c := range m.GetCautions() {
		p.Gap()
		p.Under(c)
	}
}

func limitsCommand(a *app) *cobra.Command {
	return question{
		use: "limits", short: "What can this loop carry, and what limits it?", args: noArguments, examples: []string{"freshet limits", "freshet limits --why"},
		work: func(q *asking, _ []string) (proto.Message, func(*page.Page), error) {
			system, err := q.system()
			if err != nil {
				return nil, nil, err
			}
			m, err := analysis(q, freshetv1.AnalysisServiceClient.GetStockingLimits, &freshetv1.GetStockingLimitsRequest{SystemId: system})
			return m, func(p *page.Page) { q.limits(p, m) }, err
		},
	}.command(a)
}

func (a *asking) limits(p *page.Page, m *freshetv1.GetStockingLimitsResponse) {
	p.Say(m.GetAnswer().GetSentence())
	p.Title("Feed a day that each part carries, g")
	bars := []page.Bar{bar("fed now", m.GetFeedNow(), "")}
	for _, l := range m.GetLimits() {
		b := bar(l.GetName(), l.GetFeed(), brief(l.GetBiomass().GetValue())+" kg of fish")
		if l.GetBinding() {
			b.Words += ", the lowest"
		}
		bars = append(bars, b)
	}
	p.Bars(bars, func(v float64) string { return fmt.Sprintf("%.0f", v) })
	for _, missing := range m.GetAnswer().GetMissing() {
		p.Item("?", missing)
	}
	if a.why {
		a.rests(p, m.GetAnswer())
	}
	for _, c := range m.GetAnswer().GetCautions() {
		p.Gap()
		p.Under(c)
	}
}
