package main

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/cmd/freshet/page"
	"freshet.example/cmd/freshet/words"
	"freshet.example/husbandry/quantity"
)

func whyCommand(a *app) *cobra.Command {
	var days int
	return question{
		use: "why [FIGURE]", short: "Why is it changing?", long: "FIGURE is one of " + strings.Join(explainable(), ", ") + "; without one, un-ionized ammonia.", args: cobra.MaximumNArgs(1),
		examples: []string{"freshet why", "freshet why oxygen --days 3", "freshet why nitrate --days 28"},
		flags:    func(c *cobra.Command) { c.Flags().IntVar(&days, "days", 7, "how far back to compare with") },
		work: func(q *asking, args []string) (proto.Message, func(*page.Page), error) {
			name, err := explained(strings.Join(args, ""))
			if err != nil {
				return nil, nil, err
			}
			system, err := q.system()
			if err != nil {
				return nil, nil, err
			}
			m, err := analysis(q, freshetv1.AnalysisServiceClient.ExplainChange, &freshetv1.ExplainChangeRequest{
				SystemId: system, Figure: name, From: timestamppb.New(q.desk.Now.AddDate(0, 0, -days)),
			})
			return m, func(p *page.Page) { q.change(p, m) }, err
		},
	}.command(a)
}

// explanations are the figures whose change is told, by what they are asked as.
var explanations = map[string]string{
	"ammonia": "unionized_ammonia", "oxygen": "oxygen_saturation", "co2": "carbon_dioxide", "ph": "ph", "tan": "total_ammonia",
	"nitrite": "nitrite", "nitrate": "nitrate", "alkalinity": "alkalinity", "temperature": "water_temperature",
}

func explainable() []string { return slices.Sorted(maps.Keys(explanations)) }

// explained finds the figure that is asked for; ammonia where none is.
func explained(asked string) (string, error) {
	if name, ok := explanations[strings.ToLower(asked)]; ok || asked == "" {
		return cmp.Or(name, "unionized_ammonia"), nil
	}
	if q, ok := words.QuantityCalled(asked); ok {
		for _, name := range explanations {
			if name == words.QuantityName(q) {
				return name, nil
			}
		}
	}
	return "", wrong(asked+" cannot be explained", strings.Join(explainable(), ", ")+" can")
}

// change writes the sentence, then each input's share of the change, then what came before.
func (a *asking) change(p *page.Page, m *freshetv1.ExplainChangeResponse) {
	p.Say(m.GetSentence())
	if len(m.GetParts()) > 1 {
		carried(p, m)
	}
	if len(m.GetHappenings()) > 0 {
		p.Title("What came before it")
	}
	for _, h := range m.GetHappenings() {
		p.Item("-", h.GetOccurredAt().AsTime().In(a.desk.Now.Location()).Format("Mon 2 Jan 15:04")+"  "+page.Clean(h.GetSentence()))
	}
	if a.why {
		p.Title("Source")
		p.Under(m.GetAfter().GetSource())
	}
}

// carried draws each part of a change.
func carried(p *page.Page, m *freshetv1.ExplainChangeResponse) {
	title := "What carried it"
	if unit := m.GetAfter().GetEstimate().GetUnit(); unit != "" {
		title += ", " + unit
	}
	p.Title(title)
	var bars []page.Bar
	for _, part := range m.GetParts() {
		bar := page.Bar{Name: part.GetInput(), Value: part.GetShare(), Low: math.NaN(), High: math.NaN()}
		if part.GetBefore() != nil {
			before, after := quantity.ShowChange(part.GetBefore().GetValue(), part.GetAfter().GetValue(), 2)
			bar.Words = before + " to " + after
		}
		bars = append(bars, bar)
	}
	p.Bars(bars, func(v float64) string { return fmt.Sprintf("%+.3g", v) })
}
