package main

import (
	"fmt"
	"math"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/cmd/freshet/page"
	"freshet.example/cmd/freshet/words"
	"freshet.example/husbandry/quantity"
)

func waterCommand(a *app) *cobra.Command {
	return question{
		use: "water", short: "Is the water safe?", examples: []string{"freshet water", "freshet water --why"}, args: noArguments,
		work: func(q *asking, _ []string) (proto.Message, func(*page.Page), error) {
			system, err := q.system()
			if err != nil {
				return nil, nil, err
			}
			m, err := analysis(q, freshetv1.AnalysisServiceClient.DescribeWater, &freshetv1.DescribeWaterRequest{SystemId: system})
			return m, func(p *page.Page) { q.answer(p, m.GetAnswers()...) }, err
		},
	}.command(a)
}

func whyCommand(a *app) *cobra.Command {
	var days int
	return question{
		use: "why [FIGURE]", short: "Why is it changing? FIGURE: ammonia, oxygen, co2", args: cobra.MaximumNArgs(1),
		examples: []string{"freshet why", "freshet why oxygen --days 3"},
		flags:    func(c *cobra.Command) { c.Flags().IntVar(&days, "days", 7, "how far back to compare with") },
		work: func(q *asking, args []string) (proto.Message, func(*page.Page), error) {
			name := map[string]string{"": "unionized_ammonia", "ammonia": "unionized_ammonia", "oxygen": "oxygen_saturation", "co2": "carbon_dioxide"}[strings.Join(args, "")]
			if name == "" {
				return nil, nil, wrong(args[0]+" cannot be explained", "ammonia, oxygen and co2 can")
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

// change writes the sentence, then each input's share of the change, then what came before.
func (a *asking) change(p *page.Page, m *freshetv1.ExplainChangeResponse) {
	p.Say(m.GetSentence())
	p.Title("What carried it, " + m.GetAfter().GetEstimate().GetUnit())
	var bars []page.Bar
	for _, part := range m.GetParts() {
		before, after := quantity.ShowChange(part.GetBefore().GetValue(), part.GetAfter().GetValue(), 2)
		bars = append(bars, page.Bar{Name: part.GetInput(), Value: part.GetShare(), Low: math.NaN(), High: math.NaN(), Words: before + " to " + after})
	}
	p.Bars(bars, func(v float64) string { return fmt.Sprintf("%+.3g", v) })
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

func troubleCommand(a *app) *cobra.Command {
	var airC float64
	return question{
		use: "trouble", short: "What if the pump stops, the heating fails, I go away?", args: noArguments,
		examples: []string{"freshet trouble", "freshet trouble --air -5"},
		flags: func(c *cobra.Command) {
			c.Flags().Float64Var(&airC, "air", math.NaN(), "air to reckon with, degC (default: the lowest of 14 days)")
		},
		work: func(q *asking, _ []string) (proto.Message, func(*page.Page), error) {
			system, err := q.system()
			if err != nil {
				return nil, nil, err
			}
			request := &freshetv1.EstimateTroubleRequest{SystemId: system}
			if !math.IsNaN(airC) {
				request.AirCelsius = proto.Float64(airC)
			}
			m, err := analysis(q, freshetv1.AnalysisServiceClient.EstimateTrouble, request)
			return m, func(p *page.Page) { q.answer(p, m.GetAnswers()...) }, err
		},
	}.command(a)
}

func plotCommand(a *app) *cobra.Command {
	var days int
	return question{
		use: "plot QUANTITY", short: "Draw readings over time", args: cobra.MinimumNArgs(1),
		examples: []string{"freshet plot ammonia", "freshet plot water_temperature --days 365"},
		flags:    func(c *cobra.Command) { c.Flags().IntVar(&days, "days", 28, "how many days") },
		work: func(q *asking, args []string) (proto.Message, func(*page.Page), error) {
			read, err := words.FindQuantity(strings.Join(args, " "))
			if err != nil {
				return nil, nil, err
			}
			system, err := q.system()
			if err != nil {
				return nil, nil, err
			}
			const steps = 72
			from := q.desk.Now.AddDate(0, 0, -days)
			m, err := analysis(q, freshetv1.AnalysisServiceClient.ListSeries, &freshetv1.ListSeriesRequest{
				SystemId: system, Quantity: read, From: timestamppb.New(from), To: timestamppb.New(q.desk.Now), Points: steps,
			})
			return m, func(p *page.Page) {
				p.Say(fmt.Sprintf("%s, %s, %d days", strings.ReplaceAll(words.QuantityName(read), "_", " "), m.GetUnit(), days))
				p.Plot(daily(m, from, steps, time.Duration(days)*24*time.Hour/steps), 8)
			}, err
		},
	}.command(a)
}
