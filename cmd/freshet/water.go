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
